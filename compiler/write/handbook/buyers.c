/*
 * Before you buy, for each market: what can be wrong with a character there,
 * and which words to send to a seller. The view of every pairing would fill a
 * book of its own, so those of one character are told together: anomalies by
 * the pieces seen of the pairings that have them, imitations once, and of the
 * requests each that any of the pairings needs, by its number in a list.
 */
#include <glib.h>
#include <string.h>

#include "base/arena.h"
#include "study/buyer.h"
#include "write/handbook/book.h"
#include "write/working.h"

/* More card backs than these are counted and not named. */
enum { MOST_BACKS = 4 };

/* An anomaly on the pairings of a character in a market. */
struct danger {
	const struct record *anomaly;
	unsigned affected, seen;
	GPtrArray *cardbacks;
};

/* What is gathered of one character. */
struct gathered {
	GArray *dangers;     /* struct danger */
	GPtrArray *fakes;    /* struct fake */
	bool *asks;	     /* by request */
	unsigned others;     /* most that a front leaves open */
	unsigned undivided;  /* most that nothing tells apart */
};

struct market_view {
	struct book *book;
	const struct matrix *matrix;
	GPtrArray *requests; /* texts, in the order first needed */
	struct gathered *rows;
	bool *common;	     /* by imitation */
};

static void
free_danger(gpointer data)
{
	struct danger *danger = data;

	g_ptr_array_free(danger->cardbacks, TRUE);
}

static void
add_danger(struct gathered *row, const struct risk *risk,
	const struct record *cardback)
{
	struct danger *danger = NULL, fresh = {.anomaly = risk->anomaly};
	guint i;

	for (i = 0; i < row->dangers->len && danger == NULL; i++)
		if (g_array_index(row->dangers, struct danger, i).anomaly ==
			risk->anomaly)
			danger = &g_array_index(row->dangers, struct danger,
				i);
	if (danger == NULL) {
		fresh.cardbacks = g_ptr_array_new();
		g_array_append_val(row->dangers, fresh);
		danger = &g_array_index(row->dangers, struct danger,
			row->dangers->len - 1);
	}
	danger->affected += risk->affected;
	danger->seen += risk->seen;
	g_ptr_array_add(danger->cardbacks, (gpointer)(guintptr)cardback);
}

static void
add_fake(struct gathered *row, const struct fake *fake)
{
	const struct fake *known;
	guint i;

	for (i = 0; i < row->fakes->len; i++) {
		known = g_ptr_array_index(row->fakes, i);
		if (known->imitation == fake->imitation)
			return;
	}
	g_ptr_array_add(row->fakes, (gpointer)(guintptr)fake);
}

/* The place of a request in the market's list, where it is put if new. */
static guint
place_request(struct market_view *view, const char *text)
{
	guint i;

	for (i = 0; i < view->requests->len; i++)
		if (strcmp(g_ptr_array_index(view->requests, i), text) == 0)
			return i;
	g_ptr_array_add(view->requests, (gpointer)(guintptr)text);
	return i;
}

static void
add_pairing(struct market_view *view, struct gathered *row,
	const struct record *pairing, const struct record *cardback)
{
	struct buyer *buyer = study_buyer(view->book->buying, pairing, NULL,
		view->book->arena);
	unsigned i;

	for (i = 0; i < buyer->risk_count; i++)
		add_danger(row, &buyer->risks[i], cardback);
	for (i = 0; i < buyer->fake_count; i++)
		add_fake(row, &buyer->fakes[i]);
	if (buyer->questions == NULL)
		return;
	row->others = MAX(row->others, buyer->questions->alternative_count);
	row->undivided = MAX(row->undivided, buyer->questions->undivided);
	for (i = 0; i < buyer->questions->request_count; i++) {
		guint place = place_request(view,
			buyer->questions->requests[i].text);

		if (place < BOOK_MOST_REQUESTS)
			row->asks[place] = true;
	}
}

static void
gather_row(struct market_view *view, unsigned at)
{
	const struct matrix *matrix = view->matrix;
	struct gathered *row = &view->rows[at];
	const struct record *pairing;
	unsigned i;

	row->dangers = g_array_new(FALSE, FALSE, sizeof(struct danger));
	g_array_set_clear_func(row->dangers, free_danger);
	row->fakes = g_ptr_array_new();
	row->asks = arena_array(view->book->arena, bool, BOOK_MOST_REQUESTS);
	for (i = 0; i < matrix->columns; i++) {
		pairing = matrix->cells[(size_t)at * matrix->columns + i];
		if (pairing != NULL)
			add_pairing(view, row, pairing, matrix->cardbacks[i]);
	}
}

