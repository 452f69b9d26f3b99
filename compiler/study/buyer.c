/*
 * The buyer's view. "Of this sort" is a set of pairings: a pairing itself, all
 * of a character's, all of a card back's. A combination that differs from the
 * target in card back, or for a combination in any part, and that has the same
 * front, is something else that a photograph of the front could show.
 */
#include "study/buyer.h"

#include <string.h>

#include "study/evidence.h"

struct buying {
	const struct model *model;
	const struct seen *seen;
	struct features *features;
	struct evidences *evidences;
};

struct view {
	const struct buying *buying;
	struct buyer *buyer;
	struct arena *arena;
	GPtrArray *pairings;	/* of this sort */
	GHashTable *parts;	/* records that may be imitated */
	GArray *risks;
	GArray *fakes;
};

struct buying *
buying_gather(const struct model *model, const struct seen *seen,
	struct arena *arena)
{
	struct buying *buying = arena_one(arena, struct buying);

	buying->model = model;
	buying->seen = seen;
	buying->features = features_gather(model, arena);
	buying->evidences = evidences_gather(model, seen, arena);
	return buying;
}

static const struct field *
named_field(const struct buying *buying, enum field_name name)
{
	return model_field(buying->model, name);
}

/* The pairings that point at a record by one field. */
static void
add_pairings(struct view *view, const struct record *target,
	enum field_name name)
{
	struct pointer_list list = model_pointing(view->buying->model, target);
	size_t i;

	for (i = 0; i < list.count; i++)
		if (list.items[i].field == named_field(view->buying, name))
			g_ptr_array_add(view->pairings,
				(gpointer)(uintptr_t)list.items[i].from);
}

static void
gather_pairings(struct view *view)
{
	const struct record *record = view->buyer->record;
	const char *kind = record->kind->name;

	if (strcmp(kind, "pairing") == 0)
		g_ptr_array_add(view->pairings,
			(gpointer)(uintptr_t)record);
	else if (strcmp(kind, "character") == 0)
		add_pairings(view, record, NAME(PAIRING_CHARACTER));
	else if (strcmp(kind, "cardback") == 0)
		add_pairings(view, record, NAME(PAIRING_CARDBACK));
}

static void
add_part(struct view *view, const struct record *part)
{
	if (part != NULL)
		g_hash_table_add(view->parts, (gpointer)(uintptr_t)part);
}

static void
add_listed(struct view *view, const struct value *list)
{
	unsigned i;

	for (i = 0; i < value_count(list); i++)
		add_part(view, value_item(list, i)->reference.record);
}

static void
add_situation_parts(struct view *view, const struct situation *situation)
{
	const struct model *model = view->buying->model;

	add_part(view, situation->cardback);
	add_part(view, situation->front);
	add_part(view, situation->blister);
	add_part(view, situation->variant);
	add_part(view, situation->sticker);
	if (situation->variant != NULL)
		add_listed(view, model_get(model, situation->variant->values,
			NAME(VARIANT_MARKS)));
	if (situation->accessories != NULL)
		add_listed(view, situation->accessories);
	else if (situation->character != NULL)
		add_listed(view, model_get(model, situation->character->values,
			NAME(CHARACTER_ACCESSORIES)));
}

/* The thing itself, and for pairings and characters what goes with it. */
static void
gather_parts(struct view *view)
{
	const struct record *record = view->buyer->record;
	const struct model *model = view->buying->model;
	GArray *situations;
	guint i, j;

	add_part(view, record);
	if (strcmp(record->kind->name, "character") == 0)
		add_listed(view, model_get(model, record->values,
			NAME(CHARACTER_ACCESSORIES)));
	if (strcmp(record->kind->name, "pairing") != 0)
		return;
	situations = g_array_new(FALSE, FALSE, sizeof(struct situation));
	for (i = 0; i < view->pairings->len; i++)
		situations_of(model, g_ptr_array_index(view->pairings, i),
			situations);
	for (j = 0; j < situations->len; j++) {
		const struct situation *one = &g_array_index(situations,
			struct situation, j);

		if (view->buyer->item == NULL || view->buyer->item ==
			one->item)
			add_situation_parts(view, one);
	}
	g_array_free(situations, TRUE);
}

static void
add_risk(struct view *view, const struct record *anomaly)
{
	struct risk risk = {.anomaly = anomaly};
	guint i;

	for (i = 0; i < view->risks->len; i++)
		if (g_array_index(view->risks, struct risk, i).anomaly ==
			anomaly)
			return;
	g_array_append_val(view->risks, risk);
}

