/*
 * The difference of two texts as a unified diff, the form that `patch` and
 * `git apply` read.
 */
#ifndef BASE_DIFFERENCE_H
#define BASE_DIFFERENCE_H

#include <stdbool.h>
#include <stdio.h>

#include "base/replace.h"

/*
 * Prints the unified diff that makes `new` of `old`, with three lines around
 * each change, under the names a/`path` and b/`path`. Prints nothing and
 * returns false where the two are the same. Line ends are part of lines. A
 * path from the root loses its first slash, as `patch -p1` wants it.
 */
bool
difference_print(const char *path, struct bytes old, struct bytes new,
	FILE *stream);

#endif
