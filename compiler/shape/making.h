/*
 * Records made of rows, one by one; for this folder alone.
 */
#ifndef SHAPE_MAKING_H
#define SHAPE_MAKING_H

#include "read/node.h"
#include "shape/columns.h"

struct making {
	const struct kind *kind;
	struct arena *arena;
	struct diags *diags;
	struct columns columns;
	bool partial;		/* rows need not have all their fields */
};

/* A record of the cells of a row, without an id unless a cell gives one. */
struct node *
making_record(struct making *making, const struct csv_row *cells);

/* Gives a record that has none an id. */
void
making_put_id(struct making *making, struct node *record, const char *id);

#endif
