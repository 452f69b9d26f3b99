/*
 * Gathers, once for all subjects: whether each specimen counts, on which
 * occasions it was seen, and to what it belongs beyond what model/seen.h says
 * (combinations, card backs).
 */
#include "study/evidence.h"

#include <stdlib.h>
#include <string.h>

#include "base/sort.h"
#include "study/evidence_inside.h"

/* Alterations that exclude a piece, and those that are only feared. */
static void
judge_alterations(struct evidences *all, const struct value *list,
	enum field_name certainty, struct piece_seen *piece)
{
	unsigned i;

	for (i = 0; i < value_count(list); i++) {
		const char *word = model_word(all->model,
			value_item(list, i)->group, certainty);

		if (word != NULL && strcmp(word, "suspected") == 0)
			piece->suspected = true;
		else if (piece->standing == STANDING_COUNTS)
			piece->standing = STANDING_ALTERED;
	}
}

static bool
has_imitation(const struct model *model, const struct record *specimen)
{
	const struct value *list = model_get(model, specimen->values,
		NAME(SPECIMEN_ACCESSORIES));
	const char *word;
	unsigned i;

	for (i = 0; i < value_count(list); i++) {
		word = model_word(model, value_item(list, i)->group,
			NAME(SPECIMEN_ACCESSORY_ORIGINAL));
		if (word != NULL && strcmp(word, "imitation") == 0)
			return true;
	}
	return false;
}

static enum standing
judge(const struct model *model, const struct record *specimen)
{
	const char *form = model_word(model, specimen->values,
		NAME(SPECIMEN_FORM));

	if (model_get_every(model, specimen, NAME(EVERY_RETIRED)) != NULL)
		return STANDING_RETIRED;
	if (form == NULL || (strcmp(form, "carded") != 0 &&
		strcmp(form, "carded-cased") != 0))
		return STANDING_OTHER_FORM;
	if (model_get(model, specimen->values, NAME(SPECIMEN_DOUBTED)) != NULL)
		return STANDING_DOUBTED;
	if (has_imitation(model, specimen))
		return STANDING_IMITATED;
	return STANDING_COUNTS;
}

static void
judge_all(struct evidences *all)
{
	struct record_list list = all->specimens;
	unsigned i, j;

	for (i = 0; i < list.count; i++) {
		struct piece_seen *piece = &all->pieces[i];
		struct value *const *values = list.items[i]->values;
		struct record_list sightings = seen_sightings(all->seen,
			list.items[i]);
		const char *sure = model_word(all->model, values,
			NAME(SPECIMEN_IDENTITY));

		piece->standing = judge(all->model, list.items[i]);
		piece->unsure = sure != NULL && strcmp(sure, "certain") != 0;
		judge_alterations(all, model_get(all->model, values,
			NAME(SPECIMEN_ALTERATIONS)),
			NAME(SPECIMEN_ALTERATION_CERTAINTY), piece);
		for (j = 0; j < sightings.count; j++)
			judge_alterations(all, model_get(all->model,
				sightings.items[j]->values,
				NAME(SIGHTING_ALTERATIONS)),
				NAME(SIGHTING_ALTERATION_CERTAINTY), piece);
	}
}

/* A list in one year, packed so that the order of numbers is that of time. */
static gint64
pack(int year, const struct record *source)
{
	return (gint64)year << 32 | source->index;
}

static int
compare_packed(const void *a, const void *b)
{
	const gint64 *left = a, *right = b;

	return (*left > *right) - (*left < *right);
}

/* All lists by year that saw any specimen, in order. */
static void
gather_occasions(struct evidences *all)
{
	GArray *packed = g_array_new(FALSE, FALSE, sizeof(gint64));
	unsigned i, j, count = 0;

	for (i = 0; i < all->specimens.count; i++) {
		struct record_list list = seen_sightings(all->seen,
			all->specimens.items[i]);

		for (j = 0; j < list.count; j++) {
			struct happening one = happening_of(all,
				list.items[j]);
			gint64 key;

			if (one.source == NULL)
				continue;
			key = pack(one.date->year, one.source);
			g_array_append_val(packed, key);
		}
	}
	g_array_sort(packed, compare_packed);
	all->occasions = arena_array(all->arena, gint64, packed->len);
	for (i = 0; i < packed->len; i++) {
		gint64 key = g_array_index(packed, gint64, i);

		if (count == 0 || all->occasions[count - 1] != key)
			all->occasions[count++] = key;
	}
	all->occasion_count = count;
	g_array_free(packed, TRUE);
}

