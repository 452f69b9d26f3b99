/*
 * The trade's words as collectors type them: what headings of columns mean,
 * and what words in a row do. One table of each, in words.c; the corpus' own
 * names come from the corpus.
 */
#ifndef MATCH_WORDS_H
#define MATCH_WORDS_H

#include <stdbool.h>

/* What a column is for. */
enum column_role {
	COLUMN_TEXT,		/* anything; also what no heading explains */
	COLUMN_CHARACTER,
	COLUMN_CARDBACK,
	COLUMN_LETTER,		/* of the card back alone */
	COLUMN_MARKET,
	COLUMN_FORM,
	COLUMN_PART,		/* blister, variant, accessories and so on */
	COLUMN_NOTES,		/* what else there is to say */
	COLUMN_PASSED,		/* price, date, place: says nothing of what a
				   piece is */
	COLUMN_COUNT,		/* how many pieces the row is for */
};

/* What a word does in a row. */
enum meaning {
	MEANS_NOTHING,
	MEANS_ARTICLE,		/* counts for nothing, in names too */
	MEANS_COMMON,		/* a common word: no misspelt name */
	MEANS_CARDED,
	MEANS_SEALED,		/* carded, if nothing else is said */
	MEANS_LOOSE,
	MEANS_CASED,
	MEANS_BAGGED,
	MEANS_BOXED,
	MEANS_CARD_ONLY,
	MEANS_PROOF,
	MEANS_SHEET,
	MEANS_TEST,
	MEANS_STICKER,
	MEANS_PREMIUM,
	MEANS_COPY,		/* a copy, not an original */
	MEANS_LOT,		/* several pieces */
	MEANS_NOT,
	MEANS_WITHOUT,
	MEANS_WITH,
	MEANS_OR,
	MEANS_AND,
	MEANS_DOUBT,
	MEANS_ONLY,
	MEANS_FOR,
	MEANS_BACK,		/* of a card, behind a number */
	MEANS_LETTER,
	MEANS_COUNTED,		/* the number that follows counts no pictures */
	MEANS_MONEY,
	MEANS_SWAPPED,		/* what was given for it follows */
	MEANS_BOUGHT,		/* where or from whom it came follows */
	MEANS_FORMER,		/* an older way of lettering */
	MEANS_FITTING,		/* "bit", "nice": the "a" before it is no
				   letter */
};

/* A word or several, folded, with blanks between them. */
struct word_meaning {
	const char *words;
	enum meaning meaning;
};

extern const struct word_meaning word_meanings[];
extern const unsigned word_meanings_count;

struct heading_meaning {
	const char *words;
	enum column_role role;
};

extern const struct heading_meaning heading_meanings[];
extern const unsigned heading_meanings_count;

/* Other words for a word of the corpus; both are folded. */
struct word_alike {
	const char *word;
	const char *means;
};

extern const struct word_alike words_alike[];
extern const unsigned words_alike_count;

/* What people and things of a country are called, and signs for it. */
struct country_word {
	const char *word;
	char code[3];		/* ISO 3166 */
	bool column;		/* only in a column for markets */
};

extern const struct country_word country_words[];
extern const unsigned country_words_count;

/* A number in figures and in words of several languages. */
struct number_words {
	const char *figures;
	const char *words;
};

extern const struct number_words number_words[];
extern const unsigned number_words_count;

#endif
