/*
 * Values as plain text for people: in tables, dumps, lists and search.
 */
#ifndef MODEL_TEXT_H
#define MODEL_TEXT_H

#include <glib.h>

#include "model/model.h"

/*
 * Appends the value: references by the name of their record, words by their
 * title, lists with "; " between, groups with ", ", prose without markup.
 */
void
value_append_text(const struct value *value, GString *out);

/* The same with dates in words, for names and sentences. */
void
value_append_words(const struct value *value, GString *out);

/*
 * Appends the value as it would be written in a record: references by id,
 * words as themselves; lists with ";" between. For tables that are read again.
 */
void
value_append_code(const struct value *value, GString *out);

/* Appends the id a reference is written by: id, or id.key. */
void
reference_append_code(const struct reference *reference, GString *out);

/* Appends the name of what a reference leads to. */
void
reference_append_text(const struct reference *reference, GString *out);

/* A date in words: 5 November 1983, November 1983, 1983; "" for NULL. */
const char *
date_words(const struct date *date, struct arena *arena);

/* The name of a month from 1. */
const char *
month_name(int month);

#endif
