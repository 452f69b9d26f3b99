/*
 * The state of a piece against what a run asks of it: form, alterations, hang
 * tab, grade, case, completeness.
 */
#ifndef STUDY_STATES_H
#define STUDY_STATES_H

#include "study/pieces.h"

/* Fills in what the record says of the piece's state. For pieces.c. */
void
piece_read_states(const struct model *model, struct piece *piece);

/* What an aim's conditions come to for a piece. */
struct meeting {
	enum truth truth;
	const char *words;	/* what it lacks, or what to look at; or NULL */
};

/*
 * Whether the piece meets the conditions of the aim. `style` is the style of
 * case that the aim settles on, or NULL for none. Status is not asked, nor
 * what the piece is.
 */
struct meeting
piece_meets(const struct pieces *pieces, const struct aim *aim,
	const struct piece *piece, const char *style);

/* Whether the form is one in which such a thing can be had at all. */
bool
piece_can_be(const struct aim *aim, const char *form);

#endif
