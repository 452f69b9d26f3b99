/*
 * The order of the book, and what its chapters are made with.
 */
#include "write/handbook/book.h"

#include <glib.h>
#include <string.h>

#include "base/arena.h"

/*
 * Kinds whose records have a place of their own. What is told in the place of
 * another record is led there by book_place.
 */
static const char *const printed[] = {"market", "cardback", "character",
	"anomaly", "essay", "term", "source", "sheet"};

static const struct record *
find_edition(const struct model *model)
{
	struct record_list list = model_records_of(model, "edition");
	const struct record *latest = NULL;
	int64_t year, best = -1;
	unsigned i;

	for (i = 0; i < list.count; i++) {
		year = model_whole(model, list.items[i]->values,
			NAME(EDITION_YEAR), 0);
		if (year > best)
			latest = list.items[i];
		best = MAX(best, year);
	}
	return latest;
}

static void
mark_printed(struct book *book)
{
	const struct schema *schema = model_schema(book->model);
	const struct kind *kind;
	size_t i;

	book->printed = arena_array(book->arena, bool, schema->count);
	for (i = 0; i < G_N_ELEMENTS(printed); i++) {
		kind = schema_kind(schema, printed[i]);
		if (kind != NULL)
			book->printed[kind->index] = true;
	}
}

struct book *
book_make(const struct model *model, const struct seen *seen,
	const struct reckonings *reckonings, const struct format *format,
	struct arena *arena)
{
	struct book *book = arena_one(arena, struct book);

	book->arena = arena;
	book->model = model;
	book->seen = seen;
	book->reckonings = reckonings;
	book->format = format;
	book->buying = buying_gather(model, seen, arena);
	book->unseen = unseen_study(model, seen,
		reckonings_evidences(reckonings), arena);
	book->edition = find_edition(model);
	book->root = block_new(arena, NULL, BLOCK_BOOK, STYLE_BODY);
	mark_printed(book);
	book_mark_records(book);
	book_front(book);
	book_markets(book);
	book_characters(book);
	book_keys(book);
	book_anomalies(book);
	book_records(book);
	book_census(book);
	book_sheets(book);
	book_essays(book);
	book_glossary(book);
	book_sources(book);
	book_index(book);
	book_colophon(book);
	return book;
}

struct block *
book_chapter(struct book *book, const char *kicker, const char *title,
	const char *anchor)
{
	struct block *chapter = block_new(book->arena, book->root,
		BLOCK_CHAPTER, STYLE_BODY);
	struct block *entry;

	chapter->running = title;
	chapter->anchor = anchor;
	chapter->outline = title;
	chapter->level = 1;
	if (kicker != NULL)
		block_say(book->arena, chapter, BLOCK_HEADING, STYLE_KICKER,
			kicker);
	block_say(book->arena, chapter, BLOCK_HEADING, STYLE_CHAPTER, title);
	if (book->contents == NULL)
		return chapter;
	entry = block_say(book->arena, book->contents, BLOCK_ENTRY,
		STYLE_CONTENTS, title);
	entry->target = anchor;
	entry->runs->link = arena_print(book->arena, "#%s", anchor);
	book->parts = NULL;
	return chapter;
}

void
book_part(struct book *book, const char *title, const char *anchor)
{
	struct block *entry;

	if (book->parts == NULL) {
		book->contents->last->keep = true;
		book->parts = block_new(book->arena, book->contents,
			BLOCK_COLUMNS, STYLE_CONTENTS_2);
		book->parts->size = 5;
	}
	entry = block_say(book->arena, book->parts, BLOCK_ENTRY,
		STYLE_CONTENTS_2, title);
	entry->target = anchor;
	entry->runs->link = arena_print(book->arena, "#%s", anchor);
}

struct block *
book_entry(struct book *book, struct block *parent)
{
	struct block *entry = block_new(book->arena, parent, BLOCK_GROUP,
		STYLE_BODY);

	entry->together = true;
	return entry;
}

struct block *
book_heading(struct book *book, struct block *parent, enum style style,
	const char *title, const char *anchor)
{
	struct block *heading = block_say(book->arena, parent, BLOCK_HEADING,
		style, title);

	heading->anchor = anchor;
	if (anchor == NULL)
		return heading;
	heading->outline = title;
	heading->level = 2;
	return heading;
}

struct block *
book_say(struct book *book, struct block *parent, enum style style,
	const char *text)
{
	return block_say(book->arena, parent, BLOCK_PARAGRAPH, style, text);
}

struct block *
book_table(struct book *book, struct block *parent,
	const struct column *columns, unsigned count)
{
	struct block *table = block_new(book->arena, parent, BLOCK_TABLE,
		STYLE_TABLE);

	table->columns = columns;
	table->count = count;
	return table;
}

void
book_heads(struct book *book, struct block *table, const char *const *heads)
{
	struct block *row = block_new(book->arena, table, BLOCK_ROW,
		STYLE_TABLE);
	unsigned i;

	row->row = ROW_HEAD;
	for (i = 0; i < table->count; i++)
		block_say(book->arena, row, BLOCK_CELL, STYLE_TABLE_HEAD,
			heads[i]);
}

struct block *
book_cell(struct book *book, struct block *row)
{
	return block_new(book->arena, row, BLOCK_CELL, STYLE_TABLE);
}

const char *
book_anchor(const struct book *book, const struct record *record)
{
	return arena_print(book->arena, "%s/%s", record->kind->name,
		record->id);
}

const char *
book_place(const struct book *book, const struct record *record)
{
	if (strcmp(record->kind->name, "pairing") == 0)
		record = model_record(book->model, record->values,
			NAME(PAIRING_CARDBACK));
	else if (strcmp(record->kind->name, "variant") == 0)
		record = model_record(book->model, record->values,
			NAME(VARIANT_CHARACTER));
	else if (strcmp(record->kind->name, "scheme") == 0)
		record = model_record(book->model, record->values,
			NAME(SCHEME_MARKET));
	if (record == NULL || !book->printed[record->kind->index])
		return NULL;
	return book_anchor(book, record);
}

enum symbol
book_symbol(const struct word *word)
{
	static const enum symbol symbols[] = {SYMBOL_FULL, SYMBOL_HALF,
		SYMBOL_RING, SYMBOL_CROSS, SYMBOL_BAR};

	return symbols[MIN(word->index, G_N_ELEMENTS(symbols) - 1)];
}
