/*
 * Rates over several groups of pieces, and numbers from a rate.
 */
#include "study/estimate/pooled.h"

#include <math.h>

enum { HALVINGS = 200 };

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

struct figure
estimate_pooled(const struct pool *pool, const struct frequencies *group)
{
	double distinct = frequencies_distinct(group);
	double p = -expm1(-pool->rate), missed = exp(-pool->rate), slope;

	if (!(distinct > 0))
		return (struct figure){.state = FIGURE_NONE};
	if (!pool->given)
		return figure_least(distinct, distinct);
	slope = distinct * missed / (p * p);
	return figure_log_normal(distinct, distinct / p, distinct * missed /
		(p * p) + slope * slope * pool->variance);
}
