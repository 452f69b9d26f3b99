/*
 * The schema in memory: what schema/README.md describes, read from the files
 * of that folder. It knows types, not what a field means.
 */
#ifndef SHAPE_SCHEMA_H
#define SHAPE_SCHEMA_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

#include "base/arena.h"
#include "diag/diag.h"

enum type {
	TYPE_TEXT,
	TYPE_PROSE,
	TYPE_WHOLE,
	TYPE_QUANTITY,
	TYPE_DATE,
	TYPE_YESNO,
	TYPE_WORD,
	TYPE_COUNTRY,
	TYPE_LANGUAGE,
	TYPE_CURRENCY,
	TYPE_BARCODE,
	TYPE_AMOUNT,
	TYPE_TRANSLATION,
	TYPE_REFERENCE,
	TYPE_IDENTITY,
	TYPE_GROUP,
};

enum show { SHOW_YES, SHOW_FIRST, SHOW_NO };
enum search_weight { SEARCH_NO, SEARCH_WORDS, SEARCH_LABEL, SEARCH_NAME };

/* For whom a kind is; the order is that of a guide's contents. */
enum chapter {
	CHAPTER_LINE,
	CHAPTER_MADE,
	CHAPTER_SEEN,
	CHAPTER_KNOWN,
	CHAPTER_READER,
	CHAPTER_PRIVATE,
};

struct word {
	const char *word;
	const char *title;
	const char *says;	/* or NULL */
	unsigned index;		/* place in the vocabulary */
};

struct vocabulary {
	const char *name;
	struct word *words;
	unsigned count;
};

struct kind;
struct field;
struct value;

/* The fields of a kind or group, in the order written. */
struct fields {
	const struct field *items;
	unsigned count;
};

struct field {
	const char *name;
	const char *title;
	const char *says;		/* or NULL */
	enum type type;
	bool many;
	bool required;
	bool exported;
	enum show show;
	enum search_weight search;
	unsigned index;			/* among its kind's or group's fields */
	const char *fallback;		/* `default`, or NULL */
	const char *unique;		/* "kind", a field's name, or NULL */
	const struct field *unique_within;
	const struct vocabulary *vocabulary;	/* of TYPE_WORD */
	const struct kind **to;		/* of references and identities */
	unsigned to_count;
	const char **units;		/* of TYPE_QUANTITY */
	unsigned unit_count;
	int64_t least, most;		/* of TYPE_WHOLE */
	const struct field *not_before;	/* of TYPE_DATE, or NULL */
	const struct field *on;		/* of codes, or NULL */
	struct fields fields;		/* of TYPE_GROUP */
	const struct field *parent;	/* the group it stands in, or NULL */
	const struct kind *kind;
	struct span span;
	struct value *const *written;	/* as read; used while joining */
};

struct kind {
	const char *name;
	const char *title;
	const char *titles;
	const char *says;
	const char *called;		/* template of a record's name, or NULL */
	enum chapter chapter;
	bool page;
	struct fields fields;		/* its own, then those of every record */
	unsigned own_count;		/* how many are its own */
	unsigned index;			/* among the kinds, by name */
	struct span span;
};

struct schema {
	struct kind *kinds;		/* in byte order of their names */
	unsigned count;
	struct vocabulary *vocabularies;
	unsigned vocabulary_count;
};

/*
 * Reads the schema in `folder`. Never NULL; what is wrong with it is reported,
 * and then it must not be used further. Lives in `arena`.
 */
struct schema *
schema_load(const char *folder, struct sources *sources, struct arena *arena,
	struct diags *diags);

/* The kind of that name, or NULL. */
const struct kind *
schema_kind(const struct schema *schema, const char *name);

/* The field of that name, or NULL. */
const struct field *
fields_find(const struct fields *fields, const char *name);

/* Whether the field's items have addresses of their own: record.key. */
bool
field_is_keyed(const struct field *field);

/* What a person would call the type: "a whole number", "a date". */
const char *
type_title(enum type type);

#endif
