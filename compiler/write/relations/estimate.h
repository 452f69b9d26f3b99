/*
 * A reckoning as a row: the one order of its columns, for the relation and for
 * what `hangtab estimate` prints for programs.
 */
#ifndef WRITE_RELATIONS_ESTIMATE_H
#define WRITE_RELATIONS_ESTIMATE_H

#include "study/reckon.h"
#include "write/relations/relations.h"

enum { ESTIMATE_CELLS = 28 };

/* The name of a column. */
const char *
estimate_column(unsigned column);

/* Fills the cells; texts live in `arena`. Numbers have four decimals. */
void
estimate_cells(const struct reckoning *reckoning, struct cell *cells,
	struct arena *arena);

#endif
