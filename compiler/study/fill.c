/*
 * Pieces against slots. A piece surely fills a slot when every situation it
 * may be in gives the slot's value and is selected by the run; it possibly
 * fills it when some do.
 */
#include "study/slots.h"

#include <string.h>

#include "study/collect.h"
#include "study/pieces.h"

/* A slot while pieces are held against it. */
struct tally {
	struct filled_slot slot;
	GPtrArray *pieces;
	unsigned hits;		/* situations of the piece at hand */
	const struct situation *last;
	const char *look_at;
};

struct tallying {
	struct arena *arena;
	GHashTable *by_code;	/* code → struct tally */
	GPtrArray *touched;	/* tallies hit by the piece at hand */
};

static void
hit(void *data, const struct situation *situation,
	const struct record *record, const struct value *item)
{
	struct tallying *tallying = data;
	const char *code = slot_code(tallying->arena, record, item);
	struct tally *tally = g_hash_table_lookup(tallying->by_code, code);

	if (tally == NULL || tally->last == situation)
		return;
	if (tally->hits == 0)
		g_ptr_array_add(tallying->touched, tally);
	tally->hits++;
	tally->last = situation;
}

static void
settle_piece(struct tallying *tallying, const struct model *model,
	const struct piece *piece)
{
	guint i;

	for (i = 0; i < tallying->touched->len; i++) {
		struct tally *tally = g_ptr_array_index(tallying->touched, i);
		bool sure = tally->hits == piece->situations->len;

		g_ptr_array_add(tally->pieces,
			(gpointer)(uintptr_t)piece->record);
		if (sure)
			tally->slot.state = SLOT_HELD;
		else if (tally->slot.state == SLOT_MISSING) {
			tally->slot.state = SLOT_POSSIBLE;
			tally->look_at = piece_look_at(model, piece);
		}
		tally->hits = 0;
		tally->last = NULL;
	}
	g_ptr_array_set_size(tallying->touched, 0);
}

static void
hold_piece(struct tallying *tallying, const struct model *model,
	const struct record *run, enum collected what,
	const struct piece *piece)
{
	guint i;

	for (i = 0; i < piece->situations->len; i++) {
		const struct situation *situation = &g_array_index(
			piece->situations, struct situation, i);

		if (situation_selected(model, run, situation))
			collect(model, what, situation, hit, tallying);
	}
	settle_piece(tallying, model, piece);
}

/* Accessories are filled by what lies with a piece, whatever the piece is. */
static void
hold_accessories(struct tallying *tallying, const struct model *model,
	const struct record *record)
{
	const struct value *list = model_get(model, record->values,
		NAME(HOLDING_ACCESSORIES));
	struct tally *tally;
	unsigned i;

	for (i = 0; i < value_count(list); i++) {
		struct value *const *values = value_item(list, i)->group;
		const struct record *accessory = model_record(model, values,
			NAME(HOLDING_ACCESSORY));
		const char *original = model_word(model, values,
			NAME(HOLDING_ACCESSORY_ORIGINAL));

		tally = accessory == NULL ? NULL : g_hash_table_lookup(
			tallying->by_code, slot_code(tallying->arena,
				accessory, NULL));
		if (tally == NULL || (original != NULL &&
			strcmp(original, "original") != 0 &&
			strcmp(original, "doubtful") != 0))
			continue;
		g_ptr_array_add(tally->pieces, (gpointer)(uintptr_t)record);
		if (original == NULL || strcmp(original, "original") == 0)
			tally->slot.state = SLOT_HELD;
		else if (tally->slot.state == SLOT_MISSING) {
			tally->slot.state = SLOT_POSSIBLE;
			tally->look_at = "whether the accessory is original";
		}
	}
}

/* Stickers that a piece is said to carry fill their slots at once. */
static void
hold_stickers(struct tallying *tallying, const struct model *model,
	const struct record *record)
{
	const struct value *list = model_get(model, record->values,
		NAME(HOLDING_STICKERS));
	struct tally *tally;
	unsigned i;

	for (i = 0; i < value_count(list); i++) {
		tally = g_hash_table_lookup(tallying->by_code,
			slot_code(tallying->arena, value_item(list, i)
				->reference.record, NULL));
		if (tally == NULL)
			continue;
		g_ptr_array_add(tally->pieces, (gpointer)(uintptr_t)record);
		tally->slot.state = SLOT_HELD;
	}
}

