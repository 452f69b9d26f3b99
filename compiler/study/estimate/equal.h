/*
 * Whether the pieces can have been as likely to be seen as each other.
 *
 * If they are, then given how many were caught on each occasion and how many
 * distinct pieces that made, every way to deal the sightings to the pieces is
 * as likely as any other, however many pieces there are. The test deals them
 * anew many times and compares how often two sightings were of one piece
 * (Barnard 1963, Monte Carlo tests; stopped early after Besag and Clifford
 * 1991). The same data give the same answer: the deals follow a fixed seed.
 */
#ifndef STUDY_ESTIMATE_EQUAL_H
#define STUDY_ESTIMATE_EQUAL_H

#include "study/estimate/history.h"

/* A chance below this contradicts equal chances. */
#define EQUAL_DOUBT 0.05

struct equal_test {
	bool done;	/* false: the deals cannot differ, or are too many */
	unsigned pairs;	/* pairs of sightings of one piece */
	double expected;	/* their mean over the deals */
	unsigned deals;
	double uneven;	/* chance of as many pairs or more */
	double even;	/* of as many or fewer */
};

/* Not done with fewer than three occasions, or with nothing seen again. */
struct equal_test
equal_test(const struct history *history);

#endif
