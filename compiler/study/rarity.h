/*
 * How hard something is to find, from what is on record: pieces told apart,
 * sightings and when, population reports, estimates quoted and computed. Of
 * carded pieces alone; of what is loose there is no such record.
 */
#ifndef STUDY_RARITY_H
#define STUDY_RARITY_H

#include "study/certified.h"
#include "study/situation.h"

struct rarity {
	bool recorded;		/* false: nothing of this sort is recorded */
	unsigned known;		/* pieces told apart */
	unsigned sightings;
	int last;		/* year last seen; 0: never */
	double a_year;		/* sightings, over the years on record */
	const struct history *history;	/* what numbers are computed from */
	const struct record *service;	/* that certified most, or NULL */
	int64_t certificates;	/* by it */
	bool shared;		/* its lines cover other things, too */
	const struct value *quoted;	/* the latest estimate quoted of the
					   pairing, a group; or NULL */
};

struct rarities;

/* Looks once at what was seen. `seen` and `arena` must outlive it. */
struct rarities *
rarities_gather(const struct model *model, const struct seen *seen,
	struct arena *arena);

/* NULL is allowed. */
void
rarities_free(struct rarities *rarities);

/*
 * Of a pairing, of one of its combinations (`item`), of an anomaly or a card
 * back. Anything else is not recorded.
 */
struct rarity
rarity_of(struct rarities *rarities, const struct record *record,
	const struct value *item);

/* The years that sightings on record span; 0 and 0 without any. */
void
rarity_years(const struct rarities *rarities, int *first, int *last);

/* Orders by hardness: negative if `a` is the harder. */
int
rarity_compare(const struct rarity *a, const struct rarity *b);

/*
 * In words, in `arena`: "2 known, seen 3 times since 1998, last in 2019; at
 * most 14 certified by X". NULL where nothing is recorded.
 */
const char *
rarity_words(const struct rarities *rarities, const struct rarity *rarity,
	const struct model *model, struct arena *arena);

/* The shortest: "2 known, last seen in 2019". NULL where not recorded. */
const char *
rarity_brief(const struct rarity *rarity, struct arena *arena);

#endif
