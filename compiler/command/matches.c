/*
 * Columns and rows of a spreadsheet, matched.
 */
#include "command/matches.h"

#include <string.h>

#include "base/csv.h"
#include "match/status.h"

/* Below this confidence nothing is put into an open row's own fields. */
#define LIKELY 0.15

const char *const added_headings[ADDED_COUNT] = {
	[ADDED_NAME] = "name",
	[ADDED_FORM] = "form",
	[ADDED_STATUS] = "status",
	[ADDED_CHARACTER] = "character",
	[ADDED_CARDBACK] = "cardback",
	[ADDED_BLISTER] = "blister",
	[ADDED_VARIANT] = "variant",
	[ADDED_PACKAGE] = "package",
	[ADDED_PREPRODUCTION] = "preproduction",
	[ADDED_ACCESSORY] = "accessories.accessory",
	[ADDED_STICKER] = "stickers",
	[ADDED_STATE] = "[match state]",
	[ADDED_ID] = "[match id]",
	[ADDED_KIND] = "[match kind]",
	[ADDED_CONFIDENCE] = "[match confidence]",
	[ADDED_CANDIDATES] = "[match candidates]",
	[ADDED_REASON] = "[match reason]",
	[ADDED_QUESTION] = "[match question]",
	[ADDED_CHECK] = "[match check]",
};

const char *const row_states[ROW_STATES] = {
	[ROW_OPEN] = "open",
	[ROW_SETTLED] = "settled",
	[ROW_REFUSED] = "refused",
};

static const char by_hand[] = MATCHES_BY_HAND;

static bool
is_blank(const char *text)
{
	return text[strspn(text, " \t\r\n")] == '\0';
}

/* Where our columns are: all of them, or it is no file of ours. */
static bool
find_added(const struct sheet_row *row, int *places)
{
	unsigned i, j, found = 0;

	for (i = 0; i < ADDED_COUNT; i++) {
		places[i] = -1;
		/* The last of a name is ours. */
		for (j = row->count; j > 0 && places[i] < 0; j--)
			if (strcmp(row->cells[j - 1], added_headings[i]) == 0)
				places[i] = (int)j - 1;
		found += places[i] >= 0;
	}
	return found == ADDED_COUNT;
}

static bool
is_added(const struct matches *matches, unsigned column)
{
	unsigned i;

	for (i = 0; i < ADDED_COUNT; i++)
		if (matches->added[i] == (int)column)
			return true;
	return false;
}

/* How many columns the widest row has: what lacks a heading is one too. */
static unsigned
widest(const struct sheet *sheet)
{
	unsigned most = 0, i;

	for (i = 0; i < sheet->count; i++)
		most = MAX(most, sheet->rows[i].count);
	return most;
}

/* How many headings of a row say something. */
static unsigned
count_known(const struct matches *matches, const struct sheet_row *row)
{
	unsigned count = 0, i;
	bool known;

	for (i = 0; i < row->count; i++) {
		matcher_heading(matches->matcher, row->cells[i], &known);
		count += known;
	}
	return count;
}

/*
 * The first row is one of headings, unless none of its cells is a heading and
 * it names something of the guide. A title may stand above the headings.
 */
static void
find_headings(struct matches *matches)
{
	enum { LOOKED_AT = 5 };
	const struct sheet *sheet = matches->sheet;
	struct match_cell *cells;
	unsigned i, best = 0, most = 0;

	if (sheet->count == 0)
		return;
	for (i = 0; i < sheet->count && i < LOOKED_AT; i++) {
		unsigned known = count_known(matches, &sheet->rows[i]);

		if (known > most + 1 || (i == 0 && known > 0)) {
			most = known;
			best = i;
		}
	}
	cells = arena_array(matches->arena, struct match_cell,
		sheet->rows[0].count);
	for (i = 0; i < sheet->rows[0].count; i++)
		cells[i].text = sheet->rows[0].cells[i];
	if (most == 0 && matcher_knows(matches->matcher, cells,
		sheet->rows[0].count))
		return;
	matches->headings = &sheet->rows[best];
	matches->first = best + 1;
	matches->resolved = find_added(matches->headings, matches->added);
}

