/*
 * Narrowing over situations, so that any part that is seen narrows all others:
 * the front alone tells of the back what pairings say of both.
 */
#include "study/narrow.h"

#include <string.h>

#include "study/collect.h"
#include "study/key.h"
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
	return NULL;
}

static bool
fits(const struct features *features, const struct observation *observation,
	const struct situation *situation)
{
	const struct record *part;

	if (observation->feature != NULL)
		return (features_states(features,
			observation->feature->record->index, situation) &
			observation->states) != 0;
	part = narrow_part(situation, observation->part);
	return part == NULL || g_ptr_array_find(observation->records, part,
		NULL);
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

GArray *
narrow_hold(const struct model *model, const struct seen *seen,
	const struct features *features,
	const struct observation *observations, unsigned count)
{
	GArray *all = g_array_new(FALSE, FALSE, sizeof(struct candidate));
	GArray *situations = g_array_new(FALSE, FALSE,
		sizeof(struct situation));
	struct record_list list = model_records_of(model, "pairing");
	unsigned i, j;

	for (i = 0; i < list.count; i++)
		hold_pairing(model, seen, list.items[i], situations, all);
	for (i = 0; i < all->len; i++) {
		struct candidate *one = &g_array_index(all, struct candidate,
			i);

		for (j = 0; j < count; j++)
			if (!fits(features, &observations[j],
				&one->situation))
				one->against |= (uint64_t)1 << j;
	}
	g_array_free(situations, TRUE);
	return all;
}

unsigned
narrow_wrong(const struct candidate *candidate)
{
	return (unsigned)__builtin_popcountll(candidate->against);
}

/* The things to be told apart: candidates, or the records of a kind. */
struct things {
	GArray *candidates;	/* struct candidate *, those that remain */
	GArray *places;		/* guint: which thing each belongs to */
	GArray *common;		/* double, by thing */
};

static void
gather_things(struct things *things, const GArray *candidates,
	unsigned mistakes, const char *of)
{
	GHashTable *known = g_hash_table_new(NULL, NULL);
	guint i;

	for (i = 0; i < candidates->len; i++) {
		const struct candidate *one = &g_array_index(candidates,
			struct candidate, i);
		const void *thing = of == NULL ? (const void *)one :
			narrow_part(&one->situation, of);
		guint place;

		if (thing == NULL || narrow_wrong(one) > mistakes)
			continue;
		place = GPOINTER_TO_UINT(g_hash_table_lookup(known, thing));
		if (place == 0) {
			g_array_append_val(things->common, one->common);
			place = things->common->len;
			g_hash_table_insert(known, (gpointer)(uintptr_t)thing,
				GUINT_TO_POINTER(place));
		} else {
			g_array_index(things->common, double, place - 1) +=
				one->common;
		}
		place--;
		g_array_append_val(things->candidates, one);
		g_array_append_val(things->places, place);
	}
	g_hash_table_destroy(known);
}

/*
 * What each thing may show of a feature. That it shows nothing, because the
 * feature does not apply to it, can be seen too and counts as a state.
 */
static void
fill_sets(const struct features *features, unsigned feature,
	const struct things *things, state_set *sets)
{
	guint i;

	memset(sets, 0, sizeof(*sets) * things->common->len);
	for (i = 0; i < things->candidates->len; i++) {
		const struct candidate *one = g_array_index(
			things->candidates, const struct candidate *, i);
		state_set states = features_states(features, feature,
			&one->situation);

		sets[g_array_index(things->places, guint, i)] |= states == 0 ?
			(state_set)1 << (MOST_STATES - 1) : states;
	}
}

static bool
is_observed(const struct feature *feature,
	const struct observation *observations, unsigned count)
{
	unsigned i;

	for (i = 0; i < count; i++)
		if (observations[i].feature == feature)
			return true;
	return false;
}

static int
compare_looks(const void *a, const void *b)
{
	const struct look *left = a, *right = b;
	double one = left->cost - left->saved;
	double other = right->cost - right->saved;

	if (one < other)
		return -1;
	if (one > other)
		return 1;
	return left->feature->record->index < right->feature->record->index ?
		-1 : 1;
}

GArray *
narrow_looks(const struct features *features, const GArray *candidates,
	unsigned mistakes, const struct observation *observations,
	unsigned count, const char *of)
{
	GArray *looks = g_array_new(FALSE, FALSE, sizeof(struct look));
	struct things things = {
		.candidates = g_array_new(FALSE, FALSE,
			sizeof(struct candidate *)),
		.places = g_array_new(FALSE, FALSE, sizeof(guint)),
		.common = g_array_new(FALSE, FALSE, sizeof(double)),
	};
	state_set *sets;
	unsigned i;

	gather_things(&things, candidates, mistakes, of);
	sets = g_new(state_set, things.common->len + 1);
	for (i = 0; i < features_count(features); i++) {
		const struct feature *feature = features_get(features, i);
		struct key_weight weight;
		struct look look = {.feature = feature};

		if (is_observed(feature, observations, count))
			continue;
		fill_sets(features, i, &things, sets);
		weight = key_weigh(sets, (const double *)(const void *)
			things.common->data, things.common->len,
			KEY_VARIABILITY);
		if (!weight.usable)
			continue;
		look.left = weight.left;
		look.settled = weight.power;
		look.cost = features_cost(feature);
		/* The cheapest look costs 1 a bit. */
		look.saved = weight.power - weight.variation;
		g_array_append_val(looks, look);
	}
	g_array_sort(looks, compare_looks);
	g_free(sets);
	g_array_free(things.candidates, TRUE);
	g_array_free(things.places, TRUE);
	g_array_free(things.common, TRUE);
	return looks;
}
