/*
 * What lines of a report cover, and which pieces of the guide they surely
 * count; for rank.c alone.
 */
#ifndef STUDY_RANK_COVER_H
#define STUDY_RANK_COVER_H

#include <glib.h>

#include "study/rank.h"

/* What of a pairing a line covers: all of it, or some combinations. */
struct cover {
	const struct record *pairing;
	unsigned line;		/* of the report */
	bool whole;
	GPtrArray *items;	/* combinations, where not whole; or NULL */
};

/* An array of struct cover, each pairing once; ended by covers_free. */
GArray *
covers_of(const struct model *model, const struct value *category);

void
covers_free(GArray *covers);

/*
 * Fills in what the lines of a report, all of them, cover and know: pairings,
 * combinations, broad, known, again. A piece is surely counted by a line if
 * that covers whatever the piece may be, and no other line does.
 */
void
rank_cover(const struct model *model, const struct seen *seen,
	struct rank_line *lines, unsigned count);

/* Certificates that a specimen surely had by the day of a report. */
unsigned
rank_certificates(const struct model *model, const struct record *specimen,
	const struct snapshot *report);

#endif