/* A heading in the brackets that we put around it. */
static char *
bare_heading(const char *heading)
{
	size_t size = strlen(heading);

	if (size >= 2 && heading[0] == '[' && heading[size - 1] == ']')
		return g_strndup(heading + 1, size - 2);
	return g_strdup(heading);
}

static void
find_columns(struct matches *matches)
{
	unsigned count = widest(matches->sheet), i;

	matches->places = arena_array(matches->arena, unsigned, count + 1);
	matches->roles = arena_array(matches->arena, enum column_role,
		count + 1);
	matches->plain = arena_array(matches->arena, bool, count + 1);
	for (i = 0; i < count; i++) {
		char *heading;
		bool known = false;

		if (matches->resolved && is_added(matches, i))
			continue;
		heading = matches->headings != NULL &&
			i < matches->headings->count ? bare_heading(
			matches->headings->cells[i]) : g_strdup("");
		matches->places[matches->own] = i;
		if (matches->matcher != NULL)
			matches->roles[matches->own] = matcher_heading(
				matches->matcher, heading, &known);
		matches->plain[matches->own++] = !known;
		g_free(heading);
	}
}

static const char *
cell_at(const struct sheet_row *row, unsigned place)
{
	return place < row->count ? row->cells[place] : "";
}

/* A number, a price or nothing, under a heading that says nothing. */
static bool
is_figure(const char *text)
{
	bool any = false;

	for (; *text != '\0'; text = g_utf8_next_char(text)) {
		gunichar c = g_utf8_get_char(text);

		any |= g_unichar_isdigit(c);
		if (!g_unichar_isdigit(c) && g_unichar_type(c) !=
			G_UNICODE_CURRENCY_SYMBOL && (c > 0x7f ||
			strchr(" .,-+/:", (int)c) == NULL))
			return false;
	}
	return any;
}

const char *
matches_text(const struct matches *matches, const struct match_row *row)
{
	enum { LONGEST = 60 };
	GString *out = g_string_new(NULL);
	const char *kept;
	unsigned i;

	for (i = 0; i < matches->own; i++) {
		const char *cell = cell_at(row->source, row->source->wrong !=
			NULL && row->source->count == 1 ? i :
			matches->places[i]);

		if (is_blank(cell) || (row->source->wrong == NULL &&
			(matches->roles[i] == COLUMN_PASSED ||
			(matches->plain[i] && is_figure(cell)))))
			continue;
		g_string_append_printf(out, "%s%s", out->len == 0 ? "" : ", ",
			cell);
	}
	g_strdelimit(out->str, "\r\n\t", ' ');
	if (g_utf8_strlen(out->str, -1) > LONGEST) {
		g_string_truncate(out, (gsize)(g_utf8_offset_to_pointer(
			out->str, LONGEST) - out->str));
		g_string_append(out, "…");
	}
	if (out->len == 0)
		g_string_printf(out, "row on line %u", row->source->line);
	kept = arena_text(matches->arena, out->str, out->len);
	g_string_free(out, TRUE);
	return kept;
}

/* The check of a row: FNV-1a over its cells, each ended by a zero. */
static const char *
check_row(const struct matches *matches, const struct match_row *row)
{
	uint32_t hash = 2166136261u;
	const char *text;
	unsigned i;

	for (i = 0; i < matches->own + ADDED_CHECK; i++) {
		text = i < matches->own ? cell_at(row->source,
			matches->places[i]) : row->cells[i - matches->own];
		do {
			hash = (hash ^ (unsigned char)*text) * 16777619u;
		} while (*text++ != '\0');
	}
	return arena_print(matches->arena, "%08x", hash);
}

static const char *
list_ids(const struct matches *matches, const GPtrArray *records,
	const char *before)
{
	enum { MOST = 12 };
	GString *out = g_string_new(before);
	const char *kept;
	guint i;

	if (records->len == 0 || records->len > MOST) {
		g_string_free(out, TRUE);
		return "";
	}
	for (i = 0; i < records->len; i++)
		g_string_append_printf(out, "%s%s", i == 0 ? "" : "; ",
			((const struct record *)records->pdata[i])->id);
	kept = arena_text(matches->arena, out->str, out->len);
	g_string_free(out, TRUE);
	return kept;
}

