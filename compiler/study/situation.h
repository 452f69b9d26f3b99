/*
 * Situations: the ways a piece can be, one for each combination of each
 * pairing, or one for a pairing without any. Runs select among them, and a
 * piece of which not all is known may be in several.
 */
#ifndef STUDY_SITUATION_H
#define STUDY_SITUATION_H

#include <glib.h>

#include "model/model.h"

/* What a run may collect; the words of the vocabulary `collect`. */
enum collected {
	COLLECT_CHARACTER,
	COLLECT_CARDBACK,
	COLLECT_PAIRING,
	COLLECT_COMBINATION,
	COLLECT_FRONT,
	COLLECT_VARIANT,
	COLLECT_BLISTER,
	COLLECT_STICKER,
	COLLECT_OFFER,
	COLLECT_ACCESSORY,
	COLLECT_PACKAGE,
	COLLECT_PREPRODUCTION,
	COLLECT_ANOMALY,
	COLLECT_MARKET,
	COLLECT_NOTHING,	/* a word this compiler does not know */
};

struct situation {
	const struct record *pairing;
	const struct value *item;	/* the combination, or NULL */
	const struct record *character;
	const struct record *cardback;
	const struct record *market;
	const struct record *offer;	/* printed on the back, or NULL */
	const struct record *front;
	const struct record *blister;
	const struct record *variant;
	const struct record *sticker;
	const struct record *anomaly;
	const struct value *accessories;	/* of the combination, or NULL */
	const char *concluded;		/* the word, or NULL */
	bool looked_for;		/* and not found */
	/* What is not on a card stands in a situation of its own: */
	const struct record *package;
	const struct record *preproduction;
	const struct record *accessory;
	const struct record *imitation;	/* of the accessory, or NULL */
};

/* All situations of a model, those of one pairing side by side. */
struct situations {
	const struct situation *items;
	unsigned count;
	const unsigned *first;	/* by pairing, and one more: the count */
};

struct situations *
study_situations(const struct model *model, struct arena *arena);

/* Appends the situations of a pairing to an array of struct situation. */
void
situations_of(const struct model *model, const struct record *pairing,
	GArray *out);

#endif
