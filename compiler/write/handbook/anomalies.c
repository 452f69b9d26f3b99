/*
 * Anomalies: the pages people look at before they buy. First who is on the
 * list, then each anomaly with how to tell it, and a table of the pieces.
 */
#include <glib.h>
#include <inttypes.h>
#include <string.h>

#include "base/arena.h"
#include "write/handbook/book.h"
#include "write/handbook/numbers.h"

/* Estimates without a pairing are of all pairings together. */
static bool
estimates_pairing(const struct book *book, const struct value *estimate,
	const struct record *pairing)
{
	return model_record(book->model, estimate->group,
		       NAME(ANOMALY_ESTIMATE_PAIRING)) == pairing;
}

/* "12–20 surviving, carded": a number alone, or its interval, or both. */
static void
add_estimate(struct book *book, struct block *cell,
	const struct value *estimate)
{
	struct value *const *group = estimate->group;
	int64_t number = model_whole(book->model, group,
		NAME(ANOMALY_ESTIMATE_NUMBER), -1);
	int64_t low = model_whole(book->model, group,
		NAME(ANOMALY_ESTIMATE_LOW), -1);
	int64_t high = model_whole(book->model, group,
		NAME(ANOMALY_ESTIMATE_HIGH), -1);
	const struct value *of = model_get(book->model, group,
		NAME(ANOMALY_ESTIMATE_OF));
	const struct value *form = model_get(book->model, group,
		NAME(ANOMALY_ESTIMATE_FORM));
	GString *text = g_string_new(NULL);

	if (number >= 0)
		g_string_append_printf(text, "%" PRId64, number);
	if (low >= 0 && high >= 0)
		g_string_append_printf(text,
			number >= 0 ? " (%" PRId64 "–%" PRId64 ")" :
				      "%" PRId64 "–%" PRId64,
			low, high);
	else if (low >= 0)
		g_string_append_printf(text, " at least %" PRId64, low);
	else if (high >= 0)
		g_string_append_printf(text, " at most %" PRId64, high);
	copy_text(book, cell, BOLD,
		arena_text(book->arena, text->str, text->len));
	g_string_truncate(text, 0);
	if (of != NULL)
		g_string_append_printf(text, " %s", of->word->title);
	if (form != NULL)
		g_string_append_printf(text, ", %s", form->word->title);
	copy_text(book, cell, PLAIN,
		arena_text(book->arena, text->str, text->len));
	g_string_free(text, TRUE);
}

static void
add_basis(struct book *book, struct block *cell, const struct value *estimate)
{
	const struct record *source = model_record(book->model, estimate->group,
		NAME(ANOMALY_ESTIMATE_SOURCE));
	const struct date *date = model_date(book->model, estimate->group,
		NAME(ANOMALY_ESTIMATE_DATE));

	if (source != NULL)
		copy_record(book, cell, PLAIN, source);
	if (source != NULL && date != NULL)
		copy_text(book, cell, PLAIN, ", ");
	if (date != NULL)
		copy_date(book, cell, date);
}

/* What the rows are of: an anomaly on a pairing, or on all together. */
static void
add_name(struct book *book, struct block *cell, const struct record *pairing)
{
	const struct record *cardback;

	if (pairing == NULL) {
		copy_text(book, cell, BOLD, "All together");
		return;
	}
	cardback = model_record(book->model, pairing->values,
		NAME(PAIRING_CARDBACK));
	copy_record(book, cell, BOLD, model_record(book->model,
		pairing->values, NAME(PAIRING_CHARACTER)));
	copy_text(book, cell, PLAIN, arena_print(book->arena, " on %s",
		copy_label(book, cardback)));
	copy_page(book, cell, cardback);
}

