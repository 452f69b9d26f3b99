/*
 * Records that are yet to be filled in, as YAML: the schema in the words of
 * its own fields, for people who would rather not look it up.
 */
#ifndef WRITE_DRAFT_H
#define WRITE_DRAFT_H

#include <glib.h>

#include "read/node.h"
#include "shape/schema.h"

/*
 * Appends a record of `kind` with that id: first the fields it must have, then
 * those it may have, as comments; above each, what belongs in it. As an `item`,
 * it stands behind a dash under the heading of its kind.
 */
void
draft_record(const struct kind *kind, const char *id, bool item, GString *out);

/* Appends what may be written in a field: "a date: 1983, 1983-11 or ...". */
void
draft_hint(const struct field *field, GString *out);

/*
 * Appends records in their layout, as a list: mappings of `kind`, of which
 * every field is known. A required field that one lacks is a blank, with a
 * comment that says what to fill in. With `headed`, the list stands under the
 * name of its kind, as in a file of several kinds.
 */
void
draft_rows(const struct node *const *records, size_t count,
	const struct kind *kind, const struct schema *schema, bool headed,
	GString *out);

#endif
