/*
 * How a text is written in YAML: without quotes where that reads the same, in
 * quotes where it would not, as a folded block where it is too long for its
 * line, as a literal block where it has lines of its own. Whoever writes YAML,
 * writes texts by these functions.
 */
#ifndef WRITE_TIDY_SCALAR_H
#define WRITE_TIDY_SCALAR_H

#include <glib.h>
#include <stdbool.h>

#include "read/node.h"

/* Columns of a line, and by how much what belongs to a line is indented. */
enum { TIDY_WIDTH = 80, TIDY_INDENT = 2 };

/* Inside brackets and braces, fewer characters may stand without quotes. */
enum tidy_place { TIDY_BLOCK, TIDY_FLOW };

/* Whether the text can stand without quotes. */
bool
tidy_is_plain(const char *text, enum tidy_place place);

/* Appends the text on one line, in quotes if it needs them. */
void
tidy_append_line(GString *out, const char *text, enum tidy_place place);

/*
 * Appends the text as the value of a key or item whose line is indented by
 * `indent` columns and holds all up to the blank before the value, at
 * `column`; `remark` is a comment to put behind, or NULL. Ends the last line.
 * Literal text keeps its lines, and folded text stays folded, however long or
 * short they are. Returns false where blank lines after it would belong to it.
 */
bool
tidy_append_text(GString *out, const char *text, enum scalar_style style,
	int indent, int column, const char *remark);

/* Columns that a text takes on a terminal. */
int
tidy_columns(const char *text);

#endif
