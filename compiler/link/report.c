/*
 * References are written kind/id.key, of which all but the id may be left out.
 * A message marks the part that is wrong, and a mend replaces that part alone;
 * where the text is not written as it reads, because of an escape, the whole is
 * marked and nothing offered.
 */
#include "link/report.h"

#include <string.h>

#include "link/lost.h"
#include "shape/nearest.h"

/* Past this many misspelt references a search for each would take too long. */
enum { MOST_GUESSES = 200 };

static const char ref[] = "ref:";

/* Where the parts of a reference stand. */
struct parts {
	const char *kind_text;	/* or NULL */
	const char *id_text;
	const char *key_text;	/* or NULL */
	bool exact;		/* the spans below are those of the parts */
	struct span kind;	/* empty, before the id, where there is none */
	struct span id;
	struct span key;
};

/* The span without quotes, if its bytes are `written` then. */
static bool
is_written(const struct linking *linking, struct span *span,
	const char *written)
{
	const struct source *source = sources_get(linking->sources,
		span->file);
	size_t size = strlen(written);
	const char *bytes;

	if (source == NULL)
		return false;
	bytes = source->bytes + span->from;
	if (span->to - span->from == size + 2 &&
		(*bytes == '"' || *bytes == '\'')) {
		span->from++;
		span->to--;
		bytes++;
	}
	return span->to - span->from == size &&
		memcmp(bytes, written, size) == 0;
}

/* Cuts "kind/id.key", which stands at `span` behind `before` more bytes. */
static struct parts
cut(struct linking *linking, const char *written, struct span span,
	size_t before)
{
	struct parts parts = {.exact = true};
	const char *slash = strchr(written, '/');
	const char *id = slash == NULL ? written : slash + 1;
	const char *dot = strchr(id, '.');
	size_t size = dot == NULL ? strlen(id) : (size_t)(dot - id);
	uint32_t from = span.from + (uint32_t)before;

	if (slash != NULL)
		parts.kind_text = arena_text(linking->arena, written,
			(size_t)(slash - written));
	parts.id_text = arena_text(linking->arena, id, size);
	if (dot != NULL)
		parts.key_text = dot + 1;
	parts.kind = parts.id = parts.key = span;
	parts.kind.from = parts.kind.to = from;
	if (slash != NULL)
		parts.kind.to += (uint32_t)(slash - written);
	parts.id.from = from + (uint32_t)(id - written);
	parts.id.to = parts.id.from + (uint32_t)size;
	if (dot != NULL)
		parts.key.from = parts.id.to + 1;
	return parts;
}

static struct parts
parts_of(struct linking *linking, const struct reference *reference)
{
	const char *written = arena_print(linking->arena, "%s%s%s%s%s",
		reference->written_kind == NULL ? "" :
		reference->written_kind,
		reference->written_kind == NULL ? "" : "/", reference->id,
		reference->key == NULL ? "" : ".",
		reference->key == NULL ? "" : reference->key);
	struct span span = reference->span;
	struct parts parts;

	if (is_written(linking, &span, written))
		return cut(linking, written, span, 0);
	span = reference->span;
	parts = cut(linking, written, span, 0);
	parts.exact = false;
	parts.kind = parts.id = parts.key = span;
	return parts;
}

static struct parts
parts_of_link(struct linking *linking, const struct prose *link)
{
	struct span span = link->span;
	struct parts parts;
	bool exact = is_written(linking, &span, link->text);

	parts = cut(linking, link->text + strlen(ref), span, strlen(ref));
	parts.exact = exact;
	if (!exact)
		parts.kind = parts.id = parts.key = link->span;
	return parts;
}

/* Says which name is near, and offers it where it can be put. */
static bool
suggest(const struct nearest *nearest, struct diag *diag,
	const struct parts *parts, struct span span)
{
	enum confidence sure;

	if (parts->exact)
		return nearest_suggest(nearest, diag, span, "");
	if (nearest_found(nearest, &sure) == NULL)
		return false;
	diag_help(diag, "did you mean \"%s\"?", nearest_found(nearest, &sure));
	return true;
}

