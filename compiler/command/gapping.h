/*
 * Gaps while they are worked out and printed; for the files of that command
 * alone.
 */
#ifndef COMMAND_GAPPING_H
#define COMMAND_GAPPING_H

#include "command/run.h"
#include "study/next.h"
#include "study/suggest.h"

struct gapping {
	const struct run *run;
	const struct situations *situations;
	const struct pieces *pieces;
	struct filling **fillings;	/* a run each: of the corpus, then
					   the collector's own */
	unsigned count;
	bool alone;		/* one run was asked for */
	struct rarities *rarities;
	const struct next *next;	/* over the runs begun */
	int64_t budget;			/* AMOUNT_ONEths; -1: not stated */
	const char *currency;		/* of the budget */
	const struct cover *within;	/* over the wants; NULL: no budget */
	const struct suggestions *suggestions;	/* or NULL: not asked for */
};

/* A run is begun when anything of it is held, or may be. */
bool
gaps_is_begun(const struct filling *filling);

/* A look-for in words, in the run's arena: how hard it is; or NULL. */
const char *
gaps_rarity(const struct gapping *gapping, const struct rarity *rarity);

/* How many different runs the targets are of. */
unsigned
gaps_runs_of(const struct gapping *gapping, const struct look_for *look);

/* How a slot stands, in a word or two. */
const char *
gaps_state(const struct filled_slot *slot);

/* Slots of a filling that surely exist. */
unsigned
gaps_of(const struct filling *filling);

/* Appends the names, or ids, of pieces with that claim. */
void
gaps_pieces(const struct gapping *gapping, const struct filled_slot *slot,
	enum claim_kind from, enum claim_kind to, bool ids, GString *out);

/* What to look at for the first possible claim of a possible slot; or NULL. */
const char *
gaps_look_at(const struct gapping *gapping, const struct filling *filling,
	const struct filled_slot *slot);

/*
 * Writes private pages into `folder` and the file for the phone; either may be
 * NULL. Prints where they are. An exit status.
 */
int
gaps_write_report(const struct gapping *gapping, const char *folder,
	const char *pocket, const char *corpus);

void
gaps_print_text(const struct gapping *gapping);
void
gaps_print_csv(const struct gapping *gapping);
void
gaps_print_json(const struct gapping *gapping);

#endif
