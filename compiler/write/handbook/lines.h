/*
 * Breaking a paragraph into lines, all lines at once: Donald E. Knuth and
 * Michael F. Plass, "Breaking paragraphs into lines", Software: Practice and
 * Experience 11 (1981). Works on widths alone, of boxes, glue and penalties.
 */
#ifndef WRITE_HANDBOOK_LINES_H
#define WRITE_HANDBOOK_LINES_H

#include <glib.h>
#include <stdbool.h>
#include <stdint.h>

enum atom_kind { ATOM_BOX, ATOM_GLUE, ATOM_PENALTY };

#define LINES_NEVER 10000.0f   /* penalties: no break here */
#define LINES_ALWAYS -10000.0f /* and: a break here */

struct atom {
	enum atom_kind kind;
	float width; /* of a penalty: what a break here adds, a hyphen */
	float stretch;
	float shrink;
	float penalty;
};

struct measure {
	double first; /* width of the first line */
	double rest;  /* and of all others */
	double slack; /* ragged lines: how short is ordinary; else 0 */
};

/* Atoms `from` up to, not including, `to` form the line. */
struct line {
	uint32_t from;
	uint32_t to;
	bool broken; /* at the penalty `to`: its width belongs to the line */
	bool tight;  /* does not fit even when its glue shrinks */
	float ratio; /* glue is set to width + ratio * stretch or shrink */
	float width; /* natural width */
};

/*
 * Appends the lines of `count` atoms to `lines`, an array of struct line. In
 * ragged lines the ratio is 0. The last line is not stretched.
 */
void
lines_break(const struct atom *atoms, uint32_t count,
	const struct measure *measure, GArray *lines);

#endif
