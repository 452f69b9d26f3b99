/*
 * The cheapest way on from a set of things is the cheapest over all features
 * of the look and of the ways on from what each state leaves; a set is worked
 * out once. Few things have few sets.
 */
#include "study/rest.h"

#include <glib.h>
#include <stdbool.h>

enum { STATES = 64, SETS = 1 << REST_MOST };

struct searching {
	const struct rest_table *table;
	double costs[SETS];	/* of the way on from a set; below 0: not yet */
};

static double
way_on(struct searching *searching, unsigned set);

/*
 * What is left to pay after a feature was looked at over a set of things;
 * below 0 if one state holds them all.
 */
static double
after(struct searching *searching, unsigned feature, unsigned set)
{
	const struct rest_table *table = searching->table;
	const uint64_t *sets = table->sets + (size_t)feature * table->items;
	double all = 0, cost = 0;
	unsigned i, j;

	for (i = 0; i < STATES; i++) {
		double share = 0;
		unsigned left = 0;

		for (j = 0; j < table->items; j++)
			if ((set >> j & 1) != 0 && (sets[j] >> i & 1) != 0) {
				left |= 1u << j;
				share += table->common[j] /
					__builtin_popcountll(sets[j]);
			}
		if (left == set)
			return -1;
		if (left == 0)
			continue;
		all += share;
		cost += share * way_on(searching, left);
	}
	return cost / all;
}

static double
way_on(struct searching *searching, unsigned set)
{
	double *known = &searching->costs[set], best = 0;
	bool any = false;
	unsigned i;

	if ((set & (set - 1)) == 0)
		return 0;
	for (i = 0; *known < 0 && i < searching->table->features; i++) {
		double cost = after(searching, i, set);

		if (cost < 0)
			continue;
		cost += searching->table->costs[i];
		if (!any || cost < best)
			best = cost;
		any = true;
	}
	if (*known < 0)
		*known = best;
	return *known;
}

void
rest_cost(const struct rest_table *table, double *left)
{
	struct searching *searching = g_new(struct searching, 1);
	unsigned all = (1u << table->items) - 1, i;

	searching->table = table;
	for (i = 0; i <= all; i++)
		searching->costs[i] = -1;
	for (i = 0; i < table->features; i++)
		left[i] = after(searching, i, all);
	g_free(searching);
}