/* A row with the computed estimate, and one for each quoted one. */
static void
add_rows(struct book *book, struct block *table, const struct record *anomaly,
	const struct record *pairing)
{
	const struct value *estimates = model_get(book->model, anomaly->values,
		NAME(ANOMALY_ESTIMATES));
	const struct subject subject = {pairing == NULL ? SUBJECT_ANOMALY :
		SUBJECT_ANOMALY_ON, anomaly, NULL, pairing};
	struct block *row = block_new(book->arena, table, BLOCK_ROW,
		STYLE_TABLE);
	unsigned i;

	add_name(book, book_cell(book, row), pairing);
	copy_text(book, book_cell(book, row), PLAIN, arena_print(book->arena,
		"%u", numbers_known(book, subject)));
	numbers_answer(book, book_cell(book, row), subject);
	numbers_basis(book, book_cell(book, row), subject);
	for (i = 0; i < value_count(estimates); i++) {
		const struct value *estimate = value_item(estimates, i);

		if (!estimates_pairing(book, estimate, pairing))
			continue;
		row = block_new(book->arena, table, BLOCK_ROW, STYLE_TABLE);
		book_cell(book, row);
		book_cell(book, row);
		add_estimate(book, book_cell(book, row), estimate);
		add_basis(book, book_cell(book, row), estimate);
	}
}

static void
add_tells(struct book *book, struct block *chapter,
	const struct record *anomaly)
{
	const struct value *tells = model_get(book->model, anomaly->values,
		NAME(ANOMALY_TELLS));
	struct block *list, *item;
	unsigned i;

	if (value_count(tells) == 0)
		return;
	book_heading(book, chapter, STYLE_HEAD_3, "How to tell", NULL);
	list = block_new(book->arena, chapter, BLOCK_LIST, STYLE_BODY);
	list->tight = true;
	for (i = 0; i < value_count(tells); i++) {
		item = block_new(book->arena, list, BLOCK_ITEM, STYLE_BODY);
		book_say(book, item, STYLE_BODY, value_item(tells, i)->text);
	}
}

static void
add_anomaly(struct book *book, struct block *chapter,
	const struct record *anomaly)
{
	static const char *const heads[] = {"Character", "Seen", "Estimate",
		"Source"};
	static const struct column columns[] = {{0, 0, ALIGN_LEFT},
		{0, 0, ALIGN_RIGHT}, {0, 1, ALIGN_LEFT}, {0, 1, ALIGN_LEFT}};
	const struct field *const skip[] = {fields_find(&anomaly->kind->fields,
						    "name"),
		model_field(book->model, NAME(ANOMALY_PAIRINGS)),
		model_field(book->model, NAME(ANOMALY_TELLS)),
		model_field(book->model, NAME(ANOMALY_ESTIMATES)), NULL};
	const struct value *pairings = model_get(book->model, anomaly->values,
		NAME(ANOMALY_PAIRINGS));
	struct block *entry = book_entry(book, chapter), *heading, *table;
	unsigned i;

	heading = book_heading(book, entry, STYLE_ENTRY, anomaly->name,
		book_anchor(book, anomaly));
	heading->guide = anomaly->name;
	copy_facts(book, copy_fact_table(book, entry), anomaly, skip);
	add_tells(book, entry, anomaly);
	copy_prose_fields(book, entry, STYLE_BODY, anomaly);
	copy_groups(book, entry, anomaly, skip);
	copy_details(book, copy_detail_block(book, entry), anomaly, skip,
		false);
	table = book_table(book, entry, columns, 4);
	copy_text(book, table, PLAIN, anomaly->name);
	book_heads(book, table, heads);
	for (i = 0; i < value_count(pairings); i++)
		add_rows(book, table, anomaly,
			value_item(pairings, i)->reference.record);
	add_rows(book, table, anomaly, NULL);
}

/* One line of the list of all: a character, and what to beware of. */
struct entry {
	const struct record *market;
	const struct record *cardback;
	const struct record *pairing;
	const struct record *anomaly;
};

static int
compare_places(const struct record *left, const struct record *right)
{
	return (left->index > right->index) - (left->index < right->index);
}

static int
compare_entries(const void *a, const void *b)
{
	const struct entry *left = a, *right = b;
	int order = compare_places(left->market, right->market);

	if (order == 0)
		order = compare_places(left->pairing, right->pairing);
	return order != 0 ? order :
			    compare_places(left->anomaly, right->anomaly);
}