struct happening
happening_of(const struct evidences *all, const struct record *sighting)
{
	struct value *const *values = sighting->values;

	return (struct happening){
		.sighting = sighting,
		.date = model_date(all->model, values, NAME(SIGHTING_DATE)),
		.source = model_record(all->model, values,
			NAME(SIGHTING_SOURCE)),
		.place = model_text(all->model, values, NAME(SIGHTING_PLACE)),
	};
}

static bool
names_source(const struct evidences *all, const struct happening *one,
	const struct record *source)
{
	const struct value *list = model_get(all->model, one->sighting->values,
		NAME(SIGHTING_ALSO_LISTED));
	unsigned i;

	for (i = 0; i < value_count(list); i++)
		if (value_item(list, i)->reference.record == source)
			return true;
	return false;
}

/*
 * Whether two sightings of one piece in different lists are of one lot: one
 * names the other's list and the day may be the same, or day and place are.
 */
static bool
same_lot(const struct evidences *all, const struct happening *a,
	const struct happening *b)
{
	if (a->date->last < b->date->first || b->date->last < a->date->first)
		return false;
	if (names_source(all, a, b->source) || names_source(all, b, a->source))
		return true;
	return a->date->day != 0 && b->date->day != 0 && a->place != NULL &&
		b->place != NULL && strcmp(a->place, b->place) == 0;
}

static int
compare_happenings(const void *a, const void *b)
{
	const struct happening *left = a, *right = b;
	gint64 one = pack(left->date->year, left->source);
	gint64 other = pack(right->date->year, right->source);

	if (one != other)
		return one < other ? -1 : 1;
	return strcmp(left->sighting->id, right->sighting->id);
}

static unsigned
find_occasion(const struct evidences *all, gint64 key)
{
	const gint64 *found = bsearch(&key, all->occasions,
		all->occasion_count, sizeof(key), compare_packed);

	return (unsigned)(found - all->occasions);
}

/* Whether an earlier list of the same year has the lot too. */
static bool
is_relisted(const struct evidences *all, const GArray *happenings, unsigned i)
{
	const struct happening *one = &g_array_index(happenings,
		struct happening, i);
	unsigned j;

	for (j = i; j > 0; j--) {
		const struct happening *other = &g_array_index(happenings,
			struct happening, j - 1);

		if (other->date->year != one->date->year)
			return false;
		if (other->source != one->source && same_lot(all, one, other))
			return true;
	}
	return false;
}

/* The occasions on which one specimen was seen, each once, in order. */
static void
gather_catches(struct evidences *all, struct piece_seen *piece,
	struct record_list list, GArray *happenings)
{
	unsigned i, occasion;

	g_array_set_size(happenings, 0);
	for (i = 0; i < list.count; i++) {
		struct happening one = happening_of(all, list.items[i]);

		if (one.source != NULL)
			g_array_append_val(happenings, one);
	}
	g_array_sort(happenings, compare_happenings);
	piece->catches = arena_array(all->arena, unsigned, happenings->len);
	for (i = 0; i < happenings->len; i++) {
		struct happening *one = &g_array_index(happenings,
			struct happening, i);

		if (is_relisted(all, happenings, i)) {
			piece->relisted++;
			continue;
		}
		occasion = find_occasion(all, pack(one->date->year,
			one->source));
		if (piece->count == 0 ||
			piece->catches[piece->count - 1] != occasion)
			piece->catches[piece->count++] = occasion;
	}
}

/* Pieces of each card back: certain ones, then offers of unsettled ones. */
static void
add_to_cardback(struct evidences *all, const struct record *cardback,
	const struct record *specimen, bool certain)
{
	struct seen_specimen entry = {specimen, certain, false};
	GArray **list = &all->growing[cardback->index];

	if (*list == NULL)
		*list = g_array_new(FALSE, FALSE, sizeof(entry));
	if ((*list)->len > 0 && g_array_index(*list, struct seen_specimen,
		(*list)->len - 1).specimen == specimen)
		return;
	g_array_append_val(*list, entry);
}

