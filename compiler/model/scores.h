/*
 * Features, and what records score of them: which states of a feature a front,
 * back, blister, variant, character or accessory may show. A record that does
 * not name a feature may show any state of it.
 */
#ifndef MODEL_SCORES_H
#define MODEL_SCORES_H

#include "model/model.h"

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

/* What one record says of one feature. */
struct score {
	unsigned feature;	/* place of its record */
	state_set states;	/* none: the feature does not apply */
};

/* In the order of features, each once. */
struct score_list {
	const struct score *items;
	unsigned count;
};

struct scores;

/* Gathers the features and scores of a model; lives in `arena`. */
struct scores *
scores_gather(const struct model *model, struct arena *arena);

/* In reading order of their records. */
unsigned
scores_features(const struct scores *scores);
const struct feature *
scores_feature(const struct scores *scores, unsigned i);

/* What a record scores; empty for kinds that score nothing. */
struct score_list
scores_of(const struct scores *scores, const struct record *record);

/* What it says of feature `i`; NULL if nothing. NULL is allowed. */
const struct score *
scores_on(const struct scores *scores, const struct record *record,
	unsigned i);

/* The same of a list; NULL if nothing. */
const struct score *
score_list_on(const struct score_list *list, unsigned i);

/* The kinds whose records score features: the name of the `i`th, or NULL. */
const char *
scores_kind(unsigned i);

#endif
