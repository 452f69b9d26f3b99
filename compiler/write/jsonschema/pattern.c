/*
 * The constant ones, and those that follow from a field's bounds or units.
 */
#include "write/jsonschema/pattern.h"

#include <inttypes.h>
#include <string.h>

#define UNPRINTABLE \
	"\\u0000-\\u0008\\u000b-\\u001f\\u007f-\\u009f\\u202a-\\u202e" \
	"\\u2066-\\u2069\\ufeff\\ufffe\\uffff" \
	"\\u{1fffe}\\u{1ffff}\\u{2fffe}\\u{2ffff}\\u{3fffe}\\u{3ffff}" \
	"\\u{4fffe}\\u{4ffff}\\u{5fffe}\\u{5ffff}\\u{6fffe}\\u{6ffff}" \
	"\\u{7fffe}\\u{7ffff}\\u{8fffe}\\u{8ffff}\\u{9fffe}\\u{9ffff}" \
	"\\u{afffe}\\u{affff}\\u{bfffe}\\u{bffff}\\u{cfffe}\\u{cffff}" \
	"\\u{dfffe}\\u{dffff}\\u{efffe}\\u{effff}\\u{ffffe}\\u{fffff}" \
	"\\u{10fffe}\\u{10ffff}"

/* Blanks and line breaks at the end are nothing, and no text is all blanks. */
const char pattern_filled[] = "[^ \\t\\r\\n]";
const char pattern_lines[] = "^[ \\t\\n]*[^ \\t\\n" UNPRINTABLE "]"
	"[^" UNPRINTABLE "]*$";
const char pattern_text[] = "^[ \\t]*[^ \\t\\n" UNPRINTABLE "]"
	"[^\\n" UNPRINTABLE "]*[ \\t\\n]*$";

const char pattern_id[] = "^(?!unknown$)[a-z0-9]([a-z0-9-]*[a-z0-9])?$";

/* Gregorian: a leap year divides by 4 but not by 100, or by 400. */
const char pattern_date[] = "^(?!0000)([0-9]{4}"
	"(-(0[1-9]|1[0-2])|-(0[13578]|1[02])-(0[1-9]|[12][0-9]|3[01])"
	"|-(0[469]|11)-(0[1-9]|[12][0-9]|30)"
	"|-02-(0[1-9]|1[0-9]|2[0-8]))?"
	"|([0-9]{2}(0[48]|[2468][048]|[13579][26])"
	"|(0[48]|[2468][048]|[13579][26])00)-02-29)$";

const char pattern_barcode[] = "^[ -]*([0-9][ -]*){12,13}$";
const char pattern_amount[] = "^[0-9]{1,12}(\\.[0-9]{1,4})?$";

static void
append_digit(GString *out, char from, char to)
{
	if (from == to)
		g_string_append_c(out, from);
	else
		g_string_append_printf(out, "[%c-%c]", from, to);
}

static void
append_any(GString *out, size_t digits)
{
	if (digits > 0)
		g_string_append_printf(out, "[0-9]{%zu}", digits);
}

/* Numbers of as many digits as `low` has, from it up to `high`. */
static void
append_between(GString *out, const char *low, const char *high)
{
	size_t size = strlen(low), same = 0, i;
	const char *bound;

	while (same < size && low[same] == high[same])
		same++;
	if (same == size) {
		g_string_append(out, low);
		return;
	}
	g_string_append_len(out, low, (gssize)same);
	g_string_append_c(out, '(');
	/* Beyond the first digit that differs: as low, between, as high. */
	for (i = size; i-- > same + 1;) {
		if (low[i] == '9')
			continue;
		g_string_append_len(out, low + same, (gssize)(i - same));
		append_digit(out, (char)(low[i] + 1), '9');
		append_any(out, size - i - 1);
		g_string_append_c(out, '|');
	}
	g_string_append_printf(out, "%s|", low + same);
	if (high[same] - low[same] > 1) {
		append_digit(out, (char)(low[same] + 1),
			(char)(high[same] - 1));
		append_any(out, size - same - 1);
		g_string_append_c(out, '|');
	}
	for (i = same + 1; i < size; i++) {
		if (high[i] == '0')
			continue;
		g_string_append_len(out, high + same, (gssize)(i - same));
		append_digit(out, '0', (char)(high[i] - 1));
		append_any(out, size - i - 1);
		g_string_append_c(out, '|');
	}
	bound = high + same;
	g_string_append_printf(out, "%s)", bound);
}

/* Non-negative numbers from `least` up to `most`, which may be the largest. */
static void
append_range(GString *out, int64_t least, int64_t most)
{
	char *low = g_strdup_printf("%" PRId64, least);
	char *high = g_strdup_printf("%" PRId64, most);
	size_t size = strlen(low), digits = strlen(high);

	if (size == digits)
		append_between(out, low, high);
	else {
		char *nines = g_strnfill(size, '9');

		append_between(out, low, nines);
		g_free(nines);
		if (size + 1 < digits)
			g_string_append_printf(out, "|[1-9][0-9]{%zu,%zu}",
				size, digits - 2);
		g_string_append_c(out, '|');
		g_free(low);
		low = g_strnfill(digits, '0');
		low[0] = '1';
		append_between(out, low, high);
	}
	g_free(low);
	g_free(high);
}

/* "-" and the magnitudes from `low` up to that of the least, one past `below`. */
static void
append_negative(GString *out, int64_t low, int64_t below)
{
	g_string_append(out, "-(");
	if (low <= below) {
		append_range(out, low, below);
		g_string_append_c(out, '|');
	}
	g_string_append_printf(out, "%" PRIu64 ")", (uint64_t)below + 1);
}

void
pattern_whole(GString *out, const struct field *field)
{
	g_string_append(out, "^(");
	if (field->least < 0) {
		append_negative(out, field->most < 0 ? -field->most : 1,
			-(field->least + 1));
		if (field->most >= 0)
			g_string_append_c(out, '|');
	}
	if (field->most >= 0)
		append_range(out, MAX(field->least, 0), field->most);
	g_string_append(out, ")$");
}

void
pattern_quantity(GString *out, const struct field *field)
{
	unsigned i;

	g_string_append(out, "^([0-9]+([.][0-9]*)?|[.][0-9]+) *(");
	for (i = 0; i < field->unit_count; i++) {
		char *unit = g_regex_escape_string(field->units[i], -1);

		g_string_append_printf(out, "%s%s", i == 0 ? "" : "|", unit);
		g_free(unit);
	}
	g_string_append(out, ")$");
}
