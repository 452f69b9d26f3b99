/*
 * libcsv reads a row at a time, strictly. Where it stumbles, the line on which
 * the row began is kept as it stands, and reading goes on with the next line:
 * a quote that is never closed would otherwise swallow all that follows.
 */
#include "read/sheet.h"

#include <csv.h>
#include <stdbool.h>
#include <stdint.h>
#include <string.h>

struct reading {
	const GString *text;
	struct arena *arena;
	GPtrArray *cells;	/* of the row being read */
	GArray *rows;
	const char *between;	/* a text of one byte */
	bool ended;		/* the row is complete */
};

static const char no_delimiter[] = "\x1f";

static char *
take_text(struct arena *arena, const char *text, size_t size)
{
	/* The guard of base/csv.h. */
	if (size > 1 && text[0] == '\'' &&
		strchr("=+-@\t\r'", text[1]) != NULL) {
		text++;
		size--;
	}
	return arena_text(arena, text, size);
}

static void
take_cell(void *text, size_t size, void *data)
{
	struct reading *reading = data;

	g_ptr_array_add(reading->cells, take_text(reading->arena,
		text == NULL ? "" : text, size));
}

static void
take_row(int end, void *data)
{
	struct reading *reading = data;

	(void)end;
	reading->ended = true;
}

static void
keep_row(struct reading *reading, unsigned line, const char *wrong)
{
	struct sheet_row row = {
		.count = reading->cells->len,
		.line = line,
		.wrong = wrong,
	};

	row.cells = arena_array(reading->arena, char *, row.count + 1);
	if (row.count > 0)
		memcpy(row.cells, reading->cells->pdata,
			sizeof(*row.cells) * row.count);
	g_array_append_val(reading->rows, row);
	g_ptr_array_set_size(reading->cells, 0);
}

static size_t
line_end(const GString *text, size_t from)
{
	return from + strcspn(text->str + from, "\r\n");
}

/* The byte behind a line's end, be it LF, CR or both. */
static size_t
next_line(const GString *text, size_t from)
{
	size_t at = line_end(text, from);

	if (text->str[at] == '\r' && text->str[at + 1] == '\n')
		return at + 2;
	return text->str[at] == '\0' ? at : at + 1;
}

static int
nothing_is_blank(unsigned char c)
{
	(void)c;
	return 0;
}

/*
 * Reads one row that begins at `from`; returns the byte behind it, or 0 where
 * it can't be taken apart. Blanks are part of a cell, or else, with `blanks`,
 * may stand before and behind quotes.
 */
static size_t
parse_row(struct reading *reading, size_t from, bool blanks)
{
	struct csv_parser parser;
	size_t at = from;
	bool good = true;

	if (csv_init(&parser, CSV_STRICT | CSV_STRICT_FINI) != 0)
		g_error("out of memory");
	csv_set_delim(&parser, (unsigned char)reading->between[0]);
	if (!blanks)
		csv_set_space_func(&parser, nothing_is_blank);
	reading->ended = false;
	while (good && !reading->ended && at < reading->text->len) {
		good = csv_parse(&parser, reading->text->str + at, 1,
			take_cell, take_row, reading) == 1;
		at++;
	}
	if (good && !reading->ended)
		good = csv_fini(&parser, take_cell, take_row, reading) == 0;
	csv_free(&parser);
	if (!good)
		return 0;
	if (at < reading->text->len && reading->text->str[at - 1] == '\r' &&
		reading->text->str[at] == '\n')
		at++;
	return at;
}

static unsigned
count_lines(const GString *text, size_t from, size_t to)
{
	unsigned lines = 0;

	while (from < to) {
		from = next_line(text, from);
		lines++;
	}
	return lines;
}

static bool
holds_strange(const GPtrArray *cells)
{
	guint i;

	for (i = 0; i < cells->len; i++)
		if (strstr(g_ptr_array_index(cells, i), "\xEF\xBF\xBD") !=
			NULL)
			return true;
	return false;
}

/* Takes a line apart whose cells hold quotes, but begin with none. */
static size_t
split_line(struct reading *reading, size_t from)
{
	const char *bytes = reading->text->str;
	size_t end = line_end(reading->text, from), size;
	size_t at;

	for (at = from; at < end; at += size + 1) {
		size = strcspn(bytes + at, reading->between);
		if (bytes[at + strspn(bytes + at, " ")] == '"')
			return 0;
	}
	for (at = from; at <= end; at += size + 1) {
		size = MIN(strcspn(bytes + at, reading->between), end - at);
		take_cell((char *)(uintptr_t)(bytes + at), size, reading);
	}
	return next_line(reading->text, from);
}

