/*
 * What is held of a run: characters by card backs where the slots are
 * pairings or combinations, a list of names otherwise; then what is missing,
 * what to upgrade and what there is twice.
 */
#include <stdlib.h>
#include <string.h>

#include "base/sort.h"
#include "write/report/inside.h"

/* How a slot, or several of one cell, stand. */
enum mark { MARK_NONE, MARK_APART, MARK_MISSING, MARK_COMING, MARK_POSSIBLE,
	MARK_HELD, MARKS };

static const struct {
	const char *class, *sign, *words;
} marks[MARKS] = {
	[MARK_NONE] = {"", "", ""},
	[MARK_APART] = {"ma", "?", "may not exist"},
	[MARK_MISSING] = {"mm", "\u2013", "missing"},
	[MARK_COMING] = {"mc", "\u2192", "on its way"},
	[MARK_POSSIBLE] = {"mp", "\u25D0", "perhaps held"},
	[MARK_HELD] = {"mh", "\u25CF", "held"},
};

static enum mark
mark_of(const struct filled_slot *slot)
{
	unsigned i;

	if (slot->state == SLOT_HELD)
		return MARK_HELD;
	if (slot->state == SLOT_POSSIBLE)
		return MARK_POSSIBLE;
	for (i = 0; i < slot->count; i++)
		if (slot->claims[i].kind == CLAIM_COMING)
			return MARK_COMING;
	return slot->slot->standing == SLOT_UNSURE ? MARK_APART :
		MARK_MISSING;
}

/* A cell of the matrix: slots of one pairing. */
struct cell {
	unsigned count[MARKS];
	unsigned all;
};

struct grid {
	const struct report *report;
	const struct record **columns;
	unsigned column_count;
	const struct record **rows;
	unsigned row_count;
	unsigned *column_of, *row_of;	/* by index of record, from 1 */
	struct cell *cells;
};

static const struct record *
part(const struct report *report, const struct slot *slot,
	enum field_name name)
{
	return model_record(report->model, slot->record->values, name);
}

static int
compare_records(const void *a, const void *b)
{
	const struct record *one = *(const struct record *const *)a;
	const struct record *other = *(const struct record *const *)b;

	return (one->index > other->index) - (one->index < other->index);
}

/* The distinct characters or card backs of the slots, in order. */
static const struct record **
distinct(const struct report *report, const struct filling *filling,
	enum field_name name, const char *kind, unsigned **place,
	unsigned *count)
{
	unsigned all = model_records_of(report->model, kind).count, i;
	const struct record **items = arena_array(report->arena,
		const struct record *, all);

	*place = arena_array(report->arena, unsigned, all);
	*count = 0;
	for (i = 0; i < filling->count; i++) {
		const struct record *one = part(report,
			filling->items[i].slot, name);

		if (one == NULL || (*place)[one->index] > 0)
			continue;
		(*place)[one->index] = 1;
		items[(*count)++] = one;
	}
	sort_items(items, *count, sizeof(*items), compare_records);
	for (i = 0; i < *count; i++)
		(*place)[items[i]->index] = i + 1;
	return items;
}

static void
fill_grid(struct grid *grid, const struct filling *filling)
{
	unsigned i;

	grid->columns = distinct(grid->report, filling,
		NAME(PAIRING_CARDBACK), "cardback", &grid->column_of,
		&grid->column_count);
	grid->rows = distinct(grid->report, filling, NAME(PAIRING_CHARACTER),
		"character", &grid->row_of, &grid->row_count);
	grid->cells = arena_array(grid->report->arena, struct cell,
		(size_t)grid->column_count * grid->row_count);
	for (i = 0; i < filling->count; i++) {
		const struct slot *slot = filling->items[i].slot;
		const struct record *row = part(grid->report, slot,
			NAME(PAIRING_CHARACTER));
		const struct record *column = part(grid->report, slot,
			NAME(PAIRING_CARDBACK));
		struct cell *cell;

		if (row == NULL || column == NULL)
			continue;
		cell = &grid->cells[(size_t)(grid->row_of[row->index] - 1) *
			grid->column_count + grid->column_of[column->index] -
			1];
		cell->count[mark_of(&filling->items[i])]++;
		cell->all++;
	}
}

