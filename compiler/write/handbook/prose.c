/*
 * CommonMark trees as blocks. A link to a record becomes a link to its place,
 * with the page behind it for those who read on paper.
 */
#include <glib.h>
#include <string.h>

#include "base/arena.h"
#include "write/handbook/book.h"

struct look {
	unsigned emphasis;
	const char *link;
};

static void
copy_chain(struct book *book, struct block *block, const struct prose *first,
	struct look look);

static void
copy_run(struct book *book, struct block *block, const char *text,
	struct look look)
{
	copy_text(book, block, look.emphasis, text);
	block->last_run->link = look.link;
}

static void
copy_link(struct book *book, struct block *block, const struct prose *prose,
	struct look look)
{
	const char *place;

	if (prose->record == NULL) {
		look.link = prose->text;
		copy_chain(book, block, prose->first, look);
		return;
	}
	place = book_place(book, prose->record);
	if (place != NULL)
		look.link = arena_print(book->arena, "#%s", place);
	copy_chain(book, block, prose->first, look);
	if (place == NULL || strcmp(prose->record->kind->name, "term") == 0 ||
		strcmp(prose->record->kind->name, "source") == 0)
		return;
	look.link = NULL;
	copy_run(book, block, " (p.\u00a0", look);
	block_page(book->arena, block, place)->emphasis = look.emphasis;
	copy_run(book, block, ")", look);
}

static void
copy_node(struct book *book, struct block *block, const struct prose *prose,
	struct look look)
{
	switch (prose->kind) {
	case PROSE_TEXT:
		copy_run(book, block, prose->text, look);
		break;
	case PROSE_CODE:
		look.emphasis |= CODE;
		copy_run(book, block, prose->text, look);
		break;
	case PROSE_SOFT_BREAK:
		copy_run(book, block, " ", look);
		break;
	case PROSE_LINE_BREAK:
		block_text(book->arena, block, PLAIN, "")->kind = RUN_BREAK;
		break;
	case PROSE_EMPHASIS:
		look.emphasis ^= ITALIC;
		copy_chain(book, block, prose->first, look);
		break;
	case PROSE_STRONG:
		look.emphasis |= BOLD;
		copy_chain(book, block, prose->first, look);
		break;
	case PROSE_LINK:
		copy_link(book, block, prose, look);
		break;
	case PROSE_DOCUMENT:
	case PROSE_PARAGRAPH:
	case PROSE_HEADING:
	case PROSE_QUOTE:
	case PROSE_BULLETS:
	case PROSE_NUMBERS:
	case PROSE_ITEM:
	case PROSE_CODE_BLOCK:
	case PROSE_RULE:
		copy_chain(book, block, prose->first, look);
		if (prose->next != NULL)
			copy_run(book, block, " ", look);
		break;
	}
}

static void
copy_chain(struct book *book, struct block *block, const struct prose *first,
	struct look look)
{
	const struct prose *prose;

	for (prose = first; prose != NULL; prose = prose->next)
		copy_node(book, block, prose, look);
}

void
copy_inline(struct book *book, struct block *block, unsigned emphasis,
	const struct prose *prose)
{
	copy_chain(book, block, prose->first, (struct look){emphasis, NULL});
}

/* The first line is drawn in where a paragraph follows another one. */
static void
copy_paragraph(struct book *book, struct block *parent, enum style style,
	const struct prose *prose)
{
	bool follows = parent->last != NULL &&
		parent->last->kind == BLOCK_PARAGRAPH &&
		parent->last->style == style;
	struct block *block = block_new(book->arena, parent, BLOCK_PARAGRAPH,
		style);

	block->size = follows ? 1.2 : 0;
	copy_inline(book, block, PLAIN, prose);
}

static void
copy_list(struct book *book, struct block *parent, enum style style,
	const struct prose *prose)
{
	struct block *list = block_new(book->arena, parent, BLOCK_LIST, style);
	const struct prose *item;

	list->tight = prose->tight;
	list->number = prose->kind == PROSE_NUMBERS ?
		(unsigned)MAX(prose->level, 1) :
		0;
	for (item = prose->first; item != NULL; item = item->next)
		copy_prose(book,
			block_new(book->arena, list, BLOCK_ITEM, style), style,
			item);
}

/* Lines of code keep their ends and their indents. */
static void
copy_code(struct book *book, struct block *parent, const char *text)
{
	struct block *block = block_new(book->arena, parent, BLOCK_PARAGRAPH,
		STYLE_CODE);
	const char *end;

	block->indent = 1.2;
	for (; *text != '\0'; text = end + (*end == '\n')) {
		end = text + strcspn(text, "\n");
		for (; *text == ' ' || *text == '\t'; text++)
			copy_text(book, block, PLAIN, "\u00a0\u00a0");
		copy_text(book, block, PLAIN,
			arena_text(book->arena, text, (size_t)(end - text)));
		block_text(book->arena, block, PLAIN, "")->kind = RUN_BREAK;
	}
}

static void
copy_block(struct book *book, struct block *parent, enum style style,
	const struct prose *prose)
{
	struct block *block;

	switch (prose->kind) {
	case PROSE_PARAGRAPH:
		copy_paragraph(book, parent, style, prose);
		break;
	case PROSE_HEADING:
		block = block_new(book->arena, parent, BLOCK_HEADING,
			prose->level <= 2 ? STYLE_HEAD_2 : STYLE_HEAD_3);
		copy_inline(book, block, PLAIN, prose);
		break;
	case PROSE_QUOTE:
		block = block_new(book->arena, parent, BLOCK_CALLOUT, style);
		copy_prose(book, block, style, prose);
		break;
	case PROSE_BULLETS:
	case PROSE_NUMBERS:
		copy_list(book, parent, style, prose);
		break;
	case PROSE_CODE_BLOCK:
		copy_code(book, parent, prose->text);
		break;
	case PROSE_RULE:
		block_new(book->arena, parent, BLOCK_RULE, style);
		break;
	case PROSE_DOCUMENT:
	case PROSE_ITEM:
		copy_prose(book, parent, style, prose);
		break;
	case PROSE_TEXT:
	case PROSE_CODE:
	case PROSE_SOFT_BREAK:
	case PROSE_LINE_BREAK:
	case PROSE_EMPHASIS:
	case PROSE_STRONG:
	case PROSE_LINK:
		break;
	}
}

void
copy_prose(struct book *book, struct block *parent, enum style style,
	const struct prose *prose)
{
	const struct prose *at;

	for (at = prose->first; at != NULL; at = at->next)
		copy_block(book, parent, style, at);
}

void
copy_prose_fields(struct book *book, struct block *parent, enum style style,
	const struct record *record)
{
	const struct fields *fields = &record->kind->fields;
	unsigned i;

	for (i = 0; i < fields->count; i++) {
		if (record->values[i] != NULL && fields->items[i].exported &&
			fields->items[i].show != SHOW_NO &&
			fields->items[i].type == TYPE_PROSE &&
			!fields->items[i].many)
			copy_prose(book, parent, style,
				record->values[i]->prose.tree);
	}
}
