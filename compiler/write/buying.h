/*
 * The buyer's view in sentences, the same on the terminal, in the database, on
 * the pages and in the handbook.
 */
#ifndef WRITE_BUYING_H
#define WRITE_BUYING_H

#include "study/buyer.h"

enum buying_part {
	BUYING_EXISTS,		/* does it exist, how sure */
	BUYING_RISKS,		/* anomalies here */
	BUYING_FAKES,		/* imitations and how to tell */
	BUYING_OTHERS,		/* what else it could be */
	BUYING_ASK,		/* what to ask the seller, ready to copy */
	BUYING_PARTS
};

struct sentence {
	enum buying_part part;
	const char *text;
	const struct record *about;	/* to link to, or NULL */
};

struct sentences {
	const struct sentence *items;	/* by part */
	unsigned count;
};

/* What a part is headed by. */
const char *
buying_heading(enum buying_part part);

/* The view in sentences, in `arena`. */
struct sentences *
buying_sentences(const struct model *model, const struct buyer *buyer,
	struct arena *arena);

#endif
