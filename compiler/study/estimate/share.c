/*
 * Limits of shares and counts.
 */
#include "study/estimate/share.h"

#include <math.h>

#include "study/estimate/quantile.h"

bool
share_wilson(unsigned affected, unsigned all, struct range *range)
{
	double x = affected, n = all, z = quantile_normal(1 - TAIL);
	double middle, half;

	if (all == 0 || affected > all)
		return false;
	middle = (2 * x + z * z) / (2 * (n + z * z));
	half = z * sqrt(z * z + 4 * x * (n - x) / n) / (2 * (n + z * z));
	range->low = affected == 0 ? 0 : middle - half;
	range->high = affected == all ? 1 : middle + half;
	return true;
}

bool
share_exact(unsigned affected, unsigned all, struct range *range)
{
	double x = affected, n = all;

	if (all == 0 || affected > all)
		return false;
	range->low = affected == 0 ? 0 : quantile_beta(TAIL, x, n - x + 1);
	range->high = affected == all ? 1 :
		quantile_beta(1 - TAIL, x + 1, n - x);
	return true;
}

struct range
count_garwood(double count)
{
	struct range range = {0, quantile_chi2(1 - TAIL, 2 * count + 2) / 2};

	if (count > 0)
		range.low = quantile_chi2(TAIL, 2 * count) / 2;
	return range;
}

struct figure
estimate_share_of(const struct figure *number, unsigned affected,
	unsigned all)
{
	struct range share;
	double p, point, down, up;

	if (number->state != FIGURE_GIVEN ||
		!share_wilson(affected, all, &share))
		return (struct figure){.state = FIGURE_NONE};
	p = (double)affected / all;
	point = number->point * p;
	if (affected == 0)
		return figure_given(0, 0, 0, 0, number->high * share.high);
	down = hypot(log(number->point / number->low), log(p / share.low));
	up = hypot(log(number->high / number->point), log(share.high / p));
	return figure_given(affected, point, 0, point * exp(-down),
		point * exp(up));
}
