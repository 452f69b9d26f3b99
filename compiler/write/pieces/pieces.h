/*
 * A collector's own papers: the list of pieces as a spreadsheet or as YAML, a
 * sheet to offer a piece, an inventory for an insurer, and a sighting to lend.
 * They are made on request, for their owner; no guide holds any of it.
 */
#ifndef WRITE_PIECES_PIECES_H
#define WRITE_PIECES_PIECES_H

#include <glib.h>

#include "model/seen.h"

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

/*
 * Appends a sheet to offer a piece by. `look` is the text of the style sheet
 * for a page, or NULL for text.
 */
void
pieces_offer(const struct model *model, const struct record *piece,
	const char *look, GString *out);

/*
 * Appends an inventory for an insurer, as of the day `on` in words if that is
 * not NULL; or the same as a spreadsheet.
 */
void
pieces_inventory(const struct model *model, const struct records *records,
	const char *on, const char *look, GString *out);
void
pieces_inventory_csv(const struct model *model, const struct records *records,
	GString *out);

/*
 * Appends what should be here or back by the day `on` (2026-11-05) and is not,
 * nothing where there is none; with `batches`, a whole paper, with what came of
 * each batch. Returns how many are overdue.
 */
unsigned
pieces_overdue(const struct model *model, const struct records *records,
	const char *on, bool batches, const char *look, GString *out);

/*
 * Appends where each graded piece that is held stands in the latest report of
 * its service.
 */
void
pieces_ranks(const struct model *model, const struct seen *seen,
	const struct records *records, const char *look, GString *out);

/*
 * Appends the piece, or its sale, as a sighting stripped to public facts, with
 * blanks for what only its contributor can say. The number of the certificate
 * is in it only with `certificate`.
 */
void
pieces_lend(const struct model *model, const struct record *piece,
	bool certificate, GString *out);

#endif
