/*
 * Dividing the items of a place by a feature. States under which the same
 * items stand are told by equal sums of a number for each item.
 */
#include "study/key_place.h"

#include <string.h>

#include "base/arena.h"

/* Of many items, so many places a hundred items at most after a feature. */
enum { MOST_PLACES = 150 };

/* A number for an item or a sum of them, with nothing in common. */
static uint64_t
mix(uint64_t x)
{
	x += 0x9E3779B97F4A7C15;
	x = (x ^ x >> 30) * 0xBF58476D1CE4E5B9;
	x = (x ^ x >> 27) * 0x94D049BB133111EB;
	return x ^ x >> 31;
}

uint64_t
key_shown(const struct key_table *table, unsigned feature, unsigned item)
{
	return table->sets[(size_t)feature * table->items + item];
}

struct key_place
key_place_new(unsigned count, struct arena *arena)
{
	return (struct key_place){
		.items = arena_array(arena, unsigned, count),
		.parts = arena_array(arena, double, count),
		.count = count,
	};
}

struct key_place
key_place_all(const struct key_table *table, struct arena *arena)
{
	struct key_place all = key_place_new(table->items, arena);
	unsigned i;

	for (i = 0; i < all.count; i++) {
		all.items[i] = i;
		all.parts[i] = 1;
	}
	return all;
}

double
key_place_pieces(const struct key_table *table,
	const struct key_place *place)
{
	double pieces = 0;
	unsigned i;

	for (i = 0; i < place->count; i++)
		pieces += place->parts[i] * table->common[place->items[i]];
	return pieces;
}

void
key_divide(const struct key_table *table, unsigned feature,
	const struct key_place *place, struct key_split *split)
{
	uint64_t sums[KEY_STATES] = {0}, held = 0, sum, states;
	unsigned i, j;

	for (i = 0; i < place->count; i++) {
		states = key_shown(table, feature, place->items[i]);
		held |= states;
		for (sum = mix(place->items[i]); states != 0;
			states &= states - 1)
			sums[__builtin_ctzll(states)] += sum;
	}
	split->count = 0;
	split->mark = 0;
	for (; held != 0; held &= ~split->leads[split->count++]) {
		i = (unsigned)__builtin_ctzll(held);
		split->leads[split->count] = 0;
		split->mark += mix(sums[i]);
		for (j = i; j < KEY_STATES; j++)
			if ((held >> j & 1) != 0 && sums[j] == sums[i])
				split->leads[split->count] |= (uint64_t)1 << j;
	}
}

struct key_place
key_follow(const struct key_table *table, unsigned feature,
	const struct key_place *place, uint64_t lead, struct arena *arena)
{
	struct key_place next;
	unsigned i, count = 0;

	for (i = 0; i < place->count; i++)
		count += (key_shown(table, feature, place->items[i]) & lead) !=
			0;
	next = key_place_new(count, arena);
	count = 0;
	for (i = 0; i < place->count; i++) {
		uint64_t states = key_shown(table, feature, place->items[i]);

		if ((states & lead) == 0)
			continue;
		next.items[count] = place->items[i];
		next.parts[count++] = place->parts[i] *
			__builtin_popcountll(states & lead) /
			__builtin_popcountll(states);
	}
	return next;
}

/* Of the states of each lead only the first counts. */
static uint64_t
first_states(const struct key_split *split)
{
	uint64_t first = 0;
	unsigned i;

	for (i = 0; i < split->count; i++)
		first |= split->leads[i] & -split->leads[i];
	return first;
}

void
key_weigh_all(const struct key_table *table, const struct key_place *place,
	struct key_weight *weights, bool *worth, struct arena *arena)
{
	uint64_t *sets = arena_array(arena, uint64_t, place->count);
	double *common = arena_array(arena, double, place->count);
	struct key_split split;
	unsigned f, i, places;
	bool several;

	for (i = 0; i < place->count; i++)
		common[i] = place->parts[i] * table->common[place->items[i]];
	for (f = 0; f < table->features; f++) {
		several = false;
		for (i = 0; i < place->count; i++) {
			sets[i] = key_shown(table, f, place->items[i]);
			several = several || (sets[i] & (sets[i] - 1)) != 0;
		}
		places = place->count;
		if (several) {
			uint64_t first;

			key_divide(table, f, place, &split);
			first = first_states(&split);
			places = 0;
			for (i = 0; i < place->count; i++) {
				sets[i] &= first;
				places += (unsigned)__builtin_popcountll(
					sets[i]);
			}
		}
		weights[f] = key_weigh(sets, common, place->count,
			KEY_VARIABILITY);
		worth[f] = weights[f].usable && (place->count <= KEY_SMALL ||
			places <= (uint64_t)place->count * MOST_PLACES / 100);
	}
}
