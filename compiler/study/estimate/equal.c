/*
 * The deals: how many new pieces each occasion brought is drawn backwards from
 * the end of the chain, then the sightings of known pieces are dealt forwards.
 */
#include "study/estimate/equal.h"

#include <glib.h>
#include <math.h>
#include <stdint.h>

#include "study/estimate/chain.h"

/* Too unlikely for any deal. */
#define NEVER 1e-14

enum { MOST_DEALS = 1999, ENOUGH = 100, MOST_CELLS = 4000000 };

/* Steele, Lea and Flood 2014: splitmix64. */
struct dice {
	uint64_t state;
};

static uint64_t
roll(struct dice *dice)
{
	uint64_t z = dice->state += 0x9e3779b97f4a7c15;

	z = (z ^ z >> 30) * 0xbf58476d1ce4e5b9;
	z = (z ^ z >> 27) * 0x94d049bb133111eb;
	return z ^ z >> 31;
}

/* From 0 up to but not 1; from 0 up to but not `below`. */
static double
roll_share(struct dice *dice)
{
	return (roll(dice) >> 11) * 0x1p-53;
}

static unsigned
roll_below(struct dice *dice, unsigned below)
{
	return (roll(dice) >> 32) * below >> 32;
}

struct table {
	unsigned occasions;	/* that saw any */
	unsigned distinct;
	unsigned *caught;
	double *known;		/* a row after each occasion: chances of m */
	double *logs;		/* log m! */
	double *fresh;		/* log of N(N−1)... over m factors */
	unsigned *news;		/* of the deal at hand, by occasion */
	unsigned *times;	/* of the deal at hand, by piece */
	unsigned *order;
};

static double *
row_of(const struct table *table, unsigned occasion)
{
	return table->known + (size_t)occasion * (table->distinct + 1);
}

static void
fill(struct table *table, double all)
{
	unsigned width = table->distinct + 1, i, m;
	struct chain chain;

	chain_init(&chain, table->distinct, 0);
	for (i = 0; i < table->occasions; i++) {
		chain_step(&chain, all, table->caught[i]);
		for (m = 0; m < width; m++)
			row_of(table, i)[m] = chain.chances[m];
	}
	chain_release(&chain);
	table->logs[0] = table->fresh[0] = 0;
	for (m = 1; m < width; m++) {
		table->logs[m] = table->logs[m - 1] + log(m);
		table->fresh[m] = table->fresh[m - 1] + log(all - m + 1);
	}
}

/* How likely it is that `before` known pieces lead to `after` on this
   occasion: the chance of the ones times the hypergeometric of the others. */
static double
weight(const struct table *table, unsigned occasion, unsigned before,
	unsigned after)
{
	unsigned caught = table->caught[occasion], fresh = after - before;
	unsigned again = caught - fresh;
	double chance = row_of(table, occasion - 1)[before];

	if (again > before || chance < NEVER)
		return 0;
	return chance *
		exp(table->fresh[after] - table->fresh[before] -
			table->logs[fresh] + table->logs[before] -
			table->logs[again] - table->logs[before - again] -
			table->fresh[caught] + table->logs[caught]);
}

static unsigned
step_back(const struct table *table, struct dice *dice, unsigned occasion,
	unsigned after)
{
	unsigned least = after > table->caught[occasion] ?
		after - table->caught[occasion] : 0;
	double sum = 0, left;
	unsigned before;

	for (before = least; before <= after; before++)
		sum += weight(table, occasion, before, after);
	if (!(sum > 0))
		return least;
	left = roll_share(dice) * sum;
	for (before = least; before < after; before++) {
		left -= weight(table, occasion, before, after);
		if (left < 0)
			break;
	}
	return before;
}

static void
draw_news(struct table *table, struct dice *dice)
{
	unsigned after = table->distinct, before, i;

	for (i = table->occasions - 1; i > 0; i--) {
		before = step_back(table, dice, i, after);
		table->news[i] = after - before;
		after = before;
	}
	table->news[0] = after;
}

static unsigned
pairs_of(const unsigned *times, unsigned count)
{
	unsigned pairs = 0, i;

	for (i = 0; i < count; i++)
		if (times[i] > 1)
			pairs += times[i] * (times[i] - 1) / 2;
	return pairs;
}

static unsigned
deal(struct table *table, struct dice *dice)
{
	unsigned known = 0, i, k, other, piece;

	draw_news(table, dice);
	for (i = 0; i < table->occasions; i++) {
		unsigned again = table->caught[i] - table->news[i];

		for (k = 0; k < again; k++) {
			other = k + roll_below(dice, known - k);
			piece = table->order[other];
			table->order[other] = table->order[k];
			table->order[k] = piece;
			table->times[piece]++;
		}
		for (k = 0; k < table->news[i]; k++, known++) {
			table->order[known] = known;
			table->times[known] = 1;
		}
	}
	return pairs_of(table->times, table->distinct);
}

static void
compare(struct table *table, struct equal_test *test)
{
	struct dice dice = {0};
	unsigned more = 0, fewer = 0, pairs;
	double sum = 0;

	while (test->deals < MOST_DEALS && (more < ENOUGH || fewer < ENOUGH)) {
		pairs = deal(table, &dice);
		more += pairs >= test->pairs;
		fewer += pairs <= test->pairs;
		sum += pairs;
		test->deals++;
	}
	test->expected = sum / test->deals;
	test->uneven = (more + 1.0) / (test->deals + 1);
	test->even = (fewer + 1.0) / (test->deals + 1);
	test->done = true;
}

/* Its rows and columns from the history; false if the deals cannot differ. */
static bool
set_table(struct table *table, const struct history *history,
	struct equal_test *test)
{
	struct history_sums sums = history_sum(history);
	struct occasion *occasions;
	unsigned times, i, k;

	if (sums.held < 3 || sums.distinct < 2 ||
		sums.sightings <= sums.distinct ||
		(double)sums.held * (sums.distinct + 1) > MOST_CELLS ||
		sums.sightings > CHAIN_MOST_SIGHTINGS)
		return false;
	for (i = 0; i < history->pieces; i++) {
		for (k = times = 0; k < history->occasions; k++)
			times += history_seen(history, i, k);
		test->pairs += times > 1 ? times * (times - 1) / 2 : 0;
	}
	occasions = g_new(struct occasion, history->occasions);
	history_occasions(history, occasions);
	table->caught = g_new(unsigned, sums.held);
	for (i = 0; i < history->occasions; i++)
		if (occasions[i].caught > 0)
			table->caught[table->occasions++] =
				occasions[i].caught;
	g_free(occasions);
	table->distinct = sums.distinct;
	return true;
}

struct equal_test
equal_test(const struct history *history)
{
	struct equal_test test = {0};
	struct table table = {0};
	unsigned width;
	double all;

	if (!set_table(&table, history, &test))
		return test;
	width = table.distinct + 1;
	all = ceil(darroch_root(table.caught, table.occasions,
		table.distinct));
	table.known = g_new(double, (size_t)table.occasions * width);
	table.logs = g_new(double, width);
	table.fresh = g_new(double, width);
	table.news = g_new(unsigned, table.occasions);
	table.times = g_new(unsigned, width);
	table.order = g_new(unsigned, width);
	fill(&table, all);
	compare(&table, &test);
	g_free(table.caught);
	g_free(table.known);
	g_free(table.logs);
	g_free(table.fresh);
	g_free(table.news);
	g_free(table.times);
	g_free(table.order);
	return test;
}
