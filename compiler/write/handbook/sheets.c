/*
 * Intake sheets, a page each, to copy and tick when a piece has come.
 */
#include <glib.h>

#include "base/arena.h"
#include "write/handbook/book.h"

static void
add_check(struct book *book, struct block *table, struct value *const *check)
{
	struct block *row = block_new(book->arena, table, BLOCK_ROW,
		STYLE_TABLE);
	const struct value *states = model_get(book->model, check,
		NAME(SHEET_STATES));
	const struct value *against = model_get(book->model, check,
		NAME(SHEET_AGAINST));
	struct block *cell = book_cell(book, row);
	unsigned i;

	cell->hang = 1.4;
	block_symbol(book->arena, cell, SYMBOL_BOX,
		"to tick");
	copy_text(book, cell, PLAIN, "\u00a0");
	copy_text(book, cell, PLAIN, model_text(book->model, check,
		NAME(SHEET_LOOK)));
	cell = book_cell(book, row);
	if (against != NULL)
		copy_text(book, cell, ITALIC, against->word->title);
	cell = book_cell(book, row);
	for (i = 0; i < value_count(states); i++) {
		block_symbol(book->arena, cell, SYMBOL_BOX,
		"to tick");
		copy_text(book, cell, PLAIN, arena_print(book->arena,
			"\u00a0%s  ", value_item(states, i)->word->title));
	}
}

static void
add_sheet(struct book *book, struct block *chapter, const struct record *sheet)
{
	static const char *const heads[] = {"Look at", "Hold it against",
		"Tick what fits"};
	static const struct column columns[] = {{0, 1, ALIGN_LEFT},
		{8, 0, ALIGN_LEFT}, {0, 1, ALIGN_LEFT}};
	const struct value *checks = model_get(book->model, sheet->values,
		NAME(SHEET_CHECKS));
	const struct value *before = model_get(book->model, sheet->values,
		NAME(SHEET_BEFORE));
	const struct value *after = model_get(book->model, sheet->values,
		NAME(SHEET_AFTER));
	struct block *table;
	unsigned i;

	book_heading(book, chapter, STYLE_ENTRY, sheet->name,
		book_anchor(book, sheet))->guide = sheet->name;
	book_say(book, chapter, STYLE_SMALL, "Piece:"
		" ________________________________  Date: ______________  "
		"From: ________________");
	if (before != NULL)
		copy_prose(book, chapter, STYLE_BODY, before->prose.tree);
	table = book_table(book, chapter, columns, 3);
	table->again = sheet->name;
	book_heads(book, table, heads);
	for (i = 0; i < value_count(checks); i++)
		add_check(book, table, value_item(checks, i)->group);
	if (after != NULL)
		copy_prose(book, chapter, STYLE_BODY, after->prose.tree);
}

void
book_sheets(struct book *book)
{
	struct record_list list = model_records_of(book->model, "sheet");
	struct block *chapter;
	unsigned i;

	if (list.count == 0)
		return;
	chapter = book_chapter(book, "to copy and tick", "When it has come",
		"sheets");
	for (i = 0; i < list.count; i++) {
		if (i > 0)
			block_new(book->arena, chapter, BLOCK_BREAK,
				STYLE_BODY);
		add_sheet(book, chapter, list.items[i]);
	}
}
