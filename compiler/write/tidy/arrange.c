/*
 * The order of fields, from the schema: `id`, then as the schema lists them.
 * What the schema does not order keeps its order: translations, of which the
 * first names a record, and the headings of a file of several kinds.
 */
#include "write/tidy/things.h"

#include "base/sort.h"

#include <stdlib.h>
#include <string.h>

struct ranked {
	struct thing thing;
	unsigned rank;
	uint32_t place;
};

static unsigned
rank_of(const struct thing *thing, const struct fields *fields)
{
	const struct field *field = fields_find(fields, thing->key);

	if (field != NULL)
		return field->index + 1;
	return strcmp(thing->key, "id") == 0 ? 0 : fields->count + 1;
}

static int
compare_ranks(const void *a, const void *b)
{
	const struct ranked *left = a, *right = b;

	if (left->rank != right->rank)
		return left->rank < right->rank ? -1 : 1;
	return left->place < right->place ? -1 : 1;
}

static void
sort_entries(struct thing *map, const struct fields *fields)
{
	struct ranked *ranked = g_new(struct ranked, map->count);
	uint32_t i;

	for (i = 0; i < map->count; i++)
		ranked[i] = (struct ranked){map->items[i],
			rank_of(&map->items[i], fields), i};
	if (map->count > 1)
		sort_items(ranked, map->count, sizeof(*ranked), compare_ranks);
	for (i = 0; i < map->count; i++)
		map->items[i] = ranked[i].thing;
	g_free(ranked);
}

/* Arranges a mapping whose keys are `fields`, or each mapping of a list. */
static void
arrange(struct thing *thing, const struct fields *fields)
{
	const struct field *field;
	uint32_t i;

	if (thing->node->kind == NODE_LIST)
		for (i = 0; i < thing->count; i++)
			arrange(&thing->items[i], fields);
	if (thing->node->kind != NODE_MAP)
		return;
	sort_entries(thing, fields);
	for (i = 0; i < thing->count; i++) {
		field = fields_find(fields, thing->items[i].key);
		if (field != NULL && field->type == TYPE_GROUP)
			arrange(&thing->items[i], &field->fields);
	}
}

static void
arrange_records(struct thing *thing, const char *name,
	const struct schema *schema)
{
	const struct kind *kind = schema_kind(schema, name);
	uint32_t i;

	if (kind == NULL)
		return;
	arrange(thing, &kind->fields);
	thing->record = true;
	for (i = 0; i < thing->count && thing->node->kind == NODE_LIST; i++)
		thing->items[i].record = true;
}

void
things_arrange(struct thing *root, const struct corpus_file *file,
	const struct schema *schema)
{
	uint32_t i;

	root->record = true;
	if (file->kind != NULL)
		arrange_records(root, file->kind, schema);
	else if (!corpus_file_is_settings(file))
		for (i = 0; i < root->count; i++)
			arrange_records(&root->items[i], root->items[i].key,
				schema);
}
