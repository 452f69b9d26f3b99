/*
 * Chapters that are one entry a record, and the closing ones. Nothing here
 * depends on what fields a kind has.
 */
#include <glib.h>
#include <string.h>

#include "base/arena.h"
#include "write/handbook/book.h"

static const struct field *
name_field(const struct record *record)
{
	return fields_find(&record->kind->fields, "name");
}

static struct block *
add_entry(struct book *book, struct block *chapter, const struct record *record)
{
	const struct field *const skip[] = {name_field(record), NULL};
	struct block *entry = book_entry(book, chapter), *heading;

	heading = book_heading(book, entry, STYLE_ENTRY, record->name,
		book_anchor(book, record));
	heading->guide = record->name;
	copy_record_body(book, entry, record,
		skip[0] == NULL ? skip + 1 : skip);
	return entry;
}

/* With a capital letter in front, as a heading. */
static const char *
capitalise(struct book *book, const char *text)
{
	char *copy = arena_text(book->arena, text, strlen(text));

	copy[0] = g_ascii_toupper(copy[0]);
	return copy;
}

static void
add_entries(struct book *book, struct block *chapter, struct record_list list)
{
	unsigned i;

	for (i = 0; i < list.count; i++)
		add_entry(book, chapter, list.items[i]);
}

/* Figures of a character that differ, each with its tells. */
static void
add_variants(struct book *book, struct block *entry,
	const struct record *character)
{
	struct pointer_list pointing = model_pointing(book->model, character);
	const struct record *variant;
	const struct field *skip[3] = {model_field(book->model,
					       NAME(VARIANT_CHARACTER)),
		NULL, NULL};
	struct block *block;
	bool begun = false;
	size_t i;

	for (i = 0; i < pointing.count; i++) {
		variant = pointing.items[i].from;
		if (pointing.items[i].field != skip[0])
			continue;
		if (!begun)
			book_heading(book, entry, STYLE_HEAD_3,
				capitalise(book, variant->kind->titles), NULL);
		begun = true;
		skip[1] = name_field(variant);
		block = block_new(book->arena, entry, BLOCK_PARAGRAPH,
			STYLE_DETAILS);
		block->hang = 1;
		if (skip[1] != NULL && variant->values[skip[1]->index])
			copy_text(book, block, BOLD,
				variant->values[skip[1]->index]->text);
		copy_details(book, block, variant, skip, true);
		copy_prose_fields(book, entry, STYLE_SMALL, variant);
	}
}

void
book_characters(struct book *book)
{
	struct record_list list = model_records_of(book->model, "character");
	struct block *chapter, *entry;
	unsigned i;

	if (list.count == 0)
		return;
	chapter = book_chapter(book, "who was sold", "Characters",
		"characters");
	for (i = 0; i < list.count; i++) {
		entry = add_entry(book, chapter, list.items[i]);
		add_variants(book, entry, list.items[i]);
	}
}

/* Chapters with a section for each of some kinds, an entry each record. */
static const struct {
	const char *kicker, *title, *anchor;
	const char *kinds[3];
	bool compact; /* a paragraph each, in two columns */
} chapters[] = {
	{"before you buy", "Imitations", "imitations", {"imitation"}, false},
	{"by mail and by hand", "Offers and stickers", "offers",
		{"offer", "sticker"}, false},
	{"the clear plastic", "Blister types", "blisters", {"blister"}, false},
	{"what came with them", "Accessories", "accessories", {"accessory"},
		true},
	{"on the figure", "Marks", "marks", {"mark"}, true},
	{"not on cards", "Other packages and preproduction", "packages",
		{"package", "preproduction"}, false},
	{"what to look at, and what to ask", "Features worth knowing",
		"features", {"feature"}, true},
	{"open and decided", "Questions", "questions", {"question"}, true},
};

