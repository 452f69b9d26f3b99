/*
 * What is still unseen, on a market's page.
 */
#ifndef WRITE_SITE_UNSEEN_H
#define WRITE_SITE_UNSEEN_H

#include "write/site/page.h"

/* Appends a section; nothing for a market without pairings. */
void
unseen_show(struct page *page, const struct record *market);

#endif
