/*
 * How values are written in a PDF (ISO 32000-1, 7.3). All of them append to a
 * text that stays the caller's.
 */
#ifndef WRITE_PDF_WRITE_H
#define WRITE_PDF_WRITE_H

#include <glib.h>

/* A space and a number with at most two decimals, whatever the locale. */
void
pdf_number(GString *out, double number);

/* A space and a reference to an object. */
void
pdf_reference(GString *out, unsigned object);

/* Bytes as a string in parentheses. */
void
pdf_bytes(GString *out, const char *bytes, size_t size);

/*
 * UTF-8 as a text string: as it is where it is plain ASCII, and else in
 * UTF-16 with its mark (7.9.2.2).
 */
void
pdf_text(GString *out, const char *text, size_t size);

/* UTF-8 as hexadecimal digits of UTF-16, without brackets. */
void
pdf_utf16(GString *out, const char *text, size_t size);

#endif
