/*
 * A collector's pieces as far as runs are concerned; for this folder alone.
 */
#ifndef STUDY_PIECES_H
#define STUDY_PIECES_H

#include "study/situation.h"

/* A piece, and the situations that what is known of it leaves. */
struct piece {
	const struct record *record;
	bool counts;		/* held, unaltered, no anomaly, and something
				   of what it is is known */
	GArray *situations;	/* struct situation */
};

/* All pairings by character and by card back are found through the model. */
void
piece_init(struct piece *piece, const struct model *model,
	const struct record *record);

void
piece_release(struct piece *piece);

/* Whether the piece is in a form that the run asks for. */
bool
piece_has_form(const struct model *model, const struct record *piece,
	const struct record *run, enum collected what);

/* What to look at to settle what the piece is; NULL when all is settled. */
const char *
piece_look_at(const struct model *model, const struct piece *piece);

#endif
