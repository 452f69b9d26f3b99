/*
 * What population reports say of how many there are. A report counts
 * certificates: a piece that was put in a new case, graded again or crossed
 * over has several. Those of pieces that we know are taken off; how many of the
 * rest are repeats nobody knows, so the rest is bounded.
 */
#ifndef STUDY_CERTIFIED_H
#define STUDY_CERTIFIED_H

#include "model/snapshots.h"
#include "study/evidence.h"

/* The latest report of one service on one subject. */
struct certified {
	const struct snapshot *snapshot;
	int64_t certificates;	/* on lines that cover nothing else */
	int64_t shared;		/* on lines that cover other things too */
	unsigned known;		/* our pieces with a certificate of it by then */
	unsigned repeats;	/* certificates of these beyond the first */
	unsigned crossed;	/* of these, also certified by another */
	int64_t least;		/* pieces behind the certificates */
	int64_t most;
};

struct certified_list {
	const struct certified *items;	/* by service */
	unsigned count;
};

struct certificates;

/* Looks once at all reports. It lives in `arena`. */
struct certificates *
certificates_gather(const struct model *model, const struct seen *seen,
	struct arena *arena);

/*
 * The reports on a pairing or a combination; none on other subjects. Services
 * must not be added up: a piece may have gone from one to another.
 */
struct certified_list
certified_of(const struct certificates *certificates,
	const struct evidences *evidences, const struct subject *subject,
	struct arena *arena);

#endif
