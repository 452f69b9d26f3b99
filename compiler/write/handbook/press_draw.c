/*
 * What is on a page beside words. A drawing is written once and shown wherever
 * it stands (ISO 32000-1, 8.10): a tick box is on every page.
 */
#include <string.h>

#include "write/handbook/pressing.h"
#include "write/pdf/write.h"

static const struct {
	double red, green, blue;
} inks[INK_COUNT] = {
	[INK_BLACK] = {0, 0, 0},
	[INK_GREY] = {0.38, 0.38, 0.38},
	[INK_ACCENT] = {0.60, 0.20, 0.10},
	[INK_PALE] = {0.72, 0.70, 0.68},
	[INK_PAPER] = {1, 1, 1},
};

static void
append_ink(const struct press *press, GString *out, enum ink ink, bool stroke)
{
	/* In black alone all that is not paper is black: no meaning hangs on
	 * the other inks. */
	if (press->how.black && ink != INK_PAPER)
		ink = INK_BLACK;
	pdf_number(out, inks[ink].red);
	if (inks[ink].red == inks[ink].green &&
		inks[ink].red == inks[ink].blue) {
		g_string_append(out, stroke ? " G" : " g");
		return;
	}
	pdf_number(out, inks[ink].green);
	pdf_number(out, inks[ink].blue);
	g_string_append(out, stroke ? " RG" : " rg");
}

void
pressing_ink(struct press *press, enum ink ink)
{
	if (press->inked && press->ink == ink)
		return;
	append_ink(press, press->content, ink, false);
	g_string_append_c(press->content, '\n');
	press->ink = ink;
	press->inked = true;
}

void
pressing_fill(struct press *press, const struct piece *piece, double x,
	double y)
{
	GString *out = press->content;

	pressing_end_text(press);
	pressing_ink(press, piece->ink);
	pdf_number(out, x);
	pdf_number(out, pressing_y(press, y + (double)piece->size));
	pdf_number(out, (double)piece->width);
	pdf_number(out, (double)piece->size);
	g_string_append(out, " re f\n");
}

/* Dots stand at the same places in all lines, whatever they lead from. They
 * are drawn, so that they are not read aloud or copied. */
void
pressing_leader(struct press *press, const struct piece *piece, double x,
	double y)
{
	double pitch = 0.55 * (double)piece->size;
	double radius = 0.045 * (double)piece->size;
	double end = x + (double)piece->width, at;
	GString *out = press->content;

	at = pitch * (double)(long)(x / pitch + 1);
	if (at >= end)
		return;
	pressing_end_text(press);
	/* A dash of no length with round ends is a dot. */
	g_string_append(out, "q 1 J");
	append_ink(press, out, INK_GREY, true);
	pdf_number(out, 2 * radius);
	g_string_append(out, " w[0");
	pdf_number(out, pitch);
	g_string_append(out, "]0 d");
	pdf_number(out, at);
	pdf_number(out, pressing_y(press, y - radius));
	g_string_append(out, " m");
	pdf_number(out, end);
	pdf_number(out, pressing_y(press, y - radius));
	g_string_append(out, " l S Q\n");
}

static void
append_point(GString *out, float x, float y)
{
	pdf_number(out, (double)x * 100);
	pdf_number(out, (double)y * 100);
}

static void
append_stroke(GString *out, const struct stroke *s)
{
	switch (s->kind) {
	case STROKE_MOVE:
		append_point(out, s->x1, s->y1);
		g_string_append(out, " m");
		break;
	case STROKE_LINE:
		append_point(out, s->x1, s->y1);
		g_string_append(out, " l");
		break;
	case STROKE_CURVE:
		append_point(out, s->x1, s->y1);
		append_point(out, s->x2, s->y2);
		append_point(out, s->x3, s->y3);
		g_string_append(out, " c");
		break;
	case STROKE_CLOSE:
		g_string_append(out, " h");
		break;
	case STROKE_DRAW:
		g_string_append(out, " S\n");
		break;
	case STROKE_FILL:
		g_string_append(out, " f*\n");
		break;
	}
}

/* Coordinates are written a hundred times too large: they have two decimals.
 * Ink and pen come before a path, which waits until they are known. */
static unsigned
put_drawing(struct press *press, const struct drawing *drawing)
{
	GString *out = g_string_new(NULL), *path = g_string_new(NULL);
	unsigned object = pdf_reserve(press->pdf), i;
	const struct stroke *s;

	for (i = 0; i < drawing->count; i++) {
		s = &drawing->strokes[i];
		if (s->kind == STROKE_DRAW || s->kind == STROKE_FILL) {
			append_ink(press, out, s->ink, s->kind == STROKE_DRAW);
			if (s->kind == STROKE_DRAW) {
				pdf_number(out, (double)s->x1 * 100);
				g_string_append(out, " w");
			}
			g_string_append_len(out, path->str,
				(gssize)path->len);
			g_string_truncate(path, 0);
			append_stroke(out, s);
			continue;
		}
		append_stroke(path, s);
	}
	pdf_put_stream(press->pdf, object,
		"/Type/XObject/Subtype/Form"
		"/BBox[-200000 -200000 200000 200000]"
		"/Matrix[.01 0 0 .01 0 0]/Resources<<>>",
		out->str, out->len);
	g_string_free(path, TRUE);
	g_string_free(out, TRUE);
	return object;
}

void
pressing_drawing(struct press *press, const struct piece *piece, double x,
	double y)
{
	gpointer key = (gpointer)(uintptr_t)piece->drawing;
	unsigned object = GPOINTER_TO_UINT(
		g_hash_table_lookup(press->drawings, key));
	double size = (double)piece->size;
	const char *says = piece->says;
	GString *out = press->content;

	if (object == 0) {
		object = put_drawing(press, piece->drawing);
		g_hash_table_insert(press->drawings, key,
			GUINT_TO_POINTER(object));
	}
	pressing_end_text(press);
	if (says != NULL) {
		g_string_append(out, "/Span<</Alt");
		pdf_text(out, says, strlen(says));
		g_string_append(out, ">>BDC\n");
	}
	g_string_append(out, "q");
	pdf_number(out, size);
	g_string_append(out, " 0 0");
	pdf_number(out, -size);
	pdf_number(out, x);
	pdf_number(out, pressing_y(press, y));
	g_string_append_printf(out, " cm/D%u Do Q\n", object);
	g_string_append(out, says != NULL ? "EMC\n" : "");
}
