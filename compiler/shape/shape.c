/*
 * Records of the corpus, one by one, against the kinds of the schema.
 */
#include "shape/shape.h"

#include <glib.h>
#include <string.h>

#include "shape/forms.h"
#include "shape/nearest.h"
#include "shape/shaping.h"

/* What is gathered from the records of a corpus. */
struct gathering {
	struct shaping shaping;
	GPtrArray *records;
	GArray *lost;
	GHashTable *folders;	/* of unknown kinds, reported */
};

/*
 * Reports a kind that there is not, a folder once. Returns the kind that was
 * surely meant, so that nothing is said against those who refer to its
 * records, or NULL.
 */
static const struct kind *
report_kind(struct gathering *gathering, const struct raw_record *raw)
{
	const struct schema *schema = gathering->shaping.schema;
	struct nearest nearest = nearest_to(raw->kind);
	struct span span = raw->kind_span;
	enum confidence sure = MEND_PROBABLE;
	const char *found;
	struct diag *diag;
	unsigned i;

	for (i = 0; i < schema->count; i++) {
		const struct kind *kind = &schema->kinds[i];

		nearest_offer(&nearest, kind->name);
		nearest_offer_title(&nearest, kind->title, kind->name);
		nearest_offer_title(&nearest, kind->titles, kind->name);
	}
	found = nearest_found(&nearest, &sure);
	if (span.file == 0)
		span = (struct span){raw->file, 0, 0};
	if (raw->kind_span.file != 0 || g_hash_table_add(gathering->folders,
		(gpointer)(uintptr_t)raw->kind)) {
		diag = diag_report(gathering->shaping.diags, DIAG_UNKNOWN_KIND,
			span, "there is no kind of record named \"%s\"",
			raw->kind);
		if (found == NULL)
			diag_help(diag, "the kinds are the files of schema/");
		else if (raw->kind_span.file == 0)
			diag_help(diag, "did you mean the folder \"%s\"?",
				found);
		else
			nearest_suggest(&nearest, diag, span, "");
	}
	return found == NULL || sure == MEND_BLANK ? NULL :
		schema_kind(schema, found);
}

static void
report_private(struct shaping *shaping, const struct raw_record *raw)
{
	struct span span = raw->kind_span;
	struct diag *diag;

	if (span.file == 0)
		span.file = raw->file;
	diag = diag_report(shaping->diags, DIAG_UNKNOWN_KIND, span,
		"\"%s\" is private and cannot stand in a corpus", raw->kind);
	diag_help(diag, "keep your own pieces in a file outside the corpus, "
		"and use \"hangtab gaps\" on it");
}

/*
 * The node under "id", or under a key that is no field and was surely meant
 * for it: the key is reported with the other fields.
 */
static const struct node *
id_node(const struct raw_record *raw, const struct kind *kind)
{
	const struct node *node = node_get(raw->node, "id");
	uint32_t i;

	for (i = 0; node == NULL && i < raw->node->count; i++) {
		const struct node_entry *entry = &raw->node->entries[i];

		if (nearest_distance(entry->key, "id", 1) <= 1 ||
			nearest_alike(entry->key, "id"))
			if (fields_find(&kind->fields, entry->key) == NULL)
				node = entry->value;
	}
	return node;
}

/* The id of a record, checked; NULL after reporting. */
static const char *
find_id(struct shaping *shaping, const struct raw_record *raw,
	const struct kind *kind, struct span *span)
{
	const struct node *node = id_node(raw, kind);
	enum confidence sure = MEND_PROBABLE;
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
	if (node == NULL && raw->node->partial)
		return NULL;
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
	if (node->kind == NODE_BAD)
		return NULL;
	if (node->kind == NODE_SCALAR && node->count == 0) {
		diag = diag_report(shaping->diags, DIAG_EMPTY_VALUE,
			node->span, "\"id\" is given but empty");
		diag_help(diag, "write a short name of lower-case letters, "
			"digits and hyphens");
		return NULL;
	}
	if (node->kind == NODE_SCALAR && strcmp(node->text, "unknown") == 0) {
		diag = diag_report(shaping->diags, DIAG_BAD_ID, node->span,
			"\"unknown\" cannot be an id");
		diag_help(diag, "where a record may be named, \"unknown\" says "
			"that nobody knows which");
		return NULL;
	}
	if (node->kind == NODE_SCALAR && shape_is_id(node->text, node->count))
		return node->text;
	diag = diag_report(shaping->diags, DIAG_BAD_ID, node->span,
		"\"%s\" cannot be an id", node->kind == NODE_SCALAR ?
		node->text : "a list or group");
	diag_help(diag, "use lower-case letters, digits and hyphens");
	meant = node->kind != NODE_SCALAR ? NULL :
		forms_id(shaping->arena, node->text, &sure);
	shape_offer(diag, node, meant, sure);
	return NULL;
}

/* Notes a record that others may refer to and that is not there for them. */
static void
lose(struct gathering *gathering, const struct raw_record *raw,
	const struct kind *kind)
{
	struct lost lost = {kind, NULL, 0, NULL};
	const struct node *node = NULL;

	if (raw->node->kind == NODE_MAP)
		node = id_node(raw, kind);
	if (node != NULL && node->kind == NODE_SCALAR)
		lost.id = node->text;
	else if (raw->essay_id != NULL)
		lost.id = raw->essay_id;
	else
		lost.file = raw->file;
	g_array_append_val(gathering->lost, lost);
}

