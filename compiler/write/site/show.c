/*
 * Single values, by type.
 */
#include "write/site/show.h"

#include <inttypes.h>
#include <string.h>

#include "model/text.h"

enum { NAME_SIZE = 128 };

void
show_date(struct page *page, const struct date *date)
{
	html_put(page->out, "<time datetime=\"%s\">", date->text);
	if (date->day > 0)
		html_put(page->out, "%d\u00a0", date->day);
	if (date->month > 0)
		html_put(page->out, "%s\u00a0", month_name(date->month));
	html_put(page->out, "%d</time>", date->year);
}

/* What an item of a record is called: by the text after its key, or its key. */
static char *
name_item(const struct reference *reference)
{
	const struct value *item = reference->item;
	const struct value *name = item == NULL ||
		item->field->fields.count < 2 ? NULL : item->group[1];

	if (name != NULL && name->field->type == TYPE_TEXT &&
		name->form == VALUE_ONE)
		return g_strdup_printf("%s: %s", reference->record->name,
			name->text);
	return g_strdup_printf("%s (%s)", reference->record->name,
		reference->key);
}

void
show_reference(struct page *page, const struct reference *reference)
{
	char *words;

	if (reference->record == NULL) {
		html_text(page->out, reference->id);
		return;
	}
	if (reference->key == NULL) {
		page_link(page, reference->record);
		return;
	}
	words = name_item(reference);
	page_link_words(page, reference->record, reference->key, words);
	g_free(words);
}

static void
show_identity(struct page *page, const struct value *value)
{
	static const char *const before[] = {
		[IDENTITY_UNKNOWN] = "not known",
		[IDENTITY_KNOWN] = "",
		[IDENTITY_ONE_OF] = "one of: ",
		[IDENTITY_NOT] = "not ",
	};
	unsigned i;

	g_string_append(page->out, before[value->identity.kind]);
	if (value->identity.kind == IDENTITY_UNKNOWN)
		return;
	for (i = 0; i < value->identity.count; i++) {
		if (i > 0)
			g_string_append(page->out,
				value->identity.kind == IDENTITY_NOT ?
				", not " : ", ");
		show_reference(page, &value->identity.items[i]);
	}
}

static void
show_code(struct page *page, const char *code, enum type type)
{
	char name[NAME_SIZE];
	bool known;

	known = type == TYPE_COUNTRY ? code_names_country(page->site->codes,
			code, name, sizeof(name)) :
		code_names_language(page->site->codes, code, name,
			sizeof(name));
	if (known)
		html_put(page->out, "%s <small>%s</small>", name, code);
	else
		html_text(page->out, code);
}

static void
show_tongue(struct page *page, const char *tag, const char *between)
{
	char name[NAME_SIZE];

	html_put(page->out, "%s%s", between,
		code_names_language(page->site->codes, tag, name,
			sizeof(name)) ? name : tag);
}

/* One wording, with all languages that have it. */
static void
show_wording(struct page *page, const struct value *value, unsigned first)
{
	const struct translation *items = value->translation.items;
	unsigned i;

	g_string_append(page->out, "<bdi");
	html_language(page->out, items[first].language);
	html_put(page->out, ">%s</bdi> <small>", items[first].text);
	show_tongue(page, items[first].language, "");
	for (i = first + 1; i < value->translation.count; i++)
		if (strcmp(items[i].text, items[first].text) == 0)
			show_tongue(page, items[i].language, ", ");
	g_string_append(page->out, "</small>");
}

static bool
is_repeated(const struct value *value, unsigned i)
{
	const struct translation *items = value->translation.items;
	unsigned j;

	for (j = 0; j < i; j++)
		if (strcmp(items[j].text, items[i].text) == 0)
			return true;
	return false;
}

static void
show_translation(struct page *page, const struct value *value)
{
	bool several = value->translation.count > 1;
	unsigned i;

	g_string_append(page->out, several ? "<ul class=\"tongues\">" : "");
	for (i = 0; i < value->translation.count; i++) {
		if (is_repeated(value, i))
			continue;
		g_string_append(page->out, several ? "<li>" : "");
		show_wording(page, value, i);
		g_string_append(page->out, several ? "</li>" : "");
	}
	g_string_append(page->out, several ? "</ul>" : "");
}

