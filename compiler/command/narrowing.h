/*
 * A narrowing as the command has it, and how it is printed.
 */
#ifndef COMMAND_NARROWING_H
#define COMMAND_NARROWING_H

#include "command/run.h"
#include "study/narrow.h"

/* The state of a feature that is not there to be looked at. */
#define NARROW_NOT_APPLYING "does-not-apply"

struct narrowing {
	const struct model *model;
	const struct seen *seen;
	const struct features *features;
	char **words;		/* as typed, one an observation */
	const char *of;		/* the kind to settle, or NULL */
	unsigned mistakes;
	bool names;		/* name everything */
	GArray *observations;	/* struct observation */
	GArray *candidates;	/* struct candidate */
	GArray *looks;		/* struct look */
};

/* Prints what remains; EXIT_DONE, or EXIT_FINDINGS if nothing does. */
int
narrowing_print(const struct narrowing *narrowing, enum format format);

/*
 * Prints the key to the group that the first word names, features of `first`
 * ("a,b", or NULL) foremost; without a word, the groups that have keys.
 */
int
narrowing_key(const struct narrowing *narrowing, const char *first,
	struct arena *arena, enum format format);

#endif
