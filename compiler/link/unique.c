/*
 * Values that must be unique: by `unique` in the schema, and the keys of items
 * that have addresses of their own.
 */
#include "link/names.h"

#include <string.h>

/* What a value is equal by; NULL for types that are never unique. */
static const char *
plain_text(const struct value *value)
{
	switch (value->field->type) {
	case TYPE_TEXT:
	case TYPE_COUNTRY:
	case TYPE_LANGUAGE:
	case TYPE_CURRENCY:
	case TYPE_BARCODE:
	case TYPE_AMOUNT:
		return value->text;
	case TYPE_REFERENCE:
		return value->reference.id;
	case TYPE_DATE:
		return value->date.text;
	case TYPE_WORD:
		return value->word->word;
	case TYPE_WHOLE:
		return value->node->text;
	case TYPE_PROSE:
	case TYPE_QUANTITY:
	case TYPE_YESNO:
	case TYPE_TRANSLATION:
	case TYPE_IDENTITY:
	case TYPE_GROUP:
		break;
	}
	return NULL;
}

/* The value together with what it is unique within, or NULL. */
static const char *
unique_key(struct linking *linking, const struct record *record,
	const struct field *field)
{
	const struct value *value = record->values[field->index], *within;
	const char *text;

	if (value == NULL || field->many)
		return NULL;
	text = plain_text(value);
	if (text == NULL || field->unique_within == NULL)
		return text;
	within = record->values[field->unique_within->index];
	if (within == NULL || within->form == VALUE_MANY ||
		plain_text(within) == NULL)
		return NULL;
	return arena_print(linking->arena, "%s\n%s", plain_text(within),
		text);
}

static void
check_field(struct linking *linking, const struct records *records,
	const struct field *field)
{
	GHashTable *seen = g_hash_table_new(g_str_hash, g_str_equal);
	const struct value *first;
	struct diag *diag;
	size_t i;

	for (i = 0; i < records->count; i++) {
		const struct record *record = records->items[i];
		const struct value *value;
		const char *key;

		if (record->kind != field->kind)
			continue;
		value = record->values[field->index];
		key = unique_key(linking, record, field);
		if (key == NULL)
			continue;
		first = g_hash_table_lookup(seen, key);
		if (first == NULL) {
			g_hash_table_insert(seen, (gpointer)(uintptr_t)key,
				(gpointer)(uintptr_t)value);
			continue;
		}
		diag = diag_report(linking->diags, DIAG_NOT_UNIQUE,
			value->span, "\"%s\" has this %s twice",
			field->kind->name, field->title);
		diag_note(diag, first->span, "first given here");
		diag_help(diag, "merge the two records, or mend the one that "
			"is wrong");
	}
	g_hash_table_destroy(seen);
}

static void
check_keys(struct linking *linking, const struct value *list)
{
	GHashTable *seen = g_hash_table_new(g_str_hash, g_str_equal);
	const struct value *key, *first;
	struct diag *diag;
	unsigned i;

	for (i = 0; i < list->many.count; i++) {
		key = list->many.items[i]->group[0];
		if (key == NULL)
			continue;
		first = g_hash_table_lookup(seen, key->text);
		if (first != NULL) {
			diag = diag_report(linking->diags, DIAG_NOT_UNIQUE,
				key->span, "the key \"%s\" is used twice",
				key->text);
			diag_note(diag, first->span, "first given here");
		} else
			g_hash_table_insert(seen,
				(gpointer)(uintptr_t)key->text,
				(gpointer)(uintptr_t)key);
	}
	g_hash_table_destroy(seen);
}

void
link_check_unique(struct linking *linking, const struct records *records)
{
	unsigned i, j;
	size_t k;

	for (i = 0; i < linking->schema->count; i++) {
		const struct fields *fields = &linking->schema->kinds[i].fields;

		for (j = 0; j < fields->count; j++)
			if (fields->items[j].unique != NULL)
				check_field(linking, records,
					&fields->items[j]);
	}
	for (k = 0; k < records->count; k++) {
		const struct record *record = records->items[k];

		for (j = 0; j < record->kind->fields.count; j++)
			if (field_is_keyed(&record->kind->fields.items[j]) &&
				record->values[j] != NULL)
				check_keys(linking, record->values[j]);
	}
}
