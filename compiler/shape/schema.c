/*
 * Reads schema files: first shaped like records by the tables of meta.c, then
 * copied into kinds and fields, then joined up, since a field may name a kind
 * or a vocabulary that is read later.
 */
#include "shape/schema.h"

#include <errno.h>
#include <glib.h>
#include <stdlib.h>
#include <string.h>

#include "read/yaml.h"
#include "shape/meta.h"
#include "shape/nearest.h"
#include "shape/shaping.h"

struct loading {
	struct shaping shaping;
	struct schema *schema;
	GArray *kinds;
	const struct value *every;	/* the fields of every.yaml */
};

static const char *
text_of(struct value *const *values, unsigned index)
{
	return values[index] == NULL ? NULL : values[index]->text;
}

static bool
yes_of(struct value *const *values, unsigned index, bool absent)
{
	return values[index] == NULL ? absent : values[index]->yes;
}

static unsigned
word_of(struct value *const *values, unsigned index, unsigned absent)
{
	return values[index] == NULL ? absent : values[index]->word->index;
}

static const char *
spaced(struct arena *arena, const char *name)
{
	char *text = arena_text(arena, name, strlen(name));

	return g_strdelimit(text, "_", ' ');
}

static void
copy_texts(struct arena *arena, const struct value *list, const char ***texts,
	unsigned *count)
{
	unsigned i;

	if (list == NULL)
		return;
	*count = list->many.count;
	*texts = arena_array(arena, const char *, *count);
	for (i = 0; i < *count; i++)
		(*texts)[i] = list->many.items[i]->text;
}

static enum search_weight
usual_search(enum type type)
{
	bool words = type == TYPE_TEXT || type == TYPE_PROSE ||
		type == TYPE_TRANSLATION;

	return words ? SEARCH_WORDS : SEARCH_NO;
}

static struct fields
copy_fields(struct loading *loading, const struct value *list);

/*
 * Copies what needs nothing but the field's own lines; names of kinds,
 * vocabularies and other fields are joined later, from the kept values.
 */
static void
copy_field(struct loading *loading, struct value *const *values,
	struct field *field)
{
	struct arena *arena = loading->shaping.arena;
	bool exported;

	field->name = text_of(values, FIELD_NAME);
	if (field->name == NULL)
		field->name = "";
	field->title = text_of(values, FIELD_TITLE);
	if (field->title == NULL)
		field->title = spaced(arena, field->name);
	field->says = text_of(values, FIELD_SAYS);
	field->type = (enum type)word_of(values, FIELD_TYPE, TYPE_TEXT);
	field->many = yes_of(values, FIELD_MANY, false);
	field->required = yes_of(values, FIELD_REQUIRED, false);
	field->unique = text_of(values, FIELD_UNIQUE);
	field->fallback = text_of(values, FIELD_DEFAULT);
	exported = yes_of(values, FIELD_EXPORT, true);
	field->exported = exported;
	field->show = (enum show)word_of(values, FIELD_SHOW, SHOW_YES);
	field->search = (enum search_weight)word_of(values, FIELD_SEARCH,
		usual_search(field->type));
	if (!exported) {
		field->show = SHOW_NO;
		field->search = SEARCH_NO;
	}
	copy_texts(arena, values[FIELD_UNITS], &field->units,
		&field->unit_count);
	field->least = INT64_MIN;
	field->most = INT64_MAX;
	if (values[FIELD_LEAST] != NULL)
		field->least = values[FIELD_LEAST]->whole;
	if (values[FIELD_MOST] != NULL)
		field->most = values[FIELD_MOST]->whole;
	field->fields = copy_fields(loading, values[FIELD_FIELDS]);
}

static struct fields
copy_fields(struct loading *loading, const struct value *list)
{
	struct fields fields = {NULL, 0};
	struct field *items;
	unsigned i;

	if (list == NULL)
		return fields;
	items = arena_array(loading->shaping.arena, struct field,
		list->many.count);
	for (i = 0; i < list->many.count; i++) {
		copy_field(loading, list->many.items[i]->group, &items[i]);
		items[i].index = i;
		items[i].span = list->many.items[i]->span;
		items[i].written = list->many.items[i]->group;
	}
	fields.items = items;
	fields.count = list->many.count;
	return fields;
}

static void
report_field(struct loading *loading, const struct field *field,
	const char *problem, const char *thing)
{
	diag_report(loading->shaping.diags, DIAG_SCHEMA_FIELD, field->span,
		"the field \"%s\" %s%s%s%s", field->name, problem,
		thing == NULL ? "" : " \"", thing == NULL ? "" : thing,
		thing == NULL ? "" : "\"");
}

