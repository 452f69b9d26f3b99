/*
 * A chapter for each market: what it is, its card backs with the characters
 * known on them, and the table from characters to card backs.
 */
#include <glib.h>
#include <string.h>

#include "base/arena.h"
#include "study/matrix.h"
#include "write/handbook/book.h"
#include "write/handbook/numbers.h"

/* Characters on a card back stand in so many columns. */
enum { MOST_ABREAST = 6 };

static void
add_labels(struct book *book, struct block *table,
	const struct record *cardback)
{
	const struct value *labels = model_get(book->model, cardback->values,
		NAME(CARDBACK_LABELS));
	const struct record *scheme;
	struct value *const *group;
	struct block *cell;
	unsigned i;

	if (value_count(labels) == 0)
		return;
	cell = copy_fact(book, table, labels->field->title);
	for (i = 0; i < value_count(labels); i++) {
		group = value_item(labels, i)->group;
		scheme = model_record(book->model, group,
			NAME(CARDBACK_LABELS_SCHEME));
		if (i > 0)
			copy_text(book, cell, PLAIN, "; ");
		copy_text(book, cell, BOLD,
			model_text(book->model, group,
				NAME(CARDBACK_LABELS_LABEL)));
		if (scheme != NULL)
			copy_text(book, cell, PLAIN,
				arena_print(book->arena, " in %s",
					scheme->name));
	}
}

/* Pairings of a card back by the place of their character in the matrix. */
static GPtrArray *
list_pairings(const struct matrix *matrix, unsigned column)
{
	GPtrArray *list = g_ptr_array_new();
	const struct record *pairing;
	unsigned row;

	for (row = 0; row < matrix->rows; row++) {
		pairing = matrix->cells[(size_t)row * matrix->columns + column];
		if (pairing != NULL)
			g_ptr_array_add(list, (gpointer)(guintptr)pairing);
	}
	return list;
}

static const struct word *
find_concluded(const struct book *book, const struct record *pairing)
{
	const struct value *value = model_get(book->model, pairing->values,
		NAME(PAIRING_CONCLUDED));

	return value == NULL ? NULL : value->word;
}

static void
add_tick(struct book *book, struct block *cell, const struct record *pairing)
{
	const struct record *character = model_record(book->model,
		pairing->values, NAME(PAIRING_CHARACTER));
	const struct word *word = find_concluded(book, pairing);

	block_symbol(book->arena, cell, SYMBOL_BOX,
		"to tick");
	copy_text(book, cell, PLAIN, "\u00a0");
	if (word != NULL) {
		block_symbol(book->arena, cell, book_symbol(word),
			word->title);
		copy_text(book, cell, PLAIN, "\u00a0");
	}
	copy_record(book, cell, PLAIN, character);
	/* Named in passing: the list by character has them all. */
	cell->last_run->about = NULL;
	if (word != NULL && word->index > 0)
		copy_text(book, cell, ITALIC,
			arena_print(book->arena, ", %s", word->title));
}

/* A name with its box and sign needs about twelve ems. */
static unsigned
count_abreast(const struct book *book)
{
	double em = book->format->styles[STYLE_TABLE].size;
	unsigned fit = (unsigned)(format_measure(book->format) / (12.5 * em));

	return CLAMP(fit, 1, MOST_ABREAST);
}

/* The characters of a card back, downwards and then across. */
static void
add_characters(struct book *book, struct block *chapter,
	const GPtrArray *pairings)
{
	unsigned abreast = count_abreast(book);
	guint rows = (pairings->len + abreast - 1) / abreast, row, at;
	struct column *columns = arena_array(book->arena, struct column,
		abreast);
	struct block *table, *line, *cell;
	unsigned column;

	if (pairings->len == 0)
		return;
	for (column = 0; column < abreast; column++)
		columns[column].share = 1;
	table = book_table(book, chapter, columns, abreast);
	table->quiet = true;
	for (row = 0; row < rows; row++) {
		line = block_new(book->arena, table, BLOCK_ROW, STYLE_TABLE);
		for (column = 0; column < abreast; column++) {
			cell = book_cell(book, line);
			cell->hang = 1.88;
			at = column * rows + row;
			if (at < pairings->len)
				add_tick(book, cell,
					g_ptr_array_index(pairings, at));
		}
	}
}

