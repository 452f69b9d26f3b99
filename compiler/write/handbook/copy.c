/*
 * Values of records as text on the page, by their types. What a kind is for
 * makes no difference here.
 */
#include <glib.h>
#include <inttypes.h>
#include <string.h>

#include "base/arena.h"
#include "model/text.h"
#include "write/handbook/book.h"

void
copy_text(struct book *book, struct block *block, unsigned emphasis,
	const char *text)
{
	block_text(book->arena, block, emphasis, text);
}

const char *
copy_label(const struct book *book, const struct record *cardback)
{
	const struct value *labels = model_get(book->model, cardback->values,
		NAME(CARDBACK_LABELS));
	const char *label = NULL;

	if (value_count(labels) > 0)
		label = model_text(book->model, value_item(labels, 0)->group,
			NAME(CARDBACK_LABELS_LABEL));
	return label != NULL ? label : cardback->name;
}

void
copy_record(struct book *book, struct block *block, unsigned emphasis,
	const struct record *record)
{
	const char *place = book_place(book, record);
	struct run *run;

	run = block_text(book->arena, block, emphasis, record->name);
	if (place != NULL)
		run->link = arena_print(book->arena, "#%s", place);
	if (book_is_indexed(record))
		run->about = record;
}

/* A glossary and a list of sources are looked up by the alphabet. */
static bool
is_alphabetical(const struct record *record)
{
	return strcmp(record->kind->name, "term") == 0 ||
		strcmp(record->kind->name, "source") == 0;
}

void
copy_page(struct book *book, struct block *block, const struct record *record)
{
	const char *place = book_place(book, record);

	if (place == NULL || is_alphabetical(record))
		return;
	copy_text(book, block, PLAIN, ", p.\u00a0");
	block_page(book->arena, block, place);
}

void
copy_date(struct book *book, struct block *block, const struct date *date)
{
	if (date->month == 0)
		copy_text(book, block, PLAIN, date->text);
	else if (date->day == 0)
		copy_text(book, block, PLAIN,
			arena_print(book->arena, "%s\u00a0%d",
				month_name(date->month), date->year));
	else
		copy_text(book, block, PLAIN,
			arena_print(book->arena, "%d\u00a0%s\u00a0%d", date->day,
				month_name(date->month), date->year));
}

/* What a keyed item is called: by its field `name`, or by its key. */
static const char *
name_item(const struct reference *reference)
{
	const struct fields *fields = &reference->item->field->fields;
	const struct field *name = fields_find(fields, "name");
	const struct value *value = name == NULL ?
		NULL :
		reference->item->group[name->index];

	return value != NULL && name->type == TYPE_TEXT ? value->text :
							  reference->key;
}

static void
copy_reference(struct book *book, struct block *block,
	const struct reference *reference, bool page)
{
	if (reference->record == NULL) {
		copy_text(book, block, PLAIN, reference->id);
		return;
	}
	copy_record(book, block, PLAIN, reference->record);
	if (reference->item != NULL)
		copy_text(book, block, PLAIN,
			arena_print(book->arena, ": %s", name_item(reference)));
	if (page)
		copy_page(book, block, reference->record);
}

static void
copy_identity(struct book *book, struct block *block, const struct value *value)
{
	unsigned i;

	if (value->identity.kind == IDENTITY_UNKNOWN)
		copy_text(book, block, PLAIN, "unknown");
	if (value->identity.kind == IDENTITY_NOT)
		copy_text(book, block, PLAIN, "not ");
	for (i = 0; i < value->identity.count; i++) {
		if (i > 0)
			copy_text(book, block, PLAIN, " or ");
		copy_reference(book, block, &value->identity.items[i], false);
	}
}

/* Each text in its own language, with the tag behind it. */
static void
copy_translation(struct book *book, struct block *block,
	const struct value *value)
{
	const struct translation *item;
	unsigned i;

	for (i = 0; i < value->translation.count; i++) {
		item = &value->translation.items[i];
		if (i > 0)
			copy_text(book, block, PLAIN, "; ");
		copy_text(book, block, PLAIN, item->text);
		block->last_run->language = item->language;
		copy_text(book, block, ITALIC,
			arena_print(book->arena, " (%s)", item->language));
	}
}

/* The date that ends the interval which the date at `index` begins. */
static const struct value *
find_end(const struct fields *fields, struct value *const *values,
	unsigned index)
{
	const struct field *next = &fields->items[index + 1];

	if (index + 1 >= fields->count || next->type != TYPE_DATE ||
		next->not_before != &fields->items[index])
		return NULL;
	return values[index + 1];
}

/* A value, and with it the date that ends its interval: then true. */
static bool
copy_field(struct book *book, struct block *block, const struct fields *fields,
	struct value *const *values, unsigned index)
{
	const struct value *end = find_end(fields, values, index);

	copy_value(book, block, values[index]);
	if (end == NULL)
		return false;
	copy_text(book, block, PLAIN, " to ");
	copy_date(book, block, &end->date);
	return true;
}

static void
copy_group(struct book *book, struct block *block, const struct value *value)
{
	const struct fields *fields = &value->field->fields;
	bool first = true;
	unsigned i;

	for (i = 0; i < fields->count; i++) {
		if (value->group[i] == NULL || !fields->items[i].exported ||
			fields->items[i].show == SHOW_NO)
			continue;
		if (!first)
			copy_text(book, block, PLAIN, ", ");
		first = false;
		i += copy_field(book, block, fields, value->group, i);
	}
}

