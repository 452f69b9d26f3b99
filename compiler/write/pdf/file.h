/*
 * A PDF file as numbered objects (ISO 32000-1, 7.5), written from front to
 * back. Small objects are packed together; the table of places is a stream. So
 * that the bytes depend on what is written alone, there is no clock in it and
 * the file's identifier is a digest of what stands before it.
 */
#ifndef WRITE_PDF_FILE_H
#define WRITE_PDF_FILE_H

#include <glib.h>
#include <stdio.h>

struct pdf;

/* Writes to `out`, which stays the caller's. */
struct pdf *
pdf_open(FILE *out);

/*
 * Ends the file with its catalog and its information object, and frees it.
 * Returns NULL, or what went wrong: a text that stays valid.
 */
const char *
pdf_close(struct pdf *pdf, unsigned catalog, unsigned info);

/* The number of an object that is written later, or never. */
unsigned
pdf_reserve(struct pdf *pdf);

/* Writes a reserved object: a dictionary, an array, anything but a stream. */
void
pdf_put(struct pdf *pdf, unsigned object, const GString *body);

/*
 * Writes a reserved object as a compressed stream. `entries` go into its
 * dictionary beside the length and the filter.
 */
void
pdf_put_stream(struct pdf *pdf, unsigned object, const char *entries,
	const char *bytes, size_t size);

#endif
