/*
 * Cutting galleys into pages: all breaks of a flow at once, at the least cost.
 * Lines go back to the baseline grid where a slug says so; columns at the end
 * of a flow are made equally long.
 */
#ifndef WRITE_HANDBOOK_PAGES_H
#define WRITE_HANDBOOK_PAGES_H

#include <glib.h>

#include "write/handbook/block.h"
#include "write/handbook/galley.h"
#include "write/handbook/slug.h"

struct arena;

/* Slugs that stand below one another at a place of a page. */
struct stack {
	const struct head *head; /* printed above them, or NULL */
	const struct slug *slugs;
	uint32_t count;
	float x; /* from the left edge of the type area */
	float y; /* from its top */
};

struct page {
	const struct block *chapter; /* NULL: an empty page */
	const char *label;
	const struct stack *stacks;
	uint32_t count;
	const char *first_guide; /* first and last guide word, or NULL */
	const char *last_guide;
	bool opens; /* the first page of its chapter */
};

struct pages {
	struct arena *arena;
	const struct format *format;
	GArray *all;	/* struct page */
	GArray *stacks; /* struct stack, of the page being filled */
	double y;	/* where the page being filled goes on */
	const struct block *chapter;
	const char *guide; /* the last one so far in this chapter */
	unsigned number;   /* of the last page, in its numbering */
	enum numbering numbering;
	unsigned overfull; /* slugs higher than a page */
};

void
pages_init(struct pages *pages, struct arena *arena,
	const struct format *format);

void
pages_release(struct pages *pages);

/* Breaks a chapter, on pages of its own. */
void
pages_add(struct pages *pages, const struct block *chapter,
	const struct flow *flows);

/*
 * Calls `visit` for every slug of a page with its place in the type area, from
 * the top down; `again` where it is the head of a table that goes on.
 */
void
pages_walk(const struct page *page, const struct format *format,
	void (*visit)(void *closure, const struct slug *slug, double x,
		double y, bool again),
	void *closure);

/* Where the next slug goes, `y` below the top: for whoever stacks slugs. */
double
pages_advance(const struct slug *slug, double y, const struct format *format);

#endif
