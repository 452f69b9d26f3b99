/*
 * Narrowing over situations, so that any part that is seen narrows all others:
 * the front alone tells of the back what pairings say of both.
 */
#include "study/narrow.h"

#include <string.h>

#include "study/collect.h"
#include "study/slots.h"

const struct record *
narrow_part(const struct situation *situation, const char *kind)
{
	if (strcmp(kind, "character") == 0)
		return situation->character;
	if (strcmp(kind, "market") == 0)
		return situation->market;
	if (strcmp(kind, "cardback") == 0)
		return situation->cardback;
	if (strcmp(kind, "front") == 0)
		return situation->front;
	if (strcmp(kind, "blister") == 0)
		return situation->blister;
	if (strcmp(kind, "variant") == 0)
		return situation->variant;
	if (strcmp(kind, "accessory") == 0)
		return situation->accessory;
	return NULL;
}

bool
narrow_shows(const struct features *features, unsigned i,
	const struct candidate *candidate, state_set *states)
{
	const struct stand_in *const parts[] = {candidate->front,
		candidate->variant};
	bool known = features_show(features, i, &candidate->situation, states);
	size_t j;

	for (j = 0; j < G_N_ELEMENTS(parts); j++) {
		const struct score *score = stand_in_score(parts[j], i);

		if (score == NULL)
			continue;
		known = true;
		*states &= score->states;
	}
	return known;
}

/* Whether a part that is not recorded can't be any of those seen. */
static bool
rules_out(const struct stand_in *stand_in,
	const struct observation *observation)
{
	unsigned i;

	if (stand_in == NULL)
		return false;
	for (i = 0; i < stand_in->count; i++)
		if (g_ptr_array_find(observation->records,
			stand_in->records[i], NULL))
			return false;
	return true;
}

/* What is not recorded is neither against an observation nor for it. */
static void
hold(const struct features *features, const struct observation *observation,
	uint64_t bit, struct candidate *candidate)
{
	const struct record *part;
	state_set states;
	bool known, shows;

	if (observation->feature != NULL) {
		known = narrow_shows(features,
			observation->feature->record->index, candidate,
			&states);
		shows = states == 0 ? observation->inapplicable :
			(states & observation->states) != 0;
	} else {
		part = narrow_part(&candidate->situation, observation->part);
		shows = part != NULL && g_ptr_array_find(observation->records,
			part, NULL);
		known = part != NULL ||
			(strcmp(observation->part, "front") == 0 &&
			rules_out(candidate->front, observation)) ||
			(strcmp(observation->part, "variant") == 0 &&
			rules_out(candidate->variant, observation));
	}
	if (known && shows)
		candidate->shows |= bit;
	else if (known)
		candidate->against |= bit;
}

/* Appends the situations of one pairing. */
static void
hold_pairing(const struct model *model, const struct seen *seen,
	const struct record *pairing, GArray *situations, GArray *out)
{
	double pieces = seen_count(seen, seen_of_pairing(seen, pairing), NULL,
		NULL).specimens;
	guint i;

	g_array_set_size(situations, 0);
	situations_of(model, pairing, situations);
	for (i = 0; i < situations->len; i++) {
		struct candidate one = {
			.situation = g_array_index(situations,
				struct situation, i),
			.common = (pieces + 1) / situations->len,
		};

		if (study_may_exist(one.situation.concluded))
			g_array_append_val(out, one);
	}
}

/* The parts that a record settles where it stands alone. */
static struct situation
alone(const struct model *model, const struct record *record)
{
	struct situation one = {0};
	const char *kind = record->kind->name;
	struct value *const *values = record->values;

	if (strcmp(kind, "cardback") == 0) {
		one.cardback = record;
		one.market = model_record(model, values,
			NAME(CARDBACK_MARKET));
		one.offer = model_record(model, values, NAME(CARDBACK_OFFER));
	} else if (strcmp(kind, "front") == 0) {
		one.front = record;
		one.market = model_record(model, values, NAME(FRONT_MARKET));
		one.character = model_record(model, values,
			NAME(FRONT_CHARACTER));
	} else if (strcmp(kind, "variant") == 0) {
		one.variant = record;
		one.character = model_record(model, values,
			NAME(VARIANT_CHARACTER));
	} else if (strcmp(kind, "character") == 0)
		one.character = record;
	else
		one.blister = record;
	return one;
}