/* "11A", or the whole name of a card back without labels. */
static const char *
short_back(const struct report *report, const struct record *cardback)
{
	const struct value *labels = model_get(report->model,
		cardback->values, NAME(CARDBACK_LABELS));
	const char *label = value_count(labels) == 0 ? NULL : model_text(
		report->model, value_item(labels, 0)->group,
		NAME(CARDBACK_LABELS_LABEL));

	return label == NULL ? cardback->name : label;
}

/* The best mark of a cell; with several slots, how many are held of them. */
static void
put_cell(const struct cell *cell, GString *out)
{
	enum mark mark = MARK_HELD;

	if (cell->all == 0) {
		g_string_append(out, "<td></td>");
		return;
	}
	while (cell->count[mark] == 0)
		mark--;
	html_put(out, "<td class=\"%s%s\" title=\"%s\">", marks[mark].class,
		mark == MARK_HELD && cell->count[mark] < cell->all -
		cell->count[MARK_APART] ? " part" : "", marks[mark].words);
	if (cell->all - cell->count[MARK_APART] > 1)
		html_put(out, "%u/%u", cell->count[MARK_HELD], cell->all -
			cell->count[MARK_APART]);
	else
		html_put(out, "%s", marks[mark].sign);
	g_string_append(out, "</td>");
}

static const struct record *
market_of(const struct grid *grid, unsigned column)
{
	return model_record(grid->report->model,
		grid->columns[column]->values, NAME(CARDBACK_MARKET));
}

static int
compare_columns(const void *a, const void *b)
{
	const struct record *const *one = a, *const *other = b;

	/* Side by side: the market, then the card back. */
	if (one[0] != other[0])
		return one[0]->index < other[0]->index ? -1 : 1;
	return (one[1]->index > other[1]->index) -
		(one[1]->index < other[1]->index);
}

/* Card backs of one market stand together. */
static void
order_columns(struct grid *grid)
{
	const struct record **both = g_new(const struct record *,
		2 * (size_t)grid->column_count + 1);
	unsigned i;

	for (i = 0; i < grid->column_count; i++) {
		both[2 * i] = market_of(grid, i);
		both[2 * i + 1] = grid->columns[i];
	}
	sort_items(both, grid->column_count, 2 * sizeof(*both),
		compare_columns);
	for (i = 0; i < grid->column_count; i++)
		grid->columns[i] = both[2 * i + 1];
	g_free(both);
}

static void
put_heads(const struct grid *grid, GString *out)
{
	unsigned i, next;

	g_string_append(out, "<thead>\n<tr><th></th>");
	for (i = 0; i < grid->column_count; i = next) {
		for (next = i + 1; next < grid->column_count &&
			market_of(grid, next) == market_of(grid, i); next++)
			;
		html_put(out, "<th colspan=\"%u\" scope=\"colgroup\">%s</th>",
			next - i, market_of(grid, i)->name);
	}
	g_string_append(out, "</tr>\n<tr><th></th>");
	for (i = 0; i < grid->column_count; i++)
		html_put(out, "<th scope=\"col\" title=\"%s\">%s</th>",
			grid->columns[i]->name, short_back(grid->report,
			grid->columns[i]));
	g_string_append(out, "</tr>\n</thead>\n");
}