static bool
is_kind(const struct record *record, const char *kind)
{
	return strcmp(record->kind->name, kind) == 0;
}

static const char *
id_of(const struct record *record)
{
	return record == NULL ? "" : record->id;
}

/* What is known of a piece that is a certain record. */
static void
put_identity(const struct matches *matches, struct match_row *row,
	const struct record *record)
{
	const struct model *model = matches->run->model;
	struct value *const *values = record->values;
	unsigned i;

	for (i = ADDED_CHARACTER; i <= ADDED_STICKER; i++)
		row->cells[i] = "";
	if (is_kind(record, "pairing")) {
		row->cells[ADDED_CHARACTER] = id_of(model_record(model,
			values, NAME(PAIRING_CHARACTER)));
		row->cells[ADDED_CARDBACK] = id_of(model_record(model,
			values, NAME(PAIRING_CARDBACK)));
	} else if (is_kind(record, "variant")) {
		row->cells[ADDED_CHARACTER] = id_of(model_record(model,
			values, NAME(VARIANT_CHARACTER)));
		row->cells[ADDED_VARIANT] = record->id;
	} else if (is_kind(record, "cardback")) {
		row->cells[ADDED_CARDBACK] = record->id;
	} else if (is_kind(record, "package"))
		row->cells[ADDED_PACKAGE] = record->id;
	else if (is_kind(record, "preproduction")) {
		row->cells[ADDED_PREPRODUCTION] = record->id;
		row->cells[ADDED_FORM] = "preproduction";
	} else if (is_kind(record, "accessory"))
		row->cells[ADDED_ACCESSORY] = record->id;
	else if (is_kind(record, "sticker"))
		row->cells[ADDED_STICKER] = record->id;
}

/* Whether some combination of the pairing has the part. */
static bool
is_combined(const struct match_candidate *candidate,
	const struct record *part)
{
	guint i;

	for (i = 0; candidate->situations != NULL &&
		i < candidate->situations->len; i++) {
		const struct situation *one = &g_array_index(
			candidate->situations, struct situation, i);

		if (one->blister == part || one->variant == part)
			return true;
	}
	return false;
}

/* What an open row says of its piece all the same. */
static void
put_partial(const struct matches *matches, struct match_row *row)
{
	const struct matched *matched = &row->matched;

	row->cells[ADDED_CHARACTER] = list_ids(matches, matched->characters,
		NULL);
	if (matched->cardbacks->len > 0)
		row->cells[ADDED_CARDBACK] = list_ids(matches,
			matched->cardbacks, NULL);
	else
		row->cells[ADDED_CARDBACK] = list_ids(matches,
			matched->not_cardbacks, "not ");
}

static const char *
list_candidates(const struct matches *matches, const struct matched *matched)
{
	GString *out = g_string_new(NULL);
	const char *kept;
	guint i;

	for (i = 0; i < matched->candidates->len; i++) {
		const struct match_candidate *one = &g_array_index(
			matched->candidates, struct match_candidate, i);

		g_string_append_printf(out, "%s%s/%s %.2f", i == 0 ? "" :
			"; ", one->record->kind->name, one->record->id,
			one->confidence);
	}
	if (matched->others > 0 && matched->candidates->len > 0)
		g_string_append_printf(out, "; %u more", matched->others);
	kept = arena_text(matches->arena, out->str, out->len);
	g_string_free(out, TRUE);
	return kept;
}

void
matches_settle(struct matches *matches, struct match_row *row,
	const struct record *record, const char *confidence,
	const char *reason)
{
	row->state = ROW_SETTLED;
	put_identity(matches, row, record);
	row->cells[ADDED_ID] = arena_print(matches->arena, "%s/%s",
		record->kind->name, record->id);
	row->cells[ADDED_KIND] = record->kind->name;
	row->cells[ADDED_CONFIDENCE] = confidence;
	row->cells[ADDED_REASON] = reason;
	row->cells[ADDED_QUESTION] = "";
}

/* What the row's cells say of whether the piece is at hand, or "". */
static const char *
find_status(const struct matches *matches, const struct match_row *row)
{
	const char *status = NULL;
	unsigned i;

	for (i = 0; i < matches->own && status == NULL; i++)
		status = match_status(cell_at(row->source,
			matches->places[i]));
	return status == NULL ? "" : status;
}

