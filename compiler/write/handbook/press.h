/*
 * The press prints pages into a PDF: words, rules and drawings at their
 * places, what each belongs to, and what leads where.
 */
#ifndef WRITE_HANDBOOK_PRESS_H
#define WRITE_HANDBOOK_PRESS_H

#include <stdio.h>

#include "write/handbook/fonts.h"
#include "write/handbook/format.h"
#include "write/handbook/places.h"
#include "write/handbook/slug.h"

/* What the file says about itself; NULL leaves a field out. */
struct imprint {
	const char *title;
	const char *language; /* BCP 47 */
	const char *author;
	const char *subject;
	const char *keywords;
	const char *creator;
	const char *date; /* "2026-11-25T00:00:00Z"; never the clock's */
};

/* How the same pages are printed. */
struct printing {
	bool black;   /* in black alone */
	bool marks;   /* for a printer: with bleed and crop marks */
	bool booklet; /* two pages to a side, to be folded and stitched */
};

struct press;

/*
 * A press that prints to `out`, which stays the caller's. The places tell page
 * numbers and targets of links and must be settled. A booklet is for paper
 * alone: it has no links, no outline and no structure.
 */
struct press *
press_open(FILE *out, struct fonts *fonts, const struct format *format,
	const struct places *places, const struct imprint *imprint,
	const struct printing *how);

/*
 * Ends the file and frees the press. Returns NULL, or what went wrong: a text
 * that stays valid.
 */
const char *
press_close(struct press *press);

void
press_begin(struct press *press, const char *label);

void
press_end(struct press *press);

/*
 * Prints a slug; `x` and `y` are the place on the page of its origin. Without
 * an element it is furniture of the page, which is not read aloud.
 */
void
press_slug(struct press *press, const struct slug *slug, double x, double y);

/* Prints a slug a second time, as the head of a table that goes on: it is not
 * read aloud again, but its links lead where they did. */
void
press_again(struct press *press, const struct slug *slug, double x, double y);

/* Makes a place that links point at. */
void
press_anchor(struct press *press, const char *name, double x, double y);

/*
 * Adds a line of the outline that leads to an anchor. Levels are from 1, the
 * first one is 1, and each is at most one more than the one before.
 */
void
press_outline(struct press *press, const char *title, const char *anchor,
	unsigned level);

#endif
