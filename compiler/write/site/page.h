/*
 * The site while it is made, and one page of it: what all parts of this folder
 * work on. A site is made before the first page and only read from then on;
 * pages are made by several threads at once, each with its own struct page.
 */
#ifndef WRITE_SITE_PAGE_H
#define WRITE_SITE_PAGE_H

#include "base/code_names.h"
#include "model/model.h"
#include "model/seen.h"
#include "study/buyer.h"
#include "study/rank.h"
#include "study/unseen.h"
#include "write/site/html.h"
#include "write/writer.h"

/* Who mentions a record in prose, in the order of kinds and records. */
struct mention {
	const struct record *from;
};

/* What the pages need of a pairing at a glance. */
struct glance {
	struct seen_count seen;
	unsigned combinations;
	bool anomalous;		/* an anomaly is known on it */
	const struct record *before;	/* the same character's, or NULL */
	const struct record *after;
};

struct site {
	const struct write_job *job;
	const struct model *model;
	const struct seen *seen;
	const struct buying *buying;
	const struct ranks *ranks;
	struct site_keys *keys;
	const struct code_names *codes;
	struct unseen_list unseen;	/* by market */
	struct arena *arena;
	struct record_list **mentions;	/* by kind, by record */
	struct glance *glances;		/* by pairing */
	struct record_list *cardbacks;	/* by market, as its columns */
	unsigned *cardback_rank;	/* by card back: market, then column */
	unsigned *character_rank;	/* by character: release, then name */
	const struct record *edition;	/* the latest, or NULL */
};

struct page {
	const struct site *site;
	GString *out;
	const char *up;			/* "" or "../" */
	char *path;
	const struct record *record;	/* whose page it is, or NULL */
	bool *told;			/* by field: shown by the view */
	GPtrArray *told_pointers;	/* fields whose pointing was shown */
	GError **error;
};

/* Works out all that pages need to know; end it with site_end. */
void
site_begin(struct site *site, const struct write_job *job);

void
site_end(struct site *site);

/* Works out all but the mentions, once the model and arena are set. */
void
site_study(struct site *site);

/*
 * Begins a page at `path` in OUT: head, banner, and the start of main. `ink`
 * names the colour it is printed in. The title is text.
 */
void
page_begin(struct page *page, const struct site *site, const char *path,
	const char *title, const char *ink);

/* Ends the page and adds it to the output; false with *page->error set. */
bool
page_end(struct page *page);

/* The class of the ink that a chapter's pages are printed in. */
const char *
chapter_ink(enum chapter chapter);

/* What a chapter is called. */
const char *
chapter_title(enum chapter chapter);

/* The path of a kind's list, of its page `number` from 1; owned by caller. */
char *
list_path(const struct kind *kind, unsigned number);

/*
 * The record on whose page this record stands: itself, or for a kind without
 * pages the first that it refers to. NULL where there is none.
 */
const struct record *
page_home(const struct record *record);

/* Appends the address of the record's page; of an item on it with `key`. */
void
page_href(struct page *page, const struct record *record, const char *key);

/* Appends the language that the whole name is in, where not English. */
void
name_language(struct page *page, const struct record *record);

/* Appends a link around the record's name, or the name where no page is. */
void
page_link(struct page *page, const struct record *record);

/* Appends a link around other words. */
void
page_link_words(struct page *page, const struct record *record,
	const char *key, const char *words);

/* Appends text with its first letter in upper case. */
void
page_capital(struct page *page, const char *text);

/* Marks a field as shown, so that the generic part passes over it. */
void
page_tell(struct page *page, enum field_name name);
void
page_tell_pointer(struct page *page, enum field_name name);
void
page_tell_pointer_of(struct page *page, const struct field *field);
bool
page_told_pointer(const struct page *page, const struct field *field);

/*
 * Appends links to the records before and after this one in some row, if
 * any, named by `name`.
 */
typedef const char *name_function(const struct site *site,
	const struct record *record);
void
page_neighbours(struct page *page, const struct record *before,
	const struct record *after, name_function *name);

/* A second-level heading with a place of its own on the page. */
void
page_heading(struct page *page, const char *place, const char *words);

/* The short label of a card back, or the name of one without labels. */
const char *
cardback_label(const struct site *site, const struct record *cardback);

#endif