static void
join_vocabulary(struct loading *loading, struct field *field,
	const char *name)
{
	const struct schema *schema = loading->schema;
	unsigned i;

	if (name == NULL) {
		report_field(loading, field, "needs a vocabulary", NULL);
		return;
	}
	for (i = 0; i < schema->vocabulary_count; i++)
		if (strcmp(schema->vocabularies[i].name, name) == 0)
			field->vocabulary = &schema->vocabularies[i];
	if (field->vocabulary == NULL)
		report_field(loading, field, "names the unknown vocabulary",
			name);
}

static void
join_any_kind(struct loading *loading, struct field *field)
{
	const struct schema *schema = loading->schema;
	unsigned i;

	field->to = arena_array(loading->shaping.arena, const struct kind *,
		schema->count);
	field->to_count = schema->count;
	for (i = 0; i < schema->count; i++)
		field->to[i] = &schema->kinds[i];
}

static void
join_kinds(struct loading *loading, struct field *field,
	const struct value *names)
{
	unsigned i;

	if (names == NULL) {
		report_field(loading, field, "needs the kinds it leads to "
			"under", "to");
		return;
	}
	if (names->many.count == 1 &&
		strcmp(names->many.items[0]->text, "any") == 0) {
		join_any_kind(loading, field);
		return;
	}
	field->to = arena_array(loading->shaping.arena, const struct kind *,
		names->many.count);
	for (i = 0; i < names->many.count; i++) {
		const char *name = names->many.items[i]->text;

		field->to[field->to_count] = schema_kind(loading->schema,
			name);
		if (field->to[field->to_count] == NULL)
			report_field(loading, field, "leads to the unknown "
				"kind", name);
		else
			field->to_count++;
	}
}

/* A date field named by a property, in the same group or around it. */
static const struct field *
join_date(struct loading *loading, const struct field *field,
	const struct fields *around, const char *name)
{
	const struct field *date;

	if (name == NULL)
		return NULL;
	date = fields_find(around, name);
	if (date == NULL || date->type != TYPE_DATE || date->many) {
		report_field(loading, field, "names no date field", name);
		return NULL;
	}
	return date;
}

static bool
is_code(enum type type)
{
	return type == TYPE_COUNTRY || type == TYPE_CURRENCY;
}

static bool
good_name(const char *name)
{
	size_t length = strspn(name, "abcdefghijklmnopqrstuvwxyz0123456789_");

	return g_ascii_islower(name[0]) && name[length] == '\0';
}

static void
join_fields(struct loading *loading, const struct fields *fields,
	const struct kind *kind, const struct field *parent);

static void
join_field(struct loading *loading, struct field *field,
	const struct fields *around, const struct kind *kind)
{
	struct value *const *values = field->written;
	const char *name;

	field->kind = kind;
	if (!good_name(field->name))
		report_field(loading, field, "needs a name of lower-case "
			"letters, digits and \"_\"", NULL);
	if (fields_find(around, field->name) != field)
		report_field(loading, field, "is described twice", NULL);
	name = text_of(values, FIELD_VOCABULARY);
	if (field->type == TYPE_WORD)
		join_vocabulary(loading, field, name);
	if (field->type == TYPE_REFERENCE || field->type == TYPE_IDENTITY)
		join_kinds(loading, field, values[FIELD_TO]);
	if (field->type == TYPE_QUANTITY && field->unit_count == 0)
		report_field(loading, field, "needs its", "units");
	if (field->type == TYPE_GROUP && field->fields.count == 0)
		report_field(loading, field, "needs its", "fields");
	if (field->type == TYPE_DATE)
		field->not_before = join_date(loading, field, around,
			text_of(values, FIELD_NOT_BEFORE));
	if (is_code(field->type))
		field->on = join_date(loading, field, around,
			text_of(values, FIELD_ON));
	if (field->unique != NULL && strcmp(field->unique, "kind") != 0) {
		field->unique_within = fields_find(around, field->unique);
		if (field->unique_within == NULL)
			report_field(loading, field, "is unique within the "
				"unknown field", field->unique);
	}
	join_fields(loading, &field->fields, kind, field);
}

static void
join_fields(struct loading *loading, const struct fields *fields,
	const struct kind *kind, const struct field *parent)
{
	struct field *items = (struct field *)(uintptr_t)fields->items;
	unsigned i;

	for (i = 0; i < fields->count; i++) {
		items[i].parent = parent;
		join_field(loading, &items[i], fields, kind);
	}
}

