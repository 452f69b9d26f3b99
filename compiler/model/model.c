/*
 * Making the model: known fields looked up, records named and ordered,
 * references turned round.
 */
#include "model/model.h"

#include <glib.h>
#include <stdlib.h>
#include <string.h>

#include "base/order.h"
#include "model/inside.h"
#include "model/naming.h"

struct known {
	const char *kind;
	const char *path;
	enum type type;
	bool many;
};

static const struct known known_fields[] = {
#define FIELD(name, kind, path, type) \
	[NAME(name)] = {kind, path, TYPE_##type, false},
#define LIST(name, kind, path, type) \
	[NAME(name)] = {kind, path, TYPE_##type, true},
#include "model/fields.h"
#undef LIST
#undef FIELD
};

static const struct field *
find_path(const struct fields *fields, const char *path)
{
	char **names = g_strsplit(path, ".", 0);
	const struct field *field = NULL;
	size_t i;

	for (i = 0; names[i] != NULL && fields != NULL; i++) {
		field = fields_find(fields, names[i]);
		fields = field == NULL ? NULL : &field->fields;
	}
	g_strfreev(names);
	return field;
}

/* The kind of that name; any kind stands for what every record has. */
static const struct kind *
find_kind(const struct schema *schema, const char *name)
{
	if (strcmp(name, "every") == 0)
		return schema->count > 0 ? &schema->kinds[0] : NULL;
	return schema_kind(schema, name);
}

static void
look_up_fields(struct model *model, struct diags *diags)
{
	const struct kind *kind;
	const struct field *field;
	struct diag *diag;
	int i;

	for (i = 0; i < FIELD_NAME_COUNT; i++) {
		const struct known *known = &known_fields[i];

		kind = find_kind(model->schema, known->kind);
		field = kind == NULL ? NULL :
			find_path(&kind->fields, known->path);
		model->fields[i] = field;
		if (field != NULL && field->type == known->type &&
			field->many == known->many)
			continue;
		diag = diag_report(diags, DIAG_SCHEMA_NAME,
			field != NULL ? field->span :
			kind != NULL ? kind->span : SPAN_NOWHERE,
			"the schema lacks \"%s\" of \"%s\" as %s%s",
			known->path, known->kind, type_title(known->type),
			known->many ? ", many of them" : "");
		diag_help(diag, "the compiler studies this field by its name; "
			"see compiler/model/fields.h");
	}
}

struct keyed {
	const char *key;
	const struct record *record;
};

static int
compare_keyed(const void *a, const void *b)
{
	const struct keyed *left = a, *right = b;
	int order = strcmp(left->key, right->key);

	return order != 0 ? order : strcmp(left->record->id,
		right->record->id);
}

static void
order_records(struct model *model, const struct records *records,
	struct arena *arena)
{
	struct order *order = order_new();
	struct arena *keys = arena_new();
	GArray *of_kind = g_array_new(FALSE, FALSE, sizeof(struct keyed));
	unsigned i, j;
	size_t k;

	for (i = 0; i < model->schema->count; i++) {
		struct record_list *list = &model->lists[i];

		g_array_set_size(of_kind, 0);
		for (k = 0; k < records->count; k++) {
			struct keyed keyed = {NULL, records->items[k]};

			if (keyed.record->kind->index != i)
				continue;
			keyed.key = order_key(order, keyed.record->sorted,
				keys);
			g_array_append_val(of_kind, keyed);
		}
		g_array_sort(of_kind, compare_keyed);
		list->count = of_kind->len;
		list->items = arena_array(arena, const struct record *,
			list->count);
		for (j = 0; j < list->count; j++) {
			struct record *record;

			list->items[j] = g_array_index(of_kind, struct keyed,
				j).record;
			record = (struct record *)(uintptr_t)list->items[j];
			record->index = j;
		}
	}
	g_array_free(of_kind, TRUE);
	arena_free(keys);
	order_free(order);
}

/* One digest for all that the guide is made from, whatever its folder. */
static void
make_digest(struct model *model)
{
	GChecksum *sum = g_checksum_new(G_CHECKSUM_SHA256);
	uint32_t i;

	for (i = 1; i <= sources_count(model->sources); i++) {
		const struct source *source = sources_get(model->sources, i);
		char size[32];

		g_snprintf(size, sizeof(size), "%u:", source->size);
		g_checksum_update(sum, (const guchar *)size, -1);
		g_checksum_update(sum, (const guchar *)source->bytes,
			source->size);
	}
	g_strlcpy(model->digest, g_checksum_get_string(sum),
		sizeof(model->digest));
	g_checksum_free(sum);
}

void
model_name_records(const struct records *records, struct arena *arena)
{
	size_t i;

	for (i = 0; i < records->count; i++)
		name_record(records->items[i], arena);
}

struct model *
model_make(const struct records *records, const struct raw_corpus *corpus,
	const struct schema *schema, const struct names *names,
	const struct sources *sources, struct arena *arena,
	struct diags *diags)
{
	struct model *model = g_new0(struct model, 1);
	const struct node *title = node_get(corpus->settings, "title");

	model->schema = schema;
	model->names = names;
	model->sources = sources;
	model->title = "Guide";
	if (title != NULL && title->kind == NODE_SCALAR && title->count > 0)
		model->title = title->text;
	model->lists = arena_array(arena, struct record_list, schema->count);
	look_up_fields(model, diags);
	model_name_records(records, arena);
	order_records(model, records, arena);
	model_turn_round(model, arena);
	make_digest(model);
	return model;
}

void
model_free(struct model *model)
{
	g_free(model);
}
