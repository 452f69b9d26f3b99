/*
 * Link: names to records. Every reference, in fields and in prose, is led to
 * the record it names; ids are made unique, former ids remembered.
 *
 * Needs: shaped records. Gives: a table of names; fills `record` and `item` of
 * references and of links in prose. A reference that leads nowhere is reported
 * with the nearest ids and left empty.
 */
#ifndef LINK_LINK_H
#define LINK_LINK_H

#include "shape/nearest.h"
#include "read/past.h"
#include "shape/shape.h"

struct names;

/*
 * Links `records`, which keep their order; of records with one id the first
 * stays. The table lives until names_free. With `known`, ids are also sought
 * there: that is how holdings are linked to a corpus.
 */
struct names *
link_records(struct records *records, const struct schema *schema,
	const struct names *known, const struct sources *sources,
	struct arena *arena, struct diags *diags);

void
names_free(struct names *names);

/* The record of that kind and id, current or former; or NULL. */
const struct record *
names_find(const struct names *names, const struct kind *kind,
	const char *id);

/* The same for "kind/id" or "kind/id.key"; *item may be set. */
const struct record *
names_find_written(const struct names *names, const struct schema *schema,
	const char *written, const struct value **item);

/* The item with that key in a record's keyed groups, or NULL. */
const struct value *
link_item(const struct record *record, const char *key);

/* Offers every id of the kind to a search for a misspelt one. */
void
names_nearest(const struct names *names, const struct kind *kind,
	struct nearest *nearest);

/*
 * Holds the ids of an earlier edition against the names of a corpus that was
 * read without error: all must still be found, and none mean another record.
 */
void
link_check_past(const struct past *past, const struct schema *schema,
	const struct names *names, struct diags *diags);

/*
 * Leads the references of linked holdings from records that were withdrawn to
 * what took their place, and reports each: one record, or one of several. What
 * has no successor stays.
 */
void
link_follow(const struct records *records, struct arena *arena,
	struct diags *diags);

#endif
