/*
 * Matching: which record a row of somebody's spreadsheet is about. A row is
 * settled where one candidate reaches the threshold and no other comes near;
 * all others stay open, with their candidates, best first.
 */
#ifndef MATCH_MATCH_H
#define MATCH_MATCH_H

#include "model/model.h"
#include "study/situation.h"
#include "match/words.h"

/* From this confidence on a row is settled. */
#define MATCH_THRESHOLD 0.75

enum { MOST_CANDIDATES = 8 };	/* that are kept */

struct matcher;

struct match_cell {
	const char *text;
	enum column_role role;
};

struct match_candidate {
	const struct record *record;
	double confidence;	/* 0 to 1 */
	const char *reason;	/* "carded; label 18B; ...", in the arena */
	GArray *situations;	/* struct situation that fit, or NULL */
	bool refuted;		/* the corpus says that there is none */
};

enum match_state { MATCH_OPEN, MATCH_SETTLED };

struct matched {
	enum match_state state;
	GArray *candidates;	/* struct match_candidate, best first */
	unsigned others;	/* candidates that were not kept */
	const char *reason;	/* why it is settled, or open */
	const char *question;	/* what would divide them, or NULL */
	const char *ask;	/* that, as a request to a seller, or NULL */
	const struct record *feature;	/* that the question is about, or NULL */
	const char *form;	/* a word of the vocabulary, or NULL */
	GPtrArray *characters;	/* what is known for sure: any of these */
	GPtrArray *cardbacks;	/* any of these */
	GPtrArray *not_cardbacks;	/* and none of these */
	const struct record *variant;	/* that the row tells apart, or NULL */
	const struct record *blister;	/* that it names, or NULL */
	struct arena *arena;
};

/*
 * Prepares for rows. `arena` and `model` must outlive it. `scheme` is one that
 * labels are read in, or NULL for that in use. Freed by matcher_free.
 */
struct matcher *
matcher_new(const struct model *model, const struct record *scheme,
	struct arena *arena);

void
matcher_free(struct matcher *matcher);

/* What a heading means; COLUMN_TEXT, and *known false, if nothing. */
enum column_role
matcher_heading(const struct matcher *matcher, const char *heading,
	bool *known);

/*
 * Reads a row. What it gives lives in `arena`, and is ended by
 * matched_release.
 */
void
matcher_read(struct matcher *matcher, const struct match_cell *cells,
	unsigned count, struct arena *arena, struct matched *matched);

void
matched_release(struct matched *matched);

/* Whether some card back pictures that many figures; false for other text. */
bool
matcher_is_number(const struct matcher *matcher, const char *text);

/* Whether a text is a label and no more, as "18B" or "18-back": a number that
 * some card back pictures, with letters or "back" behind it. */
bool
matcher_is_label(const struct matcher *matcher, const char *text);

/* Whether the words of a row name anything of the corpus: a row of data. */
bool
matcher_knows(struct matcher *matcher, const struct match_cell *cells,
	unsigned count);

#endif