static void
put_grid(const struct report *report, const struct filling *filling,
	GString *out)
{
	struct grid grid = {.report = report};
	unsigned i, j;

	fill_grid(&grid, filling);
	order_columns(&grid);
	html_put(out, "<div class=\"scroll sheet\" tabindex=\"0\" "
		"role=\"group\" aria-label=\"%s\">\n<table class=\"held\">\n",
		filling->aim->name);
	put_heads(&grid, out);
	g_string_append(out, "<tbody>\n");
	for (i = 0; i < grid.row_count; i++) {
		html_put(out, "<tr><th scope=\"row\">%s</th>",
			grid.rows[i]->name);
		for (j = 0; j < grid.column_count; j++)
			put_cell(&grid.cells[(size_t)i * grid.column_count +
				grid.column_of[grid.columns[j]->index] - 1],
				out);
		g_string_append(out, "</tr>\n");
	}
	g_string_append(out, "</tbody>\n</table></div>\n");
}

static void
put_list(const struct filling *filling, GString *out)
{
	unsigned i;

	g_string_append(out, "<ul class=\"slots\">\n");
	for (i = 0; i < filling->count; i++) {
		enum mark mark = mark_of(&filling->items[i]);

		html_put(out, "<li class=\"%s\"><span title=\"%s\">%s</span> "
			"%s</li>\n", marks[mark].class, marks[mark].words,
			marks[mark].sign, filling->items[i].slot->name);
	}
	g_string_append(out, "</ul>\n");
}

static void
put_legend(GString *out)
{
	unsigned i;

	g_string_append(out, "<p class=\"legend\">");
	for (i = MARKS - 1; i > MARK_NONE; i--)
		html_put(out, "<span><i class=\"%s\">%s</i> %s</span> ",
			marks[i].class, marks[i].sign, marks[i].words);
	g_string_append(out, "</p>\n");
}

/* Doubles are many and seldom wanted: they stay folded. */
static void
put_heading(enum claim_kind kind, unsigned level, const char *heading,
	GString *out)
{
	if (kind == CLAIM_SURE)
		html_put(out, "<details><summary>%s</summary>\n", heading);
	else
		html_put(out, "<h%u>%s</h%u>\n", level, heading, level);
	g_string_append(out, "<ul class=\"todo\">\n");
}

/* Pieces with one sort of claim, for slots in one state. */
static void
put_claims(const struct report *report, const struct filling *filling,
	enum claim_kind kind, unsigned level, const char *heading,
	GString *out)
{
	bool any = false;
	unsigned i, j;

	for (i = 0; i < filling->count; i++) {
		const struct filled_slot *slot = &filling->items[i];
		unsigned count = 0;

		if (kind == CLAIM_SURE ? slot->sure < 2 : slot->state ==
			SLOT_HELD)
			continue;
		for (j = 0; j < slot->count; j++) {
			const struct claim *claim = &slot->claims[j];
			const char *words = study_look_at(report->pieces,
				filling, slot, claim, report->arena);

			if (claim->kind != kind)
				continue;
			if (!any)
				put_heading(kind, level, heading, out);
			any = true;
			if (count++ == 0)
				html_put(out, "<li><b>%s</b>", slot->slot
					->name);
			html_put(out, "%s %s", count == 1 ? "" : ";",
				report->pieces->items[claim->piece].record
				->name);
			if (words != NULL)
				html_put(out, ": %s", words);
		}
		if (count > 0)
			g_string_append(out, "</li>\n");
	}
	if (any)
		g_string_append(out, kind == CLAIM_SURE ?
			"</ul>\n</details>\n" : "</ul>\n");
}

void
report_slots(const struct report *report, const struct filling *filling,
	unsigned level, GString *out)
{
	if (filling->count == 0) {
		g_string_append(out, "<p>The guide has nothing for it.</p>\n");
		return;
	}
	if (filling->aim->what == COLLECT_PAIRING ||
		filling->aim->what == COLLECT_COMBINATION)
		put_grid(report, filling, out);
	else
		put_list(filling, out);
	put_legend(out);
	put_claims(report, filling, CLAIM_POSSIBLE, level,
		"Perhaps held: look at", out);
	put_claims(report, filling, CLAIM_COMING, level, "On its way", out);
	put_claims(report, filling, CLAIM_LACKS, level,
		"To upgrade: yours, but not as the run asks", out);
	put_claims(report, filling, CLAIM_SURE, level, "Doubles", out);
}
