/*
 * Rank in a population report in words, the same on the terminal, in the
 * database, on the pages and in the handbook.
 */
#ifndef WRITE_RANKING_H
#define WRITE_RANKING_H

#include "study/rank.h"

/* What every place that shows such numbers says with them. */
extern const char ranking_caution[];

/* What services side by side are headed by, where there are several. */
extern const char ranking_apart[];

/* The rank at a step: "1", "3 to 4"; "" where nothing is counted. */
const char *
ranking_rank(const struct rank_step *step, struct arena *arena);

/* The share at a step: "33 %", "under 1 %", "over 99 %", "" for none. */
const char *
ranking_share(const struct rank_step *step, struct arena *arena);

/* Against the report before: "+2", "−1", "0"; "" where there is none. */
const char *
ranking_change(const struct rank_line *line, const struct rank_step *step,
	struct arena *arena);

/* A sentence, and the record it speaks of, or NULL. */
struct told {
	const char *text;
	const struct record *about;
};

struct told_list {
	const struct told *items;
	unsigned count;
};

/*
 * Sentences on a line: how many, the best and what the line covers; all steps
 * with their ranks where `steps`; what changed; of how many pieces.
 */
struct told_list
ranking_line(const struct rank_line *line, const struct model *model,
	bool steps, struct arena *arena);

/* Where a line stands: the service, the day, and the line as printed. */
const char *
ranking_place(const struct rank_line *line, const struct model *model,
	struct arena *arena);

/*
 * All that reports say of a pairing, a sentence or a line of a report each;
 * empty where none covers it.
 */
struct told_list
ranking_pairing(const struct ranks *ranks, const struct record *pairing,
	struct arena *arena);

/*
 * Only what is said of several services together: that they are not to be
 * added, how many pieces are in both, and which steps answer to each other.
 */
struct told_list
ranking_together(const struct ranks *ranks, const struct record *pairing,
	struct arena *arena);

/* All that is said of a report: each line with its sentences. */
struct told_list
ranking_census(const struct ranks *ranks, const struct record *census,
	struct arena *arena);

#endif