/* The one of the field's kinds that has such a record, or NULL. */
static const struct kind *
only_kind(const struct linking *linking, const struct field *field,
	const char *id)
{
	const struct kind *only = NULL;
	unsigned i;

	for (i = 0; i < field->to_count; i++) {
		if (names_find(linking->names, field->to[i], id) == NULL)
			continue;
		if (only != NULL)
			return NULL;
		only = field->to[i];
	}
	return only;
}

static void
help_with_kinds(struct diag *diag, const struct field *field)
{
	GString *kinds = g_string_new(NULL);
	unsigned i;

	for (i = 0; i < field->to_count; i++)
		g_string_append_printf(kinds, "%s%s", i == 0 ? "" : ", ",
			field->to[i]->name);
	diag_help(diag, "write kind/id, where the kind is one of: %s",
		kinds->str);
	g_string_free(kinds, TRUE);
}

/* A kind that was written and that there is not. */
static void
report_no_kind(struct linking *linking, const struct field *field,
	const struct reference *reference, const struct parts *parts)
{
	struct nearest nearest = nearest_to(reference->written_kind);
	struct diag *diag;
	unsigned i;

	for (i = 0; i < field->to_count; i++)
		nearest_offer(&nearest, field->to[i]->name);
	diag = diag_report(linking->diags, DIAG_WRONG_KIND, parts->kind,
		"there is no kind of record named \"%s\"",
		reference->written_kind);
	if (!suggest(&nearest, diag, parts, parts->kind))
		help_with_kinds(diag, field);
}

void
report_kind(struct linking *linking, const struct field *field,
	const struct reference *reference)
{
	struct parts parts = parts_of(linking, reference);
	const struct kind *only = only_kind(linking, field, reference->id);
	struct diag *diag;

	if (reference->kind == NULL && reference->written_kind != NULL) {
		report_no_kind(linking, field, reference, &parts);
		return;
	}
	if (reference->kind != NULL)
		diag = diag_report(linking->diags, DIAG_WRONG_KIND,
			reference->span, "\"%s\" cannot lead to a %s",
			field->name, reference->kind->title);
	else
		diag = diag_report(linking->diags, DIAG_WRONG_KIND,
			reference->span, "\"%s\" does not say of which kind",
			reference->id);
	if (only == NULL) {
		help_with_kinds(diag, field);
		return;
	}
	diag_help(diag, "write \"%s/%s\"", only->name, reference->id);
	if (parts.exact && reference->kind == NULL)
		diag_mend(diag, parts.kind, arena_print(linking->arena, "%s/",
			only->name), MEND_SAFE);
	else if (parts.exact)
		diag_mend(diag, parts.kind, only->name, MEND_PROBABLE);
}

/* Names the nearest ids of a kind, or else says what one can do. */
static void
help_with_id(struct linking *linking, struct diag *diag,
	const struct kind *kind, const struct parts *parts)
{
	struct nearest nearest = nearest_to(parts->id_text);

	if (linking->guesses++ < MOST_GUESSES)
		names_nearest(linking->names, kind, &nearest);
	if (!suggest(&nearest, diag, parts, parts->id))
		diag_help(diag, "add it, or name one that exists: `hangtab "
			"find %s` looks for it in names and labels",
			parts->id_text);
}

void
report_record(struct linking *linking, const struct reference *reference)
{
	struct parts parts = parts_of(linking, reference);
	struct diag *diag;

	if (lost_may_have(linking->lost, reference->kind, reference->id))
		return;
	diag = diag_report(linking->diags, DIAG_UNKNOWN_RECORD, parts.id,
		"there is no %s \"%s\"", reference->kind->title,
		reference->id);
	help_with_id(linking, diag, reference->kind, &parts);
}

