/*
 * Which pieces were seen on which occasion, and what the estimators make of
 * it: frequencies, two lists, occasions in order of time.
 */
#ifndef STUDY_ESTIMATE_HISTORY_H
#define STUDY_ESTIMATE_HISTORY_H

#include <stddef.h>

#include "study/estimate/frequencies.h"
#include "study/estimate/occasions.h"

/*
 * A row for each piece, a column for each occasion in order of time; not 0
 * where the piece was seen. A row without any is as if it were not there.
 */
struct history {
	unsigned pieces;
	unsigned occasions;
	const unsigned char *seen;
};

static inline bool
history_seen(const struct history *history, unsigned piece, unsigned occasion)
{
	return history->seen[(size_t)piece * history->occasions + occasion] != 0;
}

struct history_sums {
	unsigned distinct;	/* pieces seen */
	unsigned sightings;	/* a piece on an occasion is one */
	unsigned repeated;	/* pieces seen on two occasions or more */
	unsigned held;		/* occasions on which any piece was seen */
};

struct history_sums
history_sum(const struct history *history);

/* Fills `room`, as long as there are occasions, which the result points to. */
struct frequencies
history_frequencies(const struct history *history, unsigned *room);

/* Fills `room`, as long as there are occasions. None is lost. */
void
history_occasions(const struct history *history, struct occasion *room);

struct two_lists {
	unsigned first;
	unsigned second;
	unsigned both;
};

/* Any two of the occasions as lists. */
struct two_lists
history_lists(const struct history *history, unsigned first, unsigned second);

/* The same where exactly two occasions saw anything; else false. */
bool
history_two(const struct history *history, struct two_lists *lists);

#endif
