/*
 * The rows of a spreadsheet as trees, as if they had been written as records.
 * Its headings are names or titles of fields; `names.en` is a translation, and
 * `labels.scheme` a field of a group. Several values in a cell are parted by
 * semicolons; columns of one list of groups go by their order. A number behind
 * the name of a list is that of one item: `costs.2.amount`. A heading in
 * brackets, such as `[seller]`, is the owner's, and its cells are not read.
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

/*
 * The same as a corpus: each row is a whole record of the kind that stands in
 * its cell under `kind`, or else of the `usual` one. A row without an id is
 * known by its number, row-2 being the first below the headings.
 */
struct raw_corpus *
rows_corpus(const struct csv_table *table, const struct kind *usual,
	const struct schema *schema, struct arena *arena, struct diags *diags);

/*
 * Reports the spreadsheets among the files of a corpus that hold what is
 * private, by their headings.
 */
void
shape_check_tables(const struct raw_corpus *corpus,
	const struct schema *schema, struct sources *sources,
	struct arena *arena, struct diags *diags);

#endif
