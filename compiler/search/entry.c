/*
 * Filling search entries. Pieces of text are joined by "; ", and the plain
 * forms of their words come last.
 */
#include "search/entry.h"

#include <string.h>

#include "model/text.h"
#include "search/label.h"
#include "search/tokens.h"

const struct search_column_facts search_columns[SEARCH_COLUMN_COUNT] = {
	[SEARCH_COLUMN_NAME] = {"name", 10},
	[SEARCH_COLUMN_LABEL] = {"label", 8},
	[SEARCH_COLUMN_WORDS] = {"words", 1},
};

void
search_entry_init(struct search_entry *entry)
{
	size_t i;

	for (i = 0; i < SEARCH_COLUMN_COUNT; i++)
		entry->texts[i] = g_string_new(NULL);
}

void
search_entry_release(struct search_entry *entry)
{
	size_t i;

	for (i = 0; i < SEARCH_COLUMN_COUNT; i++)
		g_string_free(entry->texts[i], TRUE);
}

/* Makes room for one more piece. */
static void
begin_piece(GString *out)
{
	if (out->len > 0)
		g_string_append(out, "; ");
}

static void
append_piece(GString *out, const char *text)
{
	begin_piece(out);
	g_string_append(out, text);
}

/* The texts of a single value that is no group, without language tags. */
static void
append_one(GString *out, const struct value *value)
{
	unsigned i;

	if (value->field->type != TYPE_TRANSLATION) {
		begin_piece(out);
		value_append_text(value, out);
		return;
	}
	for (i = 0; i < value->translation.count; i++)
		append_piece(out, value->translation.items[i].text);
}

/* Calls for each single value of a list, or for the one there is. */
static void
append_value(GString *out, const struct value *value)
{
	unsigned i;

	if (value->form == VALUE_ONE) {
		append_one(out, value);
		return;
	}
	for (i = 0; i < value->many.count; i++)
		append_one(out, value->many.items[i]);
}

/* Fields of one weight alone, in groups too. */
static void
append_weight(GString *out, const struct fields *fields,
	struct value *const *values, enum search_weight weight)
{
	unsigned i, j;

	for (i = 0; i < fields->count; i++) {
		const struct field *field = &fields->items[i];
		const struct value *value = values[i];

		if (value == NULL || !field->exported)
			continue;
		if (field->type != TYPE_GROUP) {
			if (field->search == weight)
				append_value(out, value);
			continue;
		}
		if (value->form == VALUE_ONE)
			append_weight(out, &field->fields, value->group,
				weight);
		else
			for (j = 0; j < value->many.count; j++)
				append_weight(out, &field->fields,
					value->many.items[j]->group, weight);
	}
}

static void
append_labels(GString *out, const struct model *model,
	const struct record *cardback)
{
	const struct value *labels = model_get(model, cardback->values,
		NAME(CARDBACK_LABELS));
	int64_t number = model_whole(model, cardback->values,
		NAME(CARDBACK_NUMBER), 0);
	unsigned i;

	for (i = 0; i < value_count(labels); i++) {
		const char *label = model_text(model,
			value_item(labels, i)->group,
			NAME(CARDBACK_LABELS_LABEL));

		if (label == NULL)
			continue;
		begin_piece(out);
		search_append_label(out, number, label);
	}
}

static bool
is_cardback(const struct model *model, const struct record *record)
{
	return record->kind == model_field(model,
		NAME(CARDBACK_NUMBER))->kind;
}

/* All that another record is called, for the words of what refers to it. */
static void
append_called(GString *out, const struct model *model,
	const struct record *record)
{
	size_t before = out->len;

	if (is_cardback(model, record))
		append_labels(out, model, record);
	append_weight(out, &record->kind->fields, record->values, SEARCH_NAME);
	if (out->len == before || record->kind->called != NULL)
		append_piece(out, record->name);
}

static void
append_target(GString *out, const struct model *model,
	const struct value *value)
{
	const struct record *record = NULL;

	if (value->field->type == TYPE_REFERENCE)
		record = value->reference.record;
	else if (value->identity.kind == IDENTITY_KNOWN)
		record = value->identity.items[0].record;
	if (record != NULL)
		append_called(out, model, record);
}

/* What the record refers to in its summary. */
static void
append_targets(GString *out, const struct model *model,
	const struct record *record)
{
	unsigned i, j;

	for (i = 0; i < record->kind->fields.count; i++) {
		const struct field *field = &record->kind->fields.items[i];
		const struct value *value = record->values[i];

		if (value == NULL || field->show != SHOW_FIRST ||
			(field->type != TYPE_REFERENCE &&
			field->type != TYPE_IDENTITY))
			continue;
		if (value->form == VALUE_ONE)
			append_target(out, model, value);
		else
			for (j = 0; j < value->many.count; j++)
				append_target(out, model,
					value->many.items[j]);
	}
}

static void
append_words(GString *out, const struct model *model,
	const struct record *record)
{
	const struct kind *kind = record->kind;

	append_weight(out, &kind->fields, record->values, SEARCH_WORDS);
	if (kind->called != NULL)
		append_piece(out, record->name);
	append_targets(out, model, record);
	append_piece(out, kind->title);
	append_piece(out, kind->titles);
	append_piece(out, record->id);
}

/* Plain forms are a piece of their own, or the last one would seem theirs. */
static void
append_plain_piece(GString *out)
{
	char *text = g_strdup(out->str);
	size_t before;

	g_string_append_c(out, ';');
	before = out->len;
	search_append_plain(out, text);
	if (out->len == before)
		g_string_truncate(out, before - 1);
	g_free(text);
}

void
search_describe(const struct model *model, const struct record *record,
	struct search_entry *entry)
{
	GString *label = entry->texts[SEARCH_COLUMN_LABEL];
	size_t i;

	for (i = 0; i < SEARCH_COLUMN_COUNT; i++)
		g_string_truncate(entry->texts[i], 0);
	append_weight(entry->texts[SEARCH_COLUMN_NAME], &record->kind->fields,
		record->values, SEARCH_NAME);
	if (is_cardback(model, record))
		append_labels(label, model, record);
	append_weight(label, &record->kind->fields, record->values,
		SEARCH_LABEL);
	append_words(entry->texts[SEARCH_COLUMN_WORDS], model, record);
	for (i = 0; i < SEARCH_COLUMN_COUNT; i++) {
		append_plain_piece(entry->texts[i]);
	}
}
