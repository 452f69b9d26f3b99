/*
 * The rows of a spreadsheet as trees, as if they had been written as records.
 * Its headings are names or titles of fields; `names.en` is a translation, and
 * `labels.scheme` a field of a group. Several values in a cell are parted by
 * semicolons; columns of one list of groups go by their order.
 */
#ifndef SHAPE_ROWS_H
#define SHAPE_ROWS_H

#include "read/csv.h"
#include "shape/shape.h"

/* A row as a record: a mapping whose fields need not all be there. */
struct row {
	struct node *node;	/* without an id, unless a column gives one */
	const char *name;	/* what an id may be made of; or NULL */
	struct span span;
};

struct rows {
	struct row *items;
	size_t count;
	bool sound;		/* every column has a field */
};

/*
 * The rows under the headings of `table`, for records of `kind`. A heading
 * that names no field is reported: since its cells would be lost, none of the
 * rows is then to be used. Everything lives in `arena`.
 */
struct rows
rows_of(const struct csv_table *table, const struct kind *kind,
	struct arena *arena, struct diags *diags);

#endif
