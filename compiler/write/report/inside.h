/*
 * Parts of the private report; for this folder alone.
 */
#ifndef WRITE_REPORT_INSIDE_H
#define WRITE_REPORT_INSIDE_H

#include "write/report/report.h"
#include "write/site/html.h"

/* Frame: head, the strip that says whose it is, and the beginning of main. */
void
report_begin(const struct report *report, const char *title, GString *out);
void
report_end(GString *out);

/* "s" for any number but one. */
const char *
report_s(unsigned count);

/* What the collector has of the runs begun, in a sentence. */
void
report_answer(const struct report *report, GString *out);

/* Runs in a table; each leads to `to` with its id for %s. */
void
report_runs(const struct report *report, const char *before,
	const char *after, GString *out);

/*
 * The slots of a run: a matrix where they are pairings, else a list; then what
 * pieces are to them, under headings of a level.
 */
void
report_slots(const struct report *report, const struct filling *filling,
	unsigned level, GString *out);

/* What to look at again. */
void
report_again(const struct report *report, GString *out);

bool
report_is_begun(const struct filling *filling);

/* The pieces chosen to look for, the hardest to find first, in the arena. */
struct wanted {
	const struct look_for *look;
	unsigned gains;
};
const struct wanted *
report_wanted(const struct report *report, unsigned *count);

/*
 * What the collector wrote down as wanted, the hardest to find first, in the
 * arena. The record is the pairing it is of, where that is settled, or NULL.
 */
struct own_want {
	const struct record *want;
	const struct record *record;
	struct rarity rarity;
};
const struct own_want *
report_own_wants(const struct report *report, unsigned *count);

#endif
