/*
 * Printing what `hangtab show` shows, on standard output.
 */
#ifndef COMMAND_SHOW_H
#define COMMAND_SHOW_H

#include "command/command.h"
#include "command/showing.h"

/* For people, in lines of a terminal. */
void
show_text(const struct showing *showing);

void
show_json(const struct showing *showing);

/* A row a value: field (with the places in lists), text, code. */
void
show_csv(const struct showing *showing);


/*
 * Prints what to know before buying a record, or the combination `key` of it
 * (NULL for the record itself). Returns an exit status.
 */
int
show_buyer(struct store *store, const char *kind, const char *id,
	const char *key, enum format format);

#endif
