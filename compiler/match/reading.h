/*
 * What a row says: the names in it, the labels, the form, and how sure it is
 * of itself. Nothing here weighs one thing against another.
 */
#ifndef MATCH_READING_H
#define MATCH_READING_H

#include "match/labels.h"
#include "match/lexicon.h"

/* The words of a row, a bit each. */
struct word_set {
	uint64_t bits[(MOST_WORDS + 63) / 64];
};

bool
words_meet(const struct word_set *left, const struct word_set *right);

/* A record that a row names, by the name that fits best. */
struct named {
	const struct record *record;
	const struct name *name;
	struct word_set words;
	double mass;		/* the weight of the words that it explains */
	double cover;		/* the share of the name that was found, 0 to 1 */
	double fit;		/* how well its words fit, 0 to 1 */
	bool own;		/* one of its words is nobody else's */
	bool telling;		/* one of its words is no common one */
	bool negated;		/* one of its words is said not to be so */
	unsigned first;		/* its first word in the row */
	unsigned last;
};

enum piece_form {
	FORM_UNSAID,
	FORM_CARDED,
	FORM_LOOSE,
	FORM_BAGGED,
	FORM_BOXED,
	FORM_CARD_ONLY,
};

struct reading {
	struct row_text text;
	GArray *named[NAMINGS];	/* struct named, most explained first */
	GArray *labels;		/* struct label_said */
	GPtrArray *characters;	/* that it may be: as likely as each other */
	struct word_set character_words;	/* that name them */
	double character_fit;	/* how surely it is one of them, 0 to 1 */
	bool several;		/* it is about several pieces */
	GPtrArray *markets;	/* that it names; none: any */
	bool markets_far;	/* only as where it was bought */
	bool market_strange;	/* a country in which none was sold */
	const struct record *packed;	/* that holds all it names, or NULL */
	enum piece_form form;
	bool form_sure;		/* by a word for it alone */
	bool cased;
	enum meaning stage;	/* MEANS_PROOF, _SHEET, _TEST or _NOTHING */
	bool copy;		/* it is said to be one */
	bool doubted;		/* the row doubts what it is */
	bool premium;
	bool only;		/* an accessory alone */
	bool spare;		/* "for", or an owner's name, by an accessory */
};

struct matcher;

/* What a row names of a record, or NULL. */
const struct named *
find_named(const struct reading *reading, enum naming naming,
	const struct record *record);

/* Reads the words of `row`, whose cells were added. Ended by reading_release. */
void
reading_begin(struct reading *reading, struct matcher *matcher);

void
reading_release(struct reading *reading);

#endif
