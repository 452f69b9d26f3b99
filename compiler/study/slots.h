/*
 * Runs: what there is a slot for, and what of it a collector holds.
 */
#ifndef STUDY_SLOTS_H
#define STUDY_SLOTS_H

#include "model/model.h"
#include "shape/shape.h"

/* A slot that may not exist is set apart and counts neither way. */
enum slot_standing { SLOT_SURE, SLOT_UNSURE };

/* Conclusions, as words: what may exist at all, and what surely does. */
bool
study_may_exist(const char *concluded);
bool
study_is_settled(const char *concluded);

struct slot {
	const struct record *record;
	const struct value *item;	/* the combination, or NULL */
	const char *code;		/* "kind/id" or "kind/id.key" */
	const char *name;
	enum slot_standing standing;
};

struct slots {
	const struct slot *items;	/* in reading order of their records */
	unsigned count;
};

/*
 * The slots of a run: one for each distinct value of what it collects, over
 * its selection. What is disproved or was never issued has no slot; what is
 * open or doubted has an unsure one.
 */
struct slots *
study_slots(const struct model *model, const struct record *run,
	struct arena *arena);

enum slot_state { SLOT_MISSING, SLOT_POSSIBLE, SLOT_HELD };

struct filled_slot {
	const struct slot *slot;
	enum slot_state state;
	const struct record **pieces;	/* that fill it, or may */
	unsigned count;
	const char *look_at;	/* what to look at to settle a possible one */
};

struct filling {
	const struct record *run;
	const struct filled_slot *items;
	unsigned count;
	/* Over the slots that surely exist: */
	unsigned held;
	unsigned possible;
	unsigned missing;
	unsigned unsure;	/* slots set apart */
};

/*
 * Whether enough is known of a piece to hold it against anything: a character,
 * a card back or another part, settled or narrowed.
 */
bool
study_is_named(const struct model *model, const struct record *piece);

/*
 * Holds the pieces (records of kind holding, linked to the model's corpus)
 * against the slots of a run. Altered pieces, pieces no longer or not yet
 * held, and anomalies fill no slot.
 */
struct filling *
study_fill(const struct model *model, const struct record *run,
	const struct slots *slots, const struct records *pieces,
	struct arena *arena);

#endif
