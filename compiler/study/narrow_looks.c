/*
 * What to look at next: the feature that costs least less what it saves. The
 * things to be told apart are the candidates that remain, or the records of a
 * kind among their parts.
 */
#include <math.h>
#include <string.h>

#include "study/key.h"
#include "study/narrow.h"
#include "study/rest.h"

/* What a candidate is told from others as: itself, or its part of a kind. */
static const void *
thing_of(const struct candidate *candidate, const char *of)
{
	if (of == NULL)
		return candidate;
	return strcmp(of, "accessory") == 0 ? narrow_record(candidate) :
		narrow_part(&candidate->situation, of);
}

/* The things to be told apart: candidates, or the records of a kind. */
struct things {
	GArray *candidates;	/* struct candidate *, those that remain */
	GArray *places;		/* guint: which thing each belongs to */
	GArray *common;		/* double, by thing */
};

static void
things_init(struct things *things, const GArray *candidates,
	unsigned mistakes, const char *of)
{
	GHashTable *known = g_hash_table_new(NULL, NULL);
	guint i;

	things->candidates = g_array_new(FALSE, FALSE,
		sizeof(struct candidate *));
	things->places = g_array_new(FALSE, FALSE, sizeof(guint));
	things->common = g_array_new(FALSE, FALSE, sizeof(double));

	for (i = 0; i < candidates->len; i++) {
		const struct candidate *one = &g_array_index(candidates,
			struct candidate, i);
		const void *thing = thing_of(one, of);
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

static void
things_release(struct things *things)
{
	g_array_free(things->candidates, TRUE);
	g_array_free(things->places, TRUE);
	g_array_free(things->common, TRUE);
}

/*
 * What each thing may show of a feature. That it shows nothing, because the
 * feature does not apply to it, can be seen too and counts as a state. A thing
 * of which nothing is known may show what any other shows, and no more: else
 * it would seem easy to tell. False if nothing is known of any.
 */
static bool
fill_sets(const struct features *features, unsigned feature,
	const struct things *things, state_set *sets)
{
	state_set *seen = g_new0(state_set, things->common->len + 1);
	state_set all = 0;
	guint i;

	memset(sets, 0, sizeof(*sets) * things->common->len);
	for (i = 0; i < things->candidates->len; i++) {
		const struct candidate *one = g_array_index(
			things->candidates, const struct candidate *, i);
		guint place = g_array_index(things->places, guint, i);
		state_set states;

		if (!narrow_shows(features, feature, one, &states)) {
			sets[place] = 1;
			continue;
		}
		seen[place] |= states == 0 ? (state_set)1 << (MOST_STATES - 1) :
			states;
		all |= seen[place];
	}
	/* Until here a set says whether a thing may be any. */
	for (i = 0; i < things->common->len; i++)
		sets[i] = sets[i] != 0 ? all : seen[i];
	g_free(seen);
	return all != 0;
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

static bool
is_on_sides(const struct feature *feature, const struct model *model,
	const char *const *sides)
{
	const char *side = model_word(model, feature->record->values,
		NAME(FEATURE_SIDE));

	return sides == NULL || (side != NULL && g_strv_contains(sides, side));
}

/* Costs are compared in thousand-millionths, so that no last bit decides. */
static int64_t
net_cost(const struct look *look)
{
	return (int64_t)floor((look->cost - look->saved) * 1e9 + 0.5);
}

static int
compare_looks(const void *a, const void *b)
{
	const struct look *left = a, *right = b;
	int64_t one = net_cost(left), other = net_cost(right);

	if (one != other)
		return one < other ? -1 : 1;
	return left->feature->record->index < right->feature->record->index ?
		-1 : 1;
}

/* Takes what the rest costs exactly, of looks whose sets stand in `sets`. */
static void
cost_exactly(GArray *looks, const GArray *sets, const struct things *things)
{
	struct rest_table table = {
		.items = things->common->len,
		.features = looks->len,
		.sets = (const uint64_t *)(const void *)sets->data,
		.common = (const double *)(const void *)things->common->data,
	};
	double *costs = g_new(double, looks->len + 1);
	double *left = g_new(double, looks->len + 1);
	guint i;

	for (i = 0; i < looks->len; i++)
		costs[i] = g_array_index(looks, struct look, i).cost;
	table.costs = costs;
	rest_cost(&table, left);
	for (i = 0; i < looks->len; i++)
		g_array_index(looks, struct look, i).saved =
			log2(table.items) - left[i];
	g_free(costs);
	g_free(left);
}

GArray *
narrow_looks(const struct model *model, const struct features *features,
	const GArray *candidates, unsigned mistakes,
	const struct observation *observations, unsigned count,
	const char *of, const char *const *sides)
{
	GArray *looks = g_array_new(FALSE, FALSE, sizeof(struct look));
	GArray *kept = g_array_new(FALSE, FALSE, sizeof(state_set));
	struct things things;
	state_set *sets;
	unsigned i, j;

	things_init(&things, candidates, mistakes, of);
	sets = g_new(state_set, things.common->len + 1);
	for (i = 0; i < features_count(features); i++) {
		const struct feature *feature = features_get(features, i);
		struct key_weight weight;
		struct look look = {.feature = feature};

		if (is_observed(feature, observations, count) ||
			!is_on_sides(feature, model, sides) ||
			!fill_sets(features, i, &things, sets))
			continue;
		weight = key_weigh(sets, (const double *)(const void *)
			things.common->data, things.common->len,
			KEY_VARIABILITY);
		if (!weight.usable)
			continue;
		for (j = 0; j < things.common->len; j++)
			look.states |= sets[j];
		look.left = weight.left;
		look.cost = features_cost(feature);
		look.saved = weight.power - weight.variation;
		g_array_append_val(looks, look);
		if (things.common->len <= REST_MOST)
			g_array_append_vals(kept, sets, things.common->len);
	}
	if (things.common->len <= REST_MOST && looks->len > 0)
		cost_exactly(looks, kept, &things);
	g_array_sort(looks, compare_looks);
	g_array_free(kept, TRUE);
	g_free(sets);
	things_release(&things);
	return looks;
}
