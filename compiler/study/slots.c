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
	const struct aim *aim;
	struct arena *arena;
	GHashTable *found;	/* record or item → struct slot */
	GPtrArray *slots;
};

const char *
slot_doubt_words(const struct slot *slot)
{
	static const char *const words[] = {
		[DOUBT_NONE] = NULL,
		[DOUBT_LOOKED_FOR] = "looked for and not found",
		[DOUBT_OPEN] = "open",
		[DOUBT_DOUBTED] = "doubted",
		[DOUBT_DISPROVED] = "disproved",
	};
	static const char *const looked_for[] = {
		[DOUBT_NONE] = NULL,
		[DOUBT_LOOKED_FOR] = "looked for and not found",
		[DOUBT_OPEN] = "open; looked for and not found",
		[DOUBT_DOUBTED] = "doubted; looked for and not found",
		[DOUBT_DISPROVED] = "disproved; looked for and not found",
	};

	return slot->looked_for ? looked_for[slot->doubt] :
		words[slot->doubt];
}

static enum slot_doubt
doubt_of(const struct situation *situation)
{
	const char *concluded = situation->concluded;

	if (concluded == NULL)
		return situation->looked_for ? DOUBT_LOOKED_FOR : DOUBT_NONE;
	if (strcmp(concluded, "accepted") == 0)
		return DOUBT_NONE;
	if (strcmp(concluded, "open") == 0)
		return DOUBT_OPEN;
	if (strcmp(concluded, "doubted") == 0)
		return DOUBT_DOUBTED;
	return DOUBT_DISPROVED;
}

static bool
was_never_issued(const struct situation *situation)
{
	return situation->concluded != NULL &&
		strcmp(situation->concluded, "never-issued") == 0;
}

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
	gconstpointer key = item == NULL ? (gconstpointer)record : item;
	struct slot *slot = g_hash_table_lookup(collecting->found, key);
	enum slot_doubt doubt = doubt_of(situation);

	if (slot == NULL) {
		slot = arena_one(arena, struct slot);
		slot->record = record;
		slot->item = item;
		slot->code = slot_code(arena, record, item);
		slot->name = name_slot(arena, record, item);
		slot->doubt = doubt;
		g_hash_table_insert(collecting->found,
			(gpointer)(uintptr_t)key, slot);
		g_ptr_array_add(collecting->slots, slot);
	}
	if (doubt < slot->doubt)
		slot->doubt = doubt;
	if (situation->looked_for)
		slot->looked_for = true;
	slot->standing = slot->doubt == DOUBT_NONE ? SLOT_SURE : SLOT_UNSURE;
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
	if (!was_never_issued(situation) && aim_selects(collecting->model,
		collecting->aim, situation))
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

/* A preproduction piece is in a run that what it was made for is in. */
static void
add_made_for(struct collecting *collecting, const struct situation *bare,
	const struct record *record)
{
	const struct model *model = collecting->model;
	const struct value *list = model_get(model, record->values,
		NAME(PREPRODUCTION_OF));
	unsigned i;

	if (value_count(list) == 0)
		add_whole(collecting, bare, record);
	for (i = 0; i < value_count(list); i++) {
		const struct record *of = value_item(list, i)->reference
			.record;
		struct situation one = *bare;

		if (strcmp(of->kind->name, "cardback") == 0) {
			one.cardback = of;
			one.market = model_record(model, of->values,
				NAME(CARDBACK_MARKET));
		} else if (strcmp(of->kind->name, "front") == 0) {
			one.front = of;
			one.character = model_record(model, of->values,
				NAME(FRONT_CHARACTER));
			one.market = model_record(model, of->values,
				NAME(FRONT_MARKET));
		} else if (strcmp(of->kind->name, "variant") == 0) {
			one.variant = of;
			one.character = model_record(model, of->values,
				NAME(VARIANT_CHARACTER));
		}
		add_whole(collecting, &one, record);
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
		else if (whole->what == COLLECT_PACKAGE)
			bare.package = list.items[i];
		else
			bare.preproduction = list.items[i];
		if (whole->market != NO_FIELD)
			bare.market = model_record(model, values,
				whole->market);
		if (whole->offer != NO_FIELD)
			bare.offer = model_record(model, values,
				whole->offer);
		bare.concluded = model_word(model, values, whole->concluded);
		if (whole->what == COLLECT_PREPRODUCTION)
			add_made_for(collecting, &bare, list.items[i]);
		else
			add_of_characters(collecting, whole, &bare,
				list.items[i]);
	}
}

static void
add_situations(struct collecting *collecting,
	const struct situations *situations)
{
	unsigned i;

	for (i = 0; i < situations->count; i++) {
		const struct situation *situation = &situations->items[i];

		if ((situation->anomaly == NULL ||
			collecting->aim->anomalies) &&
			!was_never_issued(situation) &&
			aim_selects(collecting->model, collecting->aim,
				situation))
			collect(collecting->model, collecting->aim->what,
				situation, add_slot, collecting);
	}
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
study_slots_of(const struct model *model, const struct situations *situations,
	const struct aim *aim, struct arena *arena)
{
	struct collecting collecting = {
		.model = model,
		.aim = aim,
		.arena = arena,
		.found = g_hash_table_new(NULL, NULL),
		.slots = g_ptr_array_new(),
	};
	struct slots *slots = arena_one(arena, struct slots);
	struct slot *items;
	guint i;

	add_situations(&collecting, situations);
	for (i = 0; i < G_N_ELEMENTS(wholes); i++)
		if (wholes[i].what == aim->what)
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

struct slots *
study_slots(const struct model *model, const struct record *run,
	struct arena *arena)
{
	return study_slots_of(model, study_situations(model, arena),
		aim_of_run(model, run, arena), arena);
}
