/*
 * What next: the gaps of runs, how hard each is, and the pieces to look for
 * that close most of them.
 */
#ifndef STUDY_NEXT_H
#define STUDY_NEXT_H

#include "study/cover.h"
#include "study/fill.h"
#include "study/rarity.h"

/*
 * A slot to fill: it surely exists, and nothing that is held or on its way
 * fills it, or may.
 */
struct target {
	unsigned filling;
	unsigned slot;
	struct rarity rarity;	/* of what the slot is for */
	unsigned easiest;	/* of the pieces that close it, the one seen
				   most; their count if there is none */
};

/* A piece that would close gaps, as the runs ask for it. */
struct look_for {
	const char *name;
	const struct record *record;	/* whose page tells of it */
	const struct value *item;	/* the combination, or NULL */
	const struct record *want;	/* the holding that asks, or NULL */
	const unsigned *targets;
	unsigned count;
	struct rarity rarity;
	int64_t price;			/* AMOUNT_ONEths; -1: not stated */
	const char *currency;
};

struct next {
	const struct target *targets;
	unsigned count;
	const struct look_for *pieces;	/* that close something */
	unsigned piece_count;
	const struct cover *cover;	/* over `pieces`: few, and of equals
					   those seen more often; one never
					   seen counts as two */
	unsigned fewest;		/* no choice needs fewer pieces */
	const struct look_for *wants;	/* wanted pieces that close something */
	unsigned want_count;
};

/* The target that a slot is, or NULL. */
const struct target *
next_target(const struct next *next, unsigned filling, unsigned slot);

/* Over the fillings that `counts`, all where it is NULL. */
struct next *
study_next(const struct pieces *pieces, struct filling *const *fillings,
	const bool *counts, unsigned count, struct rarities *rarities,
	struct arena *arena);

/*
 * The wants with a stated price in that currency that close most for the
 * money. `sets` are places among the wants. The other wants are left out; no
 * amount is converted or guessed.
 */
const struct cover *
next_within(const struct next *next, int64_t budget, const char *currency,
	struct arena *arena);

#endif