/* One that is not settled is offered to the card backs of its character. */
static void
offer_cardbacks(struct evidences *all, const struct record *specimen,
	const struct value *cardback)
{
	const struct value *character = model_get(all->model,
		specimen->values, NAME(SPECIMEN_CHARACTER));
	struct pointer_list list;
	const struct record *other;
	size_t i;

	if (character == NULL || character->identity.kind != IDENTITY_KNOWN)
		return;
	list = model_pointing(all->model,
		character->identity.items[0].record);
	for (i = 0; i < list.count; i++) {
		if (list.items[i].field != model_field(all->model,
			NAME(PAIRING_CHARACTER)))
			continue;
		other = model_record(all->model, list.items[i].from->values,
			NAME(PAIRING_CARDBACK));
		if (other != NULL &&
			identity_allows(cardback, other) != ALLOWS_NOT)
			add_to_cardback(all, other, specimen, false);
	}
}

static void
gather_cardbacks(struct evidences *all)
{
	unsigned i;

	for (i = 0; i < all->specimens.count; i++) {
		const struct record *specimen = all->specimens.items[i];
		const struct value *cardback = model_get(all->model,
			specimen->values, NAME(SPECIMEN_CARDBACK));

		if (all->pieces[i].standing == STANDING_RETIRED)
			continue;
		if (cardback != NULL &&
			cardback->identity.kind == IDENTITY_KNOWN)
			add_to_cardback(all,
				cardback->identity.items[0].record, specimen,
				true);
		else if (all->pieces[i].standing == STANDING_COUNTS)
			offer_cardbacks(all, specimen, cardback);
	}
}

static void
settle_cardbacks(struct evidences *all, unsigned cardbacks)
{
	unsigned i;

	for (i = 0; i < cardbacks; i++) {
		GArray *list = all->growing[i];
		struct seen_specimen *items;

		if (list == NULL)
			continue;
		items = arena_array(all->arena, struct seen_specimen,
			list->len);
		memcpy(items, list->data, sizeof(*items) * list->len);
		all->of_cardback[i] = (struct seen_list){items, list->len};
		g_array_free(list, TRUE);
	}
	g_free(all->growing);
	all->growing = NULL;
}

/* Sightings without a specimen, by the pairing they were surely of. */
static void
count_unrecognised(struct evidences *all)
{
	struct record_list list = model_records_of(all->model, "sighting");
	unsigned i;

	for (i = 0; i < list.count; i++) {
		struct value *const *values = list.items[i]->values;
		const struct value *character = model_get(all->model, values,
			NAME(SIGHTING_CHARACTER));
		const struct value *cardback = model_get(all->model, values,
			NAME(SIGHTING_CARDBACK));
		const struct record *pairing;

		if (model_record(all->model, values,
			NAME(SIGHTING_SPECIMEN)) != NULL ||
			character == NULL || cardback == NULL ||
			character->identity.kind != IDENTITY_KNOWN ||
			cardback->identity.kind != IDENTITY_KNOWN)
			continue;
		pairing = seen_find_pairing(all->seen,
			character->identity.items[0].record,
			cardback->identity.items[0].record);
		if (pairing != NULL)
			all->unrecognised[pairing->index]++;
	}
}

struct evidences *
evidences_gather(const struct model *model, const struct seen *seen,
	struct arena *arena)
{
	struct evidences *all = arena_one(arena, struct evidences);
	GArray *happenings = g_array_new(FALSE, FALSE,
		sizeof(struct happening));
	unsigned cardbacks = model_records_of(model, "cardback").count, i;

	all->model = model;
	all->seen = seen;
	all->arena = arena;
	all->specimens = model_records_of(model, "specimen");
	all->pieces = arena_array(arena, struct piece_seen,
		all->specimens.count);
	all->growing = g_new0(GArray *, cardbacks + 1);
	all->of_cardback = arena_array(arena, struct seen_list, cardbacks);
	all->unrecognised = arena_array(arena, unsigned,
		model_records_of(model, "pairing").count);
	judge_all(all);
	gather_occasions(all);
	for (i = 0; i < all->specimens.count; i++)
		gather_catches(all, &all->pieces[i], seen_sightings(seen,
			all->specimens.items[i]), happenings);
	gather_cardbacks(all);
	settle_cardbacks(all, cardbacks);
	count_unrecognised(all);
	subjects_list(all);
	g_array_free(happenings, TRUE);
	return all;
}

enum standing
evidence_standing(const struct evidences *all, const struct record *specimen)
{
	return all->pieces[specimen->index].standing;
}
