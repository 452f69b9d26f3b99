/*
 * Several independent occasions on which every piece is as likely to be seen as
 * any other. How many were caught on each is taken as given; then the number
 * of distinct pieces is all that the data say of the number there is, and its
 * distribution is exact: the pieces known grow, occasion by occasion, by a
 * hypergeometric number of new ones.
 */
#ifndef STUDY_ESTIMATE_CHAIN_H
#define STUDY_ESTIMATE_CHAIN_H

#include "study/estimate/figure.h"

/* Above these the exact limits take too long. */
enum { CHAIN_MOST_SIGHTINGS = 5000 };

/*
 * chances[m], for m from 0 to `most`, that m pieces are known; 0 outside
 * `first` to `last`. What would be above `most` is dropped: it never comes
 * back.
 */
struct chain {
	double *chances;
	double *room;
	unsigned most;
	unsigned first;
	unsigned last;
};

/* Surely `known` pieces. Free with chain_release. */
void
chain_init(struct chain *chain, unsigned most, unsigned known);
void
chain_release(struct chain *chain);

/* One occasion more, with `caught` of `all` pieces there are. */
void
chain_step(struct chain *chain, double all, unsigned caught);

/* The chance of at most `distinct` pieces on all occasions together. */
double
chain_at_most(const unsigned *caught, unsigned count, unsigned distinct,
	double all);

/*
 * All populations for which neither tail of the distribution of `distinct` is
 * below 2.5 %; ties belong to the interval. For two occasions this is the
 * inverted hypergeometric test. The upper limit is INFINITY if none was seen
 * again, or above 2,000 million.
 */
void
chain_exact(const unsigned *caught, unsigned count, unsigned distinct,
	double *low, double *high);

/*
 * Darroch 1958: the number N for which 1 − D/N = Π(1 − C/N), which is the
 * likeliest; D if one occasion saw all, INFINITY if nothing was seen again.
 */
double
darroch_root(const unsigned *caught, unsigned count, unsigned distinct);

/*
 * Darroch 1958: that number with his variance 1/(1/(N−D) + (s−1)/N −
 * Σ1/(N−C)), over the s occasions that caught any, and the exact limits. FIGURE_LEAST, with the exact lower limit, if none
 * was seen again; FIGURE_NONE for fewer than two such occasions, counts that
 * contradict each other, or more than CHAIN_MOST_SIGHTINGS.
 */
struct figure
estimate_darroch(const unsigned *caught, unsigned count, unsigned distinct);

#endif
