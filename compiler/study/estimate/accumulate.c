/*
 * Coverage, rarefaction and extrapolation. `n` is the effort there was: lists
 * where things are counted by lists, sightings otherwise.
 */
#include "study/estimate/accumulate.h"

#include <gsl/gsl_sf_gamma.h>
#include <math.h>

#include "study/estimate/quantile.h"

static const struct estimable unknown;

static struct estimable
bare(double value)
{
	return (struct estimable){true, value, 0, value, value};
}

static struct estimable
with_error(double value, double variance)
{
	double error = variance > 0 ? sqrt(variance) : 0;
	double z = quantile_normal(1 - TAIL);

	return (struct estimable){true, value, error, value - z * error,
		value + z * error};
}

static double
effort_of(const struct frequencies *frequencies)
{
	return frequencies->lists > 0 ? frequencies->lists :
		frequencies_sightings(frequencies);
}

struct estimable
coverage_good(const struct frequencies *frequencies)
{
	double n = frequencies_sightings(frequencies);
	double f1 = frequencies_at(frequencies, 1);
	double f2 = frequencies_at(frequencies, 2);
	struct estimable coverage;

	if (n < 2 || f1 >= n || frequencies->lists == 1)
		return unknown;
	coverage = with_error(1 - f1 / n,
		(f1 * (n - f1) + 2 * n * f2) / (n * n * n));
	coverage.low = fmax(coverage.low, 0);
	coverage.high = fmin(coverage.high, 1);
	return coverage;
}

struct estimable
coverage_chao_jost(const struct frequencies *frequencies)
{
	double n = frequencies_sightings(frequencies);
	double t = effort_of(frequencies) - 1;
	double f1 = frequencies_at(frequencies, 1);
	double f2 = frequencies_at(frequencies, 2);
	double a;

	if (n < 2 || t < 1 || (f1 <= 1 && f1 > 0 && !(f2 > 0)))
		return unknown;
	if (!(f1 > 0))
		return bare(1);
	a = f2 > 0 ? t * f1 / (t * f1 + 2 * f2) :
		t * (f1 - 1) / (t * (f1 - 1) + 2);
	return bare(1 - f1 / n * a);
}

/* The chance that a thing seen `times` in n is missed by a part of it. */
static double
missed(double n, double times, double effort)
{
	double below = n - times - effort + 1;

	if (below < 1)
		return 0;
	return exp(gsl_sf_lngamma(n - times + 1) - gsl_sf_lngamma(below) +
		gsl_sf_lngamma(n - effort + 1) - gsl_sf_lngamma(n + 1));
}

/* Chao's total, classic, without the factor of the number of lists. */
static double
total(const struct frequencies *frequencies)
{
	double f1 = frequencies_at(frequencies, 1);
	double f2 = frequencies_at(frequencies, 2);

	return frequencies_distinct(frequencies) + (f2 > 0 ?
		f1 * f1 / (2 * f2) : f1 * (f1 - 1) / 2);
}

struct estimable
rarefy(const struct frequencies *frequencies, double effort)
{
	double n = effort_of(frequencies), sum = 0, squares = 0, share;
	unsigned i;

	if (!(effort > 0) || effort > n ||
		!(frequencies_distinct(frequencies) > 0))
		return unknown;
	for (i = 1; i <= frequencies->count; i++) {
		share = 1 - missed(n, i, effort);
		sum += share * frequencies_at(frequencies, i);
		squares += share * share * frequencies_at(frequencies, i);
	}
	return with_error(sum, squares - sum * sum / total(frequencies));
}

/* What the unseen are made from, as far as it changes with f1 and f2. */
struct growth {
	double n;
	bool lists;
	double f1;
	double f2;
};

static double
unseen(const struct growth *growth)
{
	double k = growth->lists ? (growth->n - 1) / growth->n : 1;

	return growth->f2 > 0 ? k * growth->f1 * growth->f1 /
		(2 * growth->f2) : k * growth->f1 * (growth->f1 - 1) / 2;
}

/* The chance that one unit of effort more finds a given unseen thing. */
static double
chance(const struct growth *growth)
{
	double f0 = unseen(growth);

	return fmin(growth->f1 / (growth->n * f0 +
		(growth->lists ? growth->f1 : 0)), 1);
}

static double
found(const struct growth *growth, double more)
{
	double f0 = unseen(growth);

	if (!(f0 > 0))
		return 0;
	return f0 * -expm1(more * log1p(-chance(growth)));
}

static bool
can_grow(const struct frequencies *frequencies, struct growth *growth)
{
	*growth = (struct growth){effort_of(frequencies),
		frequencies->lists > 0, frequencies_at(frequencies, 1),
		frequencies_at(frequencies, 2)};
	return growth->n >= 2 && unseen(growth) > 0 &&
		frequencies_sightings(frequencies) >
		frequencies_distinct(frequencies);
}

/* How the number found grows with f1 or f2: by differences of one either way,
   which give the errors that were published; of less where that is none. */
static double
slope(const struct growth *growth, double more, bool second)
{
	double step = fmin(1, (second ? growth->f2 : growth->f1) / 2);
	struct growth above = *growth, below = *growth;

	if (!(step > 0))
		return 0;
	*(second ? &above.f2 : &above.f1) += step;
	*(second ? &below.f2 : &below.f1) -= step;
	return (found(&above, more) - found(&below, more)) / (2 * step);
}

struct estimable
extrapolate(const struct frequencies *frequencies, double more)
{
	double distinct = frequencies_distinct(frequencies);
	double squares = 0, sum = 0, rise, all;
	struct growth growth;
	unsigned i;

	if (more < 0 || !can_grow(frequencies, &growth))
		return unknown;
	all = distinct + unseen(&growth);
	for (i = 1; i <= frequencies->count; i++) {
		rise = 1 + (i <= 2 ? slope(&growth, more, i == 2) : 0);
		squares += rise * rise * frequencies_at(frequencies, i);
		sum += rise * frequencies_at(frequencies, i);
	}
	return with_error(distinct + found(&growth, more),
		squares - sum * sum / all);
}

struct estimable
effort_until(const struct frequencies *frequencies, double share)
{
	double distinct = frequencies_distinct(frequencies), f0, left;
	struct growth growth;

	if (!(share < 1) || !can_grow(frequencies, &growth))
		return unknown;
	f0 = unseen(&growth);
	left = (1 - share) * (distinct + f0);
	if (left >= f0)
		return bare(0);
	if (growth.lists)
		return bare(log(left / f0) / log1p(-chance(&growth)));
	return bare(growth.n * f0 / growth.f1 * log(f0 / left));
}
