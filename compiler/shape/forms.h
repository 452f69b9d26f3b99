/*
 * Other ways to write a value, and what is meant by them: the forms that
 * people and spreadsheets use where a record has one form alone. Each function
 * gives the value as a record has it, or NULL where more than one reading is
 * possible, and sets *sure.
 */
#ifndef SHAPE_FORMS_H
#define SHAPE_FORMS_H

#include "base/arena.h"
#include "diag/diag.h"
#include "shape/schema.h"

/* 11.1983, 1983/11, Nov 1983, 5 November 1983, 13/11/1983, ... */
const char *
forms_date(struct arena *arena, const char *text, enum confidence *sure);

/* true, Yes, on, ... */
const char *
forms_yesno(struct arena *arena, const char *text, enum confidence *sure);

/* +18, 018, 18.0, 1,800 */
const char *
forms_whole(struct arena *arena, const char *text, enum confidence *sure);

/* £12.50, 12,50, 1,250.00, EUR 12 */
const char *
forms_amount(struct arena *arena, const char *text, enum confidence *sure);

/* 153 MM, 15,3 cm, 6", 6 inches; never one without a unit. */
const char *
forms_quantity(struct arena *arena, const struct field *field,
	const char *text, enum confidence *sure);

/* The letters, digits and hyphens of what should be an id. */
const char *
forms_id(struct arena *arena, const char *text, enum confidence *sure);

/* A barcode of which a spreadsheet dropped the leading zero. */
const char *
forms_barcode(struct arena *arena, const char *text, enum confidence *sure);

/* The text without blanks of any sort around it. */
const char *
forms_trimmed(struct arena *arena, const char *text);

#endif
