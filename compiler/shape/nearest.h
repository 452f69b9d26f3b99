/*
 * The nearest name to a misspelt one, for "did you mean".
 */
#ifndef SHAPE_NEAREST_H
#define SHAPE_NEAREST_H

#include <stdbool.h>

/*
 * Edit distance in bytes by insertions, deletions, replacements and swaps of
 * neighbours (optimal string alignment), or `limit` + 1 if it is larger.
 */
int
nearest_distance(const char *a, const char *b, int limit);

/* Names offered one by one, and the best so far. */
struct nearest {
	const char *wanted;
	const char *best;	/* NULL: none near enough */
	int distance;
	bool tie;		/* another name is as near */
};

/* Begins a search for `wanted`. */
struct nearest
nearest_to(const char *wanted);

/* Offers a name, which must outlive the search. */
void
nearest_offer(struct nearest *nearest, const char *name);

#endif
