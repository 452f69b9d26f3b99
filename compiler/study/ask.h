/*
 * What to ask before buying: the shortest list of requests to a seller that
 * tells a piece from everything else it could be.
 */
#ifndef STUDY_ASK_H
#define STUDY_ASK_H

#include "study/features.h"

struct request {
	const char *text;
	const struct record **features;	/* what it lets one see */
	unsigned count;
};

struct alternative {
	const struct situation *situation;
	bool divided;			/* by some feature one can ask for */
	const struct record *feature;	/* the surest that divides, or NULL */
};

struct questions {
	const struct request *requests;	/* the shortest list; in order of cost */
	unsigned request_count;
	struct alternative *alternatives;
	unsigned alternative_count;
	unsigned undivided;		/* alternatives nothing recorded tells apart */
};

/*
 * The shortest list for a target: as few requests as possible, and among
 * lists as short, the least costly, then the first in order of features. With
 * no alternatives the list is empty. Requests with the same words count as
 * one. Exact while at most 64 different requests divide anything; beyond that the
 * 64 least costly are used.
 */
struct questions *
study_ask(const struct features *features, const struct situation *target,
	const struct situation *others, unsigned count, struct arena *arena);

#endif
