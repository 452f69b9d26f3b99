/*
 * The symbols, drawn so that they stay apart in black and at small sizes: by
 * shape, never by colour.
 */
#include "write/handbook/drawing.h"

#include <stddef.h>

/* A circle around 0.31 -0.31 as four curves of radius R. */
#define X 0.31f
#define Y -0.31f
#define R 0.25f
#define K (0.5523f * R)

#define MOVE(x, y)                                       \
	{                                                \
		STROKE_MOVE, INK_BLACK, x, y, 0, 0, 0, 0 \
	}
#define LINE(x, y)                                       \
	{                                                \
		STROKE_LINE, INK_BLACK, x, y, 0, 0, 0, 0 \
	}
#define CURVE(a, b, c, d, e, f)                           \
	{                                                 \
		STROKE_CURVE, INK_BLACK, a, b, c, d, e, f \
	}
#define CLOSE                                             \
	{                                                 \
		STROKE_CLOSE, INK_BLACK, 0, 0, 0, 0, 0, 0 \
	}
#define DRAW(width)                                          \
	{                                                    \
		STROKE_DRAW, INK_BLACK, width, 0, 0, 0, 0, 0 \
	}
#define FILL                                             \
	{                                                \
		STROKE_FILL, INK_BLACK, 0, 0, 0, 0, 0, 0 \
	}

#define LEFT_HALF                                                    \
	MOVE(X, Y + R), CURVE(X - K, Y + R, X - R, Y + K, X - R, Y), \
		CURVE(X - R, Y - K, X - K, Y - R, X, Y - R)
#define CIRCLE                                                  \
	LEFT_HALF, CURVE(X + K, Y - R, X + R, Y - K, X + R, Y), \
		CURVE(X + R, Y + K, X + K, Y + R, X, Y + R), CLOSE

static const struct stroke box[] = {
	MOVE(0.04f, 0.02f),
	LINE(0.7f, 0.02f),
	LINE(0.7f, -0.64f),
	LINE(0.04f, -0.64f),
	CLOSE,
	DRAW(0.06f),
};
static const struct stroke full[] = {CIRCLE, FILL};
static const struct stroke half[] = {
	LEFT_HALF,
	CLOSE,
	FILL,
	CIRCLE,
	DRAW(0.07f),
};
static const struct stroke ring[] = {CIRCLE, DRAW(0.07f)};
static const struct stroke cross[] = {
	MOVE(X - 0.2f, Y - 0.2f),
	LINE(X + 0.2f, Y + 0.2f),
	MOVE(X - 0.2f, Y + 0.2f),
	LINE(X + 0.2f, Y - 0.2f),
	DRAW(0.11f),
};
static const struct stroke bar[] = {
	MOVE(X - R, Y),
	LINE(X + R, Y),
	DRAW(0.1f),
};
static const struct stroke warning[] = {
	MOVE(0.5f, -0.8f),
	LINE(0.98f, 0.02f),
	LINE(0.02f, 0.02f),
	CLOSE,
	DRAW(0.08f),
	MOVE(0.5f, -0.55f),
	LINE(0.5f, -0.24f),
	DRAW(0.1f),
	MOVE(0.5f, -0.16f),
	LINE(0.5f, -0.06f),
	DRAW(0.1f),
};

#define SYMBOL(width, strokes)                                          \
	{                                                               \
		width, 0.7, strokes, sizeof(strokes) / sizeof(*strokes) \
	}

static const struct drawing symbols[SYMBOL_COUNT] = {
	[SYMBOL_BOX] = SYMBOL(0.74, box),
	[SYMBOL_FULL] = SYMBOL(0.62, full),
	[SYMBOL_HALF] = SYMBOL(0.62, half),
	[SYMBOL_RING] = SYMBOL(0.62, ring),
	[SYMBOL_CROSS] = SYMBOL(0.62, cross),
	[SYMBOL_BAR] = SYMBOL(0.62, bar),
	[SYMBOL_WARNING] = SYMBOL(1.0, warning),
};

const struct drawing *
drawing_symbol(enum symbol symbol)
{
	return &symbols[symbol];
}
