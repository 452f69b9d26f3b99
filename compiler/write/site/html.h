/*
 * Text into HTML: the one place where the site escapes. What comes from the
 * corpus reaches a page only through these functions, in content and in
 * double-quoted attributes alike.
 */
#ifndef WRITE_SITE_HTML_H
#define WRITE_SITE_HTML_H

#include <glib.h>
#include <stdbool.h>

/*
 * Appends `text` so that it is nothing but text there: marks of markup become
 * references, control characters U+FFFD, and bidi controls left open at the
 * end are closed.
 */
void
html_text(GString *out, const char *text);

/*
 * Appends `format`, which is markup of our own; each %s is text for
 * html_text(), %u and %d are numbers, %% is a per cent sign. Nothing else.
 */
void
html_put(GString *out, const char *format, ...)
	__attribute__((format(printf, 2, 3)));

/* Appends ` lang="TAG"` where the tag is well formed, else nothing. */
void
html_language(GString *out, const char *tag);

/* Whether the address is one that a page may lead to outside the guide. */
bool
html_is_address(const char *address);

/* Appends such an address for a quoted attribute. */
void
html_address(GString *out, const char *address);

/*
 * Appends a key as the name of a place on a page: letters, digits and hyphens
 * as they are, other bytes as "_" and two digits. Places that the site itself
 * names are "_" and a word, which no key's can be: what follows the "_" there
 * is a digit, or a byte beyond ASCII and then another "_".
 */
void
html_place(GString *out, const char *key);

#endif
