/*
 * Pieces: what each may be. A part that a combination does not state excludes
 * nothing; where the piece states it, the situation is filled in. What was
 * disproved is left out as long as anything else fits.
 */
#include "study/pieces.h"

#include <string.h>

#include "study/slots.h"
#include "study/states.h"

struct making {
	const struct model *model;
	const struct situations *corpus;
	struct arena *arena;
	GArray *situations;	/* struct situation: the corpus's and more */
	GHashTable *added;	/* situation → its place, of those added */
	GHashTable *sets;	/* struct reading → itself */
	GArray *found;		/* unsigned: of the piece at hand */
};

/* Parts that a piece may state where a combination does not. */
enum part { PART_FRONT, PART_BLISTER, PART_VARIANT, PART_STICKER, PARTS };

static const enum field_name part_names[] = {
	[PART_FRONT] = NAME(HOLDING_FRONT),
	[PART_BLISTER] = NAME(HOLDING_BLISTER),
	[PART_VARIANT] = NAME(HOLDING_VARIANT),
	[PART_STICKER] = NAME(HOLDING_STICKERS),
};

bool
study_is_named(const struct model *model, const struct record *piece)
{
	static const enum field_name names[] = {NAME(HOLDING_CHARACTER),
		NAME(HOLDING_CARDBACK), NAME(HOLDING_FRONT),
		NAME(HOLDING_BLISTER), NAME(HOLDING_VARIANT),
		NAME(HOLDING_PACKAGE), NAME(HOLDING_PREPRODUCTION)};
	size_t i;

	for (i = 0; i < G_N_ELEMENTS(names); i++) {
		const struct value *identity = model_get(model, piece->values,
			names[i]);

		if (identity != NULL && identity->identity.count > 0)
			return true;
	}
	return false;
}

static const struct record **
part_of(struct situation *situation, enum part part)
{
	switch (part) {
	case PART_FRONT:
		return &situation->front;
	case PART_BLISTER:
		return &situation->blister;
	case PART_VARIANT:
		return &situation->variant;
	case PART_STICKER:
	case PARTS:
		break;
	}
	return &situation->sticker;
}

/* A variant is of one character; a front is of one, in one market. */
static bool
goes_with(const struct model *model, enum part part,
	const struct record *record, const struct situation *situation)
{
	if (part == PART_VARIANT)
		return model_record(model, record->values,
			NAME(VARIANT_CHARACTER)) == situation->character;
	if (part != PART_FRONT)
		return true;
	return model_record(model, record->values, NAME(FRONT_CHARACTER)) ==
		situation->character && (situation->market == NULL ||
		model_record(model, record->values, NAME(FRONT_MARKET)) ==
			situation->market);
}

static guint
hash_situation(gconstpointer key)
{
	const struct situation *one = key;

	return g_direct_hash(one->pairing) ^ g_direct_hash(one->item) * 3 ^
		g_direct_hash(one->front) * 5 ^
		g_direct_hash(one->blister) * 7 ^
		g_direct_hash(one->variant) * 11 ^
		g_direct_hash(one->sticker) * 13;
}

static gboolean
same_situation(gconstpointer a, gconstpointer b)
{
	const struct situation *one = a, *other = b;

	return one->pairing == other->pairing && one->item == other->item &&
		one->front == other->front &&
		one->blister == other->blister &&
		one->variant == other->variant &&
		one->sticker == other->sticker;
}

/* The place of a situation that pieces have filled in. */
static unsigned
place_of(struct making *making, const struct situation *situation)
{
	gpointer known = g_hash_table_lookup(making->added, situation);
	struct situation *copy;

	if (known != NULL)
		return GPOINTER_TO_UINT(known);
	copy = arena_one(making->arena, struct situation);
	*copy = *situation;
	g_array_append_val(making->situations, *situation);
	g_hash_table_insert(making->added, copy,
		GUINT_TO_POINTER(making->situations->len - 1));
	return making->situations->len - 1;
}

static void
fill_in(struct making *making, const struct record *piece,
	const struct record *sticker, enum part part,
	const struct situation *situation, bool changed, unsigned place);

/* Every record that the piece allows for a part the situation leaves open. */
static void
fill_part(struct making *making, const struct record *piece,
	const struct record *sticker, enum part part,
	const struct situation *situation, const struct value *identity)
{
	unsigned i;

	for (i = 0; i < identity->identity.count; i++) {
		const struct record *record =
			identity->identity.items[i].record;
		struct situation copy = *situation;

		if (!goes_with(making->model, part, record, situation))
			continue;
		*part_of(&copy, part) = record;
		fill_in(making, piece, sticker, part + 1, &copy, true, 0);
	}
}

/*
 * Takes the situation in, from a part on: as it is, or with what the piece
 * says of parts that it leaves open; not at all where they contradict.
 */
