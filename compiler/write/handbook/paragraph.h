/*
 * Paragraphs: from runs of text to atoms with widths, and from broken lines to
 * pieces with places.
 */
#ifndef WRITE_HANDBOOK_PARAGRAPH_H
#define WRITE_HANDBOOK_PARAGRAPH_H

#include <glib.h>

#include "write/handbook/block.h"
#include "write/handbook/fonts.h"
#include "write/handbook/format.h"
#include "write/handbook/lines.h"
#include "write/handbook/slug.h"

struct hyphens;
struct places;

/* Scratch room, used again for each paragraph. */
struct paragraph {
	struct arena *arena;
	struct fonts *fonts;
	struct hyphens *hyphens;
	const struct format *format;
	struct places *places;
	GArray *atoms;	    /* struct atom */
	GArray *parts;	    /* struct piece, one an atom; no places yet */
	GArray *lines;	    /* struct line */
	GPtrArray *missing; /* words with a glyph missing */
};

void
paragraph_init(struct paragraph *paragraph, struct arena *arena,
	struct fonts *fonts, struct hyphens *hyphens, struct places *places,
	const struct format *format);

void
paragraph_release(struct paragraph *paragraph);

/* Fills atoms and parts from a chain of runs. Words wider than `widest`
 * points are cut into pieces that fit. */
void
paragraph_fill(struct paragraph *paragraph, const struct run *runs,
	const struct style_spec *spec, double widest);

/* Width of all atoms in one line. */
double
paragraph_width(const struct paragraph *paragraph);

/* Breaks what was filled. */
void
paragraph_break(struct paragraph *paragraph, const struct measure *measure);

/*
 * The pieces of a broken line, in the arena, with their number in *count. The
 * line starts at `x`; with `room` points it is set flush as `align` says. The
 * baseline is at `y`.
 */
const struct piece *
paragraph_line(const struct paragraph *paragraph, const struct line *line,
	double x, double y, double room, enum align align, uint32_t *count);

#endif