void
book_mark_records(struct book *book)
{
	const struct kind *kind;
	size_t i, k;

	for (i = 0; i < G_N_ELEMENTS(chapters); i++) {
		for (k = 0; chapters[i].kinds[k] != NULL; k++) {
			kind = schema_kind(model_schema(book->model),
				chapters[i].kinds[k]);
			if (kind != NULL)
				book->printed[kind->index] = true;
		}
	}
}

/* A record in one paragraph: its name, and all else that is said of it. */
static void
add_compact(struct book *book, struct block *columns,
	const struct record *record)
{
	const struct field *const skip[] = {name_field(record), NULL};
	const struct fields *fields = &record->kind->fields;
	struct block *block = block_new(book->arena, columns, BLOCK_PARAGRAPH,
		STYLE_SMALL);
	unsigned i;

	block->hang = 1;
	block->anchor = book_anchor(book, record);
	block->guide = record->name;
	copy_text(book, block, BOLD, record->name);
	for (i = 0; i < fields->count; i++) {
		if (record->values[i] == NULL || !fields->items[i].exported ||
			fields->items[i].show == SHOW_NO ||
			fields->items[i].type != TYPE_PROSE)
			continue;
		copy_text(book, block, PLAIN, " ");
		copy_value(book, block, record->values[i]);
	}
	copy_details(book, block, record, skip[0] ? skip : skip + 1, true);
}

/* A chapter of one kind needs no heads for it. */
static void
add_section(struct book *book, struct block *chapter, struct record_list list,
	bool head, bool compact)
{
	struct block *columns;
	unsigned i;

	if (head)
		book_heading(book, chapter, STYLE_HEAD_1,
			capitalise(book, list.items[0]->kind->titles), NULL);
	if (!compact) {
		add_entries(book, chapter, list);
		return;
	}
	columns = block_new(book->arena, chapter, BLOCK_COLUMNS, STYLE_SMALL);
	columns->size = 14.5;
	for (i = 0; i < list.count; i++)
		add_compact(book, columns, list.items[i]);
}

void
book_records(struct book *book)
{
	struct record_list list;
	struct block *chapter;
	size_t i, k;

	for (i = 0; i < G_N_ELEMENTS(chapters); i++) {
		chapter = NULL;
		for (k = 0; chapters[i].kinds[k] != NULL; k++) {
			list = model_records_of(book->model,
				chapters[i].kinds[k]);
			if (list.count == 0)
				continue;
			if (chapter == NULL)
				chapter = book_chapter(book, chapters[i].kicker,
					chapters[i].title, chapters[i].anchor);
			add_section(book, chapter, list,
				chapters[i].kinds[1] != NULL,
				chapters[i].compact);
		}
	}
}

void
book_essays(struct book *book)
{
	struct record_list list = model_records_of(book->model, "essay");
	const struct value *text;
	struct block *chapter, *heading;
	unsigned i;

	if (list.count == 0)
		return;
	chapter = book_chapter(book, "to read", "Essays", "essays");
	for (i = 0; i < list.count; i++) {
		heading = book_heading(book, chapter, STYLE_HEAD_1,
			list.items[i]->name, book_anchor(book, list.items[i]));
		heading->guide = list.items[i]->name;
		text = model_get(book->model, list.items[i]->values,
			NAME(ESSAY_TEXT));
		if (text != NULL)
			copy_prose(book, chapter, STYLE_BODY, text->prose.tree);
	}
}

void
book_glossary(struct book *book)
{
	struct record_list list = model_records_of(book->model, "term");
	const struct field *skip[] = {NULL, NULL};
	struct block *chapter, *columns, *block;
	const struct value *meaning;
	unsigned i;

	if (list.count == 0)
		return;
	chapter = book_chapter(book, "words of the trade", "Glossary",
		"glossary");
	columns = block_new(book->arena, chapter, BLOCK_COLUMNS, STYLE_SMALL);
	columns->size = 14.5;
	for (i = 0; i < list.count; i++) {
		block = block_new(book->arena, columns, BLOCK_PARAGRAPH,
			STYLE_SMALL);
		block->hang = 1;
		block->anchor = book_anchor(book, list.items[i]);
		block->guide = list.items[i]->name;
		copy_text(book, block, BOLD, list.items[i]->name);
		copy_text(book, block, PLAIN, "  ");
		meaning = model_get(book->model, list.items[i]->values,
			NAME(TERM_MEANING));
		if (meaning != NULL)
			copy_inline(book, block, PLAIN, meaning->prose.tree);
		skip[0] = name_field(list.items[i]);
		copy_details(book, block, list.items[i], skip, true);
	}
}

