/*
 * From a situation to what a run collects of it; for this folder alone.
 */
#ifndef STUDY_COLLECT_H
#define STUDY_COLLECT_H

#include "study/situation.h"

typedef void collect_function(void *data, const struct situation *situation,
	const struct record *record, const struct value *item);

/* Calls `function` for each value that the situation has to collect. */
void
collect(const struct model *model, enum collected what,
	const struct situation *situation, collect_function *function,
	void *data);

/* The offer of the sticker that is on it, or NULL. */
const struct record *
situation_added_offer(const struct model *model,
	const struct situation *situation);

/* The address of a slot, "kind/id" or "kind/id.key", in `arena`. */
const char *
slot_code(struct arena *arena, const struct record *record,
	const struct value *item);

#endif
