/*
 * The index that the site's search reads: for every term of the full-text
 * index (search/tokens.h), the records that have it, with all that order and
 * score ask for. What is counted is what FTS5 counts in the same three texts.
 */
#ifndef SEARCH_POSTINGS_H
#define SEARCH_POSTINGS_H

#include <glib.h>

#include "base/arena.h"
#include "model/model.h"
#include "search/entry.h"

/* A name or label that has the term as a word of its own. */
struct posting_piece {
	unsigned posting;	/* in the list of the term */
	enum search_column column;	/* name or label */
	unsigned place;		/* among the pieces of that text, from 0 */
	unsigned words;		/* the piece has, in joined form */
};

struct posting {
	unsigned document;	/* from 0, by kind and place in the kind */
	unsigned hits[SEARCH_COLUMN_COUNT];	/* how often, by column */
	unsigned called : 1;	/* a word of what the record is called, or of
				   its id */
	unsigned in_id : 1;	/* a word of its id */
};

/* A term and its postings, in the order of documents. */
struct term {
	const char *text;
	GArray *postings;	/* struct posting */
	GArray *pieces;		/* struct posting_piece, or NULL */
};

struct posting_document {
	const struct record *record;
	unsigned words;		/* tokens in all three texts */
	unsigned id_words;	/* of the id in joined form */
	unsigned label_pieces;
	unsigned pointed;	/* references that lead to the record */
};

struct postings {
	struct posting_document *documents;
	unsigned count;
	uint64_t words;		/* tokens of all documents */
	struct term **terms;	/* by their bytes */
	unsigned term_count;
	GHashTable *by_text;	/* text: struct term */
	struct arena *arena;
};

/* Of all records of the model, as the database has them. */
struct postings *
postings_make(const struct model *model);

void
postings_free(struct postings *postings);

/* NULL where no record has it. */
const struct term *
postings_find(const struct postings *postings, const char *text);

/* How many records the full-text index finds by the term. */
unsigned
term_records(const struct term *term);

#endif
