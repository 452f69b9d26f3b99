/*
 * How much has been found of what there is to find, and how much more looking
 * would find. Frequencies with `lists` count the lists that each kind of thing
 * is on, and effort is measured in lists; without, they count sightings, and
 * effort is measured in those. Every answer may be "not estimable". Numbers of
 * equations are from memory.
 */
#ifndef STUDY_ESTIMATE_ACCUMULATE_H
#define STUDY_ESTIMATE_ACCUMULATE_H

#include "study/estimate/frequencies.h"
#include "study/estimate/share.h"

struct estimable {
	bool given;
	double value;
	double error;		/* standard error; 0 where none is known */
	double low;		/* 95 % limits; both the value without error */
	double high;
};

/*
 * Coverage: the share of further sightings that will be of what is known.
 * Good 1953: 1 − f1/n, with the limits of Esty 1983 held within 0 and 1: the
 * variance of what is missed is (f1(n − f1) + 2·n·f2)/n³. Not given without at
 * least two sightings, and one that is no first.
 */
struct estimable
coverage_good(const struct frequencies *frequencies);

/*
 * Chao and Jost 2012: 1 − (f1/n)·A, where A = (n−1)f1/((n−1)f1 + 2·f2), or
 * (n−1)(f1−1)/((n−1)(f1−1) + 2) without doubletons; over T lists T stands for
 * n in A. A value alone. Not given for a single sighting or list, nor for one
 * singleton and no doubleton, where the formula would say 1.
 */
struct estimable
coverage_chao_jost(const struct frequencies *frequencies);

/*
 * Colwell and others 2012 (eq. 4 and 5, or 17 and 18 over lists): the number
 * of kinds to expect in a part of the effort, with the unconditional standard
 * error, for which the total is Chao's, classic. Not given for more effort than
 * there was, or none.
 */
struct estimable
rarefy(const struct frequencies *frequencies, double effort);

/*
 * The same with more effort than there was (eq. 9 and 10): D + f0(1 − (1 −
 * f1/(n·f0))^more), or over T lists (eq. 18) D + f0(1 − (1 − f1/(T·f0 +
 * f1))^more). Error by the delta method. Above twice the effort there was it
 * is uncertain, which the caller must say. Not given where Chao's estimate of
 * the unseen is none, or where nothing was seen twice.
 */
struct estimable
extrapolate(const struct frequencies *frequencies, double more);

/*
 * Further effort until a share of all kinds is known (eq. 11 and 12): without
 * lists n·f1/(2·f2)·ln(f0/((1−share)·S)); over lists the inverse of
 * extrapolate. 0 if it is known already. Not given as for extrapolate, nor for
 * a share of 1 or more. A value alone.
 */
struct estimable
effort_until(const struct frequencies *frequencies, double share);

#endif