/* The anomalies that name a pairing, or that a combination of it is. */
static void
find_risks(struct view *view, const struct record *pairing)
{
	const struct model *model = view->buying->model;
	struct pointer_list list = model_pointing(model, pairing);
	const struct value *combinations;
	const struct record *anomaly;
	size_t i;
	unsigned j;

	for (i = 0; i < list.count; i++)
		if (list.items[i].field == named_field(view->buying,
			NAME(ANOMALY_PAIRINGS)))
			add_risk(view, list.items[i].from);
	combinations = model_get(model, pairing->values,
		NAME(PAIRING_COMBINATIONS));
	for (j = 0; j < value_count(combinations); j++) {
		anomaly = model_record(model, value_item(combinations, j)
			->group, NAME(COMBINATION_ANOMALY));
		if (anomaly != NULL)
			add_risk(view, anomaly);
	}
}

static void
count_risks(struct view *view, const struct record *pairing)
{
	const struct evidences *evidences = view->buying->evidences;
	struct subject whole = {SUBJECT_PAIRING, pairing, NULL, NULL};
	unsigned all = evidence_known(evidences, &whole);
	guint i;

	for (i = 0; i < view->risks->len; i++) {
		struct risk *risk = &g_array_index(view->risks, struct risk,
			i);

		risk->seen += all;
		risk->affected += evidence_known(evidences, &(struct subject){
			SUBJECT_ANOMALY_ON, risk->anomaly, NULL, pairing});
	}
}

static void
gather_risks(struct view *view)
{
	guint i;

	for (i = 0; i < view->pairings->len; i++)
		find_risks(view, g_ptr_array_index(view->pairings, i));
	for (i = 0; view->risks->len > 0 && i < view->pairings->len; i++)
		count_risks(view, g_ptr_array_index(view->pairings, i));
	for (i = 0; i < view->risks->len; i++) {
		struct risk *risk = &g_array_index(view->risks, struct risk,
			i);

		share_wilson(risk->affected, risk->seen, &risk->share);
	}
}

/* Imitations in reading order, each with the first part it imitates here. */
static void
gather_fakes(struct view *view)
{
	const struct model *model = view->buying->model;
	struct record_list list = model_records_of(model, "imitation");
	unsigned i, j;

	for (i = 0; i < list.count; i++) {
		const struct value *of = model_get(model,
			list.items[i]->values, NAME(IMITATION_OF));

		for (j = 0; j < value_count(of); j++) {
			const struct record *part =
				value_item(of, j)->reference.record;
			struct fake fake = {list.items[i], part};

			if (!g_hash_table_contains(view->parts, part))
				continue;
			g_array_append_val(view->fakes, fake);
			break;
		}
	}
}

/* A pairing as one situation: the parts that all its combinations share. */
static struct situation
shared_situation(const struct model *model, const struct record *pairing)
{
	GArray *all = g_array_new(FALSE, FALSE, sizeof(struct situation));
	struct situation one;
	guint i;

	situations_of(model, pairing, all);
	one = g_array_index(all, struct situation, 0);
	for (i = 1; i < all->len; i++)
		if (g_array_index(all, struct situation, i).front !=
			one.front)
			one.front = NULL;
	one.item = NULL;
	one.blister = NULL;
	one.variant = NULL;
	one.sticker = NULL;
	one.anomaly = NULL;
	g_array_free(all, TRUE);
	return one;
}

/* Whether a photograph of the front could show either. */
static bool
same_front(const struct situation *a, const struct situation *b)
{
	if (a->front == NULL || b->front == NULL)
		return a->market == b->market;
	return a->front == b->front;
}

/* Other pairings of the character that the front does not tell apart. */
static void
other_pairings(struct view *view, const struct situation *target, GArray *out)
{
	const struct model *model = view->buying->model;
	struct pointer_list list = model_pointing(model, target->character);
	size_t i;

	for (i = 0; i < list.count; i++) {
		struct situation other;

		if (list.items[i].field != named_field(view->buying,
			NAME(PAIRING_CHARACTER)) ||
			list.items[i].from == target->pairing)
			continue;
		other = shared_situation(model, list.items[i].from);
		if (same_front(target, &other))
			g_array_append_val(out, other);
	}
}

