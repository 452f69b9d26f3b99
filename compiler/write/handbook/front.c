/*
 * What stands before the first market: title, cautions, contents, and how to
 * use the book. The cautions are the program's own and not the corpus's, so
 * that no guide can be without them.
 */
#include <glib.h>

#include "base/arena.h"
#include "write/handbook/book.h"

static const char *const cautions[][2] = {
	{"Not for children.",
		"These are old plastics, paints, metals and printed cards. They "
		"may contain lead, cadmium or phthalates that toys no longer "
		"may. Keep them from children and from food, and wash your "
		"hands after handling them."},
	{"Solvents and heat.",
		"Solvents, cleaners, bleaching, pressing and heat harm plastics "
		"and people. Do not use them on the advice of this book; it "
		"gives none. Work that you do all the same wants air, gloves, "
		"and the maker's instructions."},
	{"Sealed cases.",
		"To open a grading service's case ends its certificate and may "
		"throw splinters. Old blisters and staples cut."},
	{"No appraisal.",
		"Counts and estimates say how many pieces are known or thought "
		"to exist, with their sources and dates. They are no prices and "
		"no advice to buy or to sell."},
	{"No authentication.",
		"What gives a piece away in general does not settle the piece "
		"in front of you. Where much depends on it, ask somebody who "
		"can hold it in the hand."},
	{"Rules where you live.",
		"Sale, posting and disposal of old toys, and of what is in "
		"them, are ruled by local codes. They go before anything said "
		"here, as does the advice of those licensed to give it."},
};

static void
say_cautions(struct book *book)
{
	struct block *chapter = book_chapter(book, NULL, "Cautions",
		"cautions");
	struct block *box, *block;
	size_t i;

	chapter->numbering = NUMBERS_ROMAN;
	for (i = 0; i < G_N_ELEMENTS(cautions); i++) {
		box = block_new(book->arena, chapter, BLOCK_CALLOUT,
			STYLE_CALLOUT);
		block = block_new(book->arena, box, BLOCK_PARAGRAPH,
			STYLE_CALLOUT);
		copy_text(book, block, BOLD, cautions[i][0]);
		copy_text(book, block, PLAIN, " ");
		copy_text(book, block, PLAIN, cautions[i][1]);
	}
}

/*
 * The title stands on a card of its own: an outline with a hang tab and its
 * hole, in points from the corner of the type area.
 */
static const struct drawing *
draw_card(void)
{
#define AT(kind, x, y)                            \
	{                                         \
		kind, INK_BLACK, x, y, 0, 0, 0, 0 \
	}
#define BEND(x1, y1, x2, y2, x3, y3)                            \
	{                                                       \
		STROKE_CURVE, INK_BLACK, x1, y1, x2, y2, x3, y3 \
	}
	static const struct stroke strokes[] = {
		AT(STROKE_MOVE, 0, 78),
		BEND(0, 70, 4, 66, 12, 66),
		AT(STROKE_LINE, 104, 66),
		BEND(112, 66, 116, 62, 116, 54),
		AT(STROKE_LINE, 116, 18),
		BEND(116, 6, 122, 0, 134, 0),
		AT(STROKE_LINE, 188, 0),
		BEND(200, 0, 206, 6, 206, 18),
		AT(STROKE_LINE, 206, 54),
		BEND(206, 62, 210, 66, 218, 66),
		AT(STROKE_LINE, 310, 66),
		BEND(318, 66, 322, 70, 322, 78),
		AT(STROKE_LINE, 322, 468),
		BEND(322, 476, 318, 480, 310, 480),
		AT(STROKE_LINE, 12, 480),
		BEND(4, 480, 0, 476, 0, 468),
		AT(STROKE_CLOSE, 0, 0),
		{STROKE_DRAW, INK_ACCENT, 1.1f, 0, 0, 0, 0, 0},
		AT(STROKE_MOVE, 150, 24),
		BEND(145, 24, 141, 28, 141, 33),
		BEND(141, 38, 145, 42, 150, 42),
		AT(STROKE_LINE, 172, 42),
		BEND(177, 42, 181, 38, 181, 33),
		BEND(181, 28, 177, 24, 172, 24),
		AT(STROKE_CLOSE, 0, 0),
		{STROKE_FILL, INK_ACCENT, 0, 0, 0, 0, 0, 0},
	};
	static const struct drawing card = {322, 480, strokes,
		G_N_ELEMENTS(strokes)};
#undef AT
#undef BEND

	return &card;
}

