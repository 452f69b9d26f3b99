/*
 * A collector's papers: what gaps prints or writes of the pieces themselves,
 * rather than of runs.
 */
#ifndef COMMAND_PAPERS_H
#define COMMAND_PAPERS_H

#include "command/run.h"

/* What was asked for; options of gaps. */
struct papers {
	char *offer;		/* --offer PIECE */
	char *lend;		/* --lend PIECE */
	gboolean certificate;	/* --certificate: lend its number too */
	gboolean inventory;	/* --inventory */
	gboolean ranks;		/* --ranks */
	gboolean due;		/* --due */
	char *as;		/* --as csv|yaml */
	char *on;		/* --on DATE */
	char *write;		/* --write FILE, or standard output */
};

extern struct papers papers;

/* Whether any paper was asked for, and so no runs. */
bool
papers_wanted(void);

/* Prints or writes what was asked for; an exit status. */
int
papers_make(const struct run *run, const struct records *pieces,
	const struct options *options);

/* Prints what is overdue, under what gaps prints of runs. */
void
papers_overdue(const struct run *run, const struct records *pieces,
	const struct options *options);

#endif
