/*
 * Characters by card backs, for a market: the picture of what exists.
 */
#ifndef STUDY_MATRIX_H
#define STUDY_MATRIX_H

#include "model/model.h"

struct matrix {
	const struct record *market;
	const struct record **cardbacks;	/* columns: by number, first
						   year, label */
	unsigned columns;
	const struct record **characters;	/* rows: in reading order; only
						   those paired at all */
	unsigned rows;
	const struct record **cells;		/* rows × columns: the pairing,
						   or NULL */
};

/* The matrix of a market, in `arena`. */
struct matrix *
study_matrix(const struct model *model, const struct record *market,
	struct arena *arena);

/* Card backs of a market as the columns of its matrix, without the rest. */
struct record_list
study_cardbacks(const struct model *model, const struct record *market,
	struct arena *arena);

#endif
