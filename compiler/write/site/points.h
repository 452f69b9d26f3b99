/*
 * What points at a record: every record that refers to it in a field, by kind
 * and field, and those that mention it in prose. What is too long for the
 * record's page goes on in pages of its own.
 */
#ifndef WRITE_SITE_POINTS_H
#define WRITE_SITE_POINTS_H

#include "write/site/page.h"

struct points;

/* Groups what points at the page's record and was not told by its view. */
struct points *
points_gather(const struct page *page);

void
points_free(struct points *points);

/* Appends the groups, and the mentions. */
void
points_show(struct points *points, struct page *page);

/* Writes the pages for groups that were too long. */
bool
points_continue(const struct points *points, GError **error);

/* Fills site->mentions. */
void
mentions_gather(struct site *site);

#endif
