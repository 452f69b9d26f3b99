/*
 * Population reports in order: the snapshots of each service by their dates,
 * their lines with what each counted, and which line of the snapshot before is
 * the same one. Rules and studies read them alike.
 */
#ifndef MODEL_SNAPSHOTS_H
#define MODEL_SNAPSHOTS_H

#include "model/model.h"

/* Certificates at a step of the scale; there are some. */
struct snapshot_count {
	unsigned place;			/* among the steps, from 0, the best */
	int64_t count;
	const struct value *value;	/* the number as the corpus has it */
};

struct snapshot;

struct snapshot_line {
	const struct snapshot *snapshot;
	const struct value *category;	/* the group */
	unsigned position;		/* in the report, from 0 */
	const char *wording;
	const struct snapshot_count *counts;	/* best first, none twice */
	unsigned count;
	int64_t total;
	/* The line of that wording in the snapshot before, or NULL. */
	const struct snapshot_line *before;
};

struct snapshot {
	const struct record *census;
	const struct record *service;
	const struct value *steps;	/* of the service's scale, best first */
	const struct snapshot *before;	/* surely earlier; or NULL */
	bool latest;			/* none of its service is later */
	const struct snapshot_line *lines;
	unsigned count;
};

struct snapshots {
	const struct snapshot *items;	/* by service, then by date */
	unsigned count;
};

/*
 * The snapshots of a list of census records, in `arena`. One that is withdrawn,
 * or whose service has no scale, is left out; so is a count at a step that the
 * scale does not have. Numbers stop growing at INT64_MAX.
 */
struct snapshots *
snapshots_gather(const struct model *model, struct record_list list,
	struct arena *arena);

/* The place of a step on a scale, from 0; the count of steps if it has none. */
unsigned
snapshot_place(const struct value *steps, const char *step);

#endif
