/*
 * Identification keys on the site: a page for each that helps, and the links
 * that lead there.
 */
#ifndef WRITE_SITE_KEYS_H
#define WRITE_SITE_KEYS_H

#include "write/site/page.h"

struct site_keys;

/* Finds the keys that help; lives in `arena`, and is ended by the other. */
struct site_keys *
site_keys_new(const struct model *model, const struct seen *seen,
	struct arena *arena);

void
site_keys_free(struct site_keys *keys);

/* Whether there is any, and so a page that lists them. */
bool
site_keys_any(const struct site_keys *keys);

/* Links from a record: to keys of what belongs to it, and those it is in. */
void
keys_section(struct page *page);

/* Links to keys of a kind, in a line. */
void
keys_of_kind(struct page *page, const struct kind *kind);

/* A door of the first page: the largest keys. */
void
keys_door(struct page *page);

#endif
