/*
 * The matrix on a page: in full, as a table, and as a picture in small.
 */
#ifndef WRITE_SITE_MATRIX_H
#define WRITE_SITE_MATRIX_H

#include "write/site/page.h"

/* Appends the matrix of a market with its legend. */
void
matrix_show(struct page *page, const struct record *market);

/*
 * Appends a small picture of it that leads to the market's page, with its name
 * and numbers; nothing for a market without card backs.
 */
void
matrix_thumb(struct page *page, const struct record *market);

#endif
