/*
 * A key over so many records and features, made up from a seed: of every 100
 * scores 5 are of two states, 3 unknown, 2 inapplicable. Prints what the key
 * comes to.
 */
#include "study/key_build.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>

#include "base/arena.h"

static uint64_t state = 1974;

static unsigned
pick(unsigned below)
{
	uint64_t x;

	state += 0x9E3779B97F4A7C15;
	x = (state ^ state >> 30) * 0xBF58476D1CE4E5B9;
	x = (x ^ x >> 27) * 0x94D049BB133111EB;
	return (unsigned)((x ^ x >> 31) >> 33) % below;
}

static uint64_t
pick_states(unsigned states)
{
	unsigned chance = pick(100);

	if (chance < 2)
		return KEY_INAPPLICABLE;
	if (chance < 5)
		return ((uint64_t)1 << states) - 1;
	if (chance < 10)
		return (uint64_t)1 << pick(states) |
			(uint64_t)1 << pick(states);
	return (uint64_t)1 << pick(states);
}

int
main(int count, char **words)
{
	struct arena *arena = arena_new();
	struct key_table table = {0};
	uint64_t *sets;
	double *common, *costs;
	struct key *key;
	unsigned i, j;

	table.items = count > 1 ? (unsigned)atoi(words[1]) : 2000;
	table.features = count > 2 ? (unsigned)atoi(words[2]) : 100;
	sets = arena_array(arena, uint64_t,
		(size_t)table.items * table.features);
	common = arena_array(arena, double, table.items);
	costs = arena_array(arena, double, table.features);
	for (i = 0; i < table.features; i++) {
		unsigned states = 2 + pick(5);

		costs[i] = pow(1.4, pick(10));
		for (j = 0; j < table.items; j++)
			sets[(size_t)i * table.items + j] =
				pick_states(states);
	}
	for (i = 0; i < table.items; i++)
		common[i] = 1 + pick(20);
	table.sets = sets;
	table.common = common;
	table.costs = costs;
	key = key_build(&table, arena);
	printf("%u records by %u features: %u steps, %u leads, mean %.2f, "
		"most %u, cost %.2f, together %u\n", table.items,
		table.features, key->count, key->report.leads,
		key->report.mean, key->report.longest, key->report.cost,
		key->report.together);
	arena_free(arena);
	return 0;
}
