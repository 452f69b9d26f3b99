/*
 * The page of a record: what every page of a record has, and the views that
 * kinds of their own have beside it.
 */
#ifndef WRITE_SITE_RECORD_H
#define WRITE_SITE_RECORD_H

#include "write/site/page.h"

/* Writes the page of a record, and those that go on from it. */
bool
record_write(const struct site *site, const struct record *record,
	GError **error);

/* Appends what the page says, without its frame and what points at it. */
void
record_fold(const struct site *site, const struct record *record,
	GString *out);

/*
 * A view adds to the page of a kind what it knows by name. It tells the page
 * which fields and pointers it showed; all others are shown by type. Either
 * function may be NULL.
 */
struct view {
	const char *kind;
	void (*lead)(struct page *page);	/* under the title */
	void (*body)(struct page *page);	/* after the prose */
	bool body_first;			/* before it, rather */
};

/* The views, each in a file of its own. */
void character_lead(struct page *page);
void character_body(struct page *page);
void cardback_lead(struct page *page);
void cardback_body(struct page *page);
void pairing_lead(struct page *page);
void pairing_body(struct page *page);
void anomaly_lead(struct page *page);
void anomaly_body(struct page *page);
void market_body(struct page *page);
void run_body(struct page *page);
void specimen_lead(struct page *page);
void census_body(struct page *page);
void scheme_body(struct page *page);
void feature_body(struct page *page);
void sheet_lead(struct page *page);
void sheet_body(struct page *page);

/* What to know before buying, of things that were made; else nothing. */
void buyer_section(struct page *page);

/* Claims made about the record, open ones first; nothing where none was. */
void questions_section(struct page *page);

#endif
