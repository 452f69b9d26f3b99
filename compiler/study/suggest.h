/*
 * Runs that are nearly complete already, of all that one could set out on:
 * those of the guide, and those that go without saying: all card backs of a
 * character, all characters on a card back, all of a market.
 */
#ifndef STUDY_SUGGEST_H
#define STUDY_SUGGEST_H

#include "study/fill.h"

struct suggestions {
	struct filling **items;	/* the most complete first */
	unsigned count;
};

/* Fewer slots than this make no run; fewer held, no reason to suggest it. */
enum { SUGGEST_LEAST = 3 };

/*
 * Runs with at least half of their slots held and not all, at most `most`;
 * `pieces` as for study_fill. Runs in `known` are not suggested again where a
 * candidate has the same slots.
 */
struct suggestions *
study_suggest(const struct pieces *pieces, struct filling *const *known,
	unsigned known_count, unsigned most, struct arena *arena);

#endif
