/*
 * Inside of the press, for the files that print one kind of thing each.
 */
#ifndef WRITE_HANDBOOK_PRESSING_H
#define WRITE_HANDBOOK_PRESSING_H

#include <glib.h>

#include "write/handbook/press.h"
#include "write/pdf/file.h"
#include "write/pdf/font.h"
#include "write/pdf/tree.h"

/* Outside of what is cut, 3 mm of ink for a knife that misses, and 9 mm of
 * paper that holds the marks to cut by. Points. */
#define BLEED (3 * 72 / 25.4)
#define MARGIN (9 * 72 / 25.4)

/* What is printed belongs to nothing yet; to the page; or to a node. */
enum mark { MARK_NONE, MARK_FURNITURE, MARK_NODE };

struct press {
	struct pdf *pdf;
	struct pdf_tree *tree;
	struct fonts *words;
	const struct format *format;
	struct printing how;
	double shift; /* of the page on its paper, both ways */
	const struct places *places;
	const struct imprint *imprint;
	struct pdf_font **fonts; /* by file */
	unsigned resources;	 /* object: fonts and drawings of all pages */
	unsigned page_tree;	 /* object */
	GHashTable *drawings;	 /* struct drawing -> its object */
	GPtrArray *coded;	 /* struct coded, by index of the word */

	GString *content; /* of the page being printed */
	GString *scratch;
	unsigned page;	  /* its object */
	unsigned parents; /* its key among owners of marks */
	GArray *notes;	/* unsigned: its links */
	GArray *pages;	/* unsigned */
	GArray *sides;	/* of a booklet: its pages, while sheets are printed */
	GPtrArray *labels; /* of pages */
	GArray *anchors;   /* struct goal */
	GArray *outline;   /* struct outline_item */

	enum mark mark;
	unsigned node;		 /* whose mark is open */
	GHashTable *nodes;	 /* struct element -> its node */

	bool in_text; /* between BT and ET */
	double line_x, line_y; /* where the line of text began */
	unsigned font;	       /* file that is set, plus one; 0: none */
	double size;
	enum ink ink;
	bool inked; /* `ink` is set on this page */
	const char *why;
};

struct goal {
	const char *name;
	unsigned page;
	double x, y; /* in the file's own measure, from below */
};

struct outline_item {
	const char *title;
	const char *anchor;
	unsigned level;
};

/* From our own measure, downwards, to the file's. */
double
pressing_y(const struct press *press, double y);

void
pressing_ink(struct press *press, enum ink ink);

void
pressing_end_text(struct press *press);

/* Prints words from `pieces` on that make one run; returns how many. */
uint32_t
pressing_words(struct press *press, const struct piece *pieces, uint32_t count,
	double x, double y);

/* A page number at its place. */
void
pressing_page(struct press *press, const struct piece *piece, double x,
	double y);

void
pressing_fill(struct press *press, const struct piece *piece, double x,
	double y);
void
pressing_leader(struct press *press, const struct piece *piece, double x,
	double y);
void
pressing_drawing(struct press *press, const struct piece *piece, double x,
	double y);

/* A rectangle as the file wants it. */
void
pressing_box(GString *out, double left, double bottom, double width,
	double height);

/* Moves the page into its paper and draws the marks to cut it out by. */
void
pressing_crop_marks(struct press *press);

/* Booklets: keeps what was printed as one side, and prints the sheets. */
void
pressing_keep_side(struct press *press);
void
pressing_sheets(struct press *press);

/* Ends the mark that is open. */
void
pressing_close_mark(struct press *press);

/* What follows is furniture of the page, or belongs to an element. */
void
pressing_mark(struct press *press, const struct element *element);

/*
 * What follows is a link, in an element or on furniture, until the next call.
 * The area is given, so that it is as high as the line and not as its ink.
 */
void
pressing_link(struct press *press, const struct element *element,
	const char *link, double x, double y, double width, double height);

/* Frees what words were coded into. */
void
pressing_forget_words(struct press *press);

/* Writes fonts and drawings, and what the file says about itself; returns its
 * catalog, and sets the information object. */
unsigned
pressing_finish(struct press *press, unsigned *info);

#endif
