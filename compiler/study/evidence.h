/*
 * What is known of how many there are of something: the pieces told apart, and
 * on which occasions each was seen. A subject is what the number is of. A
 * piece counts if it is carded (in a case or not), is not doubted, has nothing
 * on it that is an imitation, and no alteration that is known or disclosed.
 *
 * An occasion is one list in one year. A lot that two lists have on one day is
 * one occasion, that of the list which comes first in order.
 */
#ifndef STUDY_EVIDENCE_H
#define STUDY_EVIDENCE_H

#include "model/seen.h"
#include "study/estimate/history.h"

enum subject_form {
	SUBJECT_PAIRING,
	SUBJECT_COMBINATION,	/* of a pairing */
	SUBJECT_ANOMALY,	/* on all pairings */
	SUBJECT_ANOMALY_ON,	/* on one pairing */
	SUBJECT_CARDBACK,	/* with whatever character */
};

struct subject {
	enum subject_form form;
	const struct record *record;	/* pairing, anomaly or card back */
	const struct value *item;	/* the combination; else NULL */
	const struct record *pairing;	/* that an anomaly is on; else NULL */
};

/* Whether a piece counts, or the first reason why it does not. */
enum standing {
	STANDING_COUNTS,
	STANDING_RETIRED,	/* its record is withdrawn: never mentioned */
	STANDING_OTHER_FORM,	/* loose, a card alone, a bag */
	STANDING_DOUBTED,
	STANDING_IMITATED,
	STANDING_ALTERED,
	STANDINGS
};

/* A list in one year, and what it had of the subject. */
struct listing {
	const struct record *source;
	int year;
	unsigned pieces;
	unsigned again;		/* of these, seen on an earlier occasion */
};

struct evidence {
	struct subject subject;
	unsigned known;		/* pieces that surely belong, and count */
	unsigned undated;	/* of these, with no sighting on record */
	unsigned sightings;	/* of these pieces, each occasion once */
	unsigned relisted;	/* more lines of lists for the same lot */
	const struct listing *listings;	/* the occasions, in order of time */
	struct history history;	/* of the pieces that have sightings */
	unsigned possible;	/* pieces that count and may belong too */
	struct history widest;	/* with these; empty where there are none */
	unsigned out[STANDINGS];	/* that belong but do not count */
	unsigned suspected;	/* counted, though an alteration is suspected */
	unsigned unsure;	/* counted, though its sightings may be of two */
	unsigned anomalous;	/* of a pairing's or card back's, are one */
	unsigned unrecognised;	/* sightings that nobody could match to a
				   piece; of pairings alone */
};

struct evidences;

/*
 * Looks once at every specimen and sighting. It lives in `arena`; `model` and
 * `seen` must outlive it.
 */
struct evidences *
evidences_gather(const struct model *model, const struct seen *seen,
	struct arena *arena);

/*
 * All subjects, in order of reading: pairings, each with its combinations if
 * it has several; anomalies, each with the pairings it is known on; card backs.
 */
const struct subject *
evidences_subjects(const struct evidences *evidences, unsigned *count);

/* The place of a subject in that list, or the count of it if it has none. */
unsigned
evidences_place(const struct evidences *evidences,
	const struct subject *subject);

/* How many pieces are known of a subject, as in its evidence. */
unsigned
evidence_known(const struct evidences *evidences,
	const struct subject *subject);

/* What there is on one subject, in `arena`. The cost is that of its pieces. */
struct evidence *
evidence_of(const struct evidences *evidences, struct subject subject,
	struct arena *arena);

/* Whether a specimen counts. */
enum standing
evidence_standing(const struct evidences *evidences,
	const struct record *specimen);

/*
 * An address for people and programs: "pairing/x", "pairing/x.b",
 * "anomaly/y", "anomaly/y on pairing/x", "cardback/z". In `arena`.
 */
const char *
subject_address(const struct subject *subject, struct arena *arena);

/* The same as words after `hangtab estimate`. In `arena`. */
const char *
subject_typed(const struct subject *subject, struct arena *arena);

/* The same as the name of a thing: "Kedge on 24-back F". In `arena`. */
const char *
subject_name(const struct subject *subject, struct arena *arena);

#endif
