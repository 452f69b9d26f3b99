/*
 * On which pages records are named: what the index is made from. Known, like
 * page numbers, only once all pages are broken.
 */
#ifndef WRITE_HANDBOOK_MENTIONS_H
#define WRITE_HANDBOOK_MENTIONS_H

#include <glib.h>
#include <stdbool.h>
#include <stdint.h>

struct record;
struct slug;

struct mention {
	const struct record *about;
	uint32_t page; /* from 0 */
};

struct mentions {
	GArray *all; /* struct mention, each once, in order of pages */
	GPtrArray *labels; /* of pages, by index; they live with the pages */
};

void
mentions_init(struct mentions *mentions);

void
mentions_release(struct mentions *mentions);

/* Adds what a slug on a page names. Pages come in their order. */
void
mentions_add(struct mentions *mentions, const struct slug *slug,
	uint32_t page);

bool
mentions_equal(const struct mentions *one, const struct mentions *two);

#endif
