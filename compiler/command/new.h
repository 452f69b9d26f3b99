/*
 * What the two halves of hangtab new share: a record to fill in (new.c), and
 * records of the rows of a spreadsheet (new_rows.c).
 */
#ifndef COMMAND_NEW_H
#define COMMAND_NEW_H

#include "command/run.h"
#include "read/past.h"

struct newcomer {
	const struct run *run;
	const struct options *options;
	const struct kind *kind;
	const struct past *past;
	bool into_corpus;	/* not to standard output */
};

/* Whether an id is free: now, formerly, and in the last edition. */
bool
new_is_free(const struct newcomer *new, const char *id);

/* Writes `text` where it belongs, as NAME in its folder; an exit status. */
int
new_put(const struct newcomer *new, const char *name, const GString *text);

/* Makes records of the rows of the spreadsheet `path`; an exit status. */
int
new_rows(const struct newcomer *new, const char *path);

#endif
