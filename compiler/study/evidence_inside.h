/*
 * What was gathered once for all subjects; for the files of evidence alone.
 */
#ifndef STUDY_EVIDENCE_INSIDE_H
#define STUDY_EVIDENCE_INSIDE_H

#include <glib.h>

#include "study/evidence.h"

struct piece_seen {
	enum standing standing;
	bool suspected;
	bool unsure;
	unsigned *catches;	/* places among occasions, in order */
	unsigned count;
	unsigned relisted;
};

struct evidences {
	const struct model *model;
	const struct seen *seen;
	struct arena *arena;
	struct record_list specimens;
	struct piece_seen *pieces;	/* by specimen */
	gint64 *occasions;		/* year, then source, in one number */
	unsigned occasion_count;
	struct seen_list *of_cardback;
	GArray **growing;		/* these, while they are gathered */
	unsigned *unrecognised;		/* by pairing */
	struct subject *subjects;
	unsigned subject_count;
	unsigned *of_pairing;		/* places of the first subject */
	unsigned *of_anomaly;
	unsigned first_cardback;
};

/* A sighting, as far as it makes an occasion; `source` may be NULL. */
struct happening {
	const struct record *sighting;
	const struct date *date;
	const struct record *source;
	const char *place;
};

struct happening
happening_of(const struct evidences *all, const struct record *sighting);

/* Lists the subjects, once all else is gathered. */
void
subjects_list(struct evidences *all);

/*
 * The specimens that surely belong to a subject, also those that do not count;
 * for the caller to free.
 */
GPtrArray *
evidence_pieces(const struct evidences *all, const struct subject *subject);

#endif
