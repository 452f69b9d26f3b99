/*
 * Figures, held to what was seen.
 */
#include "study/estimate/figure.h"

#include <math.h>

#include "study/estimate/quantile.h"

struct figure
figure_least(double seen, double low)
{
	struct figure figure = {.state = FIGURE_LEAST, .seen = seen,
		.point = seen, .high = INFINITY, .raw_point = seen,
		.raw_low = low, .raw_high = INFINITY};

	figure.low = fmax(low, seen);
	return figure;
}

void
figure_raise(struct figure *figure, double seen)
{
	if (figure->state == FIGURE_NONE)
		return;
	figure->seen = fmax(figure->seen, seen);
	if (figure->state == FIGURE_GIVEN && figure->point < seen)
		figure->raised = true;
	figure->point = fmax(figure->point, figure->seen);
	figure->low = fmax(figure->low, figure->seen);
	if (figure->high < figure->seen) {
		figure->raised = true;
		figure->high = INFINITY;
	}
	if (figure->high <= figure->low)
		figure->high = INFINITY;
}

struct figure
figure_given(double seen, double point, double variance, double low,
	double high)
{
	struct figure figure = {FIGURE_GIVEN, seen, point, variance, low,
		high, point < seen, point, low, high};

	if (!isfinite(point))
		return figure_least(seen, seen);
	if (!(variance > 0) || !isfinite(variance))
		figure.variance = 0;
	if (!isfinite(low))
		figure.low = figure.raw_low = seen;
	if (!(high >= point))
		figure.high = figure.raw_high = INFINITY;
	figure_raise(&figure, seen);
	return figure;
}

struct figure
figure_log_normal(double seen, double point, double variance)
{
	double unseen = point - seen, k;

	if (!(unseen > 0) || !(variance > 0))
		return figure_given(seen, point, variance, seen, INFINITY);
	k = exp(quantile_normal(1 - TAIL) *
		sqrt(log1p(variance / (unseen * unseen))));
	return figure_given(seen, point, variance, seen + unseen / k,
		seen + unseen * k);
}
