/*
 * Which feature a place of a key asks. Each is first judged by itself, by
 * Dallwitz's measure; where few enough items are left, the best few are tried
 * out: the rest of the key is made by the measure alone, and its cost counted.
 */
#include <math.h>

#include "base/arena.h"
#include "study/key_place.h"

enum {
	TRIED = 8,		/* features that are tried out, */
	TRIED_ITEMS = 40,	/* at places of so many items at most */
	MOST_PLACES = 4096,	/* of one trial */
};

/* What the key asks elsewhere already costs this much less. */
static const double reuse = 1.01;

/* Features in order of suitability, the best few. */
struct ranking {
	int features[TRIED];
	double values[TRIED];
	unsigned count;
	unsigned most;
	double cheapest;	/* of those that can be used here */
	bool given_up;
};

/* Rounding must not decide between features that are alike. */
static bool
less(double a, double b)
{
	return a < b - 1e-11 * fabs(b);
}

static void
rank(struct ranking *ranking, unsigned feature, double value)
{
	unsigned i;

	if (ranking->count == ranking->most &&
		!less(value, ranking->values[ranking->count - 1]))
		return;
	if (ranking->count < ranking->most)
		ranking->count++;
	for (i = ranking->count - 1; i > 0 &&
		less(value, ranking->values[i - 1]); i--) {
		ranking->features[i] = ranking->features[i - 1];
		ranking->values[i] = ranking->values[i - 1];
	}
	ranking->features[i] = (int)feature;
	ranking->values[i] = value;
}

/* Ranks what a place can ask; the cheapest is one that it can ask, too. */
static void
rank_all(const struct key_table *table, const struct key_place *place,
	const bool *used, struct ranking *ranking, struct arena *arena)
{
	struct key_weight *weights = arena_array(arena, struct key_weight,
		table->features);
	bool *worth = arena_array(arena, bool, table->features);
	unsigned i;

	key_weigh_all(table, place, weights, worth, arena);
	ranking->count = 0;
	ranking->cheapest = INFINITY;
	for (i = 0; i < table->features; i++) {
		ranking->given_up = ranking->given_up || weights[i].usable;
		if (worth[i])
			ranking->cheapest = fmin(ranking->cheapest,
				table->costs[i]);
	}
	for (i = 0; i < table->features; i++)
		if (worth[i])
			rank(ranking, i, key_suitability(&weights[i],
				used != NULL && used[i] ? table->costs[i] /
				reuse : table->costs[i], ranking->cheapest));
	ranking->given_up = ranking->given_up && ranking->count == 0;
}

/* A trial: what a key costs that is made by the measure alone. */
struct trial {
	const struct key_table *table;
	struct arena *arena;
	unsigned places;	/* used up */
};

static double
try_rest(struct trial *trial, const struct key_place *place);

/* What the items of a place cost if it asks a feature. */
static double
try_feature(struct trial *trial, const struct key_place *place,
	unsigned feature)
{
	double cost = key_place_pieces(trial->table, place) *
		trial->table->costs[feature];
	struct key_split split;
	struct key_place next;
	unsigned i;

	key_divide(trial->table, feature, place, &split);
	for (i = 0; i < split.count; i++) {
		next = key_follow(trial->table, feature, place,
			split.leads[i], trial->arena);
		if (next.count > 1 && next.count < place->count)
			cost += try_rest(trial, &next);
	}
	return cost;
}

static double
try_rest(struct trial *trial, const struct key_place *place)
{
	struct ranking ranking = {.most = 1};

	rank_all(trial->table, place, NULL, &ranking, trial->arena);
	if (ranking.count == 0)
		return 0;
	trial->places += place->count;
	if (trial->places > MOST_PLACES)
		return key_place_pieces(trial->table, place) *
			ranking.cheapest * log2(place->count);
	return try_feature(trial, place, (unsigned)ranking.features[0]);
}

/* The best of those ranked, by trial. */
static int
try_ranked(const struct key_table *table, const struct key_place *place,
	const struct ranking *ranking)
{
	struct trial trial = {.table = table};
	double value, least = INFINITY;
	unsigned i, best = 0;

	for (i = 0; i < ranking->count; i++) {
		trial.arena = arena_new();
		trial.places = 0;
		value = try_feature(&trial, place,
			(unsigned)ranking->features[i]);
		arena_free(trial.arena);
		if (i == 0 || less(value, least)) {
			least = value;
			best = i;
		}
	}
	return ranking->features[best];
}

/* The first feature of those to ask first that divides anything, or -1. */
static int
choose_first(const struct key_table *table, const struct key_place *place)
{
	struct key_split split;
	unsigned i;

	for (i = 0; i < table->first_count; i++) {
		uint64_t all = UINT64_MAX;
		unsigned j;

		key_divide(table, table->first[i], place, &split);
		for (j = 0; j < place->count; j++)
			all &= key_shown(table, table->first[i],
				place->items[j]);
		if (split.count > 1 && all == 0)
			return (int)table->first[i];
	}
	return -1;
}

int
key_choose(const struct key_table *table, const struct key_place *place,
	const bool *used, bool *given_up)
{
	struct ranking ranking = {.most = place->count > 2 &&
		place->count <= TRIED_ITEMS ? TRIED : 1};
	int first = choose_first(table, place);
	struct arena *arena;

	*given_up = false;
	if (first >= 0)
		return first;
	arena = arena_new();
	rank_all(table, place, used, &ranking, arena);
	arena_free(arena);
	*given_up = ranking.given_up;
	if (ranking.count == 0)
		return -1;
	return ranking.count == 1 ? ranking.features[0] :
		try_ranked(table, place, &ranking);
}
