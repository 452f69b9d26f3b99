/*
 * Rates over several groups of pieces, and numbers from a rate.
 */
#include "study/estimate/pooled.h"

#include <gsl/gsl_cdf.h>
#include <math.h>

#include "study/estimate/quantile.h"

enum { HALVINGS = 200, MOST_PIECES = 1000000 };

/* λ/(1−e^−λ) = mean, for a mean above 1. */
static double
truncated_rate(double mean)
{
	double low = 0, high = mean, middle;
	int i;

	for (i = 0; i < HALVINGS; i++) {
		middle = low + (high - low) / 2;
		if (middle <= low || middle >= high)
			break;
		if (middle / -expm1(-middle) < mean)
			low = middle;
		else
			high = middle;
	}
	return high;
}

struct pool
pool_poisson(const struct frequencies *groups, unsigned count)
{
	double distinct = 0, sightings = 0, mean, rate;
	unsigned i;

	for (i = 0; i < count; i++) {
		distinct += frequencies_distinct(&groups[i]);
		sightings += frequencies_sightings(&groups[i]);
	}
	if (!(sightings > distinct))
		return (struct pool){false, 0, 0};
	mean = sightings / distinct;
	rate = truncated_rate(mean);
	return (struct pool){true, rate,
		rate * rate / (mean * (1 + rate - mean) * distinct)};
}

struct pool
pool_zelterman(const struct frequencies *groups, unsigned count)
{
	double f1 = 0, f2 = 0, rate;
	unsigned i;

	for (i = 0; i < count; i++) {
		f1 += frequencies_at(&groups[i], 1);
		f2 += frequencies_at(&groups[i], 2);
	}
	if (!(f1 > 0) || !(f2 > 0))
		return (struct pool){false, 0, 0};
	rate = 2 * f2 / f1;
	return (struct pool){true, rate, rate * rate * (1 / f1 + 1 / f2)};
}

static double
pool_variance(const struct pool *pool, double distinct)
{
	double p = -expm1(-pool->rate), missed = exp(-pool->rate);
	double slope = distinct * missed / (p * p);

	return distinct * missed / (p * p) + slope * slope * pool->variance;
}

/* P(at least `distinct` of `all` are seen): grows with `all`. */
static bool
many_enough(double p, unsigned distinct, unsigned all)
{
	return distinct == 0 ||
		gsl_cdf_binomial_Q(distinct - 1, p, all) >= TAIL;
}

/* P(at most so many): falls with `all`. */
static bool
few_enough(double p, unsigned distinct, unsigned all)
{
	return gsl_cdf_binomial_P(distinct, p, all) >= TAIL;
}

/* The first number from `low` on that is not as the limit asks. */
static double
find_limit(double p, unsigned distinct, bool upper)
{
	unsigned low = distinct, high = distinct, middle;

	while (high < MOST_PIECES && (upper ? few_enough(p, distinct, high) :
		!many_enough(p, distinct, high))) {
		low = high + 1;
		high = high * 2 + 1;
	}
	while (low < high) {
		middle = low + (high - low) / 2;
		if (upper ? few_enough(p, distinct, middle) :
			!many_enough(p, distinct, middle))
			low = middle + 1;
		else
			high = middle;
	}
	if (!upper)
		return low;
	return low >= MOST_PIECES ? INFINITY : low - 1.0;
}

struct figure
estimate_pooled(const struct pool *pool, const struct frequencies *group)
{
	double distinct = frequencies_distinct(group), point, spread, low, high;
	double p = -expm1(-pool->rate), z = quantile_normal(1 - TAIL), rise;

	if (!(distinct > 0) || distinct > MOST_PIECES)
		return (struct figure){.state = FIGURE_NONE};
	if (!pool->given)
		return figure_least(distinct, distinct);
	point = distinct / p;
	low = find_limit(p, (unsigned)distinct, false);
	high = find_limit(p, (unsigned)distinct, true);
	/* What the rate's own error adds, on the scale of its logarithm. */
	spread = exp(z * sqrt(pool->variance) / pool->rate);
	rise = log(-expm1(-pool->rate * spread) / p);
	low = point * exp(-hypot(log(fmax(point / low, 1)), rise));
	rise = log(p / -expm1(-pool->rate / spread));
	high = point * exp(hypot(log(high / point), rise));
	return figure_given(distinct, point, pool_variance(pool, distinct),
		low, high);
}

struct figure
estimate_by_rate(const struct pool *pool, const struct frequencies *group)
{
	double distinct = frequencies_distinct(group);

	if (!(distinct > 0))
		return (struct figure){.state = FIGURE_NONE};
	if (!pool->given)
		return figure_least(distinct, distinct);
	return figure_log_normal(distinct, distinct / -expm1(-pool->rate),
		pool_variance(pool, distinct));
}