/* Appends the fields of every record, each kind its own copy. */
static void
add_every(struct loading *loading, struct kind *kind)
{
	struct fields every = copy_fields(loading, loading->every);
	unsigned own = kind->fields.count, more = every.count, i;
	struct field *items;

	items = arena_array(loading->shaping.arena, struct field, own + more);
	if (own > 0)
		memcpy(items, kind->fields.items, sizeof(*items) * own);
	if (more > 0)
		memcpy(items + own, every.items, sizeof(*items) * more);
	for (i = 0; i < own + more; i++)
		items[i].index = i;
	kind->own_count = own;
	kind->fields = (struct fields){items, own + more};
}

static struct kind
copy_kind(struct loading *loading, const struct node *root, const char *name,
	const struct value **fields)
{
	struct kind kind = {.span = root->span, .title = name, .titles = name};
	struct value **values;
	const char *given;

	values = shape_fields(&loading->shaping, &meta_kind_fields, root, NULL,
		"schema");
	given = text_of(values, KIND_KIND);
	kind.name = arena_text(loading->shaping.arena, name, strlen(name));
	if (given != NULL && strcmp(given, name) != 0)
		diag_report(loading->shaping.diags, DIAG_SCHEMA_KIND,
			values[KIND_KIND]->span, "the file is \"%s.yaml\" "
			"but describes the kind \"%s\"", name, given);
	if (text_of(values, KIND_TITLE) != NULL)
		kind.title = text_of(values, KIND_TITLE);
	if (text_of(values, KIND_TITLES) != NULL)
		kind.titles = text_of(values, KIND_TITLES);
	kind.says = text_of(values, KIND_SAYS);
	kind.called = text_of(values, KIND_CALLED);
	kind.chapter = (enum chapter)word_of(values, KIND_CHAPTER,
		CHAPTER_MADE);
	kind.page = yes_of(values, KIND_PAGE, true);
	*fields = values[KIND_FIELDS];
	return kind;
}

static struct word *
copy_words(struct loading *loading, const struct value *list, unsigned *count)
{
	struct word *words;
	unsigned i;

	*count = list == NULL ? 0 : list->many.count;
	words = arena_array(loading->shaping.arena, struct word, *count);
	for (i = 0; i < *count; i++) {
		struct value *const *values = list->many.items[i]->group;

		words[i].word = text_of(values, WORD_WORD);
		if (words[i].word == NULL)
			words[i].word = "";
		words[i].title = text_of(values, WORD_TITLE);
		if (words[i].title == NULL)
			words[i].title = g_strdelimit(arena_text(
				loading->shaping.arena, words[i].word,
				strlen(words[i].word)), "-", ' ');
		words[i].says = text_of(values, WORD_SAYS);
		words[i].index = i;
	}
	return words;
}

static void
read_vocabularies(struct loading *loading, const struct node *root)
{
	struct schema *schema = loading->schema;
	uint32_t i;

	if (root->kind != NODE_LIST) {
		diag_report(loading->shaping.diags, DIAG_SCHEMA_KIND,
			root->span, "expected a list of vocabularies");
		return;
	}
	schema->vocabulary_count = root->count;
	schema->vocabularies = arena_array(loading->shaping.arena,
		struct vocabulary, root->count);
	for (i = 0; i < root->count; i++) {
		struct vocabulary *vocabulary = &schema->vocabularies[i];
		struct value **values;

		vocabulary->name = "";
		if (root->items[i]->kind != NODE_MAP) {
			diag_report(loading->shaping.diags, DIAG_SCHEMA_KIND,
				root->items[i]->span, "expected a vocabulary "
				"with a name and words");
			continue;
		}
		values = shape_fields(&loading->shaping,
			&meta_vocabulary_fields, root->items[i], NULL,
			"vocabulary");
		if (text_of(values, VOCABULARY_NAME) != NULL)
			vocabulary->name = text_of(values, VOCABULARY_NAME);
		vocabulary->words = copy_words(loading,
			values[VOCABULARY_WORDS], &vocabulary->count);
	}
}

