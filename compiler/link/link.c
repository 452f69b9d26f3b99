/*
 * Walks every value of every record and leads its references to records.
 */
#include "link/link.h"

#include <string.h>

#include "link/names.h"

/* Past this many misspelt references a search for each would take too long. */
enum { MOST_GUESSES = 200 };

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
list_kinds(const struct field *field, GString *out)
{
	unsigned i;

	for (i = 0; i < field->to_count; i++)
		g_string_append_printf(out, "%s%s", i == 0 ? "" : ", ",
			field->to[i]->name);
}

static void
report_wrong_kind(struct linking *linking, const struct field *field,
	const struct reference *reference)
{
	GString *kinds = g_string_new(NULL);
	struct diag *diag;

	list_kinds(field, kinds);
	if (reference->kind != NULL)
		diag = diag_report(linking->diags, DIAG_WRONG_KIND,
			reference->span, "\"%s\" cannot lead to a %s",
			field->name, reference->kind->title);
	else
		diag = diag_report(linking->diags, DIAG_WRONG_KIND,
			reference->span, "\"%s\" does not say of which kind",
			reference->id);
	diag_help(diag, "write kind/id, where the kind is one of: %s",
		kinds->str);
	g_string_free(kinds, TRUE);
}

/* Where within a reference's characters its id stands. */
static struct span
id_span(const struct reference *reference, const struct sources *sources)
{
	const struct source *source;
	struct span span = reference->span;
	const char *text, *slash;

	source = sources_get(sources, span.file);
	if (source == NULL || span.to <= span.from)
		return span;
	text = source->bytes + span.from;
	slash = memchr(text, '/', span.to - span.from);
	if (slash != NULL)
		span.from += (uint32_t)(slash - text) + 1;
	else if (*text == '"' || *text == '\'')
		span.from++;
	span.to = MIN(span.to, span.from + (uint32_t)strlen(reference->id));
	return span;
}

static void
report_unknown(struct linking *linking, const struct reference *reference)
{
	struct span span = id_span(reference, linking->sources);
	const char *near = NULL;
	struct diag *diag;

	diag = diag_report(linking->diags, DIAG_UNKNOWN_RECORD, span,
		"there is no %s \"%s\"", reference->kind->title,
		reference->id);
	if (linking->guesses++ < MOST_GUESSES)
		near = names_nearest(linking->names, reference->kind,
			reference->id);
	if (near != NULL) {
		diag_help(diag, "did you mean \"%s\"?", near);
		diag_mend(diag, span, near, MEND_PROBABLE);
	} else
		diag_help(diag, "add it, or name one that exists");
}

static void
check_former(struct linking *linking, const struct reference *reference)
{
	struct span span = id_span(reference, linking->sources);
	struct diag *diag;

	if (strcmp(reference->record->id, reference->id) == 0)
		return;
	diag = diag_report(linking->diags, DIAG_FORMER_ID, span,
		"\"%s\" is now called \"%s\"", reference->id,
		reference->record->id);
	diag_help(diag, "write \"%s\"", reference->record->id);
	diag_mend(diag, span, reference->record->id, MEND_SAFE);
}

static void
link_reference(struct linking *linking, const struct field *field,
	struct reference *reference)
{
	struct diag *diag;

	if (reference->kind == NULL || !is_allowed(field, reference->kind)) {
		report_wrong_kind(linking, field, reference);
		return;
	}
	reference->record = names_find(linking->names, reference->kind,
		reference->id);
	if (reference->record == NULL) {
		report_unknown(linking, reference);
		return;
	}
	check_former(linking, reference);
	if (reference->key == NULL)
		return;
	reference->item = link_item(reference->record, reference->key);
	if (reference->item == NULL) {
		diag = diag_report(linking->diags, DIAG_UNKNOWN_RECORD,
			reference->span, "\"%s\" has no item \"%s\"",
			reference->id, reference->key);
		diag_note(diag, reference->record->id_span,
			"the record is here");
	}
}

static void
link_prose(struct linking *linking, struct prose *prose)
{
	const struct value *item = NULL;
	const char *written, *dot;
	struct diag *diag;

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
		if (prose->record != NULL)
			continue;
		diag = diag_report(linking->diags, DIAG_BROKEN_LINK,
			prose->span, "the link leads to no record \"%s\"",
			written);
		diag_help(diag, "write ref:kind/id with the id of a record");
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
	return linking.names;
}
