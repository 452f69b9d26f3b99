/*
 * Quantiles of the distributions that intervals are made of. Probabilities lie
 * strictly between 0 and 1; the error is below 1e-9 of the value.
 */
#ifndef STUDY_ESTIMATE_QUANTILE_H
#define STUDY_ESTIMATE_QUANTILE_H

/* The share of intervals that should hold the truth, and what is left out at
   each end. */
#define CONFIDENCE 0.95
#define TAIL 0.025

double
quantile_normal(double p);

/* Degrees of freedom above 0. */
double
quantile_chi2(double p, double freedom);

double
quantile_t(double p, double freedom);

/* Both shapes above 0, and at most a million. */
double
quantile_beta(double p, double a, double b);

#endif
