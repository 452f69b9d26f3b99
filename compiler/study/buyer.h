/*
 * Before you buy: what a record's page, the terminal and the handbook say to
 * somebody who is about to. Does it exist, and how sure is that; which
 * anomalies occur here, and how often of those seen; what is imitated, and how
 * to tell; what else it could be; what to ask the seller.
 */
#ifndef STUDY_BUYER_H
#define STUDY_BUYER_H

#include "model/seen.h"
#include "study/ask.h"
#include "study/estimate/share.h"

/* An anomaly that a piece of this sort may turn out to be. */
struct risk {
	const struct record *anomaly;
	unsigned affected;	/* pieces that are it, of this sort */
	unsigned seen;		/* pieces of this sort, it or not; both as
				   study/evidence.h counts them */
	struct range share;	/* its limits, after Wilson; where any seen */
};

/* An imitation of the thing itself or of a part of it. */
struct fake {
	const struct record *imitation;
	const struct record *part;	/* what is imitated */
};

struct buyer {
	const struct record *record;
	const struct value *item;	/* the combination, or NULL */
	const struct word *concluded;	/* NULL where the kind does not say */
	const struct word *how_seen;	/* NULL likewise */
	struct seen_count seen;		/* of pairings and combinations */
	struct risk *risks;
	unsigned risk_count;
	struct fake *fakes;
	unsigned fake_count;
	struct questions *questions;	/* of pairings and combinations; else
					   NULL */
	const struct value *looked_for;	/* searches without result, or NULL */
};

/* What the view needs of a model, gathered once. */
struct buying;

struct buying *
buying_gather(const struct model *model, const struct seen *seen,
	struct arena *arena);

/* The view of a record, or of the combination `item` of a pairing. */
struct buyer *
study_buyer(const struct buying *buying, const struct record *record,
	const struct value *item, struct arena *arena);

#endif
