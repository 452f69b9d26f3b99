/*
 * The matrix of a market: characters in the order of their release by card
 * backs in the order of their numbers. A cell is a tile: how many
 * combinations, what is concluded, how many pieces were seen, whether an
 * anomaly is known. A dot says that the back pictures a character that is not
 * known on it.
 */
#include "write/site/matrix.h"

#include <inttypes.h>
#include <stdlib.h>

#include "base/sort.h"
#include "study/matrix.h"
#include "write/site/pairs.h"
#include "write/site/show.h"

struct sheet {
	struct page *page;
	const struct model *model;
	struct arena *arena;
	const struct matrix *matrix;
	unsigned *rows;		/* of the matrix, in the order shown */
	bool *pictured;		/* rows × columns of the matrix */
};

struct released {
	unsigned row;
	unsigned rank;
};

static int
compare_released(const void *a, const void *b)
{
	const struct released *left = a, *right = b;

	return (left->rank > right->rank) - (left->rank < right->rank);
}

static void
order_rows(struct sheet *sheet)
{
	unsigned count = sheet->matrix->rows, i;
	struct released *rows = g_new(struct released, count + 1);

	for (i = 0; i < count; i++)
		rows[i] = (struct released){i, sheet->page->site->
			character_rank[sheet->matrix->characters[i]->index]};
	sort_items(rows, count, sizeof(*rows), compare_released);
	sheet->rows = arena_array(sheet->arena, unsigned, count);
	for (i = 0; i < count; i++)
		sheet->rows[i] = rows[i].row;
	g_free(rows);
}

static void
note_pictured(struct sheet *sheet)
{
	const struct matrix *matrix = sheet->matrix;
	unsigned *row_of = arena_array(sheet->arena, unsigned,
		model_records_of(sheet->model, "character").count);
	const struct value *pictures;
	unsigned i, j, row;

	sheet->pictured = arena_array(sheet->arena, bool,
		(size_t)matrix->rows * matrix->columns);
	for (i = 0; i < matrix->rows; i++)
		row_of[matrix->characters[i]->index] = i + 1;
	for (j = 0; j < matrix->columns; j++) {
		pictures = model_get(sheet->model,
			matrix->cardbacks[j]->values, NAME(CARDBACK_PICTURES));
		for (i = 0; i < value_count(pictures); i++) {
			row = row_of[value_item(pictures, i)->
				reference.record->index];
			if (row > 0)
				sheet->pictured[(size_t)(row - 1) *
					matrix->columns + j] = true;
		}
	}
}

static struct sheet
make_sheet(struct page *page, const struct record *market)
{
	struct sheet sheet = {
		.page = page,
		.model = page->site->model,
		.arena = arena_new(),
	};

	sheet.matrix = study_matrix(sheet.model, market, sheet.arena);
	order_rows(&sheet);
	note_pictured(&sheet);
	return sheet;
}

static int64_t
number_of(const struct sheet *sheet, unsigned column)
{
	return model_whole(sheet->model,
		sheet->matrix->cardbacks[column]->values,
		NAME(CARDBACK_NUMBER), 0);
}

/* The first column after `column` with another number. */
static unsigned
next_number(const struct sheet *sheet, unsigned column)
{
	unsigned i = column;

	while (i < sheet->matrix->columns &&
		number_of(sheet, i) == number_of(sheet, column))
		i++;
	return i;
}

static void
show_numbers(const struct sheet *sheet)
{
	GString *out = sheet->page->out;
	unsigned i, next;

	g_string_append(out, "<colgroup class=\"who\"></colgroup>");
	for (i = 0; i < sheet->matrix->columns; i = next) {
		next = next_number(sheet, i);
		html_put(out, "<colgroup span=\"%u\"></colgroup>", next - i);
	}
	g_string_append(out, "<colgroup></colgroup>\n<thead>\n"
		"<tr><th scope=\"row\">pictured</th>");
	for (i = 0; i < sheet->matrix->columns; i = next) {
		next = next_number(sheet, i);
		g_string_append_printf(out, "<th colspan=\"%u\" "
			"scope=\"colgroup\">%" PRId64 "</th>", next - i,
			number_of(sheet, i));
	}
	g_string_append(out, "<td></td></tr>\n");
}

static void
show_back(const struct sheet *sheet, unsigned column)
{
	const struct record *cardback = sheet->matrix->cardbacks[column];
	const struct date *from = model_date(sheet->model, cardback->values,
		NAME(CARDBACK_FROM));
	const struct record *offer = model_record(sheet->model,
		cardback->values, NAME(CARDBACK_OFFER));
	const struct value *concluded = model_get(sheet->model,
		cardback->values, NAME(CARDBACK_CONCLUDED));
	GString *out = sheet->page->out;

	html_put(out, "<th scope=\"col\" class=\"b%u%s\"><a href=\"",
		concluded == NULL ? 0 : concluded->word->index,
		offer == NULL ? "" : " o");
	page_href(sheet->page, cardback, NULL);
	html_put(out, "\" title=\"%s%s%s\">%s", cardback->name,
		offer == NULL ? "" : ", offer: ",
		offer == NULL ? "" : offer->name,
		cardback_label(sheet->page->site, cardback));
	if (from != NULL)
		html_put(out, "<small>\u2019%d%d</small>",
			from->year / 10 % 10, from->year % 10);
	g_string_append(out, "</a></th>");
}