/* Other combinations, of this pairing and of those. */
static void
other_combinations(struct view *view, struct situation *target, GArray *out)
{
	const struct model *model = view->buying->model;
	struct pointer_list list;
	GArray *all = g_array_new(FALSE, FALSE, sizeof(struct situation));
	size_t i;
	guint j;

	situations_of(model, target->pairing, all);
	for (j = 0; j < all->len; j++)
		if (g_array_index(all, struct situation, j).item ==
			view->buyer->item)
			*target = g_array_index(all, struct situation, j);
	g_array_set_size(all, 0);
	list = model_pointing(model, target->character);
	for (i = 0; i < list.count; i++)
		if (list.items[i].field == named_field(view->buying,
			NAME(PAIRING_CHARACTER)))
			situations_of(model, list.items[i].from, all);
	for (j = 0; j < all->len; j++) {
		struct situation *other = &g_array_index(all,
			struct situation, j);

		if (other->item != target->item && same_front(target, other))
			g_array_append_val(out, *other);
	}
	g_array_free(all, TRUE);
}

static void
gather_questions(struct view *view)
{
	struct buyer *buyer = view->buyer;
	GArray *others = g_array_new(FALSE, FALSE, sizeof(struct situation));
	struct situation target = shared_situation(view->buying->model,
		buyer->record), *kept;

	if (target.character != NULL && buyer->item == NULL)
		other_pairings(view, &target, others);
	else if (target.character != NULL)
		other_combinations(view, &target, others);
	kept = arena_array(view->arena, struct situation, others->len);
	if (others->len > 0)
		memcpy(kept, others->data, sizeof(*kept) * others->len);
	buyer->questions = study_ask(view->buying->features, &target, kept,
		others->len, view->arena);
	g_array_free(others, TRUE);
}

/* The word of a field that many kinds have under one name, or NULL. */
static const struct word *
word_named(struct value *const *values, const struct fields *fields,
	const char *name)
{
	const struct field *field = fields_find(fields, name);

	if (field == NULL || field->type != TYPE_WORD || field->many ||
		values[field->index] == NULL)
		return NULL;
	return values[field->index]->word;
}

static void
state_existence(struct view *view)
{
	struct buyer *buyer = view->buyer;
	const struct buying *buying = view->buying;
	const struct fields *fields = &buyer->record->kind->fields;
	struct value *const *values = buyer->record->values;

	if (strcmp(buyer->record->kind->name, "pairing") == 0) {
		buyer->seen = seen_count(buying->seen, seen_of_pairing(
			buying->seen, buyer->record), NULL, NULL);
		buyer->looked_for = model_get(buying->model, values,
			NAME(PAIRING_LOOKED_FOR));
	}
	if (buyer->item != NULL) {
		fields = &buyer->item->field->fields;
		values = buyer->item->group;
		buyer->looked_for = model_get(buying->model, values,
			NAME(COMBINATION_LOOKED_FOR));
	}
	buyer->concluded = word_named(values, fields, "concluded");
	buyer->how_seen = word_named(values, fields, "seen");
}

static void *
settle(GArray *items, size_t size, struct arena *arena)
{
	void *settled = arena_alloc(arena, size * items->len);

	if (items->len > 0)
		memcpy(settled, items->data, size * items->len);
	g_array_free(items, TRUE);
	return settled;
}

struct buyer *
study_buyer(const struct buying *buying, const struct record *record,
	const struct value *item, struct arena *arena)
{
	struct buyer *buyer = arena_one(arena, struct buyer);
	struct view view = {
		.buying = buying,
		.buyer = buyer,
		.arena = arena,
		.pairings = g_ptr_array_new(),
		.parts = g_hash_table_new(NULL, NULL),
		.risks = g_array_new(FALSE, FALSE, sizeof(struct risk)),
		.fakes = g_array_new(FALSE, FALSE, sizeof(struct fake)),
	};

	buyer->record = record;
	buyer->item = item;
	gather_pairings(&view);
	gather_parts(&view);
	state_existence(&view);
	gather_risks(&view);
	gather_fakes(&view);
	if (strcmp(record->kind->name, "pairing") == 0)
		gather_questions(&view);
	buyer->risk_count = view.risks->len;
	buyer->risks = settle(view.risks, sizeof(struct risk), arena);
	buyer->fake_count = view.fakes->len;
	buyer->fakes = settle(view.fakes, sizeof(struct fake), arena);
	g_ptr_array_free(view.pairings, TRUE);
	g_hash_table_destroy(view.parts);
	return buyer;
}
