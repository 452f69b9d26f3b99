/*
 * Ids made of names: "Ο Εκτιμητής" gives "o-ektimetes".
 */
#ifndef BASE_SLUG_H
#define BASE_SLUG_H

#include "base/arena.h"

/*
 * The name in lower-case Latin letters, digits and hyphens, cut at a hyphen
 * where it is long; owned by `arena`. NULL where nothing of it is left.
 */
const char *
slug_of(const char *name, struct arena *arena);

#endif
