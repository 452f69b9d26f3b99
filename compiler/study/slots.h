/*
 * Runs: what there is a slot for.
 */
#ifndef STUDY_SLOTS_H
#define STUDY_SLOTS_H

#include "study/aim.h"

/* A slot that may not exist is set apart and counts neither way. */
enum slot_standing { SLOT_SURE, SLOT_UNSURE };

/* Why a slot may not exist, surest first. */
enum slot_doubt {
	DOUBT_NONE,
	DOUBT_LOOKED_FOR,	/* nobody concluded, and none was found */
	DOUBT_OPEN,
	DOUBT_DOUBTED,
	DOUBT_DISPROVED,
};

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
	enum slot_doubt doubt;		/* none where the standing is sure */
	bool looked_for;		/* and not found, wherever it is */
};

struct slots {
	const struct slot *items;	/* in reading order of their records */
	unsigned count;
};

/* The doubt in words: "open", "doubted"; NULL for none. */
const char *
slot_doubt_words(const struct slot *slot);

/*
 * The slots of an aim: one for each distinct value of what it collects, over
 * its selection. What was never issued has no slot; what is open, doubted or
 * disproved has an unsure one. A thing that is settled anywhere is settled.
 */
struct slots *
study_slots_of(const struct model *model, const struct situations *situations,
	const struct aim *aim, struct arena *arena);

/* The same of a run alone. */
struct slots *
study_slots(const struct model *model, const struct record *run,
	struct arena *arena);

#endif
