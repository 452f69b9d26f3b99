/*
 * Walks every value of every record and leads its references to records.
 */
#include "link/link.h"

#include <string.h>

#include "link/lost.h"
#include "link/report.h"

const struct value *
link_item(const struct record *record, const char *key)
{
	const struct fields *fields = &record->kind->fields;
	unsigned i, j;

	for (i = 0; i < fields->count; i++) {
		const struct value *list = record->values[i];

		if (list == NULL || !field_is_keyed(&fields->items[i]))
			continue;
		for (j = 0; j < list->many.count; j++) {
			const struct value *item = list->many.items[j];

			if (item->group[0] != NULL &&
				strcmp(item->group[0]->text, key) == 0)
				return item;
		}
	}
	return NULL;
}

static bool
is_allowed(const struct field *field, const struct kind *kind)
{
	unsigned i;

	for (i = 0; i < field->to_count; i++)
		if (field->to[i] == kind)
			return true;
	return false;
}

static void
link_reference(struct linking *linking, const struct field *field,
	struct reference *reference)
{
	if (reference->kind == NULL || !is_allowed(field, reference->kind)) {
		report_kind(linking, field, reference);
		return;
	}
	reference->record = names_find(linking->names, reference->kind,
		reference->id);
	if (reference->record == NULL) {
		report_record(linking, reference);
		return;
	}
	if (strcmp(reference->record->id, reference->id) != 0)
		report_former(linking, reference);
	if (reference->key == NULL)
		return;
	reference->item = link_item(reference->record, reference->key);
	if (reference->item == NULL)
		report_item(linking, reference);
}

/* Whether "kind/id" or "kind/id.key" names a record by its present id. */
static bool
is_present(const char *written, const struct record *record)
{
	const char *id = strchr(written, '/');
	size_t size = strlen(record->id);

	return id != NULL && strncmp(id + 1, record->id, size) == 0 &&
		(id[size + 1] == '\0' || id[size + 1] == '.');
}

static void
link_prose(struct linking *linking, struct prose *prose)
{
	const struct value *item = NULL;
	const char *written, *dot;

	for (; prose != NULL; prose = prose->next) {
		link_prose(linking, prose->first);
		if (prose->kind != PROSE_LINK ||
			!g_str_has_prefix(prose->text, "ref:"))
			continue;
		written = prose->text + strlen("ref:");
		prose->record = names_find_written(linking->names,
			linking->schema, written, &item);
		dot = strchr(written, '.');
		prose->key = dot == NULL ? NULL : dot + 1;
		if (prose->record == NULL)
			report_link(linking, prose);
		else if (!is_present(written, prose->record))
			report_former_link(linking, prose);
	}
}

static void
link_value(struct linking *linking, struct value *value)
{
	const struct field *field = value->field;
	unsigned i;

	if (value->form == VALUE_MANY) {
		for (i = 0; i < value->many.count; i++)
			link_value(linking, value->many.items[i]);
		return;
	}
	if (field->type == TYPE_REFERENCE)
		link_reference(linking, field, &value->reference);
	if (field->type == TYPE_PROSE)
		link_prose(linking, value->prose.tree);
	if (field->type == TYPE_IDENTITY)
		for (i = 0; i < value->identity.count; i++)
			link_reference(linking, field,
				&value->identity.items[i]);
	if (field->type == TYPE_GROUP)
		for (i = 0; i < field->fields.count; i++)
			if (value->group[i] != NULL)
				link_value(linking, value->group[i]);
}

static struct names *
new_names(const struct schema *schema, const struct names *known)
{
	struct names *names = g_new0(struct names, 1);
	unsigned i;

	names->known = known;
	names->kinds = schema->count;
	names->current = g_new0(GHashTable *, schema->count);
	names->former = g_new0(GHashTable *, schema->count);
	for (i = 0; i < schema->count; i++) {
		names->current[i] = g_hash_table_new(g_str_hash, g_str_equal);
		names->former[i] = g_hash_table_new(g_str_hash, g_str_equal);
	}
	return names;
}

struct names *
link_records(struct records *records, const struct schema *schema,
	const struct names *known, const struct sources *sources,
	struct arena *arena, struct diags *diags)
{
	struct linking linking = {
		.schema = schema,
		.sources = sources,
		.names = new_names(schema, known),
		.lost = lost_new(records, sources),
		.arena = arena,
		.diags = diags,
	};
	size_t i;
	unsigned j;

	names_enter(&linking, records);
	for (i = 0; i < records->count; i++)
		for (j = 0; j < records->items[i]->kind->fields.count; j++)
			if (records->items[i]->values[j] != NULL)
				link_value(&linking,
					records->items[i]->values[j]);
	link_check_unique(&linking, records);
	lost_note(linking.lost);
	lost_free(linking.lost);
	return linking.names;
}
