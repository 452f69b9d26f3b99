/*
 * Writing CSV by RFC 4180: rows end in CR LF, fields are quoted where they
 * hold a comma, a quote or a line end.
 */
#ifndef BASE_CSV_H
#define BASE_CSV_H

#include <glib.h>
#include <stdio.h>

/*
 * Appends one field. Text that a spreadsheet would run as a formula, because
 * it begins with = + - @, a tab or a carriage return, or with the apostrophe
 * that stands for this, gets an apostrophe before it; taking one leading
 * apostrophe away gives the text back. Plain numbers stay as they are.
 */
void
csv_append_field(GString *out, const char *text);

/* Prints a row of fields; `fields` ends with NULL. */
void
csv_print_row(const char *const *fields, FILE *stream);

#endif
