/*
 * Records of one kind as a table: a row each, a column for each field that
 * matters and that any of them has.
 */
#ifndef WRITE_SITE_ROWS_H
#define WRITE_SITE_ROWS_H

#include "write/site/page.h"

struct rows {
	const struct kind *kind;
	const struct record *const *items;
	unsigned count;
	const struct field *skip;	/* the field that led here, or NULL */
	bool full;			/* all shown fields, not the first */
};

/* Appends the rows from `from` up to `to`, without it. */
void
rows_show(struct page *page, const struct rows *rows, unsigned from,
	unsigned to);

/* The records that point at `record` by a field, once each, as a list. */
struct record_list
rows_pointing(const struct page *page, const struct record *record,
	enum field_name name, struct arena *arena);

/* A section of them under a heading; nothing where there are none. */
void
rows_section(struct page *page, const char *place, const char *heading,
	struct record_list list, const struct field *skip);

#endif
