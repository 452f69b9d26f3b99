/*
 * Page formats as data: sizes, margins, and for each role that text plays the
 * face, size and space it gets. All lengths are in points, 72 to the inch.
 */
#ifndef WRITE_HANDBOOK_FORMAT_H
#define WRITE_HANDBOOK_FORMAT_H

#include <stdbool.h>

#include "write/handbook/drawing.h"
#include "write/handbook/fonts.h"

enum family { FAMILY_TEXT, FAMILY_LABEL };

/* Emphasis within a style, to be combined. */
enum emphasis {
	PLAIN = 0,
	ITALIC = 1,
	BOLD = 2,
	CAPS = 4, /* true small capitals */
	CODE = 8, /* an id, a command: set in the label face */
};

/* What a piece of text is there for. */
enum style {
	STYLE_BODY,
	STYLE_SMALL,   /* glossary, sources, colophon */
	STYLE_DETAILS, /* what else is known of a record */
	STYLE_TABLE,
	STYLE_TABLE_HEAD,
	STYLE_CAPTION,
	STYLE_CALLOUT,
	STYLE_CODE,
	STYLE_CONTENTS,	  /* a line of the contents: chapters */
	STYLE_CONTENTS_2, /* and what is in them */
	STYLE_KICKER,	  /* above a chapter's title */
	STYLE_CHAPTER,
	STYLE_ENTRY, /* head of a record */
	STYLE_HEAD_1,
	STYLE_HEAD_2,
	STYLE_HEAD_3,
	STYLE_TITLE, /* title page */
	STYLE_SUBTITLE,
	STYLE_IMPRINT,
	STYLE_RUNNING, /* running heads */
	STYLE_GUIDE,   /* guide words */
	STYLE_FOLIO,
	STYLE_TAB, /* letters of the thumb index */
	STYLE_COUNT
};

struct style_spec {
	enum family family;
	unsigned emphasis;
	double size;
	double leading;
	double before; /* space above; at the top of a page none */
	double after;
	enum ink ink;
	bool justify;
	double rule; /* thickness of a rule above it, or 0 */
};

struct format {
	const char *name; /* of the paper */
	bool large;	  /* for those who need large type */
	double width;	  /* of the page */
	double height;
	double inner; /* margins */
	double outer;
	double top;	  /* down to the first line's top */
	double grid;	  /* leading of the body: the baseline grid */
	unsigned lines;	  /* of the grid on a page */
	double gap;	  /* between columns */
	double running;	  /* from the page's top to the running head */
	double folio;	  /* and to the folio */
	double tab_width; /* thumb index at the outer edge */
	double tab_height;
	const struct style_spec *styles; /* by enum style */
};

/*
 * The format on paper of that name, or NULL; a name of NULL is for the usual
 * one. Large type comes on the larger papers alone.
 */
const struct format *
format_find(const char *name, bool large);

/* Width and height of the type area. */
double
format_measure(const struct format *format);
double
format_depth(const struct format *format);

/* The face of a style with further emphasis. */
enum face
format_face(const struct style_spec *spec, unsigned emphasis);

#endif
