/*
 * Quoted estimates and counts of what was seen, wherever they stand.
 */
#ifndef WRITE_SITE_ESTIMATES_H
#define WRITE_SITE_ESTIMATES_H

#include "write/site/page.h"

/* The names under which a kind has its estimates. */
struct estimate_names {
	enum field_name list;
	enum field_name of, form, number, low, high, date, source, method;
	enum field_name pairing;	/* only with `with_pairing` */
	bool with_pairing;
};

/* Appends the estimates of the page's record as a section, if it has any. */
void
estimates_show(struct page *page, const struct estimate_names *names);

/* Appends counts in words: "12 pieces told apart on 3 lists, last seen ...". */
void
seen_words(struct page *page, struct seen_count count);

/*
 * Appends as a section the specimens that point at the page's record by a
 * field and belong to no pairing for certain: the others are on its pairings'
 * pages.
 */
void
seen_loose_ends(struct page *page, enum field_name name, const char *heading);

/* Appends a table of specimens, under a heading of its own. */
void
seen_table(struct page *page, struct seen_list list, const char *heading);

#endif
