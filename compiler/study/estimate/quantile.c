/*
 * Quantiles from GSL's distribution functions. Where GSL inverts too coarsely
 * or may stop the program, the distribution is inverted here by halving.
 */
#include "study/estimate/quantile.h"

#include <gsl/gsl_cdf.h>
#include <math.h>

enum { HALVINGS = 400, MANY = 20000 };

double
quantile_normal(double p)
{
	return gsl_cdf_ugaussian_Pinv(p);
}

double
quantile_t(double p, double freedom)
{
	return gsl_cdf_tdist_Pinv(p, freedom);
}

/* Whether the quantile lies above x. The smaller tail is the exacter one. */
static int
above(double p, double below, double beyond)
{
	return p < 0.5 ? below < p : beyond > 1 - p;
}

/* Cornish and Fisher's expansion, by Goldberg and Levine 1946. GSL's own
   distribution function stops the program for some of these. */
static double
many_degrees(double p, double freedom)
{
	double z = quantile_normal(p), zz = z * z, root = sqrt(2 * freedom);

	return freedom + root * z + 2 * (zz - 1) / 3 +
		z * (zz - 7) / (9 * root) -
		(6 * zz * zz + 14 * zz - 32) / (405 * freedom);
}

double
quantile_chi2(double p, double freedom)
{
	double low = 0, high = freedom + 1, middle;
	int i;

	if (freedom > MANY)
		return many_degrees(p, freedom);
	while (above(p, gsl_cdf_chisq_P(high, freedom),
		gsl_cdf_chisq_Q(high, freedom)))
		high *= 2;
	for (i = 0; i < HALVINGS; i++) {
		middle = low + (high - low) / 2;
		if (middle <= low || middle >= high)
			break;
		if (above(p, gsl_cdf_chisq_P(middle, freedom),
			gsl_cdf_chisq_Q(middle, freedom)))
			low = middle;
		else
			high = middle;
	}
	return high;
}

double
quantile_beta(double p, double a, double b)
{
	double low = 0, high = 1, middle;
	int i;

	for (i = 0; i < HALVINGS; i++) {
		middle = low + (high - low) / 2;
		if (middle <= low || middle >= high)
			break;
		if (above(p, gsl_cdf_beta_P(middle, a, b),
			gsl_cdf_beta_Q(middle, a, b)))
			low = middle;
		else
			high = middle;
	}
	return high;
}
