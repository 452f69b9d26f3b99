/*
 * Places of a key: the items that can still be meant there. What choosing,
 * building and searching share; for this folder alone.
 */
#ifndef STUDY_KEY_PLACE_H
#define STUDY_KEY_PLACE_H

#include "study/key.h"
#include "study/key_build.h"

/* Up to as many items as this a place is divided while anything divides it. */
enum { KEY_SMALL = 12, KEY_STATES = 64 };

struct key_place {
	unsigned *items;	/* in their order */
	double *parts;		/* of each item, the part of its pieces that
				   gets here */
	unsigned count;
};

/* The leads of a feature at a place: the states of each, by the first. */
struct key_split {
	unsigned count;
	uint64_t leads[KEY_STATES];
	uint64_t mark;		/* equal for features that divide alike */
};

/* What an item may show of a feature. */
uint64_t
key_shown(const struct key_table *table, unsigned feature, unsigned item);

struct key_place
key_place_new(unsigned count, struct arena *arena);

/* The place where all items are. */
struct key_place
key_place_all(const struct key_table *table, struct arena *arena);

/* How many pieces are at a place, all together. */
double
key_place_pieces(const struct key_table *table,
	const struct key_place *place);

void
key_divide(const struct key_table *table, unsigned feature,
	const struct key_place *place, struct key_split *split);

/* The place that a lead of a feature leads to. */
struct key_place
key_follow(const struct key_table *table, unsigned feature,
	const struct key_place *place, uint64_t lead, struct arena *arena);

/*
 * Weighs each feature at a place, by lead rather than state. Those that are
 * usable are not worth while (`false` in `worth`) if they leave most of many
 * items under several leads. Both arrays hold an entry a feature.
 */
void
key_weigh_all(const struct key_table *table, const struct key_place *place,
	struct key_weight *weights, bool *worth, struct arena *arena);

/*
 * The feature to ask at a place of 2 items or more, or -1. Sets *given_up
 * where something divides the items and is not worth while. `used` says by
 * feature what the key has asked elsewhere: it is a little cheaper to read.
 */
int
key_choose(const struct key_table *table, const struct key_place *place,
	const bool *used, bool *given_up);

#endif
