/*
 * Galleys: a chapter's blocks set as slugs, one below the other, not yet cut
 * into pages. A chapter is a chain of flows; a flow is set in one column, or
 * in several of the same width.
 */
#ifndef WRITE_HANDBOOK_GALLEY_H
#define WRITE_HANDBOOK_GALLEY_H

#include "write/handbook/block.h"
#include "write/handbook/paragraph.h"
#include "write/handbook/slug.h"

struct flow {
	struct flow *next;
	unsigned columns;
	const struct slug *slugs;
	uint32_t count;
};

struct galley;

/* What is too wide for its place: a message for people, in the arena. */
struct complaint {
	const char *text;
	const char *anchor; /* the last anchor before it, or NULL */
};

struct galley *
galley_new(struct arena *arena, struct fonts *fonts,
	struct hyphens *hyphens, struct places *places,
	const struct format *format);

void
galley_free(struct galley *galley);

/* Sets a chapter. The flows live in the arena. */
struct flow *
galley_set(struct galley *galley, const struct block *chapter);

/* Complaints so far, an array of struct complaint, in order. Owned by the
 * galley; the texts live in the arena. */
const GArray *
galley_complaints(const struct galley *galley);

/* Words so far that lack a glyph, struct shaped; owned by the galley. */
const GPtrArray *
galley_missing(const struct galley *galley);

#endif
