/*
 * The best key there is, by search: to measure others against. It takes the
 * same leads and ends as study/key_build.h, and for small tables alone.
 */
#ifndef STUDY_KEY_BEST_H
#define STUDY_KEY_BEST_H

#include "study/key_build.h"

enum { KEY_BEST_ITEMS = 12 };

/*
 * The least that any key over a table of at most KEY_BEST_ITEMS costs, as
 * expected: what a report's `cost` is compared with. Takes no heed of features
 * to ask first.
 */
double
key_best_cost(const struct key_table *table);

#endif
