/*
 * How often a piece of a market's pairings is seen on average, from all of
 * them together: what a pairing with few pieces may borrow.
 */
#ifndef STUDY_POOLS_H
#define STUDY_POOLS_H

#include "study/estimate/pooled.h"
#include "study/evidence.h"

struct pools;

/* Looks once at the pieces of all pairings. It lives in `arena`. */
struct pools *
pools_gather(const struct model *model, const struct seen *seen,
	const struct evidences *evidences, struct arena *arena);

/* The market of a pairing, or NULL. */
const struct record *
pools_market(const struct model *model, const struct record *pairing);

/* The pool of a market; not given for NULL. */
struct pool
pools_of(const struct pools *pools, const struct record *market);

#endif
