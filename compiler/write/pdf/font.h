/*
 * A font inside a PDF: only the glyphs that were used, under their own numbers
 * (ISO 32000-1, 9.7), with what each stands for, so that text can be searched,
 * copied and read aloud.
 */
#ifndef WRITE_PDF_FONT_H
#define WRITE_PDF_FONT_H

#include <hb.h>
#include <stdbool.h>

#include "write/pdf/file.h"

struct pdf_font;

/* The font stays the caller's and must outlive this one. */
struct pdf_font *
pdf_font_new(struct pdf *pdf, hb_font_t *font);

/* Advance of a glyph in whole thousandths of an em, as the file will say. */
int
pdf_font_width(struct pdf_font *font, unsigned glyph);

/*
 * Notes that a glyph is used for a piece of UTF-8, which is kept. False if it
 * already stands for another text.
 */
bool
pdf_font_use(struct pdf_font *font, unsigned glyph, const char *text,
	size_t size);

/*
 * Writes the font and frees it; returns its object, or 0 if no glyph was used.
 * *why is set where the font cannot be cut down.
 */
unsigned
pdf_font_put(struct pdf_font *font, const char **why);

#endif
