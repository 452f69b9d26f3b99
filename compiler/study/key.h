/*
 * Which feature is the best to look at: after M. J. Dallwitz, A flexible
 * computer program for generating identification keys, Systematic Zoology 23
 * (1974), 50-57.
 */
#ifndef STUDY_KEY_H
#define STUDY_KEY_H

#include <stdbool.h>
#include <stdint.h>

/* How much is made of variable features: 1 nothing, near 0 very much. */
#define KEY_VARIABILITY 0.8

/* What one feature would do for a set of items. */
struct key_weight {
	bool usable;		/* it divides them */
	double rest;		/* bits still open after it, on average */
	double variation;	/* a penalty: items that fit several states */
	double power;		/* bits it settles */
	double left;		/* how many items it leaves, on average */
};

/*
 * Weighs a feature over `count` items: the states each may show as bits of
 * `sets`, and how common each is, above 0, in `common`. A feature of which one
 * state holds all items is not usable, nor is one that some item shows no
 * state of.
 */
struct key_weight
key_weigh(const uint64_t *sets, const double *common, unsigned count,
	double variability);

/*
 * What looking at it costs altogether: now, and for what stays open if that is
 * paid for at `cheapest` a bit. The least is the best.
 */
double
key_suitability(const struct key_weight *weight, double cost,
	double cheapest);

#endif
