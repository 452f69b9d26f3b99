/*
 * The guide as relations: what database and tables share. A relation for each
 * kind of record, one for each list within it, and those that are worked out
 * from the corpus. All but the last come from the schema, so that a new field
 * or kind needs nothing here.
 *
 * How a field becomes columns:
 *   a single value         a column of its name; a quantity with its unit
 *                          added to the name; groups are written out, the
 *                          group's name before that of the field
 *   a date                 the date as written, and the first and the last
 *                          day that it may be, as _first and _last
 *   a reference            the id; with the key as _key where it may lead to
 *                          an item; as _kind and _id where several kinds are
 *                          allowed
 *   an identity            the id where it is known, and how it is known as
 *                          _state; what it may or may not be is listed apart
 *   a list, a translation  a relation of its own, named after kind and field
 *
 * What every record may carry stands in the relation "record" and its lists.
 */
#ifndef WRITE_RELATIONS_RELATIONS_H
#define WRITE_RELATIONS_RELATIONS_H

#include <glib.h>

#include "model/model.h"
#include "model/seen.h"

struct reckonings;

enum cell_form { CELL_NULL, CELL_TEXT, CELL_WHOLE, CELL_REAL };

struct cell {
	enum cell_form form;
	union {
		const char *text;
		int64_t whole;
		double real;
	};
};

/* What of a row or a field's value a column holds. */
enum part {
	PART_KIND,		/* of the record: its kind, id, name, */
	PART_ID,
	PART_CALLED,
	PART_PLACE,		/* place among its kind, from 1, */
	PART_POINTED,		/* and how many references lead to it */
	PART_POSITION,		/* in a list, from 1 */
	PART_VALUE,
	PART_FIRST,		/* the interval of a date */
	PART_LAST,
	PART_STATE,		/* of an identity */
	PART_TARGET_KIND,	/* of a reference */
	PART_TARGET,
	PART_TARGET_KEY,
	PART_LANGUAGE,		/* of one translation */
	PART_TRANSLATED,
	PART_COMPUTED,
};

struct column {
	const char *name;
	const char *title;
	const char *says;		/* or NULL */
	enum part part;
	enum cell_form form;		/* of what is not NULL */
	bool required;			/* never NULL */
	unsigned level;			/* of PART_POSITION: the list, from 1 */
	const struct field *field;	/* or NULL */
};

struct relation;

/* Columns of a relation, in order, that name a row of another. */
struct relation_link {
	unsigned from;			/* the first column; `count` of them */
	unsigned count;
	const struct relation *to;
	const unsigned *columns;	/* of `to` */
};

enum relation_form {
	RELATION_RECORDS,	/* of one kind, or of all */
	RELATION_LIST,		/* items of a field */
	RELATION_TRANSLATIONS,
	RELATION_CANDIDATES,	/* of an identity that is not settled */
	RELATION_COMPUTED,
};

struct relations;

/* Takes a row of as many cells as there are columns; false to stop. */
typedef bool relation_row(void *data, const struct cell *cells,
	GError **error);
typedef bool relation_compute(const struct relations *relations,
	relation_row *row, void *data, GError **error);

struct relation {
	const char *name;
	const char *title;
	const char *says;		/* or NULL */
	enum relation_form form;
	const struct kind *kind;	/* NULL: of all kinds, or computed */
	const struct relation *owner;	/* what its rows belong to, or NULL */
	const struct field *field;	/* of the owner, or NULL */
	unsigned level;			/* lists it stands in, itself too */
	const struct column *columns;
	unsigned count;
	unsigned key_count;		/* the first columns are the key */
	unsigned key_column;		/* an item's own key, or 0 */
	const struct relation_link *links;
	unsigned link_count;
	relation_compute *compute;	/* of RELATION_COMPUTED */
};

struct relations {
	const struct model *model;
	const struct seen *seen;
	const struct reckonings *reckonings;	/* worked */
	const struct relation **items;	/* owners before what is theirs */
	unsigned count;
};

/*
 * The relations of a model, in `arena`. NULL with an error where a kind has
 * the name of a relation that is not its own.
 */
const struct relations *
relations_make(const struct model *model, const struct seen *seen,
	const struct reckonings *reckonings, struct arena *arena,
	GError **error);

/*
 * Gives each row of a relation, in reading order, to `row`. False when that
 * said so. Cells stay until `row` returns.
 */
bool
relation_rows(const struct relations *relations,
	const struct relation *relation, relation_row *row, void *data,
	GError **error);

/* The name of a part, as the database's own description has it. */
const char *
part_name(enum part part);

#endif
