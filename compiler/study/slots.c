/*
 * The slots of a run: each selected situation gives the values of what the run
 * collects; each distinct value is a slot.
 */
#include "study/slots.h"

#include <stdlib.h>
#include <string.h>

#include "study/collect.h"

struct collecting {
	const struct model *model;
	const struct record *run;
	enum collected what;
	struct arena *arena;
	GHashTable *found;	/* code → struct slot */
	GPtrArray *slots;
};

static const char *
name_slot(struct arena *arena, const struct record *record,
	const struct value *item)
{
	if (item == NULL)
		return record->name;
	return arena_print(arena, "%s, %s", record->name,
		item->group[0]->text);
}

static void
add_slot(void *data, const struct situation *situation,
	const struct record *record, const struct value *item)
{
	struct collecting *collecting = data;
	struct arena *arena = collecting->arena;
	const char *code = slot_code(arena, record, item);
	struct slot *slot = g_hash_table_lookup(collecting->found, code);

	if (slot == NULL) {
		slot = arena_one(arena, struct slot);
		slot->record = record;
		slot->item = item;
		slot->code = code;
		slot->name = name_slot(arena, record, item);
		slot->standing = SLOT_UNSURE;
		g_hash_table_insert(collecting->found,
			(gpointer)(uintptr_t)code, slot);
		g_ptr_array_add(collecting->slots, slot);
	}
	if (study_is_settled(situation->concluded))
		slot->standing = SLOT_SURE;
}

/* What a kind says of the things of it that stand for themselves. */
struct whole {
	const char *kind;
	enum collected what;
	enum field_name market, offer, characters, concluded;
};

/* Stands for a field that the kind does not have. */
#define NO_FIELD FIELD_NAME_COUNT

static const struct whole wholes[] = {
	/* Backs that nobody has listed a character for are still to be had. */
	{"cardback", COLLECT_CARDBACK, NAME(CARDBACK_MARKET),
		NAME(CARDBACK_OFFER), NO_FIELD, NAME(CARDBACK_CONCLUDED)},
	{"package", COLLECT_PACKAGE, NAME(PACKAGE_MARKET),
		NAME(PACKAGE_OFFER), NAME(PACKAGE_CHARACTERS),
		NAME(PACKAGE_CONCLUDED)},
	{"preproduction", COLLECT_PREPRODUCTION, NO_FIELD, NO_FIELD,
		NO_FIELD, NAME(PREPRODUCTION_CONCLUDED)},
};

static void
add_whole(struct collecting *collecting, const struct situation *situation,
	const struct record *record)
{
	if (study_may_exist(situation->concluded) && situation_selected(
		collecting->model, collecting->run, situation))
		add_slot(collecting, situation, record, NULL);
}

/* A thing of several characters is in a run if it is by any of them. */
static void
add_of_characters(struct collecting *collecting, const struct whole *whole,
	struct situation *situation, const struct record *record)
{
	const struct value *characters = NULL;
	unsigned i;

	if (whole->characters != NO_FIELD)
		characters = model_get(collecting->model, record->values,
			whole->characters);
	if (value_count(characters) == 0)
		add_whole(collecting, situation, record);
	for (i = 0; i < value_count(characters); i++) {
		situation->character =
			value_item(characters, i)->reference.record;
		add_whole(collecting, situation, record);
	}
}

static void
add_wholes(struct collecting *collecting, const struct whole *whole)
{
	const struct model *model = collecting->model;
	struct record_list list = model_records_of(model, whole->kind);
	unsigned i;

	for (i = 0; i < list.count; i++) {
		struct value *const *values = list.items[i]->values;
		struct situation bare = {0};

		if (whole->what == COLLECT_CARDBACK)
			bare.cardback = list.items[i];
		if (whole->market != NO_FIELD)
			bare.market = model_record(model, values,
				whole->market);
		if (whole->offer != NO_FIELD)
			bare.offer = model_record(model, values,
				whole->offer);
		bare.concluded = model_word(model, values, whole->concluded);
		add_of_characters(collecting, whole, &bare, list.items[i]);
	}
}

static void
add_situations(struct collecting *collecting)
{
	struct record_list pairings = model_records_of(collecting->model,
		"pairing");
	GArray *situations = g_array_new(FALSE, FALSE,
		sizeof(struct situation));
	unsigned i, j;

	for (i = 0; i < pairings.count; i++) {
		g_array_set_size(situations, 0);
		situations_of(collecting->model, pairings.items[i],
			situations);
		for (j = 0; j < situations->len; j++) {
			const struct situation *situation = &g_array_index(
				situations, struct situation, j);

			if (situation->anomaly == NULL &&
				study_may_exist(situation->concluded) &&
				situation_selected(collecting->model,
					collecting->run, situation))
				collect(collecting->model, collecting->what,
					situation, add_slot, collecting);
		}
	}
	g_array_free(situations, TRUE);
}

static int
compare_slots(gconstpointer a, gconstpointer b)
{
	const struct slot *left = *(const struct slot *const *)a;
	const struct slot *right = *(const struct slot *const *)b;

	if (left->record->kind != right->record->kind)
		return strcmp(left->record->kind->name,
			right->record->kind->name);
	if (left->record->index != right->record->index)
		return left->record->index < right->record->index ? -1 : 1;
	return strcmp(left->code, right->code);
}

struct slots *
study_slots(const struct model *model, const struct record *run,
	struct arena *arena)
{
	struct collecting collecting = {
		.model = model,
		.run = run,
		.what = collected_of(model, run),
		.arena = arena,
		.found = g_hash_table_new(g_str_hash, g_str_equal),
		.slots = g_ptr_array_new(),
	};
	struct slots *slots = arena_one(arena, struct slots);
	struct slot *items;
	guint i;

	add_situations(&collecting);
	for (i = 0; i < G_N_ELEMENTS(wholes); i++)
		if (wholes[i].what == collecting.what)
			add_wholes(&collecting, &wholes[i]);
	g_ptr_array_sort(collecting.slots, compare_slots);
	slots->count = collecting.slots->len;
	items = arena_array(arena, struct slot, slots->count);
	for (i = 0; i < slots->count; i++)
		items[i] = *(struct slot *)g_ptr_array_index(collecting.slots,
			i);
	slots->items = items;
	g_ptr_array_free(collecting.slots, TRUE);
	g_hash_table_destroy(collecting.found);
	return slots;
}