static void
say_danger(struct book *book, struct block *cell, const struct danger *danger)
{
	guint i, count = danger->cardbacks->len;
	struct range share;

	copy_record(book, cell, BOLD, danger->anomaly);
	copy_page(book, cell, danger->anomaly);
	copy_text(book, cell, PLAIN, " (on ");
	for (i = 0; i < MIN(count, MOST_BACKS); i++) {
		if (i > 0)
			copy_text(book, cell, PLAIN, ", ");
		copy_text(book, cell, PLAIN, copy_label(book,
			g_ptr_array_index(danger->cardbacks, i)));
	}
	if (count > MOST_BACKS)
		copy_text(book, cell, PLAIN, arena_print(book->arena,
			" and %u more", count - MOST_BACKS));
	if (!share_wilson(danger->affected, danger->seen, &share)) {
		copy_text(book, cell, PLAIN, "): none seen there. ");
		return;
	}
	copy_text(book, cell, PLAIN, arena_print(book->arena,
		"): %u of %u seen there, or %s. ", danger->affected,
		danger->seen, working_share(danger->affected, danger->seen,
			share, book->arena)));
}

static bool
has_fake(const struct gathered *row, const struct record *imitation)
{
	guint i;

	for (i = 0; i < row->fakes->len; i++)
		if (((const struct fake *)g_ptr_array_index(row->fakes,
			i))->imitation == imitation)
			return true;
	return false;
}

/* What more than half of the characters have is said once, above them. */
static void
find_common(struct market_view *view)
{
	unsigned count = model_records_of(view->book->model, "imitation")
		.count, *had, i;
	guint k;

	view->common = arena_array(view->book->arena, bool, count);
	had = arena_array(view->book->arena, unsigned, count);
	for (i = 0; i < view->matrix->rows; i++)
		for (k = 0; k < view->rows[i].fakes->len; k++)
			had[((const struct fake *)g_ptr_array_index(
				view->rows[i].fakes, k))->imitation->index]++;
	for (i = 0; i < count; i++)
		view->common[i] = had[i] > view->matrix->rows / 2;
}

/* Those that are common, or those of a row that are not. */
static void
say_fakes(struct market_view *view, struct block *block,
	const struct gathered *row, const char *words)
{
	struct record_list list = model_records_of(view->book->model,
		"imitation");
	const char *between = words;
	unsigned i;

	for (i = 0; i < list.count; i++) {
		if ((row != NULL && !has_fake(row, list.items[i])) ||
			view->common[i] != (row == NULL))
			continue;
		copy_text(view->book, block, PLAIN, between);
		copy_record(view->book, block, PLAIN, list.items[i]);
		copy_page(view->book, block, list.items[i]);
		between = "; ";
	}
	if (between != words)
		copy_text(view->book, block, PLAIN, ". ");
}

static void
say_asks(struct book *book, struct block *cell, const struct gathered *row)
{
	const char *between = "Ask: ";
	unsigned i;

	if (row->others > 0)
		copy_text(book, cell, PLAIN, arena_print(book->arena,
			"The front alone may leave %u other card back%s open. ",
			row->others, row->others == 1 ? "" : "s"));
	for (i = 0; i < BOOK_MOST_REQUESTS; i++) {
		if (!row->asks[i])
			continue;
		copy_text(book, cell, PLAIN, between);
		copy_text(book, cell, BOLD, arena_print(book->arena, "%u",
			i + 1));
		between = ", ";
	}
	if (strcmp(between, ", ") == 0)
		copy_text(book, cell, PLAIN, ". ");
	if (row->undivided > 0)
		copy_text(book, cell, ITALIC, row->undivided == 1 ?
			"Nothing on record tells some of them from one other."
			: arena_print(book->arena, "Nothing on record tells "
				"some of them from up to %u others.",
				row->undivided));
}

static void
say_row(struct market_view *view, struct block *table, unsigned at)
{
	struct book *book = view->book;
	const struct gathered *row = &view->rows[at];
	struct block *line = block_new(book->arena, table, BLOCK_ROW,
		STYLE_TABLE);
	struct block *cell = book_cell(book, line);
	guint i;

	copy_record(book, cell, BOLD, view->matrix->characters[at]);
	cell = book_cell(book, line);
	if (row->dangers->len == 0)
		copy_text(book, cell, PLAIN, "No anomaly on record here. ");
	for (i = 0; i < row->dangers->len; i++)
		say_danger(book, cell, &g_array_index(row->dangers,
			struct danger, i));
	say_fakes(view, cell, row, "Imitated: ");
	say_asks(book, cell, row);
}