/* Whether the text so far ends with a full stop or the like. */
static bool
ends_sentence(const struct block *block)
{
	const struct run *last = block->last_run;

	return last != NULL && last->size > 0 &&
		strchr(".!?", last->text[last->size - 1]) != NULL;
}

/* A source in one paragraph: its name, then all else that is said of it. */
static void
add_source(struct book *book, struct block *parent, const struct record *source)
{
	const struct fields *fields = &source->kind->fields;
	struct block *block = block_new(book->arena, parent, BLOCK_PARAGRAPH,
		STYLE_SMALL);
	unsigned i;

	block->hang = 1;
	block->anchor = book_anchor(book, source);
	block->guide = source->name;
	copy_text(book, block, BOLD, source->name);
	for (i = 0; i < fields->count; i++) {
		if (source->values[i] == NULL || !fields->items[i].exported ||
			fields->items[i].show == SHOW_NO ||
			&fields->items[i] == name_field(source))
			continue;
		copy_text(book, block, PLAIN,
			ends_sentence(block) ? " " : ". ");
		copy_value(book, block, source->values[i]);
	}
}

void
book_sources(struct book *book)
{
	struct record_list list = model_records_of(book->model, "source");
	struct block *chapter, *columns;
	unsigned i;

	if (list.count == 0)
		return;
	chapter = book_chapter(book, "where it can be checked", "Sources",
		"sources");
	columns = block_new(book->arena, chapter, BLOCK_COLUMNS, STYLE_SMALL);
	columns->size = 14.5;
	for (i = 0; i < list.count; i++)
		add_source(book, columns, list.items[i]);
}

void
book_colophon(struct book *book)
{
	struct block *chapter = book_chapter(book, NULL, "Colophon",
		"colophon");
	const struct value *changes, *contributors;
	struct block *table, *cell;

	table = copy_fact_table(book, chapter);
	cell = copy_fact(book, table, "corpus");
	copy_text(book, cell, PLAIN, model_title(book->model));
	cell = copy_fact(book, table, "digest");
	copy_text(book, cell, PLAIN, model_digest(book->model));
	cell = copy_fact(book, table, "made by");
	copy_text(book, cell, PLAIN,
		"hangtab, which set, broke and printed "
		"these pages");
	cell = copy_fact(book, table, "types");
	copy_text(book, cell, PLAIN,
		"Gentium Book Plus for text, Linux "
		"Biolinum for tables");
	if (book->edition != NULL) {
		copy_facts(book, table, book->edition,
			(const struct field *const[]){NULL});
		contributors = model_get(book->model, book->edition->values,
			NAME(EDITION_CONTRIBUTORS));
		if (contributors != NULL)
			copy_value(book,
				copy_fact(book, table,
					contributors->field->title),
				contributors);
		changes = model_get(book->model, book->edition->values,
			NAME(EDITION_CHANGES));
		if (changes != NULL) {
			book_heading(book, chapter, STYLE_HEAD_2, "What is new",
				NULL);
			copy_prose(book, chapter, STYLE_BODY,
				changes->prose.tree);
		}
	}
	book_heading(book, chapter, STYLE_HEAD_2, "How to correct this book",
		NULL);
	book_say(book, chapter, STYLE_BODY,
		"This book is compiled from a corpus of plain files, one record "
		"each, and every statement in it can be traced to a record and "
		"its sources. Name the record or the page, say what is wrong, "
		"and send what shows it: a photograph of both sides, a page of "
		"a catalogue, a measurement. The digest above says which state "
		"of the corpus you have read.");
}