/* The byte behind the row at `from`, by whatever way; 0 where there is none. */
static size_t
take_apart(struct reading *reading, size_t from)
{
	size_t after = parse_row(reading, from, false);

	if (after != 0)
		return after;
	g_ptr_array_set_size(reading->cells, 0);
	after = parse_row(reading, from, true);
	if (after != 0)
		return after;
	g_ptr_array_set_size(reading->cells, 0);
	return split_line(reading, from);
}

static void
read_rows(struct reading *reading, size_t at)
{
	const GString *text = reading->text;
	unsigned line = 1 + count_lines(text, 0, at);

	while (at < text->len) {
		size_t after;

		if (text->str[at] == '\r' || text->str[at] == '\n') {
			at = next_line(text, at);
			line++;
			continue;
		}
		after = take_apart(reading, at);
		if (after == 0) {
			g_ptr_array_set_size(reading->cells, 0);
			take_cell((char *)(uintptr_t)(text->str + at),
				line_end(text, at) - at, reading);
			keep_row(reading, line, "a quote in it is never "
				"closed, or stands in the middle of a cell");
			after = next_line(text, at);
		} else {
			keep_row(reading, line, holds_strange(reading->cells) ?
				"a character in it could not be read" : NULL);
		}
		line += count_lines(text, at, after);
		at = after;
	}
}

/* How often a byte stands outside of quotes in the line at `from`. */
static unsigned
count_in_line(const GString *text, size_t from, char wanted)
{
	size_t end = line_end(text, from), i;
	bool quoted = false;
	unsigned count = 0;

	for (i = from; i < end; i++) {
		quoted ^= text->str[i] == '"';
		count += !quoted && text->str[i] == wanted;
	}
	return count;
}

/*
 * What stands between cells is in the line of headings, and as often in most
 * of the lines below it.
 */
static const char *
find_between(const GString *text, size_t from)
{
	static const char *const all[] = {",", ";", "\t", "|"};
	enum { LOOKED_AT = 50 };
	const char *best = no_delimiter;
	unsigned i, j, most = 0;

	from += strspn(text->str + from, "\r\n");
	for (i = 0; i < G_N_ELEMENTS(all); i++) {
		unsigned count = count_in_line(text, from, all[i][0]);
		unsigned fits = count;
		size_t at = from;

		for (j = 0; count > 0 && j < LOOKED_AT; j++) {
			at = next_line(text, at);
			if (at >= text->len)
				break;
			fits += 10 * (count_in_line(text, at, all[i][0]) ==
				count);
		}
		if (fits > most) {
			most = fits;
			best = all[i];
		}
	}
	return best;
}

/* The first line of some spreadsheets says it: sep=; */
static size_t
find_start(struct reading *reading)
{
	const GString *text = reading->text;
	static const char known[] = ",;\t|";
	static const char *const texts[] = {",", ";", "\t", "|"};
	const char *found;

	if (g_ascii_strncasecmp(text->str, "sep=", 4) != 0 ||
		text->len < 6 || strchr("\r\n", text->str[5]) == NULL)
		return 0;
	found = strchr(known, text->str[4]);
	if (found == NULL)
		return 0;
	reading->between = texts[found - known];
	return next_line(text, 0);
}

struct sheet *
sheet_read(const char *bytes, size_t size, struct arena *arena)
{
	struct sheet *sheet = arena_one(arena, struct sheet);
	GString *text = decode_text(bytes, size, &sheet->encoding);
	struct reading reading = {
		.text = text,
		.arena = arena,
		.cells = g_ptr_array_new(),
		.rows = g_array_new(FALSE, FALSE, sizeof(struct sheet_row)),
	};
	size_t start = find_start(&reading);

	if (reading.between == NULL)
		reading.between = find_between(text, start);
	read_rows(&reading, start);
	if (reading.between != no_delimiter)
		sheet->between = reading.between[0];
	sheet->count = reading.rows->len;
	sheet->rows = arena_array(arena, struct sheet_row, sheet->count);
	if (sheet->count > 0)
		memcpy(sheet->rows, reading.rows->data,
			sizeof(*sheet->rows) * sheet->count);
	g_ptr_array_free(reading.cells, TRUE);
	g_array_free(reading.rows, TRUE);
	g_string_free(text, TRUE);
	return sheet;
}