/* Items that may hold commas themselves are parted by semicolons. */
static bool
is_loose(const struct value *list)
{
	unsigned i;

	if (list->field->type != TYPE_REFERENCE)
		return list->field->type == TYPE_GROUP ||
			list->field->type == TYPE_TEXT;
	for (i = 0; i < list->many.count; i++) {
		if (list->many.items[i]->reference.item != NULL)
			return true;
	}
	return false;
}

static void
copy_many(struct book *book, struct block *block, const struct value *value)
{
	bool loose = is_loose(value);
	unsigned i;

	for (i = 0; i < value->many.count; i++) {
		if (i > 0)
			copy_text(book, block, PLAIN, loose ? "; " : ", ");
		if (value->field->type == TYPE_REFERENCE)
			copy_reference(book, block,
				&value->many.items[i]->reference, false);
		else
			copy_value(book, block, value->many.items[i]);
	}
}

/* What value_append_text knows how to say. */
static void
copy_plain(struct book *book, struct block *block, const struct value *value)
{
	GString *text = g_string_new(NULL);

	value_append_text(value, text);
	copy_text(book, block, PLAIN,
		arena_text(book->arena, text->str, text->len));
	g_string_free(text, TRUE);
}

void
copy_value(struct book *book, struct block *block, const struct value *value)
{
	if (value->form == VALUE_MANY) {
		copy_many(book, block, value);
		return;
	}
	switch (value->field->type) {
	case TYPE_TEXT:
	case TYPE_WHOLE:
	case TYPE_QUANTITY:
	case TYPE_YESNO:
	case TYPE_WORD:
	case TYPE_COUNTRY:
	case TYPE_LANGUAGE:
	case TYPE_CURRENCY:
	case TYPE_BARCODE:
	case TYPE_AMOUNT:
		copy_plain(book, block, value);
		break;
	case TYPE_PROSE:
		copy_inline(book, block, PLAIN, value->prose.tree);
		break;
	case TYPE_DATE:
		copy_date(book, block, &value->date);
		break;
	case TYPE_TRANSLATION:
		copy_translation(book, block, value);
		break;
	case TYPE_REFERENCE:
		copy_reference(book, block, &value->reference, true);
		break;
	case TYPE_IDENTITY:
		copy_identity(book, block, value);
		break;
	case TYPE_GROUP:
		copy_group(book, block, value);
		break;
	}
}

struct block *
copy_fact_table(struct book *book, struct block *parent)
{
	static const struct column columns[] = {{8.6, 0, ALIGN_LEFT},
		{0, 1, ALIGN_LEFT}};
	struct block *table = book_table(book, parent, columns, 2);

	table->quiet = true;
	return table;
}

struct block *
copy_fact(struct book *book, struct block *table, const char *title)
{
	struct block *row = block_new(book->arena, table, BLOCK_ROW,
		STYLE_TABLE);

	copy_text(book, book_cell(book, row), ITALIC, title);
	return book_cell(book, row);
}

/* What matters to the search for a card back, and to no reader. */
static bool
is_hidden(const struct book *book, const struct field *field)
{
	static const enum field_name hidden[] = {NAME(CHARACTER_INAPPLICABLE),
		NAME(CARDBACK_INAPPLICABLE), NAME(BLISTER_INAPPLICABLE),
		NAME(VARIANT_INAPPLICABLE)};
	size_t i;

	for (i = 0; i < G_N_ELEMENTS(hidden); i++) {
		if (field == model_field(book->model, hidden[i]))
			return true;
	}
	return false;
}

bool
copy_is_skipped(const struct book *book, const struct field *field,
	const struct field *const *skip)
{
	if (!field->exported || field->show == SHOW_NO ||
		field->type == TYPE_PROSE || is_hidden(book, field))
		return true;
	for (; *skip != NULL; skip++) {
		if (*skip == field)
			return true;
	}
	return false;
}

void
copy_facts(struct book *book, struct block *table, const struct record *record,
	const struct field *const *skip)
{
	const struct fields *fields = &record->kind->fields;
	const struct field *field, *retired = fields_find(fields, "retired");
	struct block *cell;
	unsigned i;

	for (i = 0; i < fields->count; i++) {
		field = &fields->items[i];
		if (record->values[i] == NULL ||
			(field->show != SHOW_FIRST && field != retired) ||
			copy_is_tabled(field) ||
			copy_is_skipped(book, field, skip))
			continue;
		cell = copy_fact(book, table, field->title);
		i += copy_field(book, cell, fields, record->values, i);
	}
}

void
copy_details(struct book *book, struct block *block,
	const struct record *record, const struct field *const *skip,
	bool first)
{
	const struct fields *fields = &record->kind->fields;
	const struct field *field;
	unsigned i;

	for (i = 0; i < record->kind->own_count; i++) {
		field = &fields->items[i];
		if (record->values[i] == NULL ||
			copy_is_skipped(book, field, skip) ||
			copy_is_tabled(field) ||
			(field->show == SHOW_FIRST && !first))
			continue;
		if (block->runs != NULL)
			copy_text(book, block, PLAIN, "\u00a0· ");
		copy_text(book, block, ITALIC, field->title);
		copy_text(book, block, PLAIN, " ");
		i += copy_field(book, block, fields, record->values, i);
	}
}

struct block *
copy_detail_block(struct book *book, struct block *parent)
{
	if (parent->last != NULL)
		parent->last->keep = true;
	return block_new(book->arena, parent, BLOCK_PARAGRAPH, STYLE_DETAILS);
}

void
copy_record_body(struct book *book, struct block *parent,
	const struct record *record, const struct field *const *skip)
{
	copy_facts(book, copy_fact_table(book, parent), record, skip);
	copy_prose_fields(book, parent, STYLE_BODY, record);
	copy_groups(book, parent, record, skip);
	copy_details(book, copy_detail_block(book, parent), record, skip,
		false);
}
