/*
 * Where words may be divided, by the patterns of their language: those of
 * Debian's packages, opened by path, so that no setting chooses others.
 */
#ifndef WRITE_HANDBOOK_HYPHENS_H
#define WRITE_HANDBOOK_HYPHENS_H

#include "write/handbook/fonts.h"

struct arena;
struct hyphens;

/* Places in a word, in bytes from its start. */
struct cuts {
	unsigned count;
	const uint16_t *at;
};

/* What it gives lives in `arena`. Patterns are read when they are asked for. */
struct hyphens *
hyphens_open(struct arena *arena);

void
hyphens_close(struct hyphens *hyphens);

/*
 * Where a word may be divided: not at all if its language is unknown, if it is
 * short, or if it is not made of letters alone. Without a language it is
 * English. In languages that write only names with a capital, names are not
 * divided.
 */
struct cuts
hyphens_find(struct hyphens *hyphens, const struct shaped *word);

/* The package of patterns that were asked for and are missing, or NULL. */
const char *
hyphens_missing(const struct hyphens *hyphens);

#endif
