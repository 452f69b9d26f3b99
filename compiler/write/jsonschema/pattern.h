/*
 * Regular expressions, as JavaScript has them, for what the readers of shape/
 * take. For this folder alone.
 */
#ifndef WRITE_JSONSCHEMA_PATTERN_H
#define WRITE_JSONSCHEMA_PATTERN_H

#include <glib.h>

#include "shape/schema.h"

/*
 * What is not blank; such text without controls and marks that turn its
 * direction, of several lines; and of one line.
 */
extern const char pattern_filled[];
extern const char pattern_lines[];
extern const char pattern_text[];

/* An id, but not the word that an identity has, and a date of the calendar. */
extern const char pattern_id[];
extern const char pattern_date[];

/* Twelve or thirteen digits with blanks and hyphens among them. */
extern const char pattern_barcode[];

/* Digits, with at most four behind a point. */
extern const char pattern_amount[];

/* The digits of a whole number within the bounds of a field. */
void
pattern_whole(GString *out, const struct field *field);

/* A number and one of the field's units. */
void
pattern_quantity(GString *out, const struct field *field);

#endif
