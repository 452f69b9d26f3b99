/*
 * Estimators on frequencies of frequencies. All is worked out in doubles: f1⁴
 * leaves 64 bits from f1 = 55,109 on.
 */
#include "study/estimate/frequencies.h"

#include <math.h>

#include "study/estimate/pooled.h"
#include "study/estimate/quantile.h"

enum { MOST_RARE = 10 };

double
frequencies_at(const struct frequencies *frequencies, unsigned n)
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
	double f1 = frequencies_at(frequencies, 1), f2 = frequencies_at(frequencies, 2);
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

/* What ACE makes of the rare ones, with its parts. */
struct rare {
	double distinct;
	double sightings;
	double pairs;		/* Σ i(i − 1)·f_i */
	double coverage;
	double spread;
};

static struct rare
rare_of(const struct frequencies *frequencies)
{
	struct rare rare = {0};
	unsigned i;

	for (i = 1; i <= MOST_RARE; i++) {
		rare.distinct += frequencies_at(frequencies, i);
		rare.sightings += i * frequencies_at(frequencies, i);
		rare.pairs += i * (i - 1.0) * frequencies_at(frequencies, i);
	}
	rare.coverage = 1 - frequencies_at(frequencies, 1) / rare.sightings;
	rare.spread = fmax(0, rare.distinct / rare.coverage * rare.pairs /
		(rare.sightings * (rare.sightings - 1)) - 1);
	return rare;
}

/* How the estimate grows with one piece more that was seen i times. */
static double
ace_slope(const struct rare *rare, double f1, double i)
{
	double n = rare->sightings, c = rare->coverage;
	double single = i <= 1 ? 1 : 0;
	double dc = f1 * i / (n * n) - single / n;
	double spread = 0;

	if (rare->spread > 0)
		spread = (rare->spread + 1) * (1 / rare->distinct - dc / c -
			(2 * n - 1) * i / (n * (n - 1))) +
			rare->distinct / c * i * (i - 1) / (n * (n - 1));
	return 1 / c - rare->distinct * dc / (c * c) +
		(single * rare->spread + f1 * spread) / c -
		f1 * rare->spread * dc / (c * c);
}

static double
ace_variance(const struct frequencies *frequencies, const struct rare *rare,
	double point)
{
	double squares = 0, sum = 0, slope;
	unsigned i;

	for (i = 1; i <= frequencies->count; i++) {
		slope = i > MOST_RARE ? 1 :
			ace_slope(rare, frequencies_at(frequencies, 1), i);
		squares += slope * slope * frequencies_at(frequencies, i);
		sum += slope * frequencies_at(frequencies, i);
	}
	return squares - sum * sum / point;
}

struct figure
estimate_ace(const struct frequencies *frequencies)
{
	double distinct = frequencies_distinct(frequencies);
	struct rare rare = rare_of(frequencies);
	double point;

	if (!(distinct > 0))
		return (struct figure){.state = FIGURE_NONE};
	if (!(rare.distinct > 0))
		return figure_least(distinct, distinct);
	if (rare.sightings <= 1 || frequencies_at(frequencies, 1) >= rare.sightings)
		return figure_least(distinct, distinct);
	point = distinct - rare.distinct + (rare.distinct +
		frequencies_at(frequencies, 1) * rare.spread) / rare.coverage;
	return figure_log_normal(distinct, point,
		ace_variance(frequencies, &rare, point));
}

struct figure
estimate_poisson(const struct frequencies *frequencies)
{
	struct pool pool = pool_poisson(frequencies, 1);

	return estimate_by_rate(&pool, frequencies);
}

struct figure
estimate_zelterman(const struct frequencies *frequencies)
{
	struct pool pool = pool_zelterman(frequencies, 1);

	return estimate_by_rate(&pool, frequencies);
}
