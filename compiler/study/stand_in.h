/*
 * Stand-ins for parts that are not recorded. Of a piece whose front nobody
 * wrote down it is still known that it is a front of its character in its
 * market; its figure is a variant of its character. What all of those share is
 * known of the part too.
 */
#ifndef STUDY_STAND_IN_H
#define STUDY_STAND_IN_H

#include "study/features.h"

struct stand_in {
	const struct record **records;	/* what the part may be */
	unsigned count;
	const struct score *scores;	/* what they may show, in the order of
					   features; others may be any */
	unsigned score_count;
};

struct stand_ins;

/* None yet; lives in `arena`, which is used as they are asked for. */
struct stand_ins *
stand_ins_new(const struct model *model, const struct features *features,
	struct arena *arena);

void
stand_ins_free(struct stand_ins *stand_ins);

/*
 * For the front or the variant of a situation that has none; NULL if it has
 * one, or if nothing recorded can stand there.
 */
const struct stand_in *
stand_in_front(struct stand_ins *stand_ins, const struct situation *situation);
const struct stand_in *
stand_in_variant(struct stand_ins *stand_ins,
	const struct situation *situation);

/* What it may show of a feature; NULL if that is not known. NULL is allowed. */
const struct score *
stand_in_score(const struct stand_in *stand_in, unsigned feature);

#endif
