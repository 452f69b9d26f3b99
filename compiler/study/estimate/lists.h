/*
 * Two independent lists of the same pieces: how many there are that neither
 * need have.
 */
#ifndef STUDY_ESTIMATE_LISTS_H
#define STUDY_ESTIMATE_LISTS_H

#include "study/estimate/figure.h"

enum lists_interval {
	LISTS_EXACT,		/* hypergeometric test, inverted */
	LISTS_LOG_NORMAL,	/* Chao 1987, on the unseen */
	LISTS_SADINLE,		/* transformed logit, Sadinle 2009 */
	LISTS_WALD,		/* point ± z·s.e.: to compare with, not to use */
};

/*
 * Chapman 1951 (Seber 1982, eq. 3.2): (n1+1)(n2+1)/(m+1) − 1; the variance of
 * Seber 1970 and Wittes 1972: (n1+1)(n2+1)(n1−m)(n2−m)/((m+1)²(m+2)).
 * `both` are the pieces on both lists. FIGURE_NONE if a list is empty or `both`
 * exceeds one of them. FIGURE_LEAST, with the exact lower limit, if none is on
 * both: the formula then still gives a number, but it means nothing.
 */
struct figure
estimate_chapman(unsigned first, unsigned second, unsigned both,
	enum lists_interval interval);

/*
 * All populations for which neither tail of the hypergeometric distribution of
 * `both` is below 2.5 %; ties belong to the interval. The upper limit is
 * INFINITY if none is on both, or above 2,000 million.
 */
void
lists_exact(unsigned first, unsigned second, unsigned both, double *low,
	double *high);

/*
 * The chance that the interval holds the truth when there are `all` pieces,
 * found by going through every number that can be on both lists. The formulas
 * are taken as they are, also where none is on both. `first` and `second` are
 * between 1 and `all`.
 */
double
lists_coverage(unsigned all, unsigned first, unsigned second,
	enum lists_interval interval);

#endif
