/*
 * Pages that are not of one record. Each function writes one of them, or all
 * of a sort.
 */
#ifndef WRITE_SITE_PARTS_H
#define WRITE_SITE_PARTS_H

#include "write/site/page.h"

typedef bool part_function(const struct site *site, GError **error);

part_function home_write;	/* index.html */
part_function lists_write;	/* KIND.html */
part_function keys_write;	/* keys.html and key/to.GROUP.html */
part_function narrow_write;	/* narrow.html, and what its scripts know */
part_function everything_write;	/* everything.html */
part_function names_write;	/* names.html: A to Z */
part_function finder_write;	/* search.html and look/find/ */
part_function glossary_write;	/* glossary.html */
part_function words_write;	/* words.html: vocabularies */
part_function fields_write;	/* fields.html: kinds and their fields */
part_function messages_write;	/* messages.html: codes and samples */
part_function cautions_write;	/* cautions.html */
part_function about_write;	/* about.html */
part_function queries_write;	/* queries.html */
part_function redirects_write;	/* KIND/FORMER.html */

/*
 * Appends links to the pages before and after page `number` of `last`, whose
 * paths are `stem`.html, `stem`.2.html and so on; nothing for a single page.
 */
void
show_turns(struct page *page, const char *stem, unsigned number,
	unsigned last);

/* Appends the head of a kind's list. */
void
list_head(struct page *page, const struct kind *kind, unsigned count);

/* The path of page `number` of a series; owned by the caller. */
char *
turn_path(const char *stem, unsigned number);

/* Appends the rows from `from` up to `to`, without it, of a list. */
typedef void list_rows(struct page *page, struct record_list list,
	unsigned from, unsigned to);

/*
 * Writes the list of a kind that has records, so many rows on a page: its
 * head, and `show` between links to the pages before and after.
 */
bool
list_pages(const struct site *site, const struct kind *kind,
	unsigned rows_on_page, list_rows *show, GError **error);

#endif
