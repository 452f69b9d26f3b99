/*
 * Values as text, in two manners that share their walk: for people by names
 * and titles, for programs by ids and words.
 */
#include "model/text.h"

#include <inttypes.h>
#include <math.h>
#include <string.h>

#include "base/arena.h"

/* Sentences have dates in words. */
enum manner { FOR_PEOPLE, FOR_SENTENCES, FOR_PROGRAMS };

void
reference_append_code(const struct reference *reference, GString *out)
{
	g_string_append(out, reference->record == NULL ? reference->id :
		reference->record->id);
	if (reference->key != NULL)
		g_string_append_printf(out, ".%s", reference->key);
}

void
reference_append_text(const struct reference *reference, GString *out)
{
	const struct record *record = reference->record;

	g_string_append(out, record == NULL || record->name == NULL ?
		reference->id : record->name);
	if (reference->key != NULL)
		g_string_append_printf(out, " (%s)", reference->key);
}

static void
append_reference(const struct field *field, const struct reference *reference,
	enum manner manner, GString *out)
{
	if (manner != FOR_PROGRAMS) {
		reference_append_text(reference, out);
		return;
	}
	if (field->to_count != 1 && reference->kind != NULL)
		g_string_append_printf(out, "%s/", reference->kind->name);
	reference_append_code(reference, out);
}

static void
append_identity(const struct value *value, enum manner manner, GString *out)
{
	const char *between = manner != FOR_PROGRAMS ? " or " : ",";
	unsigned i;

	if (value->identity.kind == IDENTITY_UNKNOWN) {
		g_string_append(out, "unknown");
		return;
	}
	if (value->identity.kind == IDENTITY_NOT)
		g_string_append(out, manner != FOR_PROGRAMS ? "not " : "not:");
	if (value->identity.kind == IDENTITY_ONE_OF &&
		manner == FOR_PROGRAMS)
		g_string_append(out, "one_of:");
	for (i = 0; i < value->identity.count; i++) {
		if (i > 0)
			g_string_append(out, between);
		append_reference(value->field, &value->identity.items[i],
			manner, out);
	}
}

static void
append_translation(const struct value *value, enum manner manner,
	GString *out)
{
	unsigned i;

	for (i = 0; i < value->translation.count; i++) {
		const struct translation *item = &value->translation.items[i];

		if (i > 0)
			g_string_append(out, manner != FOR_PROGRAMS ? "; " :
				" | ");
		if (manner != FOR_PROGRAMS)
			g_string_append_printf(out, "%s (%s)", item->text,
				item->language);
		else
			g_string_append_printf(out, "%s: %s", item->language,
				item->text);
	}
}

/* The shortest decimal that people would write; never in the locale's way. */
static void
append_number(double number, GString *out)
{
	char text[G_ASCII_DTOSTR_BUF_SIZE];

	g_ascii_formatd(text, sizeof(text), "%.6g", number);
	g_string_append(out, text);
}

static void
append_date(const struct date *date, enum manner manner, GString *out)
{
	if (manner != FOR_SENTENCES || date->month == 0) {
		g_string_append(out, date->text);
		return;
	}
	if (date->day > 0)
		g_string_append_printf(out, "%d ", date->day);
	g_string_append_printf(out, "%s %d", month_name(date->month),
		date->year);
}

static void
append_value(const struct value *value, enum manner manner, GString *out);

static void
append_group(const struct value *value, enum manner manner, GString *out)
{
	const struct fields *fields = &value->field->fields;
	bool first = true;
	unsigned i;

	for (i = 0; i < fields->count; i++) {
		if (value->group[i] == NULL || !fields->items[i].exported)
			continue;
		if (!first)
			g_string_append(out, ", ");
		first = false;
		if (manner == FOR_PROGRAMS)
			g_string_append_printf(out, "%s=",
				fields->items[i].name);
		append_value(value->group[i], manner, out);
	}
}

static void
append_one(const struct value *value, enum manner manner, GString *out)
{
	switch (value->field->type) {
	case TYPE_TEXT:
	case TYPE_COUNTRY:
	case TYPE_LANGUAGE:
	case TYPE_CURRENCY:
	case TYPE_BARCODE:
	case TYPE_AMOUNT:
		g_string_append(out, value->text);
		break;
	case TYPE_PROSE:
		if (manner != FOR_PROGRAMS)
			prose_words(value->prose.tree, out);
		else
			g_string_append(out, value->prose.text);
		break;
	case TYPE_WHOLE:
		g_string_append_printf(out, "%" PRId64, value->whole);
		break;
	case TYPE_QUANTITY:
		append_number(value->quantity.number, out);
		g_string_append_printf(out, " %s", value->field->units[0]);
		break;
	case TYPE_DATE:
		append_date(&value->date, manner, out);
		break;
	case TYPE_YESNO:
		g_string_append(out, value->yes ? "yes" : "no");
		break;
	case TYPE_WORD:
		g_string_append(out, manner != FOR_PROGRAMS ?
			value->word->title : value->word->word);
		break;
	case TYPE_TRANSLATION:
		append_translation(value, manner, out);
		break;
	case TYPE_REFERENCE:
		append_reference(value->field, &value->reference, manner, out);
		break;
	case TYPE_IDENTITY:
		append_identity(value, manner, out);
		break;
	case TYPE_GROUP:
		append_group(value, manner, out);
		break;
	}
}

static void
append_value(const struct value *value, enum manner manner, GString *out)
{
	unsigned i;

	if (value == NULL)
		return;
	if (value->form == VALUE_ONE) {
		append_one(value, manner, out);
		return;
	}
	for (i = 0; i < value->many.count; i++) {
		if (i > 0)
			g_string_append(out, manner != FOR_PROGRAMS ? "; " :
				";");
		append_one(value->many.items[i], manner, out);
	}
}

void
value_append_text(const struct value *value, GString *out)
{
	append_value(value, FOR_PEOPLE, out);
}

void
value_append_words(const struct value *value, GString *out)
{
	append_value(value, FOR_SENTENCES, out);
}

void
value_append_code(const struct value *value, GString *out)
{
	append_value(value, FOR_PROGRAMS, out);
}

const char *
month_name(int month)
{
	static const char *const names[] = {"January", "February", "March",
		"April", "May", "June", "July", "August", "September",
		"October", "November", "December"};

	return names[month - 1];
}

const char *
date_words(const struct date *date, struct arena *arena)
{
	GString *out = g_string_new(NULL);
	const char *words;

	if (date != NULL)
		append_date(date, FOR_SENTENCES, out);
	words = arena_text(arena, out->str, out->len);
	g_string_free(out, TRUE);
	return words;
}
