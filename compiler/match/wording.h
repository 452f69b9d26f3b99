/*
 * A row as words. Text is cut and folded as search does it, except that a
 * number keeps its decimals and a word its apostrophe; each word remembers how
 * it was typed and what the vocabulary says of it.
 */
#ifndef MATCH_WORDING_H
#define MATCH_WORDING_H

#include <glib.h>

#include "base/arena.h"
#include "match/words.h"

enum { MOST_WORDS = 240 };	/* of a row; what is longer is no label */

struct row_word {
	const char *text;	/* folded, in plain form */
	enum meaning meaning;
	enum column_role role;
	unsigned cell;
	unsigned clause;	/* what stands between punctuation marks */
	char before;		/* the last mark before it: / - & + ( , ' or
				   a blank */
	bool capitals;		/* among others that are not */
	bool digits;		/* nothing else */
	bool queried;		/* a question mark stands behind it */
	bool money;		/* a sign of money stands beside it */
	bool owner;		/* typed with an apostrophe and an s */
	bool used;		/* it says what the piece is */
	bool hidden;		/* part of a word group that has its meaning */
	bool doubted;		/* the row doubts what is said here */
};

struct row_text {
	struct row_word words[MOST_WORDS];
	unsigned count;
	unsigned clauses;
	unsigned cells;
	bool cut;		/* there was more than that */
	struct arena *arena;
};

struct wording;

/* The vocabulary, ready to be asked. Freed by wording_free. */
struct wording *
wording_new(void);

void
wording_free(struct wording *wording);

/* Says that a folded word is common in this corpus: no misspelt name. */
void
wording_pass(struct wording *wording, const char *word);

enum meaning
wording_meaning(const struct wording *wording, const char *words);

/* An empty row, whose texts go into `arena`. */
void
row_text_begin(struct row_text *row, struct arena *arena);

void
row_text_add(struct row_text *row, const char *cell, enum column_role role);

/* Gives words their meanings, once all cells are there. */
void
row_text_end(struct row_text *row, const struct wording *wording);

/* Whether a word says what was given for it: "swapped for a ...". */
bool
row_text_is_given(const struct row_text *row, unsigned word);

/*
 * The canonical words of one word: its endings gone, other words for it
 * replaced; "unpainted" gives "not" and "paint". Calls for each.
 */
typedef void stem_function(void *data, const char *stem);
void
wording_stems(const struct wording *wording, const char *word,
	stem_function *function, void *data);

/* What a heading means; COLUMN_TEXT, and *known false, if nothing. */
enum column_role
wording_heading(const struct wording *wording, const char *heading,
	bool *known);

/*
 * The countries of a folded word or two, by ISO 3166; NULL if it names none.
 * `column` allows the signs that count in columns for markets alone.
 */
const char *
wording_country(const struct wording *wording, const char *word, bool column);

#endif
