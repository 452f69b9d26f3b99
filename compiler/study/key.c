/*
 * Dallwitz's measure. An item that may show several states stands under each
 * of them, so the states together hold more items than there are; that is what
 * the penalty is taken from.
 */
#include "study/key.h"

#include <math.h>

enum { STATES = 64 };

/* The items that one state holds. */
struct state {
	unsigned items;
	double common;
	double share;	/* of those that may show others, their part alone */
};

/* Sorts the items under their states; false where one shows none. */
static bool
sort_items(const uint64_t *sets, const double *common, unsigned count,
	struct state *states)
{
	unsigned i, j;

	for (i = 0; i < count; i++) {
		int several = __builtin_popcountll(sets[i]);

		if (several == 0)
			return false;
		for (j = 0; j < STATES; j++) {
			if ((sets[i] >> j & 1) == 0)
				continue;
			states[j].items++;
			states[j].common += common[i];
			states[j].share += common[i] / several;
		}
	}
	return true;
}

struct key_weight
key_weigh(const uint64_t *sets, const double *common, unsigned count,
	double variability)
{
	struct key_weight weight = {0};
	struct state states[STATES] = {{0}};
	double held = 0, all = 0, bits = log2(count);
	unsigned places = 0, i;

	if (count < 2 || !sort_items(sets, common, count, states))
		return weight;
	for (i = 0; i < STATES; i++) {
		if (states[i].items == 0)
			continue;
		if (states[i].items == count)
			return weight;
		places += states[i].items;
		held += states[i].common;
		all += states[i].share;
		weight.rest += states[i].common * log2(states[i].items);
		weight.left += states[i].share * states[i].items;
	}
	weight.usable = true;
	weight.rest /= held;
	weight.left /= all;
	weight.power = bits - weight.rest;
	/*
	 * The published penalty grows with the states that all items show;
	 * with any such the feature is not usable here, so it is 1 + 0.
	 */
	weight.variation = (1 - variability) / variability *
		(places - count) * (count + 8.0) / (count * bits);
	return weight;
}

double
key_suitability(const struct key_weight *weight, double cost,
	double cheapest)
{
	return cost + cheapest * (weight->rest + weight->variation);
}
