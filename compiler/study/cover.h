/*
 * Set cover: the lightest choice of sets that covers everything, and the choice
 * within a budget that covers most. Exact where the instance is small; else
 * greedy, with what is known of how far from the best that can be.
 *
 * Greedy cover weighs at most H(d) = 1 + 1/2 + ... + 1/d times the lightest,
 * where d is the size of the largest set (V. Chvátal, A greedy heuristic for
 * the set-covering problem, Mathematics of Operations Research 4, 1979). The
 * greedy choice within a budget, or the best single set if that covers more,
 * covers at least (1 - 1/e)/2 of the most (S. Khuller, A. Moss, J. Naor, The
 * budgeted maximum coverage problem, Information Processing Letters 70, 1999).
 */
#ifndef STUDY_COVER_H
#define STUDY_COVER_H

#include <stdbool.h>
#include <stdint.h>

#include "base/arena.h"

/* Elements are numbers below the universe's size. */
struct cover_set {
	const unsigned *items;	/* distinct */
	unsigned count;
	int64_t weight;		/* above 0; of a budget, 0 is allowed */
};

struct cover {
	const unsigned *sets;	/* chosen; greedy in the order of choice, exact
				   those that cover most anew first */
	const unsigned *gains;	/* elements that each covers anew */
	unsigned count;
	unsigned covered;
	unsigned beyond;	/* elements that no set has, or can be paid */
	int64_t weight;
	bool exact;
	double least;		/* no cover weighs less; the weight if exact */
	double factor;		/* H(d); 1 if exact */
};

/* At most so many elements are solved exactly, by subsets. */
enum { COVER_EXACT = 20 };

/* The lightest cover of all that the sets have; of equals, the first found. */
struct cover *
cover_all(const struct cover_set *sets, unsigned count, unsigned universe,
	struct arena *arena);

/*
 * The choice that weighs at most `budget` and covers most; of these, the
 * lightest. `least` is then without meaning.
 */
struct cover *
cover_within(const struct cover_set *sets, unsigned count, unsigned universe,
	int64_t budget, struct arena *arena);

#endif