static void
fill_in(struct making *making, const struct record *piece,
	const struct record *sticker, enum part part,
	const struct situation *situation, bool changed, unsigned place)
{
	struct situation copy = *situation;
	const struct record *stated;
	const struct value *identity;

	for (; part < PART_STICKER; part++) {
		stated = *part_of(&copy, part);
		identity = model_get(making->model, piece->values,
			part_names[part]);
		if (stated != NULL) {
			if (identity_allows(identity, stated) == ALLOWS_NOT)
				return;
		} else if (identity != NULL && (identity->identity.kind ==
			IDENTITY_KNOWN || identity->identity.kind ==
			IDENTITY_ONE_OF)) {
			fill_part(making, piece, sticker, part, &copy,
				identity);
			return;
		}
	}
	if (sticker != NULL && copy.sticker == NULL) {
		copy.sticker = sticker;
		changed = true;
	}
	if (changed)
		place = place_of(making, &copy);
	g_array_append_val(making->found, place);
}

/* A list of stickers is all there are; without one, any may be on it. */
static bool
allows_sticker(const struct value *list, const struct record *wanted,
	const struct record *sticker)
{
	return sticker == NULL || list == NULL || sticker == wanted;
}

static bool
is_possible(const struct situation *situation)
{
	return study_may_exist(situation->concluded);
}

static void
take_pairing(struct making *making, const struct record *piece, bool anomaly,
	const struct record *sticker, const struct record *pairing)
{
	const struct model *model = making->model;
	const struct value *stickers = model_get(model, piece->values,
		NAME(HOLDING_STICKERS));
	const struct value *odd = model_get(model, piece->values,
		NAME(HOLDING_ANOMALY));
	unsigned i, last = making->corpus->first[pairing->index + 1];

	for (i = making->corpus->first[pairing->index]; i < last; i++) {
		const struct situation *one = &making->corpus->items[i];

		if (one->anomaly != NULL && (!anomaly ||
			identity_allows(odd, one->anomaly) == ALLOWS_NOT))
			continue;
		if (identity_allows(model_get(model, piece->values,
			NAME(HOLDING_CHARACTER)), one->character) ==
			ALLOWS_NOT || identity_allows(model_get(model,
			piece->values, NAME(HOLDING_CARDBACK)),
			one->cardback) == ALLOWS_NOT)
			continue;
		if (allows_sticker(stickers, sticker, one->sticker))
			fill_in(making, piece, sticker, 0, one, false, i);
	}
}

/* The pairings by which a record is pointed at through one field. */
static void
take_pointing(struct making *making, const struct record *piece, bool anomaly,
	const struct record *sticker, const struct record *target,
	enum field_name name)
{
	struct pointer_list list = model_pointing(making->model, target);
	size_t i;

	for (i = 0; i < list.count; i++)
		if (list.items[i].field == model_field(making->model, name))
			take_pairing(making, piece, anomaly, sticker,
				list.items[i].from);
}

/* The identity if it names records that the piece is or may be. */
static const struct value *
naming(const struct model *model, const struct record *piece,
	enum field_name name)
{
	const struct value *identity = model_get(model, piece->values, name);

	if (identity == NULL || identity->identity.count == 0 ||
		identity->identity.kind == IDENTITY_NOT)
		return NULL;
	return identity;
}

/*
 * Looks through as few pairings as can be: those of the characters or card
 * backs that are named, or of the character that a variant or front is of.
 */
static void
take_all(struct making *making, const struct record *piece, bool anomaly,
	const struct record *sticker)
{
	static const struct {
		enum field_name named, of, points;
	} ways[] = {
		{NAME(HOLDING_CARDBACK), FIELD_NAME_COUNT,
			NAME(PAIRING_CARDBACK)},
		{NAME(HOLDING_CHARACTER), FIELD_NAME_COUNT,
			NAME(PAIRING_CHARACTER)},
		{NAME(HOLDING_VARIANT), NAME(VARIANT_CHARACTER),
			NAME(PAIRING_CHARACTER)},
		{NAME(HOLDING_FRONT), NAME(FRONT_CHARACTER),
			NAME(PAIRING_CHARACTER)},
	};
	GHashTable *done = g_hash_table_new(NULL, NULL);
	const struct value *identity = NULL;
	struct record_list all = {0};
	size_t way;
	unsigned i;

	for (way = 0; identity == NULL && way < G_N_ELEMENTS(ways); way++)
		identity = naming(making->model, piece, ways[way].named);
	if (identity == NULL)
		all = model_records_of(making->model, "pairing");
	for (i = 0; identity != NULL && i < identity->identity.count; i++) {
		const struct record *target =
			identity->identity.items[i].record;

		if (ways[way - 1].of != FIELD_NAME_COUNT)
			target = model_record(making->model, target->values,
				ways[way - 1].of);
		if (target != NULL && g_hash_table_add(done,
			(gpointer)(uintptr_t)target))
			take_pointing(making, piece, anomaly, sticker, target,
				ways[way - 1].points);
	}
	for (i = 0; i < all.count; i++)
		take_pairing(making, piece, anomaly, sticker, all.items[i]);
	g_hash_table_destroy(done);
}

static guint
hash_reading(gconstpointer key)
{
	const struct reading *reading = key;
	guint hash = reading->count;
	unsigned i;

	for (i = 0; i < reading->count; i++)
		hash = hash * 31 + reading->items[i];
	return hash;
}

