/*
 * Features: what can be looked at, and which of its states each part of a
 * piece may show. A part that does not score a feature may show any state
 * (unknown); one to which it does not apply shows none.
 */
#ifndef STUDY_FEATURES_H
#define STUDY_FEATURES_H

#include "study/situation.h"

enum { MOST_STATES = 64 };

/* The states that a thing may show, a bit each, by place in the feature. */
typedef uint64_t state_set;

struct feature {
	const struct record *record;
	unsigned states;	/* how many */
	int cost;		/* place in the vocabulary of costs: 0 is least */
	int reliability;	/* place in its vocabulary: 0 is slightest */
	const char *ask;	/* the request to a seller, or NULL */
};

struct features;

/* Gathers the features and scores of a model; lives in `arena`. */
struct features *
features_gather(const struct model *model, struct arena *arena);

/* In reading order of their records. */
unsigned
features_count(const struct features *features);
const struct feature *
features_get(const struct features *features, unsigned i);

/*
 * The states of feature `i` that a situation may show: what its parts score,
 * together. All states when unknown; 0 when inapplicable.
 */
state_set
features_states(const struct features *features, unsigned i,
	const struct situation *situation);

/*
 * Whether feature `i` surely tells two situations apart: both are known in it,
 * and they share no state.
 */
bool
features_divide(const struct features *features, unsigned i,
	const struct situation *a, const struct situation *b);

#endif