static void
say_requests(struct market_view *view, struct block *chapter)
{
	struct book *book = view->book;
	struct block *list, *item;
	guint i, count = MIN(view->requests->len, BOOK_MOST_REQUESTS);

	if (count == 0)
		return;
	book_heading(book, chapter, STYLE_HEAD_3, "Words to send to a seller",
		NULL);
	list = block_new(book->arena, chapter, BLOCK_LIST, STYLE_BODY);
	list->number = 1;
	list->tight = true;
	for (i = 0; i < count; i++) {
		item = block_new(book->arena, list, BLOCK_ITEM, STYLE_BODY);
		book_say(book, item, STYLE_BODY,
			g_ptr_array_index(view->requests, i));
	}
}

static void
say_tell(struct market_view *view, struct block *list,
	const struct record *anomaly)
{
	struct book *book = view->book;
	const struct value *tells = model_get(book->model, anomaly->values,
		NAME(ANOMALY_TELLS));
	struct block *block;

	if (value_count(tells) == 0)
		return;
	block = book_say(book, block_new(book->arena, list, BLOCK_ITEM,
		STYLE_BODY), STYLE_BODY, "");
	copy_record(book, block, BOLD, anomaly);
	copy_text(book, block, PLAIN, ": ");
	copy_text(book, block, PLAIN, value_item(tells, 0)->text);
}

/* How to tell each anomaly that is known here, in one line. */
static void
say_tells(struct market_view *view, struct block *chapter)
{
	bool *told = arena_array(view->book->arena, bool,
		model_records_of(view->book->model, "anomaly").count);
	struct block *list = NULL;
	unsigned i;
	guint k;

	for (i = 0; i < view->matrix->rows; i++)
		for (k = 0; k < view->rows[i].dangers->len; k++) {
			const struct record *anomaly = g_array_index(
				view->rows[i].dangers, struct danger, k)
				.anomaly;

			if (told[anomaly->index])
				continue;
			told[anomaly->index] = true;
			if (list == NULL) {
				book_heading(view->book, chapter, STYLE_HEAD_3,
					"How to tell the anomalies", NULL);
				list = block_new(view->book->arena, chapter,
					BLOCK_LIST, STYLE_BODY);
				list->tight = true;
			}
			say_tell(view, list, anomaly);
		}
}

static void
say_market(struct market_view *view, struct block *chapter)
{
	static const char *const heads[] = {"Character", "What to know"};
	static const struct column columns[] = {{8, 0, ALIGN_LEFT},
		{0, 1, ALIGN_LEFT}};
	struct book *book = view->book;
	struct block *table, *block;
	unsigned i;

	book_heading(book, chapter, STYLE_HEAD_1, "Before you buy", NULL)
		->guide = "Before you buy";
	book_say(book, chapter, STYLE_BODY,
		"What is known to be wrong with some pieces, how many of those "
		"seen, what is imitated, and the numbers of what to ask. That "
		"nothing is on record is no proof that there is nothing. What "
		"one character needs is the sum of all its card backs: for a "
		"single piece fewer requests may do.");
	say_requests(view, chapter);
	block = block_new(book->arena, chapter, BLOCK_PARAGRAPH, STYLE_BODY);
	say_fakes(view, block, NULL, "Imitated for most characters here: ");
	say_tells(view, chapter);
	table = book_table(book, chapter, columns, 2);
	copy_text(book, table, PLAIN, "Character by character");
	book_heads(book, table, heads);
	for (i = 0; i < view->matrix->rows; i++)
		say_row(view, table, i);
}

void
book_buyers(struct book *book, struct block *chapter,
	const struct matrix *matrix)
{
	struct market_view view = {book, matrix, g_ptr_array_new(), NULL,
		NULL};
	unsigned i;

	view.rows = arena_array(book->arena, struct gathered, matrix->rows);
	for (i = 0; i < matrix->rows; i++)
		gather_row(&view, i);
	find_common(&view);
	if (matrix->rows > 0)
		say_market(&view, chapter);
	for (i = 0; i < matrix->rows; i++) {
		g_array_free(view.rows[i].dangers, TRUE);
		g_ptr_array_free(view.rows[i].fakes, TRUE);
	}
	g_ptr_array_free(view.requests, TRUE);
}
