/*
 * Pieces held against the slots of an aim: what is held, what possibly, what
 * is missing.
 */
#ifndef STUDY_FILL_H
#define STUDY_FILL_H

#include "study/pieces.h"
#include "study/slots.h"

enum slot_state { SLOT_MISSING, SLOT_POSSIBLE, SLOT_HELD };

/* What a piece is to a slot; weakest first. */
enum claim_kind {
	CLAIM_LACKS,	/* it is that, but not as the aim asks: look for a
			   better one */
	CLAIM_COMING,	/* it will surely fill it once it is here */
	CLAIM_POSSIBLE,
	CLAIM_SURE,
};

struct claim {
	unsigned piece;		/* its place among the pieces */
	enum claim_kind kind;
};

struct filled_slot {
	const struct slot *slot;
	enum slot_state state;
	const struct claim *claims;	/* in the order of the pieces */
	unsigned count;
	unsigned sure;			/* of them; two or more are doubles */
};

struct filling {
	const struct aim *aim;
	const struct filled_slot *items;
	unsigned count;
	const char *case_style;	/* that the aim settles on, or NULL */
	/* Over the slots that surely exist: */
	unsigned held;
	unsigned possible;
	unsigned missing;
	unsigned unsure;	/* slots set apart */
};

/*
 * Holds the pieces against the slots of an aim. A piece surely fills a slot
 * when all that it may be gives the slot and is selected, and it meets the
 * aim's conditions; possibly when some does and none is surely failed. Pieces
 * that are wanted or gone fill none.
 */
struct filling *
study_fill(const struct pieces *pieces, const struct aim *aim,
	const struct slots *slots, struct arena *arena);

/*
 * What to look at to settle a possible claim, or what the piece lacks of one
 * that lacks something: words in `arena`, or NULL.
 */
const char *
study_look_at(const struct pieces *pieces, const struct filling *filling,
	const struct filled_slot *slot, const struct claim *claim,
	struct arena *arena);

#endif
