/*
 * Finding records by words, in the database of a guide.
 */
#ifndef COMMAND_FINDING_H
#define COMMAND_FINDING_H

#include "base/arena.h"
#include "store/store.h"

/* Where the words were found, best first. */
enum matched {
	MATCHED_NAME,		/* all in its names */
	MATCHED_LABEL,		/* all in labels, abbreviations, former ids */
	MATCHED_BEGUN,		/* names have words that begin so */
	MATCHED_WORDS,		/* anywhere */
	MATCHED_WORDS_BEGUN,
};

struct hit {
	int64_t row;		/* in the index */
	const char *kind;
	const char *id;
	const char *called;
	int64_t pointed;	/* how many references lead to it */
	unsigned spare;		/* words of the name that were not asked for,
				   or which label it is */
	bool exact;		/* a label or id of just what was asked */
	enum matched matched;
};

struct found {
	GArray *hits;		/* struct hit, best first */
	GPtrArray *tokens;	/* what was searched for, in plain form */
	bool instead;		/* that is not what was asked for */
};

/*
 * Finds records that have all the words. Where there is none, words that
 * nothing has are taken for those that were meant, as search/typo.h says, and
 * `instead` is set if that finds any. `kind` narrows to one kind; NULL for
 * all. Texts live in `arena`. Returns false with an error where the database
 * fails. Free what was found by finding_release in either case.
 */
bool
finding_run(struct store *store, char *const *words, const char *kind,
	struct arena *arena, struct found *found, GError **error);

void
finding_release(struct found *found);

/*
 * The piece of the record's texts in which the match is, cut to a line. NULL
 * where the record's name shows it. In `arena`.
 */
const char *
finding_why(struct store *store, const struct found *found,
	const struct hit *hit, struct arena *arena);

/* How many records have the token in them. */
int64_t
finding_count(struct store *store, const char *token);

/* The word of the index that was meant by a misspelt token, or NULL. */
const char *
finding_nearest(struct store *store, const char *token, struct arena *arena);

/*
 * The tokens with those that no record has replaced by what was meant. NULL
 * where that changes nothing; else free it.
 */
GPtrArray *
finding_forgive(struct store *store, const GPtrArray *tokens,
	struct arena *arena);

/* "name", "label" or "words": where the match is, for programs. */
const char *
finding_place(enum matched matched);

#endif
