/*
 * Small groups that borrow strength: the rate at which pieces are seen is
 * taken over like groups together, and each group's number from it.
 */
#ifndef STUDY_ESTIMATE_POOLED_H
#define STUDY_ESTIMATE_POOLED_H

#include "study/estimate/frequencies.h"

struct pool {
	bool given;	/* false: nothing to take a rate from */
	double rate;	/* λ, how often a piece is seen on average */
	double variance;	/* of λ */
};

/*
 * Zero-truncated Poisson over all groups: λ/(1−e^−λ) = sightings/distinct,
 * with variance λ²/(V·D), where V is the variance of the truncated count and D
 * the distinct pieces. Not given where no piece was seen twice.
 */
struct pool
pool_poisson(const struct frequencies *groups, unsigned count);

/*
 * Zelterman 1988 over all groups: λ = 2·f2/f1, with variance λ²(1/f1 + 1/f2).
 * Not given without singletons or doubletons.
 */
struct pool
pool_zelterman(const struct frequencies *groups, unsigned count);

/*
 * One group's number: D/p with p = 1 − e^−λ. Its variance is that of D beside
 * that of the rate, D(1−p)/p² + (D·e^−λ/p²)²·var λ. The limits join, by the
 * method of variance estimates recovery on the log scale (Zou and Donner 2008),
 * the exact binomial limits for a known rate with those of the rate: where D
 * is small, log-normal ones hold the truth too seldom. FIGURE_LEAST where the
 * pool gives no rate, FIGURE_NONE where none of the group was seen.
 */
struct figure
estimate_pooled(const struct pool *pool, const struct frequencies *group);

/*
 * The same with log-normal limits on the unseen. For a group alone the variance
 * is N/(e^λ−λ−1) of van der Heijden and others 2003, and for Zelterman's rate
 * that of Böhning 2008.
 */
struct figure
estimate_by_rate(const struct pool *pool, const struct frequencies *group);

#endif
