/*
 * The model: what the corpus means. Records by kind in the order people read
 * them, each with the name it is called by and with everything that points at
 * it. Immutable once made; every later stage and every writer reads it.
 */
#ifndef MODEL_MODEL_H
#define MODEL_MODEL_H

#include "link/link.h"

enum field_name {
#define FIELD(name, kind, path, type) FIELD_##name##_,
#define LIST FIELD
#include "model/fields.h"
#undef LIST
#undef FIELD
	FIELD_NAME_COUNT
};

/* The name of a field that the compiler knows: NAME(CARDBACK_NUMBER). */
#define NAME(name) FIELD_##name##_

/* Records of one kind, ordered by name (Unicode root order), then by id. */
struct record_list {
	const struct record **items;
	unsigned count;
};

/* A reference seen from its target: who points, and by which field. */
struct pointer {
	const struct record *from;
	const struct field *field;	/* of the reference itself */
	const struct value *item;	/* the keyed item it stands in, or NULL */
	bool certain;			/* false: one of several, or not this */
};

struct pointer_list {
	const struct pointer *items;	/* by kind, then order, then field */
	size_t count;
};

struct model;

/*
 * Makes the model of linked records. `arena`, `schema`, `sources` and `names`
 * must outlive it; free it with model_free. Fields that the schema lacks are
 * reported, and then the model must not be used.
 */
struct model *
model_make(const struct records *records, const struct raw_corpus *corpus,
	const struct schema *schema, const struct names *names,
	const struct sources *sources, struct arena *arena,
	struct diags *diags);

/*
 * Gives records that are no part of a model (holdings) their names, as
 * model_make does for those that are.
 */
void
model_name_records(const struct records *records, struct arena *arena);

/* NULL is allowed. What came from the arena stays. */
void
model_free(struct model *model);

const struct schema *
model_schema(const struct model *model);

const struct names *
model_names(const struct model *model);

const struct sources *
model_sources(const struct model *model);

/* What corpus.yaml calls the corpus; never NULL. */
const char *
model_title(const struct model *model);

/* SHA-256 of the files of schema and corpus, in hexadecimal. */
const char *
model_digest(const struct model *model);

/* All records of a kind, in order. */
struct record_list
model_records(const struct model *model, const struct kind *kind);

/* The same for a kind by its name; empty if the schema has no such kind. */
struct record_list
model_records_of(const struct model *model, const char *kind);

/* Everything that points at a record, in fields (not in prose). */
struct pointer_list
model_pointing(const struct model *model, const struct record *record);

/* The schema's field behind a known name. */
const struct field *
model_field(const struct model *model, enum field_name name);

/*
 * The value of a known field among the values of a record (record->values) or
 * of a group (value->group) of the kind and path that the name says. NULL where
 * absent.
 */
const struct value *
model_get(const struct model *model, struct value *const *values,
	enum field_name name);

/* The same for a field that every record may carry, whatever its kind. */
const struct value *
model_get_every(const struct model *model, const struct record *record,
	enum field_name name);

/* As model_get, for single values of one type; with what stands for absent. */
const char *
model_text(const struct model *model, struct value *const *values,
	enum field_name name);		/* text-like types; NULL */
const struct record *
model_record(const struct model *model, struct value *const *values,
	enum field_name name);		/* references; NULL */
const char *
model_word(const struct model *model, struct value *const *values,
	enum field_name name);		/* the word itself; NULL */
const struct date *
model_date(const struct model *model, struct value *const *values,
	enum field_name name);		/* NULL */
int64_t
model_whole(const struct model *model, struct value *const *values,
	enum field_name name, int64_t absent);
bool
model_yes(const struct model *model, struct value *const *values,
	enum field_name name);		/* false */

/* How many items a list has; 0 for NULL. */
unsigned
value_count(const struct value *list);

/* Item `i` of a list. */
const struct value *
value_item(const struct value *list, unsigned i);

/* Whether what is so concluded (a word, or NULL) may exist at all. */
bool
model_may_exist(const char *concluded);

/*
 * Whether an identity allows `record`: certainly (known to be it), possibly
 * (unknown, one of several with it among them, or not among those excluded),
 * or not at all. NULL stands for unknown.
 */
enum allows { ALLOWS_NOT, ALLOWS_POSSIBLY, ALLOWS_CERTAINLY };
enum allows
identity_allows(const struct value *identity, const struct record *record);

#endif
