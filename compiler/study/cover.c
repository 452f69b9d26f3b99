/*
 * Small instances by the least weight that reaches each set of elements;
 * larger ones by taking the best set next, again and again.
 */
#include "study/cover.h"

#include <glib.h>
#include <math.h>
#include <string.h>

struct covering {
	const struct cover_set *sets;
	unsigned count;
	unsigned universe;
	struct arena *arena;
	GArray *chosen;		/* unsigned */
};

/* Work that the exact way may cost: subsets times sets. */
static const double most_work = 3e7;

static unsigned
count_reachable(const struct covering *covering, int64_t budget)
{
	bool *has = g_new0(bool, covering->universe + 1);
	unsigned i, j, reachable = 0;

	for (i = 0; i < covering->count; i++)
		for (j = 0; covering->sets[i].weight <= budget &&
			j < covering->sets[i].count; j++) {
			bool *one = &has[covering->sets[i].items[j]];

			reachable += !*one;
			*one = true;
		}
	g_free(has);
	return reachable;
}

/* Those that cover most anew come first; of equals, the lighter. */
static void
order_exact(struct covering *covering)
{
	bool *done = g_new0(bool, covering->universe + 1);
	unsigned *chosen = (unsigned *)(void *)covering->chosen->data;
	unsigned at, i, j;

	for (at = 0; at < covering->chosen->len; at++) {
		unsigned best = at, most = 0;

		for (i = at; i < covering->chosen->len; i++) {
			const struct cover_set *set =
				&covering->sets[chosen[i]];
			unsigned gain = 0;

			for (j = 0; j < set->count; j++)
				gain += !done[set->items[j]];
			if (gain > most || (gain == most && set->weight <
				covering->sets[chosen[best]].weight)) {
				most = gain;
				best = i;
			}
		}
		i = chosen[at];
		chosen[at] = chosen[best];
		chosen[best] = i;
		for (j = 0; j < covering->sets[chosen[at]].count; j++)
			done[covering->sets[chosen[at]].items[j]] = true;
	}
	g_free(done);
}

static struct cover *
finish(struct covering *covering, int64_t budget)
{
	struct cover *cover = arena_one(covering->arena, struct cover);
	unsigned *sets = arena_array(covering->arena, unsigned,
		covering->chosen->len);
	unsigned *gains = arena_array(covering->arena, unsigned,
		covering->chosen->len);
	bool *done = g_new0(bool, covering->universe + 1);
	unsigned i, j;

	for (i = 0; i < covering->chosen->len; i++) {
		const struct cover_set *set;

		sets[i] = g_array_index(covering->chosen, unsigned, i);
		set = &covering->sets[sets[i]];
		cover->weight += set->weight;
		for (j = 0; j < set->count; j++) {
			gains[i] += !done[set->items[j]];
			done[set->items[j]] = true;
		}
		cover->covered += gains[i];
	}
	cover->sets = sets;
	cover->gains = gains;
	cover->count = covering->chosen->len;
	cover->beyond = covering->universe - count_reachable(covering,
		budget);
	g_free(done);
	return cover;
}

/* The state of the exact way: for each set of elements, how it was reached. */
struct reached {
	int64_t weight;		/* -1: not */
	uint32_t from;
	uint32_t set;
};

static uint32_t
mask_of(const struct cover_set *set)
{
	uint32_t mask = 0;
	unsigned i;

	for (i = 0; i < set->count; i++)
		mask |= (uint32_t)1 << set->items[i];
	return mask;
}

/* A union only grows, so each is settled before it is gone on from. */
static struct reached *
reach(const struct covering *covering, int64_t budget)
{
	uint32_t full = (uint32_t)1 << covering->universe, mask;
	struct reached *all = g_new(struct reached, full);
	unsigned i;

	for (mask = 0; mask < full; mask++)
		all[mask].weight = -1;
	all[0].weight = 0;
	for (mask = 0; mask < full; mask++)
		for (i = 0; all[mask].weight >= 0 && i < covering->count;
			i++) {
			const struct cover_set *set = &covering->sets[i];
			uint32_t next = mask | mask_of(set);
			int64_t weight = all[mask].weight + set->weight;

			if (next == mask || weight > budget ||
				(all[next].weight >= 0 &&
				all[next].weight <= weight))
				continue;
			all[next] = (struct reached){weight, mask, i};
		}
	return all;
}