/* Within the edges of the card. */
static void
add_centred(struct book *book, struct block *page, enum style style,
	const char *text)
{
	struct block *block = book_say(book, page, style, text);

	block->align = ALIGN_CENTRE;
	block->inset = 24;
}

static void
make_title(struct book *book)
{
	struct block *page = block_new(book->arena, book->root, BLOCK_CHAPTER,
		STYLE_BODY);
	const char *name;

	page->plain = true;
	page->numbering = NUMBERS_ROMAN;
	page->anchor = "title";
	page->outline = model_title(book->model);
	page->level = 1;
	page->backdrop = draw_card();
	block_new(book->arena, page, BLOCK_DROP, STYLE_BODY)->size = 132;
	add_centred(book, page, STYLE_TITLE, model_title(book->model));
	add_centred(book, page, STYLE_SUBTITLE,
		"A handbook of its carded "
		"figures: card backs, characters, offers, and what to avoid");
	if (book->edition == NULL)
		return;
	block_new(book->arena, page, BLOCK_DROP, STYLE_BODY)->size = 96;
	name = model_text(book->model, book->edition->values,
		NAME(EDITION_NAME));
	if (name != NULL)
		add_centred(book, page, STYLE_IMPRINT, name);
}

/* A table of the words of a vocabulary and what they mean. */
static void
explain_words(struct book *book, struct block *parent, const char *caption,
	enum field_name name, bool symbols)
{
	static const struct column columns[] = {{0, 0, ALIGN_LEFT},
		{0, 1, ALIGN_LEFT}};
	const struct vocabulary *words = model_field(book->model, name)
						 ->vocabulary;
	struct block *table = book_table(book, parent, columns, 2), *row;
	struct block *cell;
	unsigned i;

	copy_text(book, table, PLAIN, caption);
	for (i = 0; i < words->count; i++) {
		row = block_new(book->arena, table, BLOCK_ROW, STYLE_TABLE);
		cell = book_cell(book, row);
		if (symbols) {
			block_symbol(book->arena, cell,
				book_symbol(&words->words[i]), NULL);
			copy_text(book, cell, PLAIN, "\u00a0");
		}
		copy_text(book, cell, BOLD, words->words[i].title);
		cell = book_cell(book, row);
		if (words->words[i].says != NULL)
			copy_text(book, cell, PLAIN, words->words[i].says);
	}
}

static void
explain_use(struct book *book)
{
	struct block *chapter = book_chapter(book, NULL, "How to use this book",
		"how-to-use");
	struct block *block;

	chapter->numbering = NUMBERS_ROMAN;
	book_say(book, chapter, STYLE_BODY,
		"To look up a card, count the figures that its back pictures, "
		"turn to the market it was sold in by the black tabs at the "
		"fore-edge, and find the number at the outer corner of the "
		"page. Where a number has several letters, the entries say "
		"what tells them apart: offer, legal text, printing, dates.");
	block = book_say(book, chapter, STYLE_BODY,
		"To look up a character, turn to the table at the end of each "
		"market: it lists the card backs on which the character is "
		"known. Before you buy, look it up among the anomalies too.");
	block->size = 1.2;
	block = book_say(book, chapter, STYLE_BODY,
		"Letters are those of the first lettering scheme named in an "
		"entry; letters of other schemes stand beside it. A date such "
		"as 1983 means some day of that year.");
	block->size = 1.2;
	block = block_new(book->arena, chapter, BLOCK_PARAGRAPH, STYLE_BODY);
	block->size = 1.2;
	block_symbol(book->arena, block, SYMBOL_BOX,
		"to tick");
	copy_text(book, block, PLAIN,
		" is for your own tick. The other signs "
		"say what this guide concludes about a claim. How the claim "
		"was seen is another question, and is answered by itself.");
	explain_words(book, chapter, "What is concluded",
		NAME(PAIRING_CONCLUDED), true);
	explain_words(book, chapter, "How it was seen", NAME(PAIRING_SEEN),
		false);
	explain_words(book, chapter, "How collectors take an anomaly",
		NAME(ANOMALY_STANDING), false);
}

void
book_front(struct book *book)
{
	struct block *contents;

	make_title(book);
	contents = book_chapter(book, NULL, "Contents", "contents");
	contents->numbering = NUMBERS_ROMAN;
	book->contents = contents;
	say_cautions(book);
	explain_use(book);
}
