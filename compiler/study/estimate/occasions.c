/*
 * Schnabel's estimator and that of Schumacher and Eschmeyer.
 */
#include "study/estimate/occasions.h"

#include <math.h>

#include "study/estimate/quantile.h"
#include "study/estimate/share.h"

bool
occasions_sum(const struct occasion *occasions, unsigned count,
	struct occasion_sums *sums)
{
	double lost = 0;
	unsigned i;

	*sums = (struct occasion_sums){0};
	for (i = 0; i < count; i++) {
		double c = occasions[i].caught, r = occasions[i].again;
		double m = sums->seen - lost;

		if (r > c || r > m || occasions[i].lost > c)
			return false;
		sums->cm += c * m;
		sums->r += r;
		sums->cmm += c * m * m;
		sums->rm += r * m;
		if (c > 0)
			sums->rrc += r * r / c;
		sums->seen += c - r;
		lost += occasions[i].lost;
	}
	return true;
}

struct figure
estimate_schnabel(const struct occasion *occasions, unsigned count)
{
	struct occasion_sums sums;
	struct range range;
	double point;

	if (count < 2 || !occasions_sum(occasions, count, &sums) ||
		!(sums.cm > 0))
		return (struct figure){.state = FIGURE_NONE};
	range = count_garwood(sums.r);
	if (!(sums.r > 0))
		return figure_least(sums.seen, sums.cm / range.high);
	point = sums.cm / sums.r;
	return figure_given(sums.seen, point,
		point * point * point * point * sums.r / (sums.cm * sums.cm),
		sums.cm / range.high, sums.cm / range.low);
}

struct figure
estimate_schumacher(const struct occasion *occasions, unsigned count)
{
	struct occasion_sums sums;
	double point, residual, error, t;

	if (count < 2 || !occasions_sum(occasions, count, &sums) ||
		!(sums.cm > 0))
		return (struct figure){.state = FIGURE_NONE};
	if (!(sums.rm > 0))
		return figure_least(sums.seen, sums.seen);
	point = sums.cmm / sums.rm;
	residual = sums.rrc - sums.rm * sums.rm / sums.cmm;
	/* What rounding leaves of a perfect fit is no residual. */
	if (count == 2 || residual <= 1e-12 * sums.rrc)
		return figure_given(sums.seen, point, 0, sums.seen, INFINITY);
	error = sqrt(residual / (count - 2) / sums.cmm);
	t = quantile_t(1 - TAIL, count - 2);
	return figure_given(sums.seen, point,
		point * point * point * point * error * error,
		1 / (1 / point + t * error), 1 / point > t * error ?
		1 / (1 / point - t * error) : INFINITY);
}
