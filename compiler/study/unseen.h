/*
 * What is still to be found: for each market, the pairings that lists have
 * shown year by year, and how many more there must be that nobody has recorded.
 *
 * A list in one year is one occasion, as in study/evidence.h, and shows a
 * pairing if it has a piece of it that counts, or a sighting surely of it that
 * nobody could match to a piece. Pairings that are disproved or were never
 * issued are left out.
 */
#ifndef STUDY_UNSEEN_H
#define STUDY_UNSEEN_H

#include "study/estimate/accumulate.h"
#include "study/evidence.h"

/* One year of a market. */
struct discovery {
	int year;
	unsigned lists;		/* that had any pairing of the market */
	unsigned fresh;		/* pairings on a list for the first time */
	unsigned known;		/* on any list so far */
};

struct unseen {
	const struct record *market;
	unsigned recorded;	/* pairings */
	unsigned listed;	/* of these, on any list */
	unsigned lists;		/* lists, each year one */
	struct frequencies frequencies;	/* of pairings, by lists */
	/*
	 * Chao2, classic (see estimate_chao1): how many lists can show, at
	 * least; and by how much that exceeds those recorded, FIGURE_NONE where
	 * it does not, for then it says nothing of more.
	 */
	struct figure total;
	struct figure more;
	struct estimable coverage;	/* Chao and Jost, over lists */
	struct estimable again;	/* listed after as many lists again */
	const struct discovery *years;	/* those with a list, in order */
	unsigned year_count;
};

struct unseen_list {
	const struct unseen *items;	/* a market each, in reading order */
	unsigned count;
};

/* All markets at once, in `arena`. */
struct unseen_list
unseen_study(const struct model *model, const struct seen *seen,
	const struct evidences *evidences, struct arena *arena);

/* What it comes to, in sentences for people; in `arena`. */
struct unseen_words {
	const char *items[6];
	unsigned count;
};

struct unseen_words
unseen_say(const struct unseen *unseen, struct arena *arena);

#endif
