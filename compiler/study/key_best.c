/*
 * Search over all features at every place. What is left of a key depends only
 * on the items that are left and on how their pieces are spread, so that is
 * what results are remembered by.
 */
#include "study/key_best.h"

#include <glib.h>
#include <math.h>
#include <string.h>

#include "base/arena.h"
#include "study/key_place.h"

/* A place: each item's share of the pieces there, in parts of 10^9. */
struct memory {
	int32_t shares[KEY_BEST_ITEMS];
	double cost;		/* a piece */
};

struct searching {
	const struct key_table *table;
	GHashTable *known;	/* struct memory, by its shares */
	struct arena *arena;
};

static guint
hash_shares(gconstpointer key)
{
	const struct memory *memory = key;
	guint hash = 0;
	unsigned i;

	for (i = 0; i < KEY_BEST_ITEMS; i++)
		hash = hash * 1000003 + (guint)memory->shares[i];
	return hash ^ hash >> 15;
}

static gboolean
equal_shares(gconstpointer a, gconstpointer b)
{
	const struct memory *left = a, *right = b;

	return memcmp(left->shares, right->shares, sizeof(left->shares)) == 0;
}

/* What a piece at a place costs at least. */
static double
search(const struct searching *searching, const struct key_place *place);

static double
search_feature(const struct searching *searching,
	const struct key_place *place, unsigned feature, double pieces)
{
	const struct key_table *table = searching->table;
	double cost = table->costs[feature];
	struct arena *arena = arena_new();
	struct key_split split;
	struct key_place next;
	unsigned i;

	key_divide(table, feature, place, &split);
	for (i = 0; i < split.count; i++) {
		next = key_follow(table, feature, place, split.leads[i],
			arena);
		cost += search(searching, &next) *
			key_place_pieces(table, &next) / pieces;
	}
	arena_free(arena);
	return cost;
}

/* Whether a feature divides a place: no state holds all of its items. */
static bool
divides(const struct key_table *table, const struct key_place *place,
	unsigned feature)
{
	uint64_t all = UINT64_MAX;
	unsigned i;

	for (i = 0; i < place->count; i++)
		all &= key_shown(table, feature, place->items[i]);
	return all == 0;
}

static double
search(const struct searching *searching, const struct key_place *place)
{
	const struct key_table *table = searching->table;
	double pieces = key_place_pieces(table, place), least = INFINITY;
	struct memory here = {.cost = 0}, *known;
	unsigned i;

	if (place->count < 2)
		return 0;
	for (i = 0; i < place->count; i++)
		here.shares[place->items[i]] = 1 + (int32_t)lround(1e9 *
			place->parts[i] * table->common[place->items[i]] /
			pieces);
	known = g_hash_table_lookup(searching->known, &here);
	if (known != NULL)
		return known->cost;
	for (i = 0; i < table->features; i++)
		if (table->costs[i] < least && divides(table, place, i))
			least = fmin(least, search_feature(searching, place,
				i, pieces));
	here.cost = isinf(least) ? 0 : least;
	known = arena_one(searching->arena, struct memory);
	*known = here;
	g_hash_table_add(searching->known, known);
	return here.cost;
}

double
key_best_cost(const struct key_table *table)
{
	struct searching searching = {
		.table = table,
		.known = g_hash_table_new(hash_shares, equal_shares),
		.arena = arena_new(),
	};
	struct key_place all = key_place_all(table, searching.arena);
	double cost = search(&searching, &all);

	g_hash_table_destroy(searching.known);
	arena_free(searching.arena);
	return cost;
}
