/*
 * References turned round: what points at each record. Counted first, then
 * filled, so that the lists lie side by side in one array.
 */
#include "model/inside.h"

#include <string.h>

/* Called for every reference in the values of a record. */
typedef void visit_reference(void *data, const struct record *from,
	const struct field *field, const struct value *item,
	const struct reference *reference, bool certain);

struct visitor {
	visit_reference *visit;
	void *data;
	const struct record *from;
};

static void
visit_value(const struct visitor *visitor, const struct value *value,
	const struct value *item)
{
	const struct field *field = value->field;
	bool certain;
	unsigned i;

	if (value->form == VALUE_MANY) {
		for (i = 0; i < value->many.count; i++)
			visit_value(visitor, value->many.items[i],
				field_is_keyed(field) ? value->many.items[i] :
				item);
		return;
	}
	if (field->type == TYPE_REFERENCE)
		visitor->visit(visitor->data, visitor->from, field, item,
			&value->reference, true);
	if (field->type == TYPE_IDENTITY) {
		certain = value->identity.kind == IDENTITY_KNOWN;
		for (i = 0; i < value->identity.count; i++)
			visitor->visit(visitor->data, visitor->from, field,
				item, &value->identity.items[i], certain);
	}
	if (field->type == TYPE_GROUP)
		for (i = 0; i < field->fields.count; i++)
			if (value->group[i] != NULL)
				visit_value(visitor, value->group[i], item);
}

static void
visit_all(const struct model *model, visit_reference *visit, void *data)
{
	struct visitor visitor = {visit, data, NULL};
	unsigned i, j, k;

	for (i = 0; i < model->schema->count; i++)
		for (j = 0; j < model->lists[i].count; j++) {
			visitor.from = model->lists[i].items[j];
			for (k = 0; k < visitor.from->kind->fields.count; k++)
				if (visitor.from->values[k] != NULL)
					visit_value(&visitor,
						visitor.from->values[k], NULL);
		}
}

static struct pointer_list *
list_of(struct model *model, const struct reference *reference)
{
	const struct record *record = reference->record;

	/* Holdings are linked to a corpus whose model they are not part of. */
	if (record == NULL || record->index >=
		model->lists[record->kind->index].count ||
		model->lists[record->kind->index].items[record->index] !=
		record)
		return NULL;
	return &model->pointers[record->kind->index][record->index];
}

static void
count_one(void *data, const struct record *from, const struct field *field,
	const struct value *item, const struct reference *reference,
	bool certain)
{
	struct pointer_list *list = list_of(data, reference);

	(void)from;
	(void)field;
	(void)item;
	(void)certain;
	if (list != NULL)
		list->count++;
}

static void
fill_one(void *data, const struct record *from, const struct field *field,
	const struct value *item, const struct reference *reference,
	bool certain)
{
	struct pointer_list *list = list_of(data, reference);
	struct pointer *items;

	if (list == NULL)
		return;
	items = (struct pointer *)(uintptr_t)list->items;
	items[list->count++] = (struct pointer){from, field, item, certain};
}

void
model_turn_round(struct model *model, struct arena *arena)
{
	unsigned i, j;

	model->pointers = arena_array(arena, struct pointer_list *,
		model->schema->count);
	for (i = 0; i < model->schema->count; i++)
		model->pointers[i] = arena_array(arena, struct pointer_list,
			model->lists[i].count);
	visit_all(model, count_one, model);
	for (i = 0; i < model->schema->count; i++)
		for (j = 0; j < model->lists[i].count; j++) {
			struct pointer_list *list = &model->pointers[i][j];

			list->items = arena_array(arena, struct pointer,
				list->count);
			list->count = 0;
		}
	visit_all(model, fill_one, model);
}
