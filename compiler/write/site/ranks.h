/*
 * Lines of population reports on a page: a row a step, with its rank.
 */
#ifndef WRITE_SITE_RANKS_H
#define WRITE_SITE_RANKS_H

#include "study/rank.h"
#include "write/site/page.h"

/* Appends the heads of the columns of such a table. */
void
ranks_heads(struct page *page);

/* Appends a row for each step of a line. */
void
ranks_rows(struct page *page, const struct rank_line *line);

/* How many columns these have. */
enum { RANKS_COLUMNS = 6 };

/* Appends what is said of a line besides, as sentences one after the other. */
void
ranks_words(struct page *page, const struct rank_line *line);

/*
 * The section of a pairing: the latest report of each service side by side.
 * Nothing where no report covers it.
 */
void
ranks_section(struct page *page);

#endif