static void
shape_record(struct gathering *gathering, const struct raw_record *raw,
	const struct kind *kind)
{
	struct shaping *shaping = &gathering->shaping;
	struct record *record;
	struct diag *diag;

	if (raw->node->kind != NODE_MAP && raw->node->kind != NODE_BAD) {
		diag = diag_report(shaping->diags, DIAG_NOT_RECORDS,
			raw->node->span, "expected a record of kind \"%s\"",
			kind->name);
		diag_help(diag, "a record is a group of lines like \"id: "
			"amber\"");
	}
	if (raw->node->kind != NODE_MAP) {
		lose(gathering, raw, kind);
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
		g_ptr_array_add(gathering->records, record);
	else
		lose(gathering, raw, kind);
}

/* What was lost in reading, with the kinds that folders are named after. */
static void
take_lost(struct gathering *gathering, const struct raw_corpus *corpus)
{
	size_t i;

	for (i = 0; i < corpus->lost_count; i++) {
		const struct raw_lost *raw = &corpus->lost[i];
		struct lost lost = {NULL, raw->id, raw->file, raw->diag};

		if (raw->kind != NULL)
			lost.kind = schema_kind(gathering->shaping.schema,
				raw->kind);
		g_array_append_val(gathering->lost, lost);
	}
}

static void
check_settings(struct shaping *shaping, const struct node *settings)
{
	const struct node *format = node_get(settings, "format");
	const char *text = "a list or group";
	struct diag *diag;
	gint64 number;
	bool known;
	char *end;

	if (format == NULL || format->kind == NODE_BAD)
		return;
	if (format->kind == NODE_SCALAR)
		text = format->text;
	number = g_ascii_strtoll(text, &end, 10);
	known = end > text && *end == '\0';
	if (known && number >= FORMAT_OLDEST && number <= FORMAT_NEWEST)
		return;
	diag = diag_report(shaping->diags, DIAG_UNKNOWN_FORMAT, format->span,
		"this compiler reads corpus format %d, not \"%s\"",
		FORMAT_NEWEST, text);
	diag_help(diag, known && number < FORMAT_OLDEST ?
		"\"hangtab tidy --upgrade\" brings it up" :
		"use a newer compiler for a newer corpus");
}

/* Files that lie among the records of a kind and are not read as any. */
static void
report_strays(const struct shaping *shaping, const struct raw_corpus *corpus)
{
	struct diag *diag;
	size_t i;

	for (i = 0; i < corpus->stray_count; i++) {
		const struct corpus_file *file = &corpus->strays[i];

		if (schema_kind(shaping->schema, file->kind) == NULL)
			continue;
		diag = diag_report(shaping->diags, DIAG_STRAY_FILE,
			SPAN_NOWHERE, "\"%s\" is not read", file->path);
		if (file_is_table(file->path))
			diag_help(diag, "\"hangtab new %s --from\" makes "
				"records of a spreadsheet; then take it out "
				"of the folder", file->kind);
		else if (g_str_has_suffix(file->path, ".md"))
			diag_help(diag, "an essay belongs in the folder "
				"\"essay\"");
		else
			diag_help(diag, "records are in files whose names end "
				"in .yaml; take anything else out of the "
				"folder");
	}
}

struct records *
shape_corpus(const struct raw_corpus *corpus, const struct schema *schema,
	bool private_kinds, const struct sources *sources,
	struct arena *arena, struct diags *diags)
{
	struct gathering gathering = {
		.shaping = {schema, sources, arena, diags},
		.records = g_ptr_array_new(),
		.lost = g_array_new(FALSE, TRUE, sizeof(struct lost)),
		.folders = g_hash_table_new(g_str_hash, g_str_equal),
	};
	struct records *records = arena_one(arena, struct records);
	size_t i;

	check_settings(&gathering.shaping, corpus->settings);
	report_strays(&gathering.shaping, corpus);
	for (i = 0; i < corpus->count; i++) {
		const struct raw_record *raw = &corpus->records[i];
		const struct kind *kind = schema_kind(schema, raw->kind);

		if (kind == NULL)
			kind = report_kind(&gathering, raw);
		if (kind == NULL)
			continue;
		if (kind->chapter == CHAPTER_PRIVATE && !private_kinds)
			report_private(&gathering.shaping, raw);
		else
			shape_record(&gathering, raw, kind);
	}
	take_lost(&gathering, corpus);
	records->count = gathering.records->len;
	records->items = arena_array(arena, struct record *, records->count);
	if (records->count > 0)
		memcpy(records->items, gathering.records->pdata,
			sizeof(*records->items) * records->count);
	records->lost_count = gathering.lost->len;
	records->lost = arena_array(arena, struct lost, records->lost_count);
	if (records->lost_count > 0)
		memcpy(records->lost, gathering.lost->data,
			sizeof(*records->lost) * records->lost_count);
	g_ptr_array_free(gathering.records, TRUE);
	g_array_free(gathering.lost, TRUE);
	g_hash_table_destroy(gathering.folders);
	return records;
}