/* Packages and preproduction pieces are what the piece says it is. */
static void
hold_whole(struct tallying *tallying, const struct model *model,
	const struct record *record, enum field_name name)
{
	const struct value *identity = model_get(model, record->values, name);
	struct tally *tally;
	unsigned i;

	if (identity == NULL || identity->identity.kind == IDENTITY_NOT)
		return;
	for (i = 0; i < identity->identity.count; i++) {
		tally = g_hash_table_lookup(tallying->by_code, slot_code(
			tallying->arena, identity->identity.items[i].record,
			NULL));
		if (tally == NULL)
			continue;
		g_ptr_array_add(tally->pieces, (gpointer)(uintptr_t)record);
		if (identity->identity.kind == IDENTITY_KNOWN)
			tally->slot.state = SLOT_HELD;
		else if (tally->slot.state == SLOT_MISSING) {
			tally->slot.state = SLOT_POSSIBLE;
			tally->look_at = "what is printed on it";
		}
	}
}

/* Holds one piece that counts against what is collected. */
static void
hold(struct tallying *tallying, const struct model *model,
	const struct record *run, enum collected what,
	const struct piece *piece)
{
	bool listed = model_get(model, piece->record->values,
		NAME(HOLDING_STICKERS)) != NULL;

	if (what == COLLECT_ACCESSORY)
		hold_accessories(tallying, model, piece->record);
	else if (what == COLLECT_STICKER && listed)
		hold_stickers(tallying, model, piece->record);
	else if (what == COLLECT_PACKAGE)
		hold_whole(tallying, model, piece->record,
			NAME(HOLDING_PACKAGE));
	else if (what == COLLECT_PREPRODUCTION)
		hold_whole(tallying, model, piece->record,
			NAME(HOLDING_PREPRODUCTION));
	else
		hold_piece(tallying, model, run, what, piece);
}

static void
hold_pieces(struct tallying *tallying, const struct model *model,
	const struct record *run, const struct records *pieces)
{
	enum collected what = collected_of(model, run);
	struct piece piece;
	size_t i;

	for (i = 0; i < pieces->count; i++) {
		const struct record *record = pieces->items[i];

		if (record->kind != model_field(model, NAME(HOLDING_FORM))
			->kind || !piece_has_form(model, record, run, what))
			continue;
		piece_init(&piece, model, record);
		if (piece.counts)
			hold(tallying, model, run, what, &piece);
		piece_release(&piece);
	}
}

static void
count_slot(struct filling *filling, const struct filled_slot *slot)
{
	if (slot->slot->standing == SLOT_UNSURE) {
		filling->unsure++;
		return;
	}
	switch (slot->state) {
	case SLOT_MISSING:
		filling->missing++;
		break;
	case SLOT_POSSIBLE:
		filling->possible++;
		break;
	case SLOT_HELD:
		filling->held++;
		break;
	}
}

static struct filled_slot
finish(struct tally *tally, struct arena *arena)
{
	struct filled_slot slot = tally->slot;

	slot.count = tally->pieces->len;
	slot.pieces = arena_array(arena, const struct record *, slot.count);
	if (slot.count > 0)
		memcpy(slot.pieces, tally->pieces->pdata,
			sizeof(*slot.pieces) * slot.count);
	if (slot.state == SLOT_POSSIBLE)
		slot.look_at = tally->look_at;
	g_ptr_array_free(tally->pieces, TRUE);
	return slot;
}

struct filling *
study_fill(const struct model *model, const struct record *run,
	const struct slots *slots, const struct records *pieces,
	struct arena *arena)
{
	struct filling *filling = arena_one(arena, struct filling);
	struct tally *tallies = g_new0(struct tally, slots->count + 1);
	struct tallying tallying = {
		.arena = arena,
		.by_code = g_hash_table_new(g_str_hash, g_str_equal),
		.touched = g_ptr_array_new(),
	};
	struct filled_slot *items;
	unsigned i;

	for (i = 0; i < slots->count; i++) {
		tallies[i].slot.slot = &slots->items[i];
		tallies[i].pieces = g_ptr_array_new();
		g_hash_table_insert(tallying.by_code,
			(gpointer)(uintptr_t)slots->items[i].code,
			&tallies[i]);
	}
	hold_pieces(&tallying, model, run, pieces);
	items = arena_array(arena, struct filled_slot, slots->count);
	for (i = 0; i < slots->count; i++) {
		items[i] = finish(&tallies[i], arena);
		count_slot(filling, &items[i]);
	}
	filling->run = run;
	filling->items = items;
	filling->count = slots->count;
	g_ptr_array_free(tallying.touched, TRUE);
	g_hash_table_destroy(tallying.by_code);
	g_free(tallies);
	return filling;
}
