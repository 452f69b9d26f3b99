/*
 * libcsv says what a cell holds and not where it stood. It is fed one byte at
 * a time, so that whatever it calls back for ends at that byte.
 */
#include "read/csv.h"

#include <csv.h>
#include <glib.h>
#include <string.h>

struct reading {
	const struct source *source;
	uint32_t file;
	struct arena *arena;
	struct diags *diags;
	uint32_t start;		/* the first byte of the cell being read */
	uint32_t at;
	GArray *cells;		/* of the row being read */
	GArray *rows;
	char between;
};

static bool
is_around(char c)
{
	return strchr(" \t\r\n", c) != NULL;
}

/*
 * What we export guards text that a spreadsheet would run as a formula by an
 * apostrophe (base/csv.h); it goes again here.
 */
static bool
is_guarded(const char *text, size_t size)
{
	return size > 1 && text[0] == '\'' &&
		strchr("=+-@\t\r'", text[1]) != NULL;
}

static struct span
trim(const char *bytes, struct span span)
{
	while (span.from < span.to && is_around(bytes[span.from]))
		span.from++;
	while (span.to > span.from && is_around(bytes[span.to - 1]))
		span.to--;
	return span;
}

/* Where a cell's text stands: blanks around it and quotes left out. */
static struct span
text_span(const struct reading *reading)
{
	const char *bytes = reading->source->bytes;
	struct span span = trim(bytes, (struct span){reading->file,
		reading->start, reading->at});

	if (span.to - span.from >= 2 && bytes[span.from] == '"' &&
		bytes[span.to - 1] == '"') {
		span.from++;
		span.to--;
		span = trim(bytes, span);
	}
	if (is_guarded(bytes + span.from, span.to - span.from))
		span.from++;
	return span;
}

static const char *
text_of(struct reading *reading, const char *text, size_t size)
{
	struct span span = trim(text, (struct span){0, 0, (uint32_t)size});

	if (is_guarded(text + span.from, span.to - span.from))
		span.from++;
	return arena_text(reading->arena, text + span.from,
		span.to - span.from);
}

static void
take_cell(void *text, size_t size, void *data)
{
	struct reading *reading = data;
	struct csv_cell cell;

	cell.text = text_of(reading, text == NULL ? "" : text, size);
	cell.span = text_span(reading);
	g_array_append_val(reading->cells, cell);
	reading->start = reading->at + 1;
}

static void
take_row(int end, void *data)
{
	struct reading *reading = data;
	GArray *cells = reading->cells;
	struct csv_cell *items = (struct csv_cell *)(void *)cells->data;
	struct csv_row row = {.count = cells->len};
	bool any = false;
	guint i;

	(void)end;
	for (i = 0; i < cells->len; i++)
		any = any || items[i].text[0] != '\0';
	if (any) {
		row.cells = arena_array(reading->arena, struct csv_cell,
			row.count);
		memcpy(row.cells, items, sizeof(*items) * row.count);
		row.span = (struct span){reading->file, items[0].span.from,
			items[row.count - 1].span.to};
		g_array_append_val(reading->rows, row);
	}
	g_array_set_size(cells, 0);
}

/* Passes a byte order mark, and the first line of some spreadsheets, sep=;. */
static uint32_t
find_start(struct reading *reading)
{
	const char *bytes = reading->source->bytes;
	uint32_t at = strncmp(bytes, "\xEF\xBB\xBF", 3) == 0 ? 3 : 0;

	if (g_ascii_strncasecmp(bytes + at, "sep=", 4) == 0 &&
		bytes[at + 4] != '\0' &&
		strchr("\r\n", bytes[at + 5]) != NULL) {
		reading->between = bytes[at + 4];
		at += 5;
	}
	return at;
}

