/*
 * Drawings as data: what the press strokes and fills, without a word about the
 * library that does it. Used for the tick box and the symbols of the tables,
 * and for figures.
 */
#ifndef WRITE_HANDBOOK_DRAWING_H
#define WRITE_HANDBOOK_DRAWING_H

enum ink { INK_BLACK, INK_GREY, INK_ACCENT, INK_PALE, INK_PAPER, INK_COUNT };

enum stroke_kind {
	STROKE_MOVE,  /* to x1 y1 */
	STROKE_LINE,  /* to x1 y1 */
	STROKE_CURVE, /* cubic, to x3 y3 */
	STROKE_CLOSE,
	STROKE_DRAW, /* draws the path so far with a pen x1 wide */
	STROKE_FILL, /* fills it, even-odd */
};

struct stroke {
	enum stroke_kind kind;
	enum ink ink; /* of DRAW and FILL */
	float x1, y1, x2, y2, x3, y3;
};

/*
 * Lengths in ems for symbols set in a line, where y runs downwards from the
 * baseline; in points for figures, where it runs from the top.
 */
struct drawing {
	double width;
	double height;
	const struct stroke *strokes;
	unsigned count;
};

enum symbol {
	SYMBOL_BOX,  /* to tick */
	SYMBOL_FULL, /* a filled disc */
	SYMBOL_HALF, /* a disc half filled */
	SYMBOL_RING, /* an open ring */
	SYMBOL_CROSS,
	SYMBOL_BAR,
	SYMBOL_WARNING, /* a triangle with a bar in it */
	SYMBOL_COUNT
};

/* The drawing of a symbol, about one em of capitals high. */
const struct drawing *
drawing_symbol(enum symbol symbol);

#endif