static bool
is_thing(const struct model *model, const struct record *record)
{
	const struct field *field = fields_find(&record->kind->fields,
		"concluded");
	const struct value *concluded = field == NULL ? NULL :
		record->values[field->index];

	return model_get_every(model, record, NAME(EVERY_RETIRED)) == NULL &&
		model_may_exist(concluded == NULL ? NULL :
			concluded->word->word);
}

/* Accessories lie by themselves; with each, what passes for it. */
static void
hold_accessories(const struct model *model, GArray *out)
{
	struct record_list list = model_records_of(model, "accessory");
	struct record_list imitations = model_records_of(model, "imitation");
	struct candidate one = {.common = 1};
	unsigned i, j;

	for (i = 0; i < list.count; i++) {
		if (!is_thing(model, list.items[i]))
			continue;
		one.situation.accessory = list.items[i];
		g_array_append_val(out, one);
	}
	for (i = 0; i < imitations.count; i++) {
		const struct value *of = model_get(model,
			imitations.items[i]->values, NAME(IMITATION_OF));

		one.situation.imitation = imitations.items[i];
		for (j = 0; is_thing(model, imitations.items[i]) &&
			j < value_count(of); j++) {
			one.situation.accessory = value_item(of, j)->
				reference.record;
			if (strcmp(one.situation.accessory->kind->name,
				"accessory") == 0)
				g_array_append_val(out, one);
		}
	}
}

/* Appends the records of a kind that no candidate has. */
static void
hold_rest(const struct model *model, const char *kind, GArray *out)
{
	struct record_list list = model_records_of(model, kind);
	bool *known = g_new0(bool, list.count + 1);
	guint i;

	for (i = 0; i < out->len; i++) {
		const struct record *part = narrow_part(&g_array_index(out,
			struct candidate, i).situation, kind);

		if (part != NULL)
			known[part->index] = true;
	}
	for (i = 0; i < list.count; i++) {
		struct candidate one = {.common = 1};

		if (known[i] || !is_thing(model, list.items[i]))
			continue;
		one.situation = alone(model, list.items[i]);
		g_array_append_val(out, one);
	}
	g_free(known);
}

GArray *
narrow_hold(const struct model *model, const struct seen *seen,
	const struct features *features,
	const struct observation *observations, unsigned count,
	const char *of, struct arena *arena)
{
	struct stand_ins *stand_ins = stand_ins_new(model, features, arena);
	GArray *all = g_array_new(FALSE, FALSE, sizeof(struct candidate));
	GArray *situations = g_array_new(FALSE, FALSE,
		sizeof(struct situation));
	struct record_list list = model_records_of(model, "pairing");
	unsigned i, j;

	if (of != NULL && strcmp(of, "accessory") == 0)
		hold_accessories(model, all);
	else {
		for (i = 0; i < list.count; i++)
			hold_pairing(model, seen, list.items[i], situations,
				all);
		hold_rest(model, of == NULL ? "cardback" : of, all);
	}
	for (i = 0; i < all->len; i++) {
		struct candidate *one = &g_array_index(all, struct candidate,
			i);

		one->front = stand_in_front(stand_ins, &one->situation);
		one->variant = stand_in_variant(stand_ins, &one->situation);
		for (j = 0; j < count; j++)
			hold(features, &observations[j], (uint64_t)1 << j,
				one);
	}
	stand_ins_free(stand_ins);
	g_array_free(situations, TRUE);
	return all;
}

const struct record *
narrow_record(const struct candidate *candidate)
{
	const struct situation *situation = &candidate->situation;

	if (situation->pairing != NULL)
		return situation->pairing;
	if (situation->accessory != NULL)
		return situation->imitation != NULL ? situation->imitation :
			situation->accessory;
	if (situation->cardback != NULL)
		return situation->cardback;
	if (situation->front != NULL)
		return situation->front;
	if (situation->variant != NULL)
		return situation->variant;
	return situation->blister != NULL ? situation->blister :
		situation->character;
}

unsigned
narrow_wrong(const struct candidate *candidate)
{
	return (unsigned)__builtin_popcountll(candidate->against);
}

unsigned
narrow_shown(const struct candidate *candidate)
{
	return (unsigned)__builtin_popcountll(candidate->shows);
}

const char *
narrow_target(const GArray *candidates, unsigned mistakes)
{
	const struct record *first = NULL;
	guint i;

	for (i = 0; i < candidates->len; i++) {
		const struct candidate *one = &g_array_index(candidates,
			struct candidate, i);
		const struct record *cardback = one->situation.cardback;

		if (cardback == NULL || narrow_wrong(one) > mistakes)
			continue;
		if (first != NULL && cardback != first)
			return "cardback";
		first = cardback;
	}
	return NULL;
}
