/*
 * A collector's own papers: the list of pieces as a spreadsheet or as YAML, a
 * sheet to offer a piece, an inventory for an insurer, and a sighting to lend.
 * They are made on request, for their owner; no guide holds any of it.
 */
#ifndef WRITE_PIECES_PIECES_H
#define WRITE_PIECES_PIECES_H

#include <glib.h>

#include "model/model.h"

/*
 * Appends the records as a spreadsheet that reads back as the same records
 * (schema/README.md): a column for each field that any of them has, and for
 * each item of its lists.
 */
void
pieces_as_csv(const struct records *records, GString *out);

/* Appends the records as YAML, laid out, kind by kind. */
void
pieces_as_yaml(const struct records *records, const struct schema *schema,
	GString *out);

#endif
