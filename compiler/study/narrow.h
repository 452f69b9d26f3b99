/*
 * Narrowing: what a piece can still be after what was seen on it, in any
 * order, and what to look at next.
 */
#ifndef STUDY_NARROW_H
#define STUDY_NARROW_H

#include "model/seen.h"
#include "study/features.h"

/* What a person saw: states of a feature, or that a part is one of these. */
struct observation {
	const struct feature *feature;	/* or NULL: of a part */
	state_set states;		/* any of these */
	const char *part;		/* the kind of the part */
	GPtrArray *records;		/* any of these */
};

/* One way a piece can be, held against all observations. */
struct candidate {
	struct situation situation;
	double common;		/* specimens seen of it, and never 0 */
	uint64_t against;	/* the observations it contradicts, a bit each */
};

/* Something to look at next. */
struct look {
	const struct feature *feature;
	double left;		/* how many it leaves, on average */
	double settled;		/* bits */
	double cost;		/* a photograph of the front that settles is 1 */
	double saved;		/* of what the rest of the way costs */
};

enum { MOST_OBSERVATIONS = 64 };

/*
 * All situations that may exist, in reading order of pairings, each held against
 * the observations. A part that is not recorded may be any.
 */
GArray *		/* struct candidate; freed by the caller */
narrow_hold(const struct model *model, const struct seen *seen,
	const struct features *features,
	const struct observation *observations, unsigned count);

/* How many observations a candidate contradicts. */
unsigned
narrow_wrong(const struct candidate *candidate);

/* The part of a situation that is of a kind, or NULL. */
const struct record *
narrow_part(const struct situation *situation, const char *kind);

/*
 * What to look at next to settle which of the candidates it is that contradict
 * at most `mistakes` observations; best first. With `of`, to settle which
 * record of that kind. Features already observed are passed over.
 */
GArray *		/* struct look; freed by the caller */
narrow_looks(const struct features *features, const GArray *candidates,
	unsigned mistakes, const struct observation *observations,
	unsigned count, const char *of);

#endif
