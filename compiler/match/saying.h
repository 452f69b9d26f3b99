/*
 * What a row says besides names; for this folder alone.
 */
#ifndef MATCH_SAYING_H
#define MATCH_SAYING_H

#include "match/matching.h"

/* Fills what a reading has beside names, from its names and words. */
void
say_all(struct reading *reading, struct matcher *matcher);

#endif