/* Of the sets of elements within the budget, the largest, then the lightest. */
static struct cover *
solve(struct covering *covering, int64_t budget)
{
	struct reached *all = reach(covering, budget);
	uint32_t full = (uint32_t)1 << covering->universe, mask, best = 0;
	struct cover *cover;

	for (mask = 0; mask < full; mask++) {
		int more = __builtin_popcount(mask) -
			__builtin_popcount(best);

		if (all[mask].weight >= 0 && (more > 0 || (more == 0 &&
			all[mask].weight < all[best].weight)))
			best = mask;
	}
	for (mask = best; mask != 0; mask = all[mask].from)
		g_array_append_val(covering->chosen, all[mask].set);
	g_free(all);
	order_exact(covering);
	cover = finish(covering, budget);
	cover->exact = true;
	cover->least = (double)cover->weight;
	cover->factor = 1;
	return cover;
}

static bool
is_small(const struct covering *covering)
{
	return covering->universe <= COVER_EXACT &&
		ldexp(covering->count, (int)covering->universe) <= most_work;
}

/* What greedy choice keeps: who has an element, and what each would add. */
struct greed {
	const struct covering *covering;
	unsigned *adds;		/* by set: elements not yet covered */
	unsigned *starts;	/* by element, into `owners` */
	unsigned *owners;	/* sets */
	double *price;		/* by element, once covered; else -1 */
};

static void
greed_init(struct greed *greed, const struct covering *covering)
{
	unsigned i, j, sum = 0, universe = covering->universe;
	unsigned *fill = g_new0(unsigned, universe + 1);

	*greed = (struct greed){
		.covering = covering,
		.adds = g_new0(unsigned, covering->count + 1),
		.starts = g_new0(unsigned, universe + 1),
		.price = g_new(double, universe + 1),
	};
	for (i = 0; i < covering->count; i++)
		for (j = 0; j < covering->sets[i].count; j++, sum++)
			fill[covering->sets[i].items[j]]++;
	greed->owners = g_new(unsigned, sum + 1);
	for (i = 0, sum = 0; i < universe; i++) {
		greed->price[i] = -1;
		greed->starts[i] = sum;
		sum += fill[i];
		fill[i] = greed->starts[i];
	}
	greed->starts[universe] = sum;
	for (i = 0; i < covering->count; i++) {
		greed->adds[i] = covering->sets[i].count;
		for (j = 0; j < covering->sets[i].count; j++)
			greed->owners[fill[covering->sets[i].items[j]]++] = i;
	}
	g_free(fill);
}

static void
greed_release(struct greed *greed)
{
	g_free(greed->adds);
	g_free(greed->starts);
	g_free(greed->owners);
	g_free(greed->price);
}

static void
take(struct greed *greed, unsigned set)
{
	const struct cover_set *one = &greed->covering->sets[set];
	double price = (double)one->weight / greed->adds[set];
	unsigned i, j;

	g_array_append_val(greed->covering->chosen, set);
	for (i = 0; i < one->count; i++) {
		unsigned item = one->items[i];

		if (greed->price[item] >= 0)
			continue;
		greed->price[item] = price;
		for (j = greed->starts[item]; j < greed->starts[item + 1]; j++)
			greed->adds[greed->owners[j]]--;
	}
}