static void
show_place(const struct sheet *sheet, unsigned row, unsigned column)
{
	size_t at = (size_t)row * sheet->matrix->columns + column;
	const struct record *pairing = sheet->matrix->cells[at];
	struct page *page = sheet->page;

	if (pairing == NULL && !sheet->pictured[at]) {
		g_string_append(page->out, "<td>");
		return;
	}
	if (pairing == NULL) {
		g_string_append(page->out, "<td class=\"p\">\u00b7");
		return;
	}
	g_string_append(page->out, "<td class=\"");
	tile_classes(page, pairing);
	g_string_append(page->out, "\"><a href=\"");
	page_href(page, pairing, NULL);
	g_string_append(page->out, "\" title=\"");
	tile_words(page, pairing);
	html_put(page->out, "\">%u</a>",
		page->site->glances[pairing->index].combinations);
}

static void
show_row(const struct sheet *sheet, unsigned row)
{
	const struct record *character = sheet->matrix->characters[row];
	GString *out = sheet->page->out;
	unsigned i, known = 0;

	g_string_append(out, "<tr><th scope=\"row\">");
	page_link(sheet->page, character);
	g_string_append(out, "</th>");
	for (i = 0; i < sheet->matrix->columns; i++) {
		show_place(sheet, row, i);
		known += sheet->matrix->cells[(size_t)row *
			sheet->matrix->columns + i] != NULL;
	}
	html_put(out, "<td class=\"n\">%u</tr>\n", known);
}

static int
year_of(const struct sheet *sheet, unsigned row)
{
	const struct date *date = model_date(sheet->model,
		sheet->matrix->characters[row]->values,
		NAME(CHARACTER_RELEASED));

	return date == NULL ? 0 : date->year;
}

static void
show_rows(const struct sheet *sheet)
{
	GString *out = sheet->page->out;
	int before = -1, year;
	unsigned i;

	for (i = 0; i < sheet->matrix->rows; i++) {
		year = year_of(sheet, sheet->rows[i]);
		if (year != before) {
			g_string_append(out, i == 0 ? "" : "</tbody>\n");
			g_string_append(out, "<tbody>\n<tr class=\"year\">"
				"<th scope=\"rowgroup\">");
			if (year == 0)
				g_string_append(out, "not dated");
			else
				html_put(out, "%d", year);
			html_put(out, "</th><td colspan=\"%u\"></td></tr>\n",
				sheet->matrix->columns + 1);
		}
		before = year;
		show_row(sheet, sheet->rows[i]);
	}
	g_string_append(out, sheet->matrix->rows == 0 ? "" : "</tbody>\n");
}

static void
show_sums(const struct sheet *sheet)
{
	const struct matrix *matrix = sheet->matrix;
	unsigned i, j, known, all = 0;

	g_string_append(sheet->page->out, "<tfoot><tr><th scope=\"row\">"
		"characters known</th>");
	for (j = 0; j < matrix->columns; j++) {
		known = 0;
		for (i = 0; i < matrix->rows; i++)
			known += matrix->cells[(size_t)i * matrix->columns +
				j] != NULL;
		all += known;
		html_put(sheet->page->out, "<td>%u</td>", known);
	}
	html_put(sheet->page->out, "<td class=\"n\">%u</td></tr></tfoot>\n",
		all);
}

void
matrix_show(struct page *page, const struct record *market)
{
	struct sheet sheet = make_sheet(page, market);

	if (sheet.matrix->rows > 0 && sheet.matrix->columns > 0) {
		g_string_append(page->out, "<section class=\"wide\">\n");
		page_heading(page, "matrix", "Character by card back");
		tile_legend(page);
		g_string_append(page->out, "<p class=\"note\">The number in "
			"a cell counts the combinations known. Card backs "
			"with a yellow foot have an offer printed on them."
			"</p>\n<div class=\"scroll sheet\" "
			"tabindex=\"0\" role=\"group\" "
			"aria-labelledby=\"_matrix\">\n"
			"<table class=\"matrix\">\n");
		show_numbers(&sheet);
		g_string_append(page->out, "<tr><th scope=\"col\">character"
			"</th>");
		for (unsigned i = 0; i < sheet.matrix->columns; i++)
			show_back(&sheet, i);
		g_string_append(page->out, "<th scope=\"col\">on</th></tr>\n"
			"</thead>\n");
		show_rows(&sheet);
		show_sums(&sheet);
		g_string_append(page->out, "</table>\n</div>\n</section>\n");
	}
	arena_free(sheet.arena);
}
