/*
 * Features of whole pieces: which states of a feature a piece may show, from
 * what its parts score. A piece of which no part scores a feature may show any
 * state (unknown); one to which it does not apply shows none. An imitation may
 * show what the genuine one does, but in the features that give it away.
 */
#ifndef STUDY_FEATURES_H
#define STUDY_FEATURES_H

#include "model/scores.h"
#include "study/situation.h"

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
 * What a look at it costs, where a photograph of the front that settles it by
 * itself is 1: each step dearer and each two steps less sure double it, about.
 */
double
features_cost(const struct feature *feature);

/* The kinds whose records score features: the name of the `i`th, or NULL. */
const char *
features_kind(unsigned i);

/*
 * What one record says of feature `i`: false, and all states, where it says
 * nothing; no state where the feature does not apply to it.
 */
bool
features_score(const struct features *features, unsigned i,
	const struct record *record, state_set *states);

/*
 * The states of feature `i` that a situation may show: what its parts score,
 * together. All states when unknown; 0 when inapplicable.
 */
state_set
features_states(const struct features *features, unsigned i,
	const struct situation *situation);

/* The same, and whether it is known: false if no part says anything. */
bool
features_show(const struct features *features, unsigned i,
	const struct situation *situation, state_set *states);

/*
 * Whether feature `i` surely tells two situations apart: both are known in it,
 * and they share no state.
 */
bool
features_divide(const struct features *features, unsigned i,
	const struct situation *a, const struct situation *b);

#endif
