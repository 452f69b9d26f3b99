/*
 * The files of the site's search, under look/find/: read by site/search.js,
 * which says what it does with each. All are classic scripts that put one
 * piece of the index in its place, so that they load from a folder too.
 */
#ifndef WRITE_SITE_FINDER_H
#define WRITE_SITE_FINDER_H

#include "search/postings.h"
#include "write/site/page.h"

enum finder_family {
	FINDER_NAMES,		/* terms of names and labels */
	FINDER_WORDS,		/* of all else, of what is called so, of ids */
	FINDER_FAMILIES
};

/* Records to a shard that says what they are called. */
enum { FINDER_RECORDS = 32 };

/* Appends a number from 0 in characters of which none is a blank or a bar. */
void
finder_number(GString *out, unsigned number);

/*
 * Adds look/find/NAME.js, which puts the text, or with `raw` the JavaScript
 * that `body` is.
 */
bool
finder_add(const struct site *site, const char *name, const GString *body,
	bool raw, GError **error);

/*
 * Adds the shards of a family. Appends to `firsts` what each begins with, a
 * blank between them.
 */
bool
finder_terms(const struct site *site, const struct postings *postings,
	enum finder_family family, GString *firsts, GError **error);

/* Adds the words by length; appends the lengths that there are. */
bool
finder_vocabulary(const struct site *site, const struct postings *postings,
	GString *lengths, GError **error);

/* Adds what characters outside ASCII are read as. */
bool
finder_folding(const struct site *site, GError **error);

#endif
