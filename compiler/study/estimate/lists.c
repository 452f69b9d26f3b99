/*
 * Chapman's estimator and the intervals that go with it.
 */
#include "study/estimate/lists.h"

#include <glib.h>
#include <math.h>

#include "study/estimate/chain.h"
#include "study/estimate/quantile.h"

#define MOST_PIECES 2000000000u

void
lists_exact(unsigned first, unsigned second, unsigned both, double *low,
	double *high)
{
	const unsigned caught[] = {first, second};

	chain_exact(caught, 2, first + second - both, low, high);
}

static struct figure
with_sadinle(double first, double second, double both, double point,
	double variance)
{
	double a = both + 0.5, b = first - both + 0.5, c = second - both + 0.5;
	double seen = first + second - both;
	double z = quantile_normal(1 - TAIL);
	double s = sqrt(1 / a + 1 / b + 1 / c + a / (b * c));
	double unseen = b * c / a;

	return figure_given(seen, point, variance,
		seen - 0.5 + unseen * exp(-z * s),
		seen - 0.5 + unseen * exp(z * s));
}

/* The formulas, also where none is on both. */
static struct figure
by_formula(unsigned first, unsigned second, unsigned both,
	enum lists_interval interval)
{
	double n1 = first, n2 = second, m = both;
	double seen = n1 + n2 - m, low, high, z;
	double point = (n1 + 1) * (n2 + 1) / (m + 1) - 1;
	double variance = (n1 + 1) * (n2 + 1) * (n1 - m) * (n2 - m) /
		((m + 1) * (m + 1) * (m + 2));

	switch (interval) {
	case LISTS_EXACT:
		break;
	case LISTS_LOG_NORMAL:
		if (variance > 0)
			return figure_log_normal(seen, point, variance);
		break;
	case LISTS_SADINLE:
		return with_sadinle(n1, n2, m, point, variance);
	case LISTS_WALD:
		z = quantile_normal(1 - TAIL) * sqrt(variance);
		return figure_given(seen, point, variance, point - z,
			point + z);
	}
	lists_exact(first, second, both, &low, &high);
	return figure_given(seen, point, variance, low, high);
}

struct figure
estimate_chapman(unsigned first, unsigned second, unsigned both,
	enum lists_interval interval)
{
	double seen = (double)first + second - both, low, high;

	if (first == 0 || second == 0 || both > first || both > second ||
		(double)first + second > MOST_PIECES)
		return (struct figure){.state = FIGURE_NONE};
	if (both > 0)
		return by_formula(first, second, both, interval);
	lists_exact(first, second, both, &low, &high);
	return figure_least(seen, low);
}

double
lists_coverage(unsigned all, unsigned first, unsigned second,
	enum lists_interval interval)
{
	unsigned most = MIN(all, first + second), distinct;
	double sum = 0;
	struct figure figure;
	struct chain chain;

	chain_init(&chain, most, first);
	chain_step(&chain, all, second);
	for (distinct = first; distinct <= most; distinct++) {
		if (!(chain.chances[distinct] > 0))
			continue;
		figure = by_formula(first, second, first + second - distinct,
			interval);
		if (figure.low <= all && figure.high >= all)
			sum += chain.chances[distinct];
	}
	chain_release(&chain);
	return sum;
}
