/*
 * Rank in a population report: how many certificates a line counts at each
 * step, how many above it, and so where a piece of that step stands. Common
 * practice: with k at a step and h higher, the rank is h + 1 to h + k.
 *
 * Reports count certificates, not pieces. What is known of pieces certified
 * more than once is taken off, and the rest is bounded. Numbers of several
 * services stand side by side; nothing here adds them.
 */
#ifndef STUDY_RANK_H
#define STUDY_RANK_H

#include "model/seen.h"
#include "model/snapshots.h"

/* A step at which a line counts certificates, or did in the report before. */
struct rank_step {
	const char *step;
	unsigned place;		/* on the scale, from 0, the best */
	int64_t count;
	int64_t higher;		/* at all better steps */
	int64_t from, to;	/* ranks; 0 where the count is 0 */
	double share;		/* of all the line counts, 0 to 1 */
	int64_t before;		/* in the report before; 0 without one */
};

/* How a line fits our pairings: the words of the vocabulary `match`. */
enum rank_fit { FIT_EXACT, FIT_BROADER, FIT_NARROWER, FIT_UNCLEAR };

struct rank_line {
	const struct snapshot_line *line;
	const struct rank_step *steps;	/* best first */
	unsigned count;
	const struct rank_step *top;	/* the best that is counted, or NULL */
	bool compared;		/* the report before has the line */
	enum rank_fit fit;
	unsigned pairings;	/* of the guide that the line covers, and */
	unsigned combinations;	/* combinations that may exist; a pairing
				   without any is 1 */
	bool broad;		/* it covers several of these, or more */
	/*
	 * Pieces of the guide whose certificates it surely counts, and how
	 * many further certificates they are known to have had by then. The
	 * certificates of the line are those of `least` to `most` pieces.
	 */
	int64_t known;
	int64_t again;
	int64_t least;
	int64_t most;
	bool uncounted;		/* known and again are more than the line's:
				   it leaves some out, and `most` is all */
};

struct rank_report {
	const struct snapshot *snapshot;
	const struct rank_line *lines;
	unsigned count;
};

struct ranks {
	const struct model *model;
	const struct seen *seen;
	const struct rank_report *reports;	/* by service, then by date */
	unsigned count;
	const struct rank_report **of_census;	/* by census; NULL: left out */
	struct rank_lines *of_pairing;		/* by pairing */
};

struct rank_lines {
	const struct rank_line **items;
	unsigned count;
};

/* Ranks all reports; `seen` and `arena` must outlive the result. */
const struct ranks *
rank_gather(const struct model *model, const struct seen *seen,
	struct arena *arena);

/* The report of a census record; NULL if it is left out (see snapshots.h). */
const struct rank_report *
rank_of_census(const struct ranks *ranks, const struct record *census);

/*
 * The lines that cover a pairing or combinations of it, in the latest report
 * of each service: by service, then in the order of the report.
 */
struct rank_lines
rank_of_pairing(const struct ranks *ranks, const struct record *pairing);

/*
 * How many pieces of a pairing are known to have been certified by the services
 * of both reports, each by the day of its own: why these are not to be added.
 */
unsigned
rank_in_both(const struct ranks *ranks, const struct record *pairing,
	const struct snapshot *one, const struct snapshot *other);

/* A graded piece, such as a collector's own. */
struct graded {
	const struct record *service;
	const char *grade;		/* a step of the service's scale */
	bool qualified;			/* a qualifier follows the grade */
	const struct date *date;	/* of the certificate, or NULL */
};

/* Whether a report counts the piece already. */
enum rank_counted {
	COUNTED_PERHAPS,	/* the certificate has no date, or an unclear */
	COUNTED_YES,		/* it is no later than the report */
	COUNTED_NO,		/* it is later, or nothing is at the step */
};

struct rank {
	int64_t count;		/* at the step, as the report has it */
	int64_t higher;
	int64_t from, to;	/* the piece's rank; with it, where the report
				   does not count it yet */
	int64_t total;		/* as the report has it */
	enum rank_counted counted;
	bool top;		/* the line has none higher */
	bool broad;		/* say so with `top`: the line covers more */
	bool unsure;		/* qualified: reports do not tell these apart,
				   so its place among equals is not known */
};

/*
 * The rank of one graded piece among those of a line; `line` is one that
 * rank_of_pairing gave for the pairing of the piece. False, and no rank, where
 * the line is another service's or the grade no step of its scale.
 */
bool
rank_of_piece(const struct rank_line *line, const struct model *model,
	const struct graded *piece, struct rank *rank);

/* A step of another scale that somebody says a step answers to. */
struct rank_answer {
	const struct record *scale;
	const char *step;
	const struct record *source;
};

/*
 * The answers that the corpus states for a step of a scale; their number in
 * *count. Scales are compared by these alone, and only in this direction.
 */
const struct rank_answer *
rank_answers(const struct model *model, const struct record *scale,
	const char *step, struct arena *arena, unsigned *count);

#endif
