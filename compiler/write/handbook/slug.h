/*
 * Slugs: strips of set matter, as wide as the column, that stand below one
 * another. A line of text is a slug, and so is a row of a table. Pages are
 * broken between slugs and the press prints them; neither needs to know what
 * they say.
 */
#ifndef WRITE_HANDBOOK_SLUG_H
#define WRITE_HANDBOOK_SLUG_H

#include <glib.h>
#include <stdbool.h>
#include <stdint.h>

#include "write/handbook/drawing.h"
#include "write/handbook/fonts.h"

struct record;

/*
 * A node of the structure that reading programs see: Sect, P, Table and so on,
 * by the names of ISO 32000. Links within it are nodes of their own.
 */
struct element {
	const char *tag;
	const struct element *parent;
	const char *says; /* of a figure: what stands for it; or NULL */
};

enum piece_kind {
	PIECE_WORD,
	PIECE_PAGE, /* the page number of an anchor, known when printing */
	PIECE_FILL, /* a filled rectangle: rules are thin ones */
	PIECE_DRAWING,
	PIECE_LEADER, /* dots, up to a page number */
};

/* x from the column's left edge; y from the slug's top, to the baseline of
 * words and symbols and to the top edge of all else. Points. */
struct piece {
	enum piece_kind kind;
	enum ink ink;
	float x;
	float y;
	float size;  /* of words and symbols; height of a fill */
	float width; /* as set */
	enum face face;
	bool spaced; /* a space follows in the text */
	bool right;  /* PIECE_PAGE: flush right in its width */
	union {
		const struct shaped *word;
		const char *anchor;
		const struct drawing *drawing;
	};
	const char *says;	       /* read aloud for it; or NULL */
	const char *link;	       /* or NULL */
	const struct record *about;    /* for the index, or NULL */
	const struct element *element; /* NULL: that of its slug */
};

/* Anchors of one slug, the last one first. */
struct anchor {
	const struct anchor *next;
	const char *name;
	const char *outline; /* its title in the outline, or NULL */
	unsigned level;
};

/* Costs of a page break after a slug. */
#define BREAK_NEVER 1e9f
#define BREAK_WIDOW 4000.0f

enum slug_kind {
	SLUG_MATTER,
	SLUG_SPACE, /* vanishes at the top and bottom of a page */
	SLUG_END,   /* the page ends here */
};

/* A head that is repeated where a page begins in the middle of a table. */
struct head {
	const struct slug *slugs;
	uint32_t count;
	double height;
};

struct slug {
	enum slug_kind kind;
	bool snap;   /* what follows goes to the baseline grid */
	bool closes; /* a page may end short here: a head follows */
	float height;
	float cost; /* of a page break after it */
	uint32_t piece_count;
	const struct piece *pieces;
	const struct anchor *anchors;
	const char *guide;
	const struct head *head;
	const struct element *element;
};

#endif
