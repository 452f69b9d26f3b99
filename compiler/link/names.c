/*
 * The table of names: what each id of each kind stands for, now and formerly.
 */
#include "link/names.h"

#include <string.h>

/* The fields of every.yaml that this stage lives by. */
static const struct value *
field_value(const struct record *record, const char *name)
{
	const struct field *field = fields_find(&record->kind->fields, name);

	return field == NULL ? NULL : record->values[field->index];
}

static void
report_duplicate(struct linking *linking, const struct record *record,
	const struct record *first)
{
	struct diag *diag;

	diag = diag_report(linking->diags, DIAG_DUPLICATE_ID, record->id_span,
		"the id \"%s\" is already used by another %s", record->id,
		record->kind->title);
	diag_note(diag, first->id_span, "first defined here");
	diag_help(diag, "give one of them another id");
}

static void
enter_current(struct linking *linking, struct records *records)
{
	size_t from, to = 0;

	for (from = 0; from < records->count; from++) {
		struct record *record = records->items[from];
		GHashTable *table;
		struct record *first;

		table = linking->names->current[record->kind->index];
		first = g_hash_table_lookup(table, record->id);
		if (first != NULL) {
			report_duplicate(linking, record, first);
			continue;
		}
		g_hash_table_insert(table, (gpointer)(uintptr_t)record->id,
			record);
		records->items[to++] = record;
	}
	records->count = to;
}

/*
 * Whether following former ids from `id` comes back to `record`. Each step
 * leads to the record that once had the id of the one before.
 */
static bool
leads_back(const struct linking *linking, const struct record *record,
	const char *id)
{
	const struct record *at = record;
	unsigned steps;

	for (steps = 0; at != NULL && steps < 1000; steps++) {
		if (strcmp(id, record->id) == 0)
			return true;
		at = names_current(linking->names, record->kind, id);
		if (at == NULL)
			return false;
		const struct value *former = field_value(at, "formerly");

		if (former == NULL || former->many.count == 0)
			return false;
		id = former->many.items[0]->text;
	}
	return false;
}

static void
enter_former(struct linking *linking, struct record *record,
	const struct value *value)
{
	GHashTable *former = linking->names->former[record->kind->index];
	const struct record *other;
	struct diag *diag;

	other = names_current(linking->names, record->kind, value->text);
	if (other == NULL)
		other = g_hash_table_lookup(former, value->text);
	if (leads_back(linking, record, value->text)) {
		diag = diag_report(linking->diags, DIAG_FORMERLY_CIRCULAR,
			value->span, "\"%s\" leads back to \"%s\"",
			value->text, record->id);
		diag_help(diag, "a former id names no present record; take "
			"it out of one of them");
	} else if (other != NULL && other != record) {
		diag = diag_report(linking->diags, DIAG_FORMERLY_TAKEN,
			value->span, "\"%s\" is also the id of another %s",
			value->text, record->kind->title);
		diag_note(diag, other->id_span, "that one is here");
		diag_help(diag, "ids are never used again: give the newer "
			"record another id");
	} else
		g_hash_table_insert(former, (gpointer)(uintptr_t)value->text,
			record);
}

void
names_enter(struct linking *linking, struct records *records)
{
	size_t i;
	unsigned j;

	enter_current(linking, records);
	for (i = 0; i < records->count; i++) {
		const struct value *former;

		former = field_value(records->items[i], "formerly");
		for (j = 0; former != NULL && j < former->many.count; j++)
			enter_former(linking, records->items[i],
				former->many.items[j]);
	}
}

const struct record *
names_current(const struct names *names, const struct kind *kind,
	const char *id)
{
	const struct record *record;

	for (; names != NULL; names = names->known) {
		record = g_hash_table_lookup(names->current[kind->index], id);
		if (record != NULL)
			return record;
	}
	return NULL;
}

const struct record *
names_find(const struct names *names, const struct kind *kind, const char *id)
{
	const struct record *record = names_current(names, kind, id);

	for (; record == NULL && names != NULL; names = names->known)
		record = g_hash_table_lookup(names->former[kind->index], id);
	return record;
}

const struct record *
names_find_written(const struct names *names, const struct schema *schema,
	const char *written, const struct value **item)
{
	char **parts = g_strsplit(written, "/", 2);
	const struct record *record = NULL;
	const struct kind *kind;
	char *dot;

	if (item != NULL)
		*item = NULL;
	kind = parts[0] == NULL || parts[1] == NULL ? NULL :
		schema_kind(schema, parts[0]);
	if (kind != NULL) {
		dot = strchr(parts[1], '.');
		if (dot != NULL)
			*dot++ = '\0';
		record = names_find(names, kind, parts[1]);
		if (record != NULL && dot != NULL && item != NULL)
			*item = link_item(record, dot);
		if (record != NULL && dot != NULL &&
			link_item(record, dot) == NULL)
			record = NULL;
	}
	g_strfreev(parts);
	return record;
}

void
names_nearest(const struct names *names, const struct kind *kind,
	struct nearest *nearest)
{
	GHashTableIter iter;
	gpointer key;

	for (; names != NULL; names = names->known) {
		g_hash_table_iter_init(&iter, names->current[kind->index]);
		while (g_hash_table_iter_next(&iter, &key, NULL))
			nearest_offer(nearest, key);
	}
}

void
names_free(struct names *names)
{
	unsigned i;

	if (names == NULL)
		return;
	for (i = 0; i < names->kinds; i++) {
		g_hash_table_destroy(names->current[i]);
		g_hash_table_destroy(names->former[i]);
	}
	g_free(names->current);
	g_free(names->former);
	g_free(names);
}

bool
names_is_retired(const struct record *record)
{
	const struct field *field = fields_find(&record->kind->fields,
		"retired");

	return field != NULL && record->values[field->index] != NULL;
}
