/*
 * CSV fields and rows.
 */
#include "base/csv.h"

#include <stdbool.h>
#include <string.h>

/* A sign, digits and at most one point: safe in any spreadsheet. */
static bool
is_number(const char *text)
{
	size_t digits, more;

	if (*text == '-' || *text == '+')
		text++;
	digits = strspn(text, "0123456789");
	if (digits == 0)
		return false;
	text += digits;
	if (*text != '.')
		return *text == '\0';
	more = strspn(text + 1, "0123456789");
	return more > 0 && text[1 + more] == '\0';
}

void
csv_append_field(GString *out, const char *text)
{
	bool guarded = *text != '\0' && strchr("=+-@\t\r'", *text) != NULL &&
		!is_number(text);
	bool quoted = strpbrk(text, ",\"\r\n") != NULL;

	if (quoted)
		g_string_append_c(out, '"');
	if (guarded)
		g_string_append_c(out, '\'');
	for (; *text != '\0'; text++) {
		if (*text == '"')
			g_string_append_c(out, '"');
		g_string_append_c(out, *text);
	}
	if (quoted)
		g_string_append_c(out, '"');
}

void
csv_print_row(const char *const *fields, FILE *stream)
{
	GString *row = g_string_new(NULL);
	size_t i;

	for (i = 0; fields[i] != NULL; i++) {
		if (i > 0)
			g_string_append_c(row, ',');
		csv_append_field(row, fields[i]);
	}
	g_string_append(row, "\r\n");
	fwrite(row->str, 1, row->len, stream);
	g_string_free(row, TRUE);
}
