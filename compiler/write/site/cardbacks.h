/*
 * Card backs beside each other, to tell them apart.
 */
#ifndef WRITE_SITE_CARDBACKS_H
#define WRITE_SITE_CARDBACKS_H

#include "write/site/page.h"

/* Appends a table of them: labels, what to look at, offer, dates. */
void
cardbacks_table(struct page *page, struct record_list list);

/* The path of the page that lists a market's; owned by the caller. */
char *
cardbacks_path(const struct site *site, const struct record *market);

/* Writes the list of all, by market and number of figures pictured. */
bool
cardbacks_write(const struct site *site, const struct kind *kind,
	GError **error);

#endif