/* Puts what was found into the cells of a row. */
static void
put_matched(struct matches *matches, struct match_row *row)
{
	const struct matched *matched = &row->matched;
	const struct match_candidate *best = matched->candidates->len == 0 ?
		NULL : &g_array_index(matched->candidates,
		struct match_candidate, 0);
	const char *confidence = best == NULL ? "" : arena_print(
		matches->arena, "%.2f", best->confidence);

	row->cells[ADDED_NAME] = matches_text(matches, row);
	row->cells[ADDED_FORM] = matched->form == NULL ? "" : matched->form;
	row->cells[ADDED_STATUS] = find_status(matches, row);
	row->cells[ADDED_CANDIDATES] = list_candidates(matches, matched);
	if (matched->state == MATCH_SETTLED && best != NULL) {
		matches_settle(matches, row, best->record, confidence,
			matched->reason);
		if (matched->variant != NULL && (is_kind(best->record,
			"variant") || is_combined(best, matched->variant)))
			row->cells[ADDED_VARIANT] = matched->variant->id;
		if (matched->blister != NULL && is_combined(best,
			matched->blister))
			row->cells[ADDED_BLISTER] = matched->blister->id;
		return;
	}
	row->state = ROW_OPEN;
	/* What is hardly likely is said among the candidates alone. */
	if (best != NULL && best->confidence >= LIKELY)
		put_partial(matches, row);
	row->cells[ADDED_ID] = "";
	row->cells[ADDED_KIND] = "";
	row->cells[ADDED_CONFIDENCE] = confidence;
	row->cells[ADDED_REASON] = matched->reason == NULL ? "" :
		matched->reason;
	row->cells[ADDED_QUESTION] = matched->question == NULL ? "" :
		matched->question;
}

static void
match_row(struct matches *matches, struct match_row *row)
{
	struct match_cell *cells = g_new0(struct match_cell,
		matches->own + 1);
	unsigned i, count = 0;

	for (i = 0; i < matches->own; i++) {
		const char *text = cell_at(row->source, matches->places[i]);

		if (is_blank(text) || (matches->plain[i] && is_figure(text)))
			continue;
		cells[count++] = (struct match_cell){text, matches->roles[i]};
	}
	matcher_read(matches->matcher, cells, count, matches->arena,
		&row->matched);
	row->has_matched = true;
	put_matched(matches, row);
	g_free(cells);
}

static void
refuse(const struct matches *matches, struct match_row *row, const char *why)
{
	unsigned i;

	for (i = 0; i < ADDED_COUNT; i++)
		row->cells[i] = "";
	row->state = ROW_REFUSED;
	row->cells[ADDED_NAME] = matches_text(matches, row);
	row->cells[ADDED_REASON] = why;
}

/* Follows the record of a settled row to what it is called by now. */
static bool
keep_settled(struct matches *matches, struct match_row *row, bool hand)
{
	const struct run *run = matches->run;
	const char *written = row->cells[ADDED_ID];
	const struct value *item = NULL;
	const struct record *record = names_find_written(run->names,
		run->schema, written, &item);
	const char *variant = row->cells[ADDED_VARIANT];
	const char *blister = row->cells[ADDED_BLISTER];

	if (record == NULL)
		return false;
	row->kept = true;
	if (hand) {
		matches_settle(matches, row, record, "1.00",
			by_hand);
		return true;
	}
	if (strcmp(strchr(written, '/') + 1, record->id) != 0)
		matches->followed++;
	matches_settle(matches, row, record, row->cells[ADDED_CONFIDENCE],
		row->cells[ADDED_REASON]);
	if (row->cells[ADDED_VARIANT][0] == '\0')
		row->cells[ADDED_VARIANT] = variant;
	row->cells[ADDED_BLISTER] = blister;
	return true;
}

