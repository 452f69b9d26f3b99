/*
 * What it costs to look on until one of a few things is left: the least that
 * is expected, by search.
 */
#ifndef STUDY_REST_H
#define STUDY_REST_H

#include <stdint.h>

enum { REST_MOST = 10 };

/* Features over a few things, by number; as struct key_table. */
struct rest_table {
	unsigned items;		/* at most REST_MOST */
	unsigned features;
	const uint64_t *sets;	/* by feature, then item: the states it may
				   show, a bit each; never 0 */
	const double *common;	/* by item: how common; above 0 */
	const double *costs;	/* by feature: of looking; above 0 */
};

/*
 * For each feature, what is expected to be left to pay once it was looked at,
 * into `left`; below 0 for one that does not divide the things. An item that
 * may show several states is taken to show each as often. What no feature
 * divides costs nothing more.
 */
void
rest_cost(const struct rest_table *table, double *left);

#endif
