/*
 * Labels of card backs, as rows give them: "18B", "18-back B", "18 back b",
 * "B or C", "not 18A". A label is read in the current scheme of its market
 * unless the row names another, or says that it is an old one.
 */
#ifndef MATCH_LABELS_H
#define MATCH_LABELS_H

#include "model/model.h"
#include "match/wording.h"

/* A label that a row gives. */
struct label_said {
	unsigned number;	/* of figures pictured */
	const char *letters;	/* folded; NULL where it gives none */
	bool sure;		/* it says "back", has letters, or stands in a
				   column for it */
	bool negated;
	unsigned from, to;	/* the words it takes */
	const struct record *scheme;	/* to read it in, or NULL */
	bool other;		/* in another scheme it is another back */
	const struct record **cardbacks;	/* what it may be */
	unsigned count;
};

struct labels;

struct labels *
labels_new(const struct model *model);

void
labels_free(struct labels *labels);

/* A scheme that a row names, and where. */
struct scheme_said {
	const struct record *scheme;
	unsigned word;
};

/*
 * Reads the labels of a row into an array of struct label_said, and marks the
 * words they take as used. `schemes` are those that the row names (struct
 * scheme_said), `usual` is for labels with none near them, or NULL; `former`:
 * the row says that its label is an old one.
 */
void
labels_read(const struct labels *labels, struct row_text *row,
	const GArray *schemes, const struct record *usual, bool former,
	GArray *out);

/* The card backs that picture a number. */
const GPtrArray *
labels_of_number(const struct labels *labels, unsigned number);

/* Whether a text is a label and no more; see matcher_is_label. */
bool
labels_is_label(const struct labels *labels, const char *text);

#endif
