/*
 * Narrowing: what a piece can still be after what was seen on it, in any
 * order, and what to look at next.
 */
#ifndef STUDY_NARROW_H
#define STUDY_NARROW_H

#include "model/seen.h"
#include "study/stand_in.h"

/* What a person saw: states of a feature, or that a part is one of these. */
struct observation {
	const struct feature *feature;	/* or NULL: of a part */
	state_set states;		/* any of these, */
	bool inapplicable;		/* or that it does not apply */
	const char *part;		/* the kind of the part */
	GPtrArray *records;		/* any of these */
};

/*
 * One way a piece can be, held against all observations: a situation of a
 * pairing, or a record that no pairing names, standing alone.
 */
struct candidate {
	struct situation situation;
	const struct stand_in *front;	/* in place of one that is not */
	const struct stand_in *variant;	/* recorded, or NULL */
	double common;		/* specimens seen of it, and never 0 */
	uint64_t against;	/* the observations it contradicts, a bit each; */
	uint64_t shows;		/* those it is recorded to show */
};

/* Something to look at next. */
struct look {
	const struct feature *feature;
	state_set states;	/* what is left may show; the highest bit
				   stands for that it does not apply */
	double left;		/* how many it leaves, on average */
	double cost;		/* a photograph of the front that settles is 1 */
	double saved;		/* of what the rest of the way costs, at first
				   1 for each halving */
};

enum { MOST_OBSERVATIONS = 64 };

/*
 * All situations that may exist, in reading order of pairings, each held
 * against the observations; behind them the records of kind `of`, NULL for card
 * backs, that are in none of them. A part that is not recorded may be any, a
 * front or variant any that its character has (study/stand_in.h, in `arena`).
 * Of accessories there are only these, and the imitations of them.
 */
GArray *		/* struct candidate; freed by the caller */
narrow_hold(const struct model *model, const struct seen *seen,
	const struct features *features,
	const struct observation *observations, unsigned count,
	const char *of, struct arena *arena);

/* What a candidate may show of feature `i`; false, and all, if not known. */
bool
narrow_shows(const struct features *features, unsigned i,
	const struct candidate *candidate, state_set *states);

/* The pairing of a candidate, or the record (an imitation too) alone. */
const struct record *
narrow_record(const struct candidate *candidate);

/* How many observations a candidate contradicts. */
unsigned
narrow_wrong(const struct candidate *candidate);

/* How many observations it is recorded to show. */
unsigned
narrow_shown(const struct candidate *candidate);

/*
 * What to settle first of what remains of pieces on cards: the card back while
 * there are several ("cardback"), then the whole (NULL).
 */
const char *
narrow_target(const GArray *candidates, unsigned mistakes);

/* The part of a situation that is of a kind, or NULL. */
const struct record *
narrow_part(const struct situation *situation, const char *kind);

/*
 * What to look at next to settle which of the candidates it is that contradict
 * at most `mistakes` observations; best first, by what it costs less what it
 * saves. What the rest of the way costs is exact for up to REST_MOST things
 * (study/rest.h), and Dallwitz's measure for more. With `of`, to settle which
 * record of that kind. Features already observed are passed over, and so are
 * those that `sides`, words ended by NULL, leaves out; NULL leaves out none.
 */
GArray *		/* struct look; freed by the caller */
narrow_looks(const struct model *model, const struct features *features,
	const GArray *candidates, unsigned mistakes,
	const struct observation *observations, unsigned count,
	const char *of, const char *const *sides);

#endif