static GArray *
list_entries(const struct book *book)
{
	struct record_list list = model_records_of(book->model, "anomaly");
	GArray *entries = g_array_new(FALSE, FALSE, sizeof(struct entry));
	const struct value *pairings;
	struct entry entry;
	unsigned i, k;

	for (i = 0; i < list.count; i++) {
		entry.anomaly = list.items[i];
		pairings = model_get(book->model, entry.anomaly->values,
			NAME(ANOMALY_PAIRINGS));
		for (k = 0; k < value_count(pairings); k++) {
			entry.pairing = value_item(pairings, k)
						->reference.record;
			entry.cardback = model_record(book->model,
				entry.pairing->values, NAME(PAIRING_CARDBACK));
			entry.market = model_record(book->model,
				entry.cardback->values, NAME(CARDBACK_MARKET));
			g_array_append_val(entries, entry);
		}
	}
	g_array_sort(entries, compare_entries);
	return entries;
}

static void
add_overview_row(struct book *book, struct block *table,
	const struct entry *entry)
{
	struct block *row = block_new(book->arena, table, BLOCK_ROW,
		STYLE_TABLE);
	const struct value *standing = model_get(book->model,
		entry->anomaly->values, NAME(ANOMALY_STANDING));
	struct block *cell;

	copy_record(book, book_cell(book, row), PLAIN,
		model_record(book->model, entry->pairing->values,
			NAME(PAIRING_CHARACTER)));
	cell = book_cell(book, row);
	copy_text(book, cell, PLAIN, copy_label(book, entry->cardback));
	cell->last_run->link = arena_print(book->arena, "#%s",
		book_anchor(book, entry->cardback));
	copy_record(book, book_cell(book, row), BOLD, entry->anomaly);
	cell = book_cell(book, row);
	if (standing != NULL)
		copy_value(book, cell, standing);
	block_page(book->arena, book_cell(book, row),
		book_anchor(book, entry->anomaly));
}

static void
add_market_row(struct book *book, struct block *table,
	const struct record *market)
{
	struct block *row = block_new(book->arena, table, BLOCK_ROW,
		STYLE_TABLE);
	struct block *cell = book_cell(book, row);

	row->row = ROW_GROUP;
	cell->span = table->count;
	copy_text(book, cell, ITALIC, market->name);
}

static void
add_overview(struct book *book, struct block *chapter)
{
	static const char *const heads[] = {"Character", "Card back", "Anomaly",
		"Standing", "Page"};
	static const struct column columns[] = {{0, 1, ALIGN_LEFT},
		{0, 0, ALIGN_LEFT}, {0, 0, ALIGN_LEFT}, {0, 0, ALIGN_LEFT},
		{0, 0, ALIGN_RIGHT}};
	GArray *entries = list_entries(book);
	const struct record *market = NULL;
	const struct entry *entry;
	struct block *table = NULL;
	guint i;

	if (entries->len > 0) {
		table = book_table(book, chapter, columns, 5);
		copy_text(book, table, PLAIN, "Who is on the list");
		book_heads(book, table, heads);
	}
	for (i = 0; i < entries->len; i++) {
		entry = &g_array_index(entries, struct entry, i);
		if (entry->market != market)
			add_market_row(book, table, entry->market);
		market = entry->market;
		add_overview_row(book, table, entry);
	}
	g_array_free(entries, TRUE);
}

void
book_anomalies(struct book *book)
{
	struct record_list list = model_records_of(book->model, "anomaly");
	struct block *chapter;
	unsigned i;

	if (list.count == 0)
		return;
	chapter = book_chapter(book, "before you buy", "Anomalies",
		"anomalies");
	book_say(book, chapter, STYLE_BODY,
		"Errors, re-uses and left-overs. To be on this list is mostly "
		"bad news for a character: it is one more thing that can be "
		"wrong with a piece. Numbers seen are carded pieces without "
		"alterations, told apart with certainty. Computed estimates "
		"are of such pieces, with 95 % limits; quoted ones say of "
		"what, by whom and when. They are no prices, no appraisal, "
		"and authenticate no piece.");
	add_overview(book, chapter);
	for (i = 0; i < list.count; i++)
		add_anomaly(book, chapter, list.items[i]);
}