/* Takes what an earlier run wrote, or somebody since. */
static bool
take_earlier(struct matches *matches, struct match_row *row)
{
	const char *state;
	unsigned i;

	for (i = 0; i < ADDED_COUNT; i++)
		row->cells[i] = cell_at(row->source,
			(unsigned)matches->added[i]);
	state = row->cells[ADDED_STATE];
	row->edited = strcmp(row->cells[ADDED_CHECK], check_row(matches,
		row)) != 0;
	if (!row->edited && strcmp(state, row_states[ROW_REFUSED]) == 0) {
		row->state = ROW_REFUSED;
		return true;
	}
	if (row->cells[ADDED_ID][0] != '\0' && strchr(row->cells[ADDED_ID],
		'/') != NULL) {
		if (keep_settled(matches, row, row->edited &&
			strcmp(state, row_states[ROW_SETTLED]) != 0))
			return true;
		matches->gone++;
		return false;
	}
	return false;
}

/*
 * Under a heading that says nothing, figures that are all numbers of figures
 * pictured are those of card backs.
 */
static void
find_numbers(struct matches *matches, unsigned column)
{
	enum { ENOUGH = 3 };
	unsigned found = 0, others = 0, i;

	for (i = matches->first; i < matches->sheet->count; i++) {
		const struct sheet_row *row = &matches->sheet->rows[i];
		const char *text = cell_at(row, matches->places[column]);

		if (row->wrong != NULL || is_blank(text))
			continue;
		if (matcher_is_number(matches->matcher, text))
			found++;
		else
			others += is_figure(text);
	}
	if (found < ENOUGH || others > 0)
		return;
	matches->roles[column] = COLUMN_CARDBACK;
	matches->plain[column] = false;
}

/*
 * A column whose cells are mostly labels is that of the card backs, whatever
 * stands above it: "carton nr". Not where another column says that it is.
 */
static void
find_labels(struct matches *matches)
{
	enum { ENOUGH = 3 };
	unsigned column, found, filled, i;

	for (column = 0; column < matches->own; column++)
		if (matches->roles[column] == COLUMN_CARDBACK)
			return;
	for (column = 0; column < matches->own; column++) {
		found = filled = 0;
		for (i = matches->first; i < matches->sheet->count; i++) {
			const struct sheet_row *row = &matches->sheet->rows[i];
			const char *text = cell_at(row,
				matches->places[column]);

			if (row->wrong != NULL || is_blank(text))
				continue;
			filled++;
			found += matcher_is_label(matches->matcher, text);
		}
		if (found < ENOUGH || found * 2 < filled)
			continue;
		matches->roles[column] = COLUMN_CARDBACK;
		matches->plain[column] = false;
	}
}

static bool
says_something(const struct matches *matches, const struct sheet_row *row,
	unsigned column)
{
	struct match_cell cell = {cell_at(row, matches->places[column]),
		COLUMN_TEXT};

	return matcher_knows(matches->matcher, &cell, 1);
}

/*
 * A column that its heading would have us pass over, as "lot", but whose cells
 * name characters or labels, says what the pieces are. Not where another
 * column does.
 */
static void
find_texts(struct matches *matches)
{
	enum { ENOUGH = 2, SHARE = 4 };
	unsigned column, known, filled, i;

	for (column = 0; column < matches->own; column++)
		if (matches->roles[column] == COLUMN_CHARACTER)
			return;
	for (column = 0; column < matches->own; column++) {
		if (matches->roles[column] != COLUMN_PASSED)
			continue;
		known = filled = 0;
		for (i = matches->first; i < matches->sheet->count; i++) {
			const struct sheet_row *row = &matches->sheet->rows[i];

			if (row->wrong != NULL || is_blank(cell_at(row,
				matches->places[column])))
				continue;
			filled++;
			known += says_something(matches, row, column);
		}
		if (known < ENOUGH || known * SHARE < filled)
			continue;
		matches->roles[column] = COLUMN_TEXT;
		matches->plain[column] = true;
	}
}

void
matches_begin(struct matches *matches)
{
	unsigned i, place = 0;

	find_headings(matches);
	find_columns(matches);
	for (i = 0; i < matches->own; i++)
		if (matches->plain[i])
			find_numbers(matches, i);
	find_labels(matches);
	find_texts(matches);
	matches->count = matches->sheet->count - (matches->headings == NULL ?
		0 : 1);
	matches->rows = arena_array(matches->arena, struct match_row,
		matches->count);
	for (i = 0; i < matches->sheet->count; i++)
		if (&matches->sheet->rows[i] != matches->headings)
			matches->rows[place++].source =
				&matches->sheet->rows[i];
}