static void
add_cardback(struct book *book, struct block *chapter,
	const struct matrix *matrix, unsigned column)
{
	const struct field *const skip[] = {model_field(book->model,
						    NAME(CARDBACK_MARKET)),
		model_field(book->model, NAME(CARDBACK_LABELS)),
		model_field(book->model, NAME(CARDBACK_PICTURES)),
		model_field(book->model, NAME(CARDBACK_PICTURES_COMPLETE)),
		NULL};
	const struct record *cardback = matrix->cardbacks[column];
	const char *label = copy_label(book, cardback);
	GPtrArray *pairings = list_pairings(matrix, column);
	struct block *entry, *heading, *table;

	entry = book_entry(book, chapter);
	heading = book_heading(book, entry, STYLE_ENTRY, label,
		book_anchor(book, cardback));
	heading->guide = label;
	book_part(book, label, heading->anchor);
	table = copy_fact_table(book, entry);
	add_labels(book, table, cardback);
	copy_facts(book, table, cardback, skip);
	numbers_fact(book, table, (struct subject){SUBJECT_CARDBACK, cardback,
		NULL, NULL});
	copy_prose_fields(book, entry, STYLE_BODY, cardback);
	copy_groups(book, entry, cardback, skip);
	copy_details(book, copy_detail_block(book, entry), cardback, skip,
		false);
	add_characters(book, entry, pairings);
	g_ptr_array_free(pairings, TRUE);
}

/* Card backs of one conclusion in a row of the character table. */
static void
add_concluded(struct book *book, struct block *cell,
	const struct matrix *matrix, unsigned row, const struct word *word)
{
	const struct record *const
		*cells = &matrix->cells[(size_t)row * matrix->columns];
	const struct record *cardback;
	bool begun = false;
	unsigned i;

	for (i = 0; i < matrix->columns; i++) {
		if (cells[i] == NULL || find_concluded(book, cells[i]) != word)
			continue;
		cardback = matrix->cardbacks[i];
		if (!begun && cell->runs != NULL)
			copy_text(book, cell, PLAIN, "   ");
		if (!begun && word != NULL) {
			block_symbol(book->arena, cell, book_symbol(word),
			word->title);
			copy_text(book, cell, ITALIC,
				arena_print(book->arena, "\u00a0%s ",
					word->title));
		}
		begun = true;
		block_symbol(book->arena, cell, SYMBOL_BOX,
		"to tick");
		copy_text(book, cell, PLAIN,
			arena_print(book->arena, "\u00a0%s ",
				copy_label(book, cardback)));
		cell->last_run->link = arena_print(book->arena, "#%s",
			book_anchor(book, cardback));
	}
}

static void
add_character_table(struct book *book, struct block *chapter,
	const struct matrix *matrix)
{
	static const char *const heads[] = {"Character", "Card backs"};
	static const struct column columns[] = {{10, 0, ALIGN_LEFT},
		{0, 1, ALIGN_LEFT}};
	const struct vocabulary *words =
		model_field(book->model, NAME(PAIRING_CONCLUDED))->vocabulary;
	struct block *table, *row, *cell;
	unsigned i, k;

	if (matrix->rows == 0)
		return;
	book_heading(book, chapter, STYLE_HEAD_1, "Characters by card back",
		NULL)
		->guide = "Characters";
	table = book_table(book, chapter, columns, 2);
	table->again = "Characters by card back";
	book_heads(book, table, heads);
	for (i = 0; i < matrix->rows; i++) {
		row = block_new(book->arena, table, BLOCK_ROW, STYLE_TABLE);
		cell = book_cell(book, row);
		copy_record(book, cell, BOLD, matrix->characters[i]);
		cell = book_cell(book, row);
		for (k = 0; k < words->count; k++)
			add_concluded(book, cell, matrix, i, &words->words[k]);
		add_concluded(book, cell, matrix, i, NULL);
	}
}

