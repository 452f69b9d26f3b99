/*
 * Identification keys: steps of one question each, whose leads are followed
 * until one item is left. The feature of a step is the best after Dallwitz
 * (see study/key.h); among the best few of a small step, the one after which
 * the rest of the key is cheapest.
 *
 * A key is made over items and features by number. An item that may show
 * several states stands under each lead that it can reach, and states under
 * which the same items stand share a lead. No feature is asked twice on a way.
 */
#ifndef STUDY_KEY_BUILD_H
#define STUDY_KEY_BUILD_H

#include <stdbool.h>
#include <stdint.h>

struct arena;

/* That a feature does not apply can be seen too, and is a state. */
#define KEY_INAPPLICABLE ((uint64_t)1 << 63)

struct key_table {
	unsigned items;
	unsigned features;
	const uint64_t *sets;	/* by feature, then item: the states it may
				   show, a bit each; never 0 */
	const double *common;	/* by item: how common; above 0 */
	const double *costs;	/* by feature: of looking; above 0 */
	const unsigned *first;	/* features to ask first, in this order, */
	unsigned first_count;	/* wherever they divide anything */
};

struct key_lead {
	uint64_t states;	/* any of these */
	const unsigned *items;	/* all it can still be, in their order */
	unsigned count;
	struct key_step *step;	/* what to look at next; NULL at an end */
	bool given_up;		/* an end of several that something recorded
				   divides, for a few of them alone */
};

/* Another feature that divides as the step's does, to be sure. */
struct key_also {
	unsigned feature;
	const uint64_t *states;	/* by lead */
};

struct key_step {
	unsigned number;	/* from 1: a step, then what its leads lead to */
	unsigned from;		/* the step that leads here; 0 for the first */
	unsigned feature;
	struct key_lead *leads;	/* in order of their first states */
	unsigned count;
	const struct key_also *also;	/* the least costly first */
	unsigned also_count;
};

struct key_report {
	double mean;		/* looks for an item, each counting alike */
	unsigned longest;
	double cost;		/* expected, each item as common as it is */
	unsigned leads;
	unsigned features;	/* that are used */
	unsigned together;	/* items that end with others */
};

struct key {
	struct key_lead start;		/* all items, before any step */
	struct key_step **steps;	/* by number - 1 */
	unsigned count;
	struct key_report report;
};

/* Builds the key; lives in `arena`. The same table gives the same key. */
struct key *
key_build(const struct key_table *table, struct arena *arena);

#endif
