/*
 * Where links stand in prose as it is written; for this folder alone.
 */
#ifndef READ_ADDRESS_H
#define READ_ADDRESS_H

#include <stdbool.h>
#include <stddef.h>

/*
 * Finds the next place at or behind `from` where `text` has `address` as that
 * of a link, picture or definition: "](...)", "<...>", "]: ...". Code between
 * backticks is passed over, escapes are seen through. An empty address is
 * found with its parentheses. Sets the bytes of the address and returns true.
 */
bool
address_find(const char *text, size_t from, const char *address,
	size_t *begin, size_t *end);

#endif
