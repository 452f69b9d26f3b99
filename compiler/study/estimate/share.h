/*
 * Shares, plain counts, and a share of an estimated number.
 */
#ifndef STUDY_ESTIMATE_SHARE_H
#define STUDY_ESTIMATE_SHARE_H

#include "study/estimate/figure.h"

struct range {
	double low;
	double high;
};

/*
 * Wilson 1927, without correction for continuity (Newcombe 1998, method 3).
 * 95 % limits of the share of which `affected` of `all` are a sample; exactly 0
 * and 1 at the ends. False if `all` is 0 or less than `affected`.
 */
bool
share_wilson(unsigned affected, unsigned all, struct range *range);

/* Clopper and Pearson 1934, by quantiles of the beta distribution; likewise. */
bool
share_exact(unsigned affected, unsigned all, struct range *range);

/*
 * Garwood 1936: exact 95 % limits of the mean of a Poisson count, by quantiles
 * of chi². The lower one is 0 at 0.
 */
struct range
count_garwood(double count);

/*
 * A share of a number: limits by the method of variance estimates recovery on
 * the log scale (Zou and Donner 2008), from the figure's limits and Wilson's.
 * For a share of 0 the upper limit is the product of both upper limits, which
 * is wide. FIGURE_NONE without a given figure or a share. The share must be of
 * other pieces than the number, or the result says too much.
 */
struct figure
estimate_share_of(const struct figure *number, unsigned affected,
	unsigned all);

#endif
