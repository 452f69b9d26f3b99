/*
 * The schema of the schema, so that schema files are checked by the same code
 * and with the same messages as records.
 */
#ifndef SHAPE_META_H
#define SHAPE_META_H

#include "shape/schema.h"

/* Fields of a kind's file, and their places. */
enum {
	KIND_KIND, KIND_TITLE, KIND_TITLES, KIND_SAYS, KIND_CHAPTER,
	KIND_CALLED, KIND_PAGE, KIND_FIELDS, KIND_COUNT
};

/* Fields of a field. */
enum {
	FIELD_NAME, FIELD_TITLE, FIELD_SAYS, FIELD_TYPE, FIELD_MANY,
	FIELD_REQUIRED, FIELD_UNIQUE, FIELD_DEFAULT, FIELD_SHOW, FIELD_SEARCH,
	FIELD_EXPORT, FIELD_VOCABULARY, FIELD_TO, FIELD_UNITS, FIELD_LEAST,
	FIELD_MOST, FIELD_NOT_BEFORE, FIELD_ON, FIELD_FIELDS, FIELD_COUNT
};

/* Fields of a vocabulary and of its words. */
enum { VOCABULARY_NAME, VOCABULARY_WORDS, VOCABULARY_COUNT };
enum { WORD_WORD, WORD_TITLE, WORD_SAYS, WORD_COUNT };

extern const struct fields meta_kind_fields;
extern const struct fields meta_vocabulary_fields;

#endif