/* Whether a set gives more for its weight than another; of equals, no. */
static bool
is_better(const struct greed *greed, unsigned set, unsigned than)
{
	const struct cover_set *sets = greed->covering->sets;
	/* Cross-multiplied, so that a weight of 0 is fine. */
	double mine = (double)greed->adds[set] * (double)sets[than].weight;
	double other = (double)greed->adds[than] * (double)sets[set].weight;

	if (mine > other || mine < other)
		return mine > other;
	return greed->adds[set] > greed->adds[than];
}

/* Takes the best set within what is left, until none adds anything. */
static void
take_all(struct greed *greed, int64_t left)
{
	const struct covering *covering = greed->covering;

	for (;;) {
		unsigned best = covering->count, i;

		for (i = 0; i < covering->count; i++)
			if (greed->adds[i] > 0 &&
				covering->sets[i].weight <= left &&
				(best == covering->count ||
				is_better(greed, i, best)))
				best = i;
		if (best == covering->count)
			return;
		left -= covering->sets[best].weight;
		take(greed, best);
	}
}

/*
 * The prices of greed, divided so that no set is charged more than it weighs,
 * are a solution of the dual: their sum is below every cover's weight.
 */
static double
bound(const struct greed *greed)
{
	const struct covering *covering = greed->covering;
	double worst = 1, sum = 0;
	unsigned i, j;

	for (i = 0; i < covering->count; i++) {
		const struct cover_set *set = &covering->sets[i];
		double charged = 0;

		for (j = 0; j < set->count; j++)
			charged += MAX(greed->price[set->items[j]], 0);
		worst = MAX(worst, charged / (double)set->weight);
	}
	for (i = 0; i < covering->universe; i++)
		sum += MAX(greed->price[i], 0);
	return sum / worst;
}

static double
harmonic(const struct covering *covering)
{
	unsigned largest = 1, i;
	double sum = 0;

	for (i = 0; i < covering->count; i++)
		largest = MAX(largest, covering->sets[i].count);
	for (i = 1; i <= largest; i++)
		sum += 1.0 / i;
	return sum;
}

struct cover *
cover_all(const struct cover_set *sets, unsigned count, unsigned universe,
	struct arena *arena)
{
	struct covering covering = {sets, count, universe, arena,
		g_array_new(FALSE, FALSE, sizeof(unsigned))};
	struct greed greed;
	struct cover *cover;

	if (is_small(&covering)) {
		cover = solve(&covering, INT64_MAX);
	} else {
		greed_init(&greed, &covering);
		take_all(&greed, INT64_MAX);
		cover = finish(&covering, INT64_MAX);
		/* A hair off for rounding, so that it stays a bound. */
		cover->least = bound(&greed) * (1 - 1e-9);
		cover->factor = harmonic(&covering);
		greed_release(&greed);
	}
	g_array_free(covering.chosen, TRUE);
	return cover;
}

/* The one set within the budget that covers most; count if there is none. */
static unsigned
best_single(const struct covering *covering, int64_t budget)
{
	unsigned best = covering->count, i;

	for (i = 0; i < covering->count; i++)
		if (covering->sets[i].weight <= budget &&
			(best == covering->count || covering->sets[i].count >
			covering->sets[best].count))
			best = i;
	return best;
}

struct cover *
cover_within(const struct cover_set *sets, unsigned count, unsigned universe,
	int64_t budget, struct arena *arena)
{
	struct covering covering = {sets, count, universe, arena,
		g_array_new(FALSE, FALSE, sizeof(unsigned))};
	struct greed greed;
	struct cover *cover;
	unsigned single;

	if (is_small(&covering)) {
		cover = solve(&covering, budget);
	} else {
		greed_init(&greed, &covering);
		take_all(&greed, budget);
		greed_release(&greed);
		cover = finish(&covering, budget);
		single = best_single(&covering, budget);
		if (single < count && sets[single].count > cover->covered) {
			g_array_set_size(covering.chosen, 0);
			g_array_append_val(covering.chosen, single);
			cover = finish(&covering, budget);
		}
		cover->factor = 2 / (1 - exp(-1));
	}
	g_array_free(covering.chosen, TRUE);
	return cover;
}
