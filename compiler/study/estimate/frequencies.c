/*
 * Estimators on frequencies of frequencies. All is worked out in doubles: f1⁴
 * leaves 64 bits from f1 = 55,109 on.
 */
#include "study/estimate/frequencies.h"

#include <math.h>

#include "study/estimate/quantile.h"

enum { MOST_RARE = 10, HALVINGS = 200 };

static double
times(const struct frequencies *frequencies, unsigned n)
{
	return n <= frequencies->count ? frequencies->seen[n - 1] : 0;
}

double
frequencies_distinct(const struct frequencies *frequencies)
{
	double sum = 0;
	unsigned i;

	for (i = 0; i < frequencies->count; i++)
		sum += frequencies->seen[i];
	return sum;
}

double
frequencies_sightings(const struct frequencies *frequencies)
{
	double sum = 0;
	unsigned i;

	for (i = 0; i < frequencies->count; i++)
		sum += (i + 1.0) * frequencies->seen[i];
	return sum;
}

/* The guide's eq. 8 and 14: nothing was seen only once. */
static struct figure
all_repeated(double distinct, double sightings)
{
	double p = exp(-sightings / distinct);
	double variance = distinct * p * (1 - p);
	double z = quantile_normal(1 - TAIL);

	return figure_given(distinct, distinct, variance,
		(distinct - z * sqrt(variance)) / (1 - p),
		(distinct + z * sqrt(variance)) / (1 - p));
}

static double
corrected_variance(double f1, double f2, double k, double all)
{
	double more = f2 + 1;
	double sum = k * f1 * (f1 - 1) / (2 * more) +
		k * k * f1 * (2 * f1 - 1) * (2 * f1 - 1) / (4 * more * more);

	if (f2 > 0)
		return sum + k * k * f1 * f1 * f2 * (f1 - 1) * (f1 - 1) /
			(4 * more * more * more * more);
	return sum - k * k * f1 * f1 * f1 * f1 / (4 * all);
}

struct figure
estimate_chao1(const struct frequencies *frequencies,
	enum chao_variant variant)
{
	double distinct = frequencies_distinct(frequencies);
	double sightings = frequencies_sightings(frequencies);
	double f1 = times(frequencies, 1), f2 = times(frequencies, 2);
	double t = frequencies->lists, k = t > 0 ? (t - 1) / t : 1;
	double unseen, variance, q;
	struct figure figure;

	if (!(distinct > 0))
		return (struct figure){.state = FIGURE_NONE};
	if (!(f1 > 0))
		return all_repeated(distinct, sightings);
	unseen = k * f1 * (f1 - 1) / (2 * (f2 + 1));
	variance = corrected_variance(f1, f2, k, distinct + unseen);
	if (variant == CHAO_CLASSIC && f2 > 0) {
		q = f1 / f2;
		unseen = k * f1 * q / 2;
		variance = f2 * (k * q * q / 2 + k * k * q * q * q +
			k * k * q * q * q * q / 4);
	}
	if (!(unseen > 0))
		return figure_least(distinct, distinct);
	figure = figure_log_normal(distinct, distinct + unseen, variance);
	if (sightings <= distinct)
		figure.high = INFINITY;
	return figure;
}

struct figure
estimate_ace(const struct frequencies *frequencies)
{
	double distinct = frequencies_distinct(frequencies);
	double rare = 0, sightings = 0, pairs = 0, coverage, spread, point;
	unsigned i;

	if (!(distinct > 0))
		return (struct figure){.state = FIGURE_NONE};
	for (i = 1; i <= MOST_RARE; i++) {
		rare += times(frequencies, i);
		sightings += i * times(frequencies, i);
		pairs += i * (i - 1.0) * times(frequencies, i);
	}
	if (sightings <= 1 || times(frequencies, 1) >= sightings)
		return figure_least(distinct, distinct);
	coverage = 1 - times(frequencies, 1) / sightings;
	spread = fmax(0, rare / coverage * pairs /
		(sightings * (sightings - 1)) - 1);
	point = distinct - rare + rare / coverage +
		times(frequencies, 1) / coverage * spread;
	return figure_given(distinct, point, 0, distinct, INFINITY);
}

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

struct figure
estimate_poisson(const struct frequencies *frequencies)
{
	double distinct = frequencies_distinct(frequencies);
	double sightings = frequencies_sightings(frequencies);
	double rate, point;

	if (!(distinct > 0))
		return (struct figure){.state = FIGURE_NONE};
	if (sightings <= distinct)
		return figure_least(distinct, distinct);
	rate = truncated_rate(sightings / distinct);
	point = distinct / -expm1(-rate);
	return figure_log_normal(distinct, point,
		point / (expm1(rate) - rate));
}

struct figure
estimate_zelterman(const struct frequencies *frequencies)
{
	double distinct = frequencies_distinct(frequencies);
	double f1 = times(frequencies, 1), f2 = times(frequencies, 2);

	if (!(distinct > 0))
		return (struct figure){.state = FIGURE_NONE};
	if (!(f1 > 0) || !(f2 > 0))
		return figure_least(distinct, distinct);
	return figure_given(distinct, distinct / -expm1(-2 * f2 / f1), 0,
		distinct, INFINITY);
}
