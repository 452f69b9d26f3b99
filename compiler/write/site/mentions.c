/*
 * Links of prose turned round, as the model does it for fields.
 */
#include "write/site/points.h"

struct gathering {
	struct site *site;
	const struct record *from;
	GPtrArray ***lists;		/* by kind, by record; NULL if empty */
};

static void
note_mention(struct gathering *gathering, const struct record *to)
{
	GPtrArray **list = &gathering->lists[to->kind->index][to->index];

	if (to == gathering->from)
		return;
	if (*list == NULL)
		*list = g_ptr_array_new();
	if ((*list)->len == 0 || g_ptr_array_index(*list, (*list)->len - 1) !=
		(gpointer)(uintptr_t)gathering->from)
		g_ptr_array_add(*list, (gpointer)(uintptr_t)gathering->from);
}

static void
walk_prose(struct gathering *gathering, const struct prose *prose)
{
	for (; prose != NULL; prose = prose->next) {
		if (prose->record != NULL)
			note_mention(gathering, prose->record);
		walk_prose(gathering, prose->first);
	}
}

static void
walk_value(struct gathering *gathering, const struct value *value)
{
	unsigned i;

	if (value == NULL || !value->field->exported ||
		value->field->show == SHOW_NO)
		return;
	if (value->form == VALUE_MANY) {
		for (i = 0; i < value->many.count; i++)
			walk_value(gathering, value->many.items[i]);
		return;
	}
	if (value->field->type == TYPE_PROSE)
		walk_prose(gathering, value->prose.tree);
	if (value->field->type == TYPE_GROUP)
		for (i = 0; i < value->field->fields.count; i++)
			walk_value(gathering, value->group[i]);
}

/* Moves what was gathered for one kind into the site. */
static void
settle(struct gathering *gathering, unsigned kind, unsigned count)
{
	struct arena *arena = gathering->site->arena;
	struct record_list *lists = arena_array(arena, struct record_list,
		count);
	GPtrArray *found;
	unsigned i, j;

	for (i = 0; i < count; i++) {
		found = gathering->lists[kind][i];
		if (found == NULL)
			continue;
		lists[i].count = found->len;
		lists[i].items = arena_array(arena, const struct record *,
			found->len);
		for (j = 0; j < found->len; j++)
			lists[i].items[j] = g_ptr_array_index(found, j);
		g_ptr_array_free(found, TRUE);
	}
	gathering->site->mentions[kind] = lists;
}

void
mentions_gather(struct site *site)
{
	const struct schema *schema = model_schema(site->model);
	struct gathering gathering = {site, NULL,
		g_new0(GPtrArray **, schema->count)};
	struct record_list list;
	unsigned i, j, k;

	site->mentions = arena_array(site->arena, struct record_list *,
		schema->count);
	for (i = 0; i < schema->count; i++)
		gathering.lists[i] = g_new0(GPtrArray *, model_records(
			site->model, &schema->kinds[i]).count + 1);
	for (i = 0; i < schema->count; i++) {
		list = model_records(site->model, &schema->kinds[i]);
		for (j = 0; j < list.count; j++) {
			gathering.from = list.items[j];
			for (k = 0; k < schema->kinds[i].fields.count; k++)
				walk_value(&gathering,
					list.items[j]->values[k]);
		}
	}
	for (i = 0; i < schema->count; i++) {
		settle(&gathering, i, model_records(site->model,
			&schema->kinds[i]).count);
		g_free(gathering.lists[i]);
	}
	g_free(gathering.lists);
}