static void
show_quantity(struct page *page, const struct value *value)
{
	char number[G_ASCII_DTOSTR_BUF_SIZE];

	g_ascii_formatd(number, sizeof(number), "%.6g",
		value->quantity.number);
	html_put(page->out, "%s\u00a0%s", number, value->field->units[0]);
}

static void
show_group(struct page *page, const struct value *value)
{
	const struct fields *fields = &value->field->fields;
	const char *between = "";
	unsigned i;

	for (i = 0; i < fields->count; i++) {
		const struct field *field = &fields->items[i];

		if (value->group[i] == NULL || field->show == SHOW_NO ||
			!field->exported)
			continue;
		g_string_append(page->out, between);
		between = ", ";
		if (field->type == TYPE_DATE || field->type == TYPE_YESNO)
			html_put(page->out, "%s ", field->title);
		show_value(page, value->group[i]);
	}
}

static void
show_one(struct page *page, const struct value *value)
{
	switch (value->field->type) {
	case TYPE_TEXT:
	case TYPE_CURRENCY:
	case TYPE_AMOUNT:
		html_text(page->out, value->text);
		return;
	case TYPE_BARCODE:
		html_put(page->out, "<code>%s</code>", value->text);
		return;
	case TYPE_COUNTRY:
	case TYPE_LANGUAGE:
		show_code(page, value->text, value->field->type);
		return;
	case TYPE_PROSE:
		show_prose(page, value->prose.tree, 2);
		return;
	case TYPE_WHOLE:
		g_string_append_printf(page->out, "%" PRId64, value->whole);
		return;
	case TYPE_QUANTITY:
		show_quantity(page, value);
		return;
	case TYPE_DATE:
		show_date(page, &value->date);
		return;
	case TYPE_YESNO:
		g_string_append(page->out, value->yes ? "yes" : "no");
		return;
	case TYPE_WORD:
		html_text(page->out, value->word->title);
		return;
	case TYPE_TRANSLATION:
		show_translation(page, value);
		return;
	case TYPE_REFERENCE:
		show_reference(page, &value->reference);
		return;
	case TYPE_IDENTITY:
		show_identity(page, value);
		return;
	case TYPE_GROUP:
		show_group(page, value);
		return;
	}
}

void
show_value(struct page *page, const struct value *value)
{
	bool spaced = value->field->type == TYPE_GROUP;
	unsigned i;

	if (value->form == VALUE_ONE) {
		show_one(page, value);
		return;
	}
	for (i = 0; i < value->many.count; i++) {
		if (i > 0)
			g_string_append(page->out, spaced ? "; " : ", ");
		show_one(page, value->many.items[i]);
	}
}

static void
show_lines(struct page *page, const struct value *list)
{
	unsigned i;

	g_string_append(page->out, "<ul class=\"lines\">");
	for (i = 0; i < list->many.count; i++) {
		g_string_append(page->out, "<li>");
		show_one(page, list->many.items[i]);
		g_string_append(page->out, "</li>");
	}
	g_string_append(page->out, "</ul>");
}

/* Whether the values of a list are too long to stand in one line. */
static bool
wants_lines(const struct value *value)
{
	if (value->form == VALUE_ONE || value->many.count < 2)
		return false;
	switch (value->field->type) {
	case TYPE_TEXT:
	case TYPE_GROUP:
		return true;
	case TYPE_REFERENCE:
		return value->many.items[0]->reference.key != NULL;
	case TYPE_PROSE:
	case TYPE_WHOLE:
	case TYPE_QUANTITY:
	case TYPE_DATE:
	case TYPE_YESNO:
	case TYPE_WORD:
	case TYPE_COUNTRY:
	case TYPE_LANGUAGE:
	case TYPE_CURRENCY:
	case TYPE_BARCODE:
	case TYPE_AMOUNT:
	case TYPE_TRANSLATION:
	case TYPE_IDENTITY:
		break;
	}
	return false;
}

void
show_cell(struct page *page, const struct value *value)
{
	if (wants_lines(value))
		show_lines(page, value);
	else
		show_value(page, value);
}

void
show_definition(struct page *page, const struct value *value)
{
	show_cell(page, value);
	if (value->form == VALUE_ONE && value->field->type == TYPE_WORD &&
		value->word->says != NULL)
		html_put(page->out, "<small class=\"says\">%s</small>",
			value->word->says);
}
