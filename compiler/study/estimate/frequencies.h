/*
 * How often pieces were seen, and what that says of those never seen.
 */
#ifndef STUDY_ESTIMATE_FREQUENCIES_H
#define STUDY_ESTIMATE_FREQUENCIES_H

#include "study/estimate/figure.h"

/* seen[i] pieces were seen exactly i + 1 times. */
struct frequencies {
	const unsigned *seen;
	unsigned count;
	unsigned lists;		/* that a piece can be on at most once each;
				   0: sightings have no such limit */
};

/* Pieces seen exactly n times, n from 1. */
double
frequencies_at(const struct frequencies *frequencies, unsigned n);

/* Distinct pieces, and sightings of them. */
double
frequencies_distinct(const struct frequencies *frequencies);
double
frequencies_sightings(const struct frequencies *frequencies);

enum chao_variant { CHAO_CORRECTED, CHAO_CLASSIC };

/*
 * Chao1 (Chao 1984), a lower bound on the number that can be seen, with the
 * log-normal interval of Chao 1987. Corrected: f1(f1−1)/(2(f2+1)) unseen, with
 * the variance of the EstimateS guide, eq. 6, or eq. 7 without doubletons.
 * Classic: f1²/(2·f2), and the corrected form without doubletons. Over T lists
 * both carry the factor (T−1)/T (Chao2). Without singletons the limits are those
 * of eq. 8 and 14. FIGURE_LEAST where one singleton, or none that the form can
 * use, leaves nothing unseen; open upwards where all are singletons.
 */
struct figure
estimate_chao1(const struct frequencies *frequencies,
	enum chao_variant variant);

/*
 * ACE, Chao and Lee 1992, eq. 2.14, with pieces seen at most 10 times as the
 * rare ones. The variance is by the delta method, the frequencies taken as
 * multinomial; the interval log-normal on the unseen. FIGURE_LEAST where all
 * rare ones are singletons, or none is rare.
 */
struct figure
estimate_ace(const struct frequencies *frequencies);

/*
 * Zero-truncated Poisson: every piece is as likely to be seen. Solves
 * λ/(1−e^−λ) = sightings/distinct; distinct/(1−e^−λ) pieces, with variance
 * N/(e^λ−λ−1) (van der Heijden and others 2003, from memory). FIGURE_LEAST where
 * no piece was seen twice.
 */
struct figure
estimate_poisson(const struct frequencies *frequencies);

/*
 * Zelterman 1988: the same with λ = 2·f2/f1, which looks at the rarely seen
 * alone; the variance of Böhning 2008. FIGURE_LEAST without singletons or
 * doubletons.
 */
struct figure
estimate_zelterman(const struct frequencies *frequencies);

#endif
