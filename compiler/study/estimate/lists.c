/*
 * Chapman's estimator and the intervals that go with it.
 */
#include "study/estimate/lists.h"

#include <gsl/gsl_cdf.h>
#include <math.h>

#include "study/estimate/quantile.h"

#define MOST_PIECES 2000000000u

/* Exact ties, such as 1/40 against 2.5 %, count as equal. */
#define TIE (TAIL * (1 - 1e-9))

/* P(at most `both` on both lists) among `all` pieces: grows with `all`. */
static bool
few_enough(unsigned first, unsigned second, unsigned both, unsigned all)
{
	return gsl_cdf_hypergeometric_P(both, first, all - first, second) >=
		TIE;
}

/* P(at least `both`): falls with `all`. */
static bool
many_enough(unsigned first, unsigned second, unsigned both, unsigned all)
{
	return gsl_cdf_hypergeometric_Q(both - 1, first, all - first,
		       second) >= TIE;
}

static unsigned
least_all(unsigned first, unsigned second, unsigned both)
{
	unsigned low = first + second - both, high = low, middle;

	while (high < MOST_PIECES && !few_enough(first, second, both, high))
		high = high > MOST_PIECES / 2 ? MOST_PIECES : high * 2;
	while (low < high) {
		middle = low + (high - low) / 2;
		if (few_enough(first, second, both, middle))
			high = middle;
		else
			low = middle + 1;
	}
	return low;
}

static double
most_all(unsigned first, unsigned second, unsigned both)
{
	unsigned low = first + second - both, high = low, middle;

	if (both == 0)
		return INFINITY;
	while (many_enough(first, second, both, high)) {
		if (high == MOST_PIECES)
			return INFINITY;
		low = high;
		high = high > MOST_PIECES / 2 ? MOST_PIECES : high * 2;
	}
	while (low + 1 < high) {
		middle = low + (high - low) / 2;
		if (many_enough(first, second, both, middle))
			low = middle;
		else
			high = middle;
	}
	return low;
}

void
lists_exact(unsigned first, unsigned second, unsigned both, double *low,
	double *high)
{
	*low = least_all(first, second, both);
	*high = most_all(first, second, both);
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

struct figure
estimate_chapman(unsigned first, unsigned second, unsigned both,
	enum lists_interval interval)
{
	double n1 = first, n2 = second, m = both;
	double seen = n1 + n2 - m, point, variance, low, high;

	if (first == 0 || second == 0 || both > first || both > second ||
		n1 + n2 > MOST_PIECES)
		return (struct figure){.state = FIGURE_NONE};
	lists_exact(first, second, both, &low, &high);
	if (both == 0)
		return figure_least(seen, low);
	point = (n1 + 1) * (n2 + 1) / (m + 1) - 1;
	variance = (n1 + 1) * (n2 + 1) * (n1 - m) * (n2 - m) /
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
	}
	return figure_given(seen, point, variance, low, high);
}
