/*
 * What to look at to settle what a piece is: of all features, the one that
 * parts the ways it can be best for what a look costs.
 */
#ifndef STUDY_SETTLE_H
#define STUDY_SETTLE_H

#include "study/features.h"

/* The ways a piece can be: those that are what is asked, and all others. */
struct ways {
	const struct situation **this;
	unsigned this_count;
	const struct situation **others;
	unsigned other_count;
	bool loose;		/* off its card: there is a figure alone */
};

/*
 * The feature, and what it shows, in words: `"NAME" (this: STATES; not this:
 * STATES)`. A feature that parts them wholly goes before one that rules out
 * some of the others. NULL if none rules out any; else in `arena`.
 */
const char *
settle_words(const struct model *model, const struct features *features,
	const struct ways *ways, struct arena *arena);

#endif
