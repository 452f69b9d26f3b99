/*
 * The nearest name to a misspelt one, for "did you mean".
 */
#ifndef SHAPE_NEAREST_H
#define SHAPE_NEAREST_H

#include <stdbool.h>

#include "diag/diag.h"

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
	const char *other;	/* another name as near, or NULL */
	const char *alike;	/* the same but for case and separators */
	bool alike_twice;
};

/*
 * Whether two names are the same but for case and for what stands between
 * words: blanks, hyphens, underscores or nothing.
 */
bool
nearest_alike(const char *a, const char *b);

/* Begins a search for `wanted`. */
struct nearest
nearest_to(const char *wanted);

/* Offers a name, which must outlive the search. */
void
nearest_offer(struct nearest *nearest, const char *name);

/* Offers a name that is also known by a title: only one alike counts. */
void
nearest_offer_title(struct nearest *nearest, const char *title,
	const char *name);

/*
 * The name meant, or NULL where none is near. Sets *sure: a single name alike
 * is safe, a single nearest one probable; of several as near one is returned
 * with MEND_BLANK, and it should not be taken for the one meant.
 */
const char *
nearest_found(const struct nearest *nearest, enum confidence *sure);

/*
 * Says "did you mean" of what was found, with `also` (or "") behind it, and
 * offers it in place of the bytes of `span` unless others are as near. Returns
 * false, having said nothing, where no name is near.
 */
bool
nearest_suggest(const struct nearest *nearest, struct diag *diag,
	struct span span, const char *also);

#endif