static void
read_schema_file(struct loading *loading, struct sources *sources,
	const char *folder, const char *file_name)
{
	struct shaping *shaping = &loading->shaping;
	const char *path = arena_print(shaping->arena, "%s/%s", folder,
		file_name);
	char *name = arena_text(shaping->arena, file_name,
		strlen(file_name) - strlen(".yaml"));
	const struct value *fields = NULL;
	struct node *root = NULL;
	struct kind kind;
	char *why = NULL;
	uint32_t file;

	file = sources_read(sources, path, path, &why);
	if (file == 0)
		diag_report(shaping->diags, DIAG_UNREADABLE_FILE, SPAN_NOWHERE,
			"\"%s\" cannot be read: %s", path, why);
	g_free(why);
	if (file != 0)
		root = read_yaml(sources, file, shaping->arena,
			shaping->diags);
	if (root == NULL)
		return;
	if (strcmp(name, "vocabularies") == 0) {
		read_vocabularies(loading, root);
		return;
	}
	if (root->kind != NODE_MAP) {
		diag_report(shaping->diags, DIAG_SCHEMA_KIND, root->span,
			"expected a kind and its fields");
		return;
	}
	kind = copy_kind(loading, root, name, &fields);
	if (strcmp(name, "every") == 0) {
		loading->every = fields;
		return;
	}
	kind.fields = copy_fields(loading, fields);
	g_array_append_val(loading->kinds, kind);
}

static int
compare_names(gconstpointer a, gconstpointer b)
{
	return strcmp(*(const char *const *)a, *(const char *const *)b);
}

static GPtrArray *
list_files(struct loading *loading, const char *folder)
{
	GPtrArray *names = g_ptr_array_new();
	GDir *dir = g_dir_open(folder, 0, NULL);
	struct diag *diag;
	const char *name;

	if (dir == NULL) {
		diag = diag_report(loading->shaping.diags, DIAG_UNREADABLE_FILE,
			SPAN_NOWHERE, "the schema folder \"%s\" cannot be "
			"read: %s", folder, g_strerror(errno));
		diag_help(diag, "name the folder with --schema");
		return names;
	}
	for (name = g_dir_read_name(dir); name != NULL;
		name = g_dir_read_name(dir))
		if (name[0] != '.' && g_str_has_suffix(name, ".yaml"))
			g_ptr_array_add(names, arena_text(
				loading->shaping.arena, name, strlen(name)));
	g_dir_close(dir);
	g_ptr_array_sort(names, compare_names);
	return names;
}

static void
join_all(struct loading *loading)
{
	struct schema *schema = loading->schema;
	unsigned i;

	schema->count = loading->kinds->len;
	schema->kinds = arena_array(loading->shaping.arena, struct kind,
		schema->count);
	for (i = 0; i < schema->count; i++) {
		schema->kinds[i] = g_array_index(loading->kinds, struct kind,
			i);
		schema->kinds[i].index = i;
		add_every(loading, &schema->kinds[i]);
	}
	for (i = 0; i < schema->count; i++)
		join_fields(loading, &schema->kinds[i].fields,
			&schema->kinds[i], NULL);
}

struct schema *
schema_load(const char *folder, struct sources *sources, struct arena *arena,
	struct diags *diags)
{
	struct loading loading = {
		.shaping = {NULL, sources, arena, diags},
		.schema = arena_one(arena, struct schema),
		.kinds = g_array_new(FALSE, TRUE, sizeof(struct kind)),
	};
	GPtrArray *names = list_files(&loading, folder);
	guint i;

	for (i = 0; i < names->len; i++)
		read_schema_file(&loading, sources, folder,
			g_ptr_array_index(names, i));
	g_ptr_array_free(names, TRUE);
	join_all(&loading);
	g_array_free(loading.kinds, TRUE);
	if (loading.schema->count == 0)
		diag_report(diags, DIAG_SCHEMA_KIND, SPAN_NOWHERE,
			"the schema folder \"%s\" describes no kind", folder);
	return loading.schema;
}

static int
compare_kind(const void *name, const void *kind)
{
	return strcmp(name, ((const struct kind *)kind)->name);
}

const struct kind *
schema_kind(const struct schema *schema, const char *name)
{
	if (schema->count == 0)
		return NULL;
	return bsearch(name, schema->kinds, schema->count,
		sizeof(schema->kinds[0]), compare_kind);
}

const struct field *
fields_find(const struct fields *fields, const char *name)
{
	unsigned i;

	for (i = 0; i < fields->count; i++)
		if (strcmp(fields->items[i].name, name) == 0)
			return &fields->items[i];
	return NULL;
}

bool
field_is_keyed(const struct field *field)
{
	return field->type == TYPE_GROUP && field->many &&
		field->fields.count > 0 &&
		field->fields.items[0].type == TYPE_TEXT &&
		strcmp(field->fields.items[0].name, "key") == 0;
}