static bool
is_empty(const struct sheet_row *row)
{
	unsigned i;

	for (i = 0; i < row->count; i++)
		if (!is_blank(row->cells[i]))
			return false;
	return true;
}

void
matches_run(struct matches *matches)
{
	unsigned i, j;

	for (i = 0; i < matches->count; i++) {
		struct match_row *row = &matches->rows[i];

		for (j = 0; j < ADDED_COUNT; j++)
			row->cells[j] = "";
		if (row->source->wrong != NULL)
			refuse(matches, row, row->source->wrong);
		else if (is_empty(row->source))
			refuse(matches, row, "there is nothing in it");
		else if (matches->headings != NULL &&
			row->source < matches->headings)
			refuse(matches, row, "it stands above the headings");
		else if (!matches->resolved || !take_earlier(matches, row))
			match_row(matches, row);
	}
	matches_count(matches);
}

void
matches_count(struct matches *matches)
{
	unsigned i;

	memset(matches->counts, 0, sizeof(matches->counts));
	for (i = 0; i < matches->count; i++)
		matches->counts[matches->rows[i].state]++;
}

void
matches_release(struct matches *matches)
{
	unsigned i;

	for (i = 0; i < matches->count; i++)
		if (matches->rows[i].has_matched)
			matched_release(&matches->rows[i].matched);
}

static void
append_cell(GString *out, const char *text, bool first)
{
	if (!first)
		g_string_append_c(out, ',');
	csv_append_field(out, text);
}

static void
append_headings(const struct matches *matches, GString *out)
{
	unsigned i;

	for (i = 0; i < matches->own; i++) {
		const char *heading = matches->headings == NULL ? "" : cell_at(
			matches->headings, matches->places[i]);
		size_t size = strlen(heading);
		bool bare = size < 2 || heading[0] != '[' ||
			heading[size - 1] != ']';
		char *text = heading[0] == '\0' ? g_strdup_printf(
			"[column %u]", i + 1) : bare ? g_strdup_printf("[%s]",
			heading) : g_strdup(heading);

		append_cell(out, text, i == 0);
		g_free(text);
	}
	for (i = 0; i < ADDED_COUNT; i++)
		append_cell(out, added_headings[i], matches->own + i == 0);
	g_string_append(out, "\r\n");
}

GString *
matches_write(struct matches *matches)
{
	GString *out = g_string_new(NULL);
	unsigned i, j;

	append_headings(matches, out);
	for (i = 0; i < matches->count; i++) {
		struct match_row *row = &matches->rows[i];

		row->cells[ADDED_STATE] = row_states[row->state];
		row->cells[ADDED_CHECK] = check_row(matches, row);
		for (j = 0; j < matches->own; j++)
			append_cell(out, cell_at(row->source,
				matches->places[j]), j == 0);
		for (j = 0; j < ADDED_COUNT; j++)
			append_cell(out, row->cells[j],
				matches->own + j == 0);
		g_string_append(out, "\r\n");
	}
	/* Spreadsheets take text for another encoding without the mark. */
	if (!g_str_is_ascii(out->str))
		g_string_prepend(out, "\xEF\xBB\xBF");
	return out;
}

int
matches_edited(const char *bytes, size_t size)
{
	struct arena *arena = arena_new();
	struct matches matches = {
		.arena = arena,
		.sheet = sheet_read(bytes, size, arena),
	};
	struct match_row row = {0};
	int count = -1;
	unsigned i, j;

	matches.resolved = matches.sheet->count > 0 && find_added(
		&matches.sheet->rows[0], matches.added);
	if (matches.resolved) {
		matches.headings = &matches.sheet->rows[0];
		find_columns(&matches);
		count = 0;
	}
	for (i = 1; count >= 0 && i < matches.sheet->count; i++) {
		row.source = &matches.sheet->rows[i];
		for (j = 0; j < ADDED_COUNT; j++)
			row.cells[j] = cell_at(row.source,
				(unsigned)matches.added[j]);
		count += strcmp(row.cells[ADDED_CHECK], check_row(&matches,
			&row)) != 0 || strcmp(row.cells[ADDED_REASON],
			by_hand) == 0;
	}
	arena_free(arena);
	return count;
}
