/*
 * What was seen: specimens and sightings by what they are of. A specimen
 * belongs to a pairing certainly when both its character and its card back are
 * settled, and possibly when what is settled leaves more than one. A specimen
 * that is doubted is listed, and marked; one that is retired is not listed.
 */
#ifndef MODEL_SEEN_H
#define MODEL_SEEN_H

#include "model/model.h"

struct seen;

struct seen_specimen {
	const struct record *specimen;
	bool certain;
	bool doubted;
};

struct seen_list {
	const struct seen_specimen *items;	/* by place among specimens */
	unsigned count;
};

/* Counts over a list, of certain and undoubted specimens alone. */
struct seen_count {
	unsigned specimens;
	unsigned sightings;
	unsigned lists;			/* distinct sources of sightings */
	unsigned possible;		/* specimens that may also belong here */
	const struct date *last;	/* of the sightings; NULL without any */
};

/* Gathers; lives in `arena`, and is ended by seen_free. */
struct seen *
seen_gather(const struct model *model, struct arena *arena);

void
seen_free(struct seen *seen);

/* Specimens of a pairing. */
struct seen_list
seen_of_pairing(const struct seen *seen, const struct record *pairing);

/* Specimens of an anomaly, on all pairings. */
struct seen_list
seen_of_anomaly(const struct seen *seen, const struct record *anomaly);

/* The pairing a specimen certainly belongs to, or NULL. */
const struct record *
seen_pairing(const struct seen *seen, const struct record *specimen);

/* Sightings of a specimen, earliest first. */
struct record_list
seen_sightings(const struct seen *seen, const struct record *specimen);

/*
 * Counts a list: only sightings that were surely no later than `until`, or all
 * for NULL. With `pairing`, only the specimens that certainly belong to it.
 */
struct seen_count
seen_count(const struct seen *seen, struct seen_list list,
	const struct record *pairing, const struct date *until);

/* The pairing of a character and a card back, or NULL. */
const struct record *
seen_find_pairing(const struct seen *seen, const struct record *character,
	const struct record *cardback);

#endif
