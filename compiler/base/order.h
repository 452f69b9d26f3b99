/*
 * The order of text: the root order of the Unicode Collation Algorithm, never
 * the locale's, with natural numbers ("card 2" before "card 10") and with
 * blanks and punctuation counted only where nothing else differs.
 */
#ifndef BASE_ORDER_H
#define BASE_ORDER_H

#include "base/arena.h"

struct order;

/*
 * An order to make keys with. It is not for several threads at once: each
 * makes its own. Never NULL: without the root order of ICU's data, which comes
 * within the library, the program stops.
 */
struct order *
order_new(void);

/* NULL is allowed. */
void
order_free(struct order *order);

/*
 * The sort key of `text` (UTF-8; what is not counts as U+FFFD), owned by
 * `arena`: strcmp() of two keys is the order of their texts. Texts that differ
 * never share a key, even those that the root order holds for equal: then the
 * bytes of the texts decide.
 */
const char *
order_key(struct order *order, const char *text, struct arena *arena);

/* The order of two texts, as of strcmp(); for a few of them only. */
int
order_compare(struct order *order, const char *left, const char *right);

#endif
