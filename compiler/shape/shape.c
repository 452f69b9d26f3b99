/*
 * Records of the corpus, one by one, against the kinds of the schema.
 */
#include "shape/shape.h"

#include <glib.h>
#include <string.h>

#include "shape/forms.h"
#include "shape/nearest.h"
#include "shape/shaping.h"

static void
report_kind(struct shaping *shaping, const struct raw_record *raw)
{
	struct nearest nearest = nearest_to(raw->kind);
	struct span span = raw->kind_span;
	struct diag *diag;
	unsigned i;

	if (span.file == 0)
		span = (struct span){raw->file, 0, 0};
	diag = diag_report(shaping->diags, DIAG_UNKNOWN_KIND, span,
		"there is no kind of record named \"%s\"", raw->kind);
	for (i = 0; i < shaping->schema->count; i++)
		nearest_offer(&nearest, shaping->schema->kinds[i].name);
	if (nearest.best != NULL)
		diag_help(diag, "did you mean \"%s\"?", nearest.best);
	else
		diag_help(diag, "the kinds are the files of schema/");
	if (nearest.best != NULL && raw->kind_span.file != 0)
		diag_mend(diag, span, nearest.best, MEND_PROBABLE);
}

static void
report_private(struct shaping *shaping, const struct raw_record *raw)
{
	struct diag *diag;

	diag = diag_report(shaping->diags, DIAG_UNKNOWN_KIND, raw->kind_span,
		"\"%s\" is private and cannot stand in a corpus", raw->kind);
	diag_help(diag, "keep your own pieces in a file outside the corpus, "
		"and use \"hangtab gaps\" on it");
}

/* The id of a record, checked; NULL after reporting. */
static const char *
find_id(struct shaping *shaping, const struct raw_record *raw,
	const struct kind *kind, struct span *span)
{
	const struct node *node = node_get(raw->node, "id");
	enum confidence sure;
	struct diag *diag;
	const char *meant;

	if (raw->essay_id != NULL) {
		*span = (struct span){raw->file, 0, 0};
		if (shape_is_id(raw->essay_id, strlen(raw->essay_id)))
			return raw->essay_id;
		diag = diag_report(shaping->diags, DIAG_BAD_ID, *span,
			"the file's name \"%s\" cannot be an id",
			raw->essay_id);
		diag_help(diag, "use lower-case letters, digits and hyphens");
		return NULL;
	}
	if (node == NULL) {
		*span = raw->node->count > 0 ?
			raw->node->entries[0].key_span : raw->node->span;
		diag = diag_report(shaping->diags, DIAG_MISSING_FIELD, *span,
			"\"%s\" lacks the field \"id\"", kind->name);
		diag_help(diag, "add \"id: \" and a short name of lower-case "
			"letters, digits and hyphens that no other %s has",
			kind->title);
		return NULL;
	}
	*span = node->span;
	if (node->kind == NODE_SCALAR && shape_is_id(node->text, node->count))
		return node->text;
	if (node->kind == NODE_BAD)
		return NULL;
	diag = diag_report(shaping->diags, DIAG_BAD_ID, node->span,
		"\"%s\" cannot be an id", node->kind == NODE_SCALAR ?
		node->text : "a list or group");
	diag_help(diag, "use lower-case letters, digits and hyphens");
	meant = node->kind != NODE_SCALAR ? NULL :
		forms_id(shaping->arena, node->text, &sure);
	shape_offer(diag, node, meant, sure);
	return NULL;
}

static void
shape_record(struct shaping *shaping, const struct raw_record *raw,
	const struct kind *kind, GPtrArray *records)
{
	struct record *record;
	struct diag *diag;

	if (raw->node->kind == NODE_BAD)
		return;
	if (raw->node->kind != NODE_MAP) {
		diag = diag_report(shaping->diags, DIAG_NOT_RECORDS,
			raw->node->span, "expected a record of kind \"%s\"",
			kind->name);
		diag_help(diag, "a record is a group of lines like \"id: "
			"amber\"");
		return;
	}
	record = arena_one(shaping->arena, struct record);
	record->kind = kind;
	record->node = raw->node;
	record->span = raw->node->span;
	record->id = find_id(shaping, raw, kind, &record->id_span);
	record->values = shape_fields(shaping, &kind->fields, raw->node, "id",
		kind->name);
	if (record->id != NULL)
		g_ptr_array_add(records, record);
}

static void
check_settings(struct shaping *shaping, const struct node *settings)
{
	const struct node *format = node_get(settings, "format");
	struct diag *diag;

	if (format == NULL || format->kind != NODE_SCALAR)
		return;
	if (strcmp(format->text, "1") == 0)
		return;
	diag = diag_report(shaping->diags, DIAG_UNKNOWN_FORMAT, format->span,
		"this compiler reads corpus format %d, not \"%s\"",
		FORMAT_NEWEST, format->text);
	diag_help(diag, "use a newer compiler for a newer corpus");
}

struct records *
shape_corpus(const struct raw_corpus *corpus, const struct schema *schema,
	bool private_kinds, const struct sources *sources,
	struct arena *arena, struct diags *diags)
{
	struct shaping shaping = {schema, sources, arena, diags};
	struct records *records = arena_one(arena, struct records);
	GPtrArray *items = g_ptr_array_new();
	size_t i;

	check_settings(&shaping, corpus->settings);
	for (i = 0; i < corpus->count; i++) {
		const struct raw_record *raw = &corpus->records[i];
		const struct kind *kind = schema_kind(schema, raw->kind);

		if (kind == NULL)
			report_kind(&shaping, raw);
		else if (kind->chapter == CHAPTER_PRIVATE && !private_kinds)
			report_private(&shaping, raw);
		else
			shape_record(&shaping, raw, kind, items);
	}
	records->count = items->len;
	records->items = arena_array(arena, struct record *, items->len);
	if (items->len > 0)
		memcpy(records->items, items->pdata,
			sizeof(*records->items) * items->len);
	g_ptr_array_free(items, TRUE);
	return records;
}
