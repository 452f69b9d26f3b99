/*
 * The inside of a lexicon; for this folder alone.
 */
#ifndef MATCH_LEXICAL_H
#define MATCH_LEXICAL_H

#include "match/lexicon.h"

struct posting {
	unsigned name;
	unsigned place;		/* of the word in the name */
};

struct lexicon_word {
	char *text;
	GArray *postings;	/* struct posting */
	unsigned records[NAMINGS];
	const struct record *last[NAMINGS];	/* while counting */
};

struct lexicon {
	const struct wording *wording;
	GArray *words;		/* struct lexicon_word; 0 is none */
	GArray *names;		/* struct name */
	GHashTable *numbers;	/* text → number of the word */
	double records[NAMINGS];
	GHashTable *cuts;	/* a word less one letter → GArray of words */
	GHashTable *bones;	/* a word's consonants → GArray of words */
	unsigned *sorted;	/* words by their bytes, for beginnings */
	GHashTable *asked;	/* a typed word → GArray of struct likeness */
};

/* The number of a word, or 0. */
unsigned
lexicon_number(const struct lexicon *lexicon, const char *word);

/* Makes and frees what finds misspelt words. */
void
near_begin(struct lexicon *lexicon);

void
near_end(struct lexicon *lexicon);

/* The words that a misspelt one may be: struct likeness, best first. */
const GArray *
near_find(struct lexicon *lexicon, const char *word);

#endif