/* The commonest of the candidates in the first row, outside of quotes. */
static char
find_between(const char *bytes)
{
	static const char candidates[] = ",;\t";
	unsigned counts[3] = {0, 0, 0}, best = 0, i;
	const char *found;
	bool quoted = false;

	bytes += strspn(bytes, "\r\n");
	for (; *bytes != '\0' && (quoted || strchr("\r\n", *bytes) == NULL);
		bytes++) {
		quoted ^= *bytes == '"';
		found = quoted ? NULL : strchr(candidates, *bytes);
		if (found != NULL)
			counts[found - candidates]++;
	}
	for (i = 1; i < 3; i++)
		if (counts[i] > counts[best])
			best = i;
	return candidates[best];
}

static bool
check_bytes(struct reading *reading)
{
	const struct source *source = reading->source;
	struct span span = {reading->file, 0, 0};
	struct diag *diag;
	const char *bad;

	if (g_utf8_validate_len(source->bytes, source->size, &bad))
		return true;
	span.from = (uint32_t)(bad - source->bytes);
	span.to = span.from + 1;
	diag = diag_report(reading->diags, DIAG_NOT_UTF8, span,
		"the spreadsheet is not UTF-8 text: byte 0x%02X cannot stand "
		"here", (unsigned char)*bad);
	diag_help(diag, "save it as \"CSV UTF-8\", or choose the character "
		"set Unicode (UTF-8) when saving");
	return false;
}

static bool
report_syntax(struct reading *reading)
{
	uint32_t at = MIN(reading->at, reading->source->size);
	bool ended = at == reading->source->size;
	struct span span = {reading->file, at, at + 1};
	struct diag *diag;

	if (ended)
		span = (struct span){reading->file, reading->start,
			reading->start + 1};
	diag = diag_report(reading->diags, DIAG_BAD_TABLE, span, ended ?
		"a quote opens here and is never closed" :
		"a quote stands in the middle of a cell");
	diag_help(diag, "a cell with quotes in it stands in quotes, and each "
		"of them is doubled: \"a \"\"good\"\" card\"; spreadsheets "
		"do that when they save CSV");
	return false;
}

static bool
parse(struct reading *reading, struct csv_parser *parser)
{
	const struct source *source = reading->source;

	for (; reading->at < source->size; reading->at++)
		if (csv_parse(parser, source->bytes + reading->at, 1,
			take_cell, take_row, reading) != 1)
			return report_syntax(reading);
	if (csv_fini(parser, take_cell, take_row, reading) != 0)
		return report_syntax(reading);
	return true;
}

static struct csv_table *
gather(struct reading *reading)
{
	struct csv_table *table = arena_one(reading->arena, struct csv_table);

	table->between = reading->between;
	table->count = reading->rows->len;
	table->rows = arena_array(reading->arena, struct csv_row,
		table->count);
	if (table->count > 0)
		memcpy(table->rows, reading->rows->data,
			sizeof(*table->rows) * table->count);
	return table;
}

struct csv_table *
read_csv(const struct sources *sources, uint32_t file, struct arena *arena,
	struct diags *diags)
{
	struct reading reading = {
		.source = sources_get(sources, file),
		.file = file,
		.arena = arena,
		.diags = diags,
	};
	struct csv_table *table = NULL;
	struct csv_parser parser;

	if (!check_bytes(&reading))
		return NULL;
	reading.cells = g_array_new(FALSE, FALSE, sizeof(struct csv_cell));
	reading.rows = g_array_new(FALSE, FALSE, sizeof(struct csv_row));
	reading.at = reading.start = find_start(&reading);
	if (reading.between == '\0')
		reading.between = find_between(reading.source->bytes +
			reading.at);
	if (csv_init(&parser, CSV_STRICT | CSV_STRICT_FINI) != 0)
		g_error("out of memory");
	csv_set_delim(&parser, (unsigned char)reading.between);
	if (parse(&reading, &parser))
		table = gather(&reading);
	csv_free(&parser);
	g_array_free(reading.cells, TRUE);
	g_array_free(reading.rows, TRUE);
	return table;
}
