/*
 * The matrix in small: a picture of strokes, one path for each depth of ink.
 * All markets share the same rows, so that side by side they are one picture.
 */
#include "write/site/matrix.h"

#include "study/matrix.h"
#include "study/slots.h"
#include "write/site/pairs.h"

enum { INKS = 6 };	/* five depths by pieces seen, and anomalies */

struct thumb {
	const struct site *site;
	const struct matrix *matrix;
	const struct record **rows;	/* pairings, ranks × columns */
	unsigned height;
	GString *paths[INKS];
};

static void
place_pairings(struct thumb *thumb, struct arena *arena)
{
	const struct matrix *matrix = thumb->matrix;
	unsigned i, j, rank;

	thumb->height = model_records_of(thumb->site->model,
		"character").count;
	thumb->rows = arena_array(arena, const struct record *,
		(size_t)thumb->height * matrix->columns);
	for (i = 0; i < matrix->rows; i++) {
		rank = thumb->site->character_rank[
			matrix->characters[i]->index];
		for (j = 0; j < matrix->columns; j++)
			thumb->rows[(size_t)rank * matrix->columns + j] =
				matrix->cells[(size_t)i * matrix->columns + j];
	}
}

/* The depth of ink of a place, or INKS for none. */
static unsigned
ink_of(const struct thumb *thumb, unsigned row, unsigned column)
{
	const struct record *pairing = column >= thumb->matrix->columns ?
		NULL : thumb->rows[(size_t)row * thumb->matrix->columns +
			column];

	if (pairing == NULL)
		return INKS;
	return tile_depth(thumb->site->glances[pairing->index].seen.specimens);
}

static void
draw_row(struct thumb *thumb, unsigned row)
{
	unsigned i, next, ink;

	for (i = 0; i < thumb->matrix->columns; i = next) {
		ink = ink_of(thumb, row, i);
		next = i + 1;
		while (next < thumb->matrix->columns &&
			ink_of(thumb, row, next) == ink)
			next++;
		if (ink < INKS)
			g_string_append_printf(thumb->paths[ink],
				"M%u %u.5h%u", i, row, next - i);
	}
}

static void
draw_anomalies(struct thumb *thumb, unsigned row)
{
	const struct record *pairing;
	unsigned i;

	for (i = 0; i < thumb->matrix->columns; i++) {
		pairing = thumb->rows[(size_t)row * thumb->matrix->columns +
			i];
		if (pairing != NULL &&
			thumb->site->glances[pairing->index].anomalous)
			g_string_append_printf(thumb->paths[INKS - 1],
				"M%u.3 %u.5h.4", i, row);
	}
}

static void
show_picture(struct page *page, const struct thumb *thumb)
{
	unsigned i;

	html_put(page->out, "<svg class=\"thumb\" viewBox=\"0 0 %u %u\" "
		"width=\"%u\" height=\"%u\" preserveAspectRatio=\"none\" "
		"aria-hidden=\"true\">",
		thumb->matrix->columns, thumb->height,
		thumb->matrix->columns * 10, thumb->height * 5);
	for (i = 0; i < INKS; i++)
		if (thumb->paths[i]->len > 0)
			g_string_append_printf(page->out,
				"<path class=\"i%u\" d=\"%s\"/>", i,
				thumb->paths[i]->str);
	g_string_append(page->out, "</svg>\n");
}

/* Card backs that were never issued are not among the card backs. */
static void
show_counts(struct page *page, const struct matrix *matrix)
{
	unsigned i, issued = 0;

	for (i = 0; i < matrix->columns; i++)
		issued += study_may_exist(model_word(page->site->model,
			matrix->cardbacks[i]->values,
			NAME(CARDBACK_CONCLUDED)));
	html_put(page->out, "<small>%u character%s, %u card back%s",
		matrix->rows, matrix->rows == 1 ? "" : "s", issued,
		issued == 1 ? "" : "s");
	if (issued < matrix->columns)
		html_put(page->out, " and %u never issued",
			matrix->columns - issued);
	g_string_append(page->out, "</small>");
}

void
matrix_thumb(struct page *page, const struct record *market)
{
	struct arena *arena = arena_new();
	struct thumb thumb = {
		.site = page->site,
		.matrix = study_matrix(page->site->model, market, arena),
	};
	unsigned i;

	if (thumb.matrix->columns > 0 && thumb.matrix->rows > 0) {
		for (i = 0; i < INKS; i++)
			thumb.paths[i] = g_string_new(NULL);
		place_pairings(&thumb, arena);
		for (i = 0; i < thumb.height; i++) {
			draw_row(&thumb, i);
			draw_anomalies(&thumb, i);
		}
		g_string_append(page->out, "<a class=\"plate\" href=\"");
		page_href(page, market, NULL);
		g_string_append(page->out, "\">");
		show_picture(page, &thumb);
		html_put(page->out, "<b>%s</b> ", market->name);
		show_counts(page, thumb.matrix);
		g_string_append(page->out, "</a>\n");
		for (i = 0; i < INKS; i++)
			g_string_free(thumb.paths[i], TRUE);
	}
	arena_free(arena);
}
