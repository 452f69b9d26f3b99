/*
 * The book: what stands in which chapter, from the model. For the files that
 * write a chapter each; they only make blocks.
 */
#ifndef WRITE_HANDBOOK_BOOK_H
#define WRITE_HANDBOOK_BOOK_H

#include "model/model.h"
#include "model/seen.h"
#include "study/buyer.h"
#include "study/matrix.h"
#include "study/reckon.h"
#include "study/unseen.h"
#include "write/handbook/block.h"

/* More different requests than these in one market are not listed. */
enum { BOOK_MOST_REQUESTS = 64 };

struct book {
	struct arena *arena;
	const struct model *model;
	const struct seen *seen;
	const struct reckonings *reckonings; /* of how many there are */
	const struct format *format;
	const struct buying *buying; /* of before you buy */
	struct unseen_list unseen;   /* by market */
	const struct record *edition; /* the latest one, or NULL */
	struct block *root;
	struct block *contents; /* the chapter that lists the others */
	struct block *parts;	/* where it lists parts of the last chapter */
	bool *printed;		/* by kind: its records have a place here */
};

/* Makes the whole book. All lives in `arena`, and points into the model. */
struct book *
book_make(const struct model *model, const struct seen *seen,
	const struct reckonings *reckonings, const struct format *format,
	struct arena *arena);

/* Each adds its chapters, in the order of the book. */
void
book_front(struct book *book);
void
book_markets(struct book *book);
void
book_characters(struct book *book);
void
book_keys(struct book *book);
void
book_anomalies(struct book *book);
void
book_records(struct book *book);
void
book_census(struct book *book);
void
book_sheets(struct book *book);

/* Before you buy: a section of a market's chapter. */
void
book_buyers(struct book *book, struct block *chapter,
	const struct matrix *matrix);

/* Marks the kinds that book_records prints. */
void
book_mark_records(struct book *book);

void
book_essays(struct book *book);
/* Last but for the colophon: it is filled when all pages are known. */
void
book_index(struct book *book);

/* Whether the index has records of its kind. */
bool
book_is_indexed(const struct record *record);

void
book_glossary(struct book *book);
void
book_sources(struct book *book);
void
book_colophon(struct book *book);

/*
 * A chapter that is listed in the contents; `kicker` stands small above its
 * title, or is NULL. The title is kept.
 */
struct block *
book_chapter(struct book *book, const char *kicker, const char *title,
	const char *anchor);

/* Lists a part of the last chapter below it, in columns. */
void
book_part(struct book *book, const char *title, const char *anchor);

/* A group that is better not parted by a page break. */
struct block *
book_entry(struct book *book, struct block *parent);

struct block *
book_heading(struct book *book, struct block *parent, enum style style,
	const char *title, const char *anchor);

/* A paragraph of fixed text. */
struct block *
book_say(struct book *book, struct block *parent, enum style style,
	const char *text);

struct block *
book_table(struct book *book, struct block *parent,
	const struct column *columns, unsigned count);

/* A row of heads, one text a column. */
void
book_heads(struct book *book, struct block *table, const char *const *heads);

struct block *
book_cell(struct book *book, struct block *row);

/* "kind/id" of a record, in the arena. */
const char *
book_anchor(const struct book *book, const struct record *record);

/* The anchor of the place that tells of a record, or NULL if none does. */
const char *
book_place(const struct book *book, const struct record *record);

/* The symbol of a word of a vocabulary that has one for each word. */
enum symbol
book_symbol(const struct word *word);

/*
 * Words and values as runs at the end of a block. Records are linked to their
 * place.
 */
void
copy_text(struct book *book, struct block *block, unsigned emphasis,
	const char *text);
void
copy_record(struct book *book, struct block *block, unsigned emphasis,
	const struct record *record);

/* ", p. 12", if the record has a place in the book. */
void
copy_page(struct book *book, struct block *block, const struct record *record);

/* What a card back is called among others of its market: its first label. */
const char *
copy_label(const struct book *book, const struct record *cardback);

/* A date as people write it: 5 November 1983, November 1983, 1983. */
void
copy_date(struct book *book, struct block *block, const struct date *date);

void
copy_value(struct book *book, struct block *block, const struct value *value);

/*
 * What a record says, in three manners that go by how the schema shows a
 * field. Facts, for those shown first: a row each of a quiet table, title and
 * value. Prose: blocks. Details, for all others: run into one paragraph.
 * `skip` lists fields to leave out; a NULL ends it.
 */
void
copy_facts(struct book *book, struct block *table, const struct record *record,
	const struct field *const *skip);

/* A paragraph for details, kept with what stands above it. */
struct block *
copy_detail_block(struct book *book, struct block *parent);

/* `first`: those that are facts as well. */
void
copy_details(struct book *book, struct block *block,
	const struct record *record, const struct field *const *skip,
	bool first);

void
copy_prose_fields(struct book *book, struct block *parent, enum style style,
	const struct record *record);

/* Lists of groups, but for short ones that are shown first: a table each. */
void
copy_groups(struct book *book, struct block *parent,
	const struct record *record, const struct field *const *skip);
bool
copy_is_tabled(const struct field *field);

/* Whether a field is left out: by `skip`, by the schema, or as prose. */
bool
copy_is_skipped(const struct book *book, const struct field *field,
	const struct field *const *skip);

/* All of these. */
void
copy_record_body(struct book *book, struct block *parent,
	const struct record *record, const struct field *const *skip);

struct block *
copy_fact_table(struct book *book, struct block *parent);

/* A row of such a table; returns the cell for the value. */
struct block *
copy_fact(struct book *book, struct block *table, const char *title);

/* Prose as blocks: `style` is that of its paragraphs. */
void
copy_prose(struct book *book, struct block *parent, enum style style,
	const struct prose *prose);

/* The runs of a prose block that has no blocks in it. */
void
copy_inline(struct book *book, struct block *block, unsigned emphasis,
	const struct prose *prose);

#endif