/* "Your old 18C is now 18D." */
static void
add_relabels(struct book *book, struct block *entry,
	const struct record *scheme)
{
	const struct value *relabels = model_get(book->model, scheme->values,
		NAME(SCHEME_RELABELS));
	struct value *const *group;
	const char *now, *reason;
	struct block *list, *item;
	unsigned i;

	if (value_count(relabels) == 0)
		return;
	list = block_new(book->arena, entry, BLOCK_LIST, STYLE_BODY);
	list->tight = true;
	for (i = 0; i < value_count(relabels); i++) {
		group = value_item(relabels, i)->group;
		now = model_text(book->model, group, NAME(SCHEME_RELABEL_NOW));
		reason = model_text(book->model, group,
			NAME(SCHEME_RELABEL_REASON));
		item = block_new(book->arena, list, BLOCK_ITEM, STYLE_BODY);
		book_say(book, item, STYLE_BODY, arena_print(book->arena,
			"Your old %s %s%s. %s", model_text(book->model, group,
				NAME(SCHEME_RELABEL_WAS)),
			now == NULL ? "has no label any more" : "is now ",
			now == NULL ? "" : now, reason == NULL ? "" : reason));
	}
}

static void
add_schemes(struct book *book, struct block *chapter,
	const struct record *market)
{
	const struct field *const skip[] = {model_field(book->model,
						    NAME(SCHEME_NAME)),
		model_field(book->model, NAME(SCHEME_MARKET)),
		model_field(book->model, NAME(SCHEME_RELABELS)), NULL};
	struct pointer_list pointing = model_pointing(book->model, market);
	struct block *entry;
	size_t i;

	for (i = 0; i < pointing.count; i++) {
		if (pointing.items[i].field !=
			model_field(book->model, NAME(SCHEME_MARKET)))
			continue;
		entry = book_entry(book, chapter);
		book_heading(book, entry, STYLE_HEAD_3,
			pointing.items[i].from->name, NULL);
		copy_record_body(book, entry, pointing.items[i].from, skip);
		add_relabels(book, entry, pointing.items[i].from);
	}
}

/* What lists leave to be found, in sentences. */
static void
add_unseen(struct book *book, struct block *chapter,
	const struct record *market)
{
	const struct unseen *unseen = &book->unseen.items[market->index];
	struct unseen_words words = unseen_say(unseen, book->arena);
	struct block *list, *item;
	unsigned i;

	if (unseen->recorded == 0)
		return;
	book_heading(book, chapter, STYLE_HEAD_1, "Still unseen", NULL);
	list = block_new(book->arena, chapter, BLOCK_LIST, STYLE_BODY);
	list->tight = true;
	for (i = 0; i < words.count; i++) {
		item = block_new(book->arena, list, BLOCK_ITEM, STYLE_BODY);
		book_say(book, item, STYLE_BODY, words.items[i]);
	}
}

static void
add_market(struct book *book, const struct record *market, unsigned number)
{
	const struct field *const skip[] = {model_field(book->model,
						    NAME(MARKET_NAME)),
		NULL};
	struct matrix *matrix = study_matrix(book->model, market, book->arena);
	struct block *chapter;
	unsigned i;

	chapter = book_chapter(book,
		arena_print(book->arena, "market %u", number), market->name,
		book_anchor(book, market));
	chapter->tab = arena_print(book->arena, "%u", number);
	copy_record_body(book, chapter, market, skip);
	add_schemes(book, chapter, market);
	if (matrix->columns > 0)
		book_heading(book, chapter, STYLE_HEAD_1, "Card backs", NULL);
	for (i = 0; i < matrix->columns; i++)
		add_cardback(book, chapter, matrix, i);
	add_character_table(book, chapter, matrix);
	add_unseen(book, chapter, market);
	book_buyers(book, chapter, matrix);
}

void
book_markets(struct book *book)
{
	struct record_list list = model_records_of(book->model, "market");
	unsigned i;

	for (i = 0; i < list.count; i++)
		add_market(book, list.items[i], i + 1);
}
