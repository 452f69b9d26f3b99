/*
 * A matcher's inside; for this folder alone.
 */
#ifndef MATCH_MATCHING_H
#define MATCH_MATCHING_H

#include "study/features.h"
#include "match/match.h"
#include "match/reading.h"

struct matcher {
	const struct model *model;
	const struct features *features;
	struct arena *arena;
	struct wording *wording;
	struct lexicon *lexicon;
	struct labels *labels;
	const struct record *scheme;	/* to read labels in, or NULL */
	unsigned *places;		/* name → hit + 1, while a row is read */
	GHashTable *variants;		/* record → its phrases */
};

/* What a row says of the variants of one character. */
struct told {
	double *weights;	/* a share for each, together about 1 */
	int alone;		/* the one that is told apart, or -1 */
	bool doubted;		/* by words that the row doubts */
	bool denied;		/* the row denies what the only one has */
	const char *phrase;	/* that tells it apart, or NULL */
};

/*
 * Holds the phrases of some variants against a row. The weights live in the
 * row's arena.
 */
struct told
variants_tell(struct matcher *matcher, const struct reading *reading,
	const GPtrArray *variants);

/* Frees what is remembered of one variant. */
void
variants_free(gpointer data);

/* The variants of a character that may exist, in order. Free the array. */
GPtrArray *
variants_of(const struct matcher *matcher, const struct record *character);

/* What doubts in the row leave of a confidence; says which. */
double
doubts_leave(const struct reading *reading, const char **why);

/* Candidates of each sort, appended. */
void
weigh_pairings(struct matcher *matcher, const struct reading *reading,
	struct matched *matched);

void
weigh_variants(struct matcher *matcher, const struct reading *reading,
	struct matched *matched);

void
weigh_things(struct matcher *matcher, const struct reading *reading,
	struct matched *matched);

/* Adds a candidate with a confidence; the reason is as printf's. */
struct match_candidate *
matched_add(struct matched *matched, const struct record *record,
	double confidence);

void
candidate_because(struct matched *matched, struct match_candidate *candidate,
	const char *format, ...) __attribute__((format(printf, 3, 4)));

/* The question that divides the candidates of an open row, in the arena. */
void
matched_ask(struct matcher *matcher, const struct reading *reading,
	struct matched *matched);

#endif
