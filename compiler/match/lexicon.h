/*
 * The names of a corpus, by their words: an inverted index, so that a row is
 * held against the names that share a word with it and no others.
 */
#ifndef MATCH_LEXICON_H
#define MATCH_LEXICON_H

#include "model/model.h"
#include "match/wording.h"

/* Kinds of record that a row may name. */
enum naming {
	NAMES_CHARACTER,
	NAMES_MARKET,
	NAMES_BLISTER,
	NAMES_ACCESSORY,
	NAMES_PACKAGE,
	NAMES_PREPRODUCTION,
	NAMES_ANOMALY,
	NAMES_STICKER,
	NAMES_OFFER,
	NAMES_SCHEME,
	NAMINGS,
};

enum { MOST_IN_NAME = 12 };

/* One name of a record. */
struct name {
	const struct record *record;
	enum naming naming;
	unsigned count;
	unsigned words[MOST_IN_NAME];	/* distinct, by number in the lexicon */
	double weight;			/* of all its words */
	bool id;	/* it is an id, and no name */
	bool brief;			/* an abbreviation of one or two letters */
};

struct lexicon;

/* Everything that `model` names. Freed by lexicon_free. */
struct lexicon *
lexicon_new(const struct model *model, const struct wording *wording);

void
lexicon_free(struct lexicon *lexicon);

unsigned
lexicon_names(const struct lexicon *lexicon);

const struct name *
lexicon_name(const struct lexicon *lexicon, unsigned i);

const char *
lexicon_word_text(const struct lexicon *lexicon, unsigned word);

/* How much a word tells among names of one kind: more, the fewer have it. */
double
lexicon_weight(const struct lexicon *lexicon, unsigned word,
	enum naming naming);

/* Whether the word is one of `naming` and of no other thing's names. */
bool
lexicon_is_own(const struct lexicon *lexicon, unsigned word,
	enum naming naming);

/* Whether some name of `naming` has the word, canonical. */
bool
lexicon_is_in(const struct lexicon *lexicon, const char *word,
	enum naming naming);

/* A word of the lexicon that a typed one may be, and how well it fits. */
struct likeness {
	unsigned word;
	double fit;		/* 1: just that word */
};

/* Fit of what is not the word itself. */
#define FIT_ALIKE 0.97		/* two words typed as one, a number in letters */
#define FIT_NEAR 0.85		/* one slip */
#define FIT_FAR 0.75		/* two slips */
#define FIT_BEGUN 0.7		/* its beginning, or its consonants */
#define FIT_INITIAL 0.4

/*
 * What row word `i` may be, best first, appended to an array of struct
 * likeness; *taken is how many words of the row it takes. Misspellings count
 * only for words that nothing else explains. Asking changes what is
 * remembered.
 */
void
lexicon_look_up(struct lexicon *lexicon, const struct row_text *row,
	unsigned i, GArray *out, unsigned *taken);

/* Calls for each name that has the word. */
typedef void lexicon_function(void *data, unsigned name, unsigned place);
void
lexicon_each(const struct lexicon *lexicon, unsigned word,
	lexicon_function *function, void *data);

/* The canonical words of a text, articles left out: a GPtrArray of texts. */
GPtrArray *
lexicon_stems(const struct wording *wording, const char *text);

#endif