/* Whether an item of a record was left out, so that it may have the key. */
static bool
lacks_items(const struct record *record)
{
	const struct fields *fields = &record->kind->fields;
	unsigned i, j;

	for (i = 0; i < fields->count; i++) {
		const struct value *list = record->values[i];
		const struct node *node = node_get(record->node,
			fields->items[i].name);

		if (!field_is_keyed(&fields->items[i]) || node == NULL)
			continue;
		if (list == NULL || list->many.count < node->count)
			return true;
		for (j = 0; j < list->many.count; j++)
			if (list->many.items[j]->group[0] == NULL)
				return true;
	}
	return false;
}

/* Offers the keys of a record's items. */
static void
offer_keys(struct nearest *nearest, const struct record *record)
{
	const struct fields *fields = &record->kind->fields;
	unsigned i, j;

	for (i = 0; i < fields->count; i++) {
		const struct value *list = record->values[i];

		if (list == NULL || !field_is_keyed(&fields->items[i]))
			continue;
		for (j = 0; j < list->many.count; j++)
			if (list->many.items[j]->group[0] != NULL)
				nearest_offer(nearest, list->many.items[j]->
					group[0]->text);
	}
}

static void
help_with_key(struct diag *diag, const struct record *record,
	const struct parts *parts)
{
	struct nearest nearest = nearest_to(parts->key_text);

	offer_keys(&nearest, record);
	diag_note(diag, record->id_span, "the record is here");
	if (!suggest(&nearest, diag, parts, parts->key))
		diag_help(diag, "write the key of one of its items");
}

void
report_item(struct linking *linking, const struct reference *reference)
{
	struct parts parts = parts_of(linking, reference);
	struct diag *diag;

	if (lacks_items(reference->record))
		return;
	diag = diag_report(linking->diags, DIAG_UNKNOWN_RECORD, parts.key,
		"\"%s\" has no item \"%s\"", reference->id, reference->key);
	help_with_key(diag, reference->record, &parts);
}

static void
say_former(struct linking *linking, const struct parts *parts,
	const struct record *record)
{
	struct diag *diag;

	diag = diag_report(linking->diags, DIAG_FORMER_ID, parts->id,
		"\"%s\" is now called \"%s\"", parts->id_text, record->id);
	diag_help(diag, "write \"%s\"", record->id);
	if (parts->exact)
		diag_mend(diag, parts->id, record->id, MEND_SAFE);
}

void
report_former(struct linking *linking, const struct reference *reference)
{
	struct parts parts = parts_of(linking, reference);

	say_former(linking, &parts, reference->record);
}

void
report_former_link(struct linking *linking, const struct prose *link)
{
	struct parts parts = parts_of_link(linking, link);

	say_former(linking, &parts, link->record);
}

/* A link whose kind there is not: the kind meant may have the record. */
static void
help_with_kind(struct linking *linking, struct diag *diag,
	const struct parts *parts)
{
	struct nearest nearest = nearest_to(parts->kind_text);
	unsigned i;

	for (i = 0; i < linking->schema->count; i++)
		if (names_find(linking->names, &linking->schema->kinds[i],
			parts->id_text) != NULL)
			nearest_offer(&nearest,
				linking->schema->kinds[i].name);
	if (!suggest(&nearest, diag, parts, parts->kind))
		diag_help(diag, "write ref:kind/id with the id of a record");
}

void
report_link(struct linking *linking, const struct prose *link)
{
	struct parts parts = parts_of_link(linking, link);
	const struct kind *kind = parts.kind_text == NULL ? NULL :
		schema_kind(linking->schema, parts.kind_text);
	const struct record *record = kind == NULL ? NULL :
		names_find(linking->names, kind, parts.id_text);
	struct diag *diag;

	if (record == NULL ? lost_may_have(linking->lost, kind,
		parts.id_text) : lacks_items(record))
		return;
	diag = diag_report(linking->diags, DIAG_BROKEN_LINK,
		link->span, "the link leads to no record \"%s\"",
		link->text + strlen(ref));
	if (parts.kind_text == NULL)
		diag_help(diag, "write ref:kind/id with the id of a record");
	else if (kind == NULL)
		help_with_kind(linking, diag, &parts);
	else if (record == NULL)
		help_with_id(linking, diag, kind, &parts);
	else
		help_with_key(diag, record, &parts);
}
