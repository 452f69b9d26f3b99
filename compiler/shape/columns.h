/*
 * The headings of a spreadsheet led to fields; for this folder alone.
 */
#ifndef SHAPE_COLUMNS_H
#define SHAPE_COLUMNS_H

#include "read/csv.h"
#include "shape/schema.h"

/* A field on the way that a heading names, and which item of its list. */
struct step {
	const struct field *field;
	unsigned number;	/* of a list, from 1; 0: all of it */
};

enum { MOST_STEPS = 8, MOST_NUMBER = 999 };

struct column {
	struct step steps[MOST_STEPS];
	unsigned count;		/* 0: no field */
	const char *tag;	/* of a translation, or NULL */
	bool id;
	bool own;		/* in brackets: of the owner's, and not read */
	bool bad;		/* the heading names no field of the kind */
	bool by_title;		/* it does by a title */
};

struct columns {
	struct column *items;
	uint32_t count;
	bool sound;
};

/*
 * The fields of `kind` that the headings name. Those that name none are
 * reported, or with `diags` NULL only marked.
 */
struct columns
columns_of(const struct csv_row *headings, const struct kind *kind,
	struct arena *arena, struct diags *diags);

/* Reports what is wrong with one of the headings, as columns_of would. */
void
columns_report(const struct csv_row *headings, uint32_t which,
	const struct kind *kind, struct arena *arena, struct diags *diags);

/* Whether the column says of which kind each row is. */
bool
columns_is_kind(const struct csv_cell *heading);

#endif