static gboolean
same_reading(gconstpointer a, gconstpointer b)
{
	const struct reading *one = a, *other = b;

	return one->count == other->count && (one->count == 0 || memcmp(
		one->items, other->items, sizeof(*one->items) * one->count) ==
		0);
}

static int
compare_places(gconstpointer a, gconstpointer b)
{
	const unsigned *one = a, *other = b;

	return *one < *other ? -1 : *one > *other;
}

/* What cannot exist goes, unless nothing else is left. */
static void
drop_impossible(struct making *making)
{
	unsigned kept = 0, i;

	for (i = 0; i < making->found->len; i++) {
		unsigned place = g_array_index(making->found, unsigned, i);

		if (is_possible(&g_array_index(making->situations,
			struct situation, place)))
			g_array_index(making->found, unsigned, kept++) = place;
	}
	if (kept > 0)
		g_array_set_size(making->found, kept);
}

/* An anomaly that no combination tells of may be on any of its card. */
static void
prefer_anomalies(struct making *making)
{
	unsigned kept = 0, i;

	for (i = 0; i < making->found->len; i++) {
		unsigned place = g_array_index(making->found, unsigned, i);

		if (g_array_index(making->situations, struct situation,
			place).anomaly != NULL)
			g_array_index(making->found, unsigned, kept++) = place;
	}
	if (kept > 0)
		g_array_set_size(making->found, kept);
}

static struct reading
read_piece(struct making *making, const struct record *piece, bool anomaly,
	const struct record *sticker)
{
	struct reading reading = {0}, *known;

	g_array_set_size(making->found, 0);
	take_all(making, piece, anomaly, sticker);
	drop_impossible(making);
	if (anomaly)
		prefer_anomalies(making);
	g_array_sort(making->found, compare_places);
	reading.items = (const unsigned *)(const void *)making->found->data;
	reading.count = making->found->len;
	known = g_hash_table_lookup(making->sets, &reading);
	if (known != NULL)
		return *known;
	known = arena_one(making->arena, struct reading);
	known->count = reading.count;
	known->set = g_hash_table_size(making->sets);
	known->items = arena_array(making->arena, unsigned, reading.count);
	if (reading.count > 0)
		memcpy((unsigned *)(uintptr_t)known->items, reading.items,
			sizeof(*reading.items) * reading.count);
	g_hash_table_add(making->sets, known);
	return *known;
}

/* A reading for each sticker that it is said to carry; at least one. */
static void
read_all(struct making *making, struct piece *piece)
{
	const struct value *stickers = model_get(making->model,
		piece->record->values, NAME(HOLDING_STICKERS));
	unsigned i;

	piece->reading_count = MAX(value_count(stickers), 1);
	piece->readings = arena_array(making->arena, struct reading,
		piece->reading_count);
	for (i = 0; i < piece->reading_count; i++)
		piece->readings[i] = read_piece(making, piece->record,
			piece->anomaly, value_count(stickers) == 0 ? NULL :
			value_item(stickers, i)->reference.record);
}

static void
take_pieces(struct making *making, struct pieces *pieces,
	const struct records *records)
{
	const struct kind *kind = model_field(making->model,
		NAME(HOLDING_FORM))->kind;
	size_t i;

	pieces->items = arena_array(making->arena, struct piece,
		records->count);
	for (i = 0; i < records->count; i++) {
		struct piece *piece = &pieces->items[pieces->count];

		if (records->items[i]->kind != kind)
			continue;
		pieces->count++;
		piece->record = records->items[i];
		piece->named = study_is_named(making->model, piece->record);
		piece_read_states(making->model, piece);
		if (piece->named)
			read_all(making, piece);
	}
}

struct pieces *
study_pieces(const struct model *model, const struct situations *corpus,
	const struct records *records, struct arena *arena)
{
	struct pieces *pieces = arena_one(arena, struct pieces);
	struct making making = {
		.model = model,
		.corpus = corpus,
		.arena = arena,
		.situations = g_array_new(FALSE, TRUE,
			sizeof(struct situation)),
		.added = g_hash_table_new(hash_situation, same_situation),
		.sets = g_hash_table_new(hash_reading, same_reading),
		.found = g_array_new(FALSE, FALSE, sizeof(unsigned)),
	};
	struct situation *situations;

	g_array_append_vals(making.situations, corpus->items, corpus->count);
	pieces->model = model;
	pieces->features = features_gather(model, arena);
	pieces->corpus = corpus;
	take_pieces(&making, pieces, records);
	situations = arena_array(arena, struct situation,
		making.situations->len);
	if (making.situations->len > 0)
		memcpy(situations, making.situations->data,
			sizeof(*situations) * making.situations->len);
	pieces->situations = situations;
	pieces->situation_count = making.situations->len;
	pieces->set_count = g_hash_table_size(making.sets);
	g_array_free(making.situations, TRUE);
	g_array_free(making.found, TRUE);
	g_hash_table_destroy(making.added);
	g_hash_table_destroy(making.sets);
	return pieces;
}
