/*
 * Things of one group that no recorded feature tells apart; for this folder
 * alone. Finding them and saying what to record are two files.
 */
#ifndef SENSE_ALIKE_H
#define SENSE_ALIKE_H

#include "model/scores.h"

enum { ALIKE_MOST = 3 };

/* A record, and what it cannot be told from: of those that score no less. */
struct alike {
	const struct record *record;
	const struct record *within[2];	/* whose group it is in, or NULL */
	struct score_list scores;
	const struct alike *others[ALIKE_MOST];
	unsigned count;
	bool more;		/* there are others besides */
};

/*
 * Fills in what each of a group cannot be told from. The items come sorted by
 * how much they score, most first. Each pair is noted with the later of the
 * two, and at most ALIKE_MOST of them.
 */
void
alike_find(struct alike *items, unsigned count, unsigned features);

/* Whether some feature tells two apart: both know it and share no state. */
bool
alike_divided(const struct alike *a, const struct alike *b);

/*
 * What to record so that an item is told from the first of its others, in
 * `arena`. The group is all that might serve as an example.
 */
const char *
alike_advice(const struct scores *scores, const struct alike *group,
	unsigned count, const struct alike *item, struct arena *arena);

#endif
