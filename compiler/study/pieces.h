/*
 * A collector's pieces as far as runs are concerned: what each may be, as
 * situations, and what of its state a run may ask for. Made once, held against
 * any number of runs.
 */
#ifndef STUDY_PIECES_H
#define STUDY_PIECES_H

#include "shape/shape.h"
#include "study/aim.h"
#include "study/features.h"

/* What a piece is to its collector, from its status. */
enum piece_use {
	PIECE_HELD,
	PIECE_COMING,		/* paid for, not here yet */
	PIECE_WANTED,		/* or watched, or bid on */
	PIECE_GONE,
};

enum truth { TRUTH_NO, TRUTH_MAYBE, TRUTH_YES };

/*
 * One reading of a piece: the situations it may be in, as indices. A piece
 * that carries several stickers has a reading for each.
 */
struct reading {
	const unsigned *items;
	unsigned count;
	unsigned set;		/* the same for the same situations */
};

struct piece {
	const struct record *record;
	const char *form;
	enum piece_use use;
	bool named;		/* something of what it is is known */
	bool anomaly;		/* it is one, whichever */
	enum truth unaltered;
	enum truth unpunched;
	const struct record *scale;	/* it is graded on; or NULL */
	const char *grade;		/* as printed, or NULL */
	int step;			/* of that grade; -1: not known */
	bool cased;
	const char *case_style;		/* or NULL: not stated */
	struct reading *readings;
	unsigned reading_count;		/* at least 1 where it is named */
};

struct pieces {
	const struct model *model;
	const struct features *features;
	const struct situations *corpus;
	const struct situation *situations;	/* of the corpus, then those
				of them with what pieces add to them */
	unsigned situation_count;
	unsigned set_count;
	struct piece *items;	/* in the order of the file */
	unsigned count;
};

/*
 * The holdings among `records`, which are linked to the model's corpus. What
 * it gives lives in `arena`.
 */
struct pieces *
study_pieces(const struct model *model, const struct situations *corpus,
	const struct records *records, struct arena *arena);

/*
 * Whether enough is known of a piece to hold it against anything: a character,
 * a card back or another part, settled or narrowed.
 */
bool
study_is_named(const struct model *model, const struct record *piece);

#endif
