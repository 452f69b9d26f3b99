/*
 * Which misspellings are forgiven, for terminal and site alike. A word that
 * nothing has is taken for one an edit away, of six letters and more for one
 * two edits away; its first letter may be the wrong one. Words with a digit at
 * their beginning are left alone, for numbers are near to too many others,
 * and so are words of one or two letters.
 */
#ifndef SEARCH_TYPO_H
#define SEARCH_TYPO_H

#include <stdbool.h>
#include <stdint.h>

/* How many edits are forgiven in a token in plain form; 0: none. */
int
search_typo_limit(const char *token);

/* Whether a term of the index may be taken for what somebody meant. */
bool
search_typo_may_be(const char *term);

/* The best word so far. */
struct typo {
	const char *token;	/* as typed, in plain form */
	int limit;
	const char *best;	/* NULL: none near enough */
	int distance;		/* of the best */
	int64_t records;	/* that have the best */
};

struct typo
search_typo_begin(const char *token);

/*
 * Offers a term that so many records have. Less distance is better, then more
 * records, then the byte order. Returns whether it is the best now; the term
 * must outlive the search, so that a caller may put its copy in `best` then.
 */
bool
search_typo_offer(struct typo *typo, const char *term, int64_t records);

#endif
