/*
 * Sorting of plain arrays. qsort() may not be given a null pointer, not even
 * for an array of nothing, and an empty list has no array.
 */
#ifndef BASE_SORT_H
#define BASE_SORT_H

#include <stdlib.h>

/* Sort `count` items of `size` bytes; null is fine where there are none. */
static inline void
sort_items(void *items, size_t count, size_t size,
	int (*compare)(const void *left, const void *right))
{
	if (count > 1)
		qsort(items, count, size, compare);
}

#endif
