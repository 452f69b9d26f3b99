/*
 * Mending a corpus: mends applied until nothing more applies, in memory; then
 * written, or shown as a diff.
 */
#ifndef COMMAND_MEND_H
#define COMMAND_MEND_H

#include "command/run.h"

struct mending {
	enum confidence least;	/* apply what is at least as sure */
	bool diff;		/* print a unified diff; write nothing */
};

/*
 * Runs the stages, applies mends and runs them again. Returns the exit status
 * and sets *run to the run over the corpus as it now is on disk, which the
 * caller reports and ends.
 */
int
mend_corpus(const struct options *options, struct mending mending,
	struct run **run);

#endif
