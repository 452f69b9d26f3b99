/*
 * A spreadsheet that is being matched: its rows with what was found of each.
 * The resolved file has all of its columns, their headings in brackets, so
 * that a reader of holdings passes over them (shape/rows.h); behind them stand
 * the fields of a holding, and columns of our own, in brackets too.
 */
#ifndef COMMAND_MATCHES_H
#define COMMAND_MATCHES_H

#include "command/run.h"
#include "read/sheet.h"
#include "match/match.h"

/* Columns behind the spreadsheet's own, in their order. */
enum added {
	ADDED_NAME,
	ADDED_FORM,
	ADDED_STATUS,
	ADDED_CHARACTER,
	ADDED_CARDBACK,
	ADDED_BLISTER,
	ADDED_VARIANT,
	ADDED_PACKAGE,
	ADDED_PREPRODUCTION,
	ADDED_ACCESSORY,
	ADDED_STICKER,
	ADDED_STATE,
	ADDED_ID,
	ADDED_KIND,
	ADDED_CONFIDENCE,
	ADDED_CANDIDATES,
	ADDED_REASON,
	ADDED_QUESTION,
	ADDED_CHECK,		/* of the row's cells: who edits one, breaks it */
	ADDED_COUNT,
};

extern const char *const added_headings[ADDED_COUNT];

/* The reason of what a person settled. */
#define MATCHES_BY_HAND "settled by hand"

enum row_state {
	ROW_OPEN,
	ROW_SETTLED,
	ROW_REFUSED,
	ROW_STATES,
};

/* "open", "settled", "refused". */
extern const char *const row_states[ROW_STATES];

struct match_row {
	const struct sheet_row *source;
	enum row_state state;
	bool kept;		/* settled before, and kept */
	bool edited;		/* by hand, since it was written */
	bool answered;		/* now, by the person */
	const char *cells[ADDED_COUNT];		/* "" where there is nothing */
	struct matched matched;
	bool has_matched;	/* `matched` is filled */
};

struct matches {
	const struct run *run;
	struct arena *arena;
	struct matcher *matcher;
	const struct sheet *sheet;
	unsigned first;		/* the first row below the headings */
	const struct sheet_row *headings;	/* NULL: there are none */
	unsigned own;		/* columns of the spreadsheet's own */
	unsigned *places;	/* of those in its rows */
	enum column_role *roles;
	bool *plain;		/* such a column's heading says nothing */
	int added[ADDED_COUNT];	/* where they are; -1 in a fresh one */
	bool resolved;		/* it is a file of ours */
	struct match_row *rows;
	unsigned count;
	unsigned counts[ROW_STATES];
	unsigned followed;	/* records that go by another id by now */
	unsigned gone;		/* records that are gone */
};

/* Finds out what the columns are, and takes what an earlier run settled. */
void
matches_begin(struct matches *matches);

/* Matches the rows that nobody settled. */
void
matches_run(struct matches *matches);

void
matches_release(struct matches *matches);

/* Settles a row as `record`, with a reason. */
void
matches_settle(struct matches *matches, struct match_row *row,
	const struct record *record, const char *confidence,
	const char *reason);

/* Counts the states anew. */
void
matches_count(struct matches *matches);

/* The resolved file. */
GString *
matches_write(struct matches *matches);

/*
 * How many rows of a file of ours were edited or answered by somebody; -1 if
 * it is none of ours.
 */
int
matches_edited(const char *bytes, size_t size);

/* Asks a person at a terminal what divides the candidates of open rows. */
void
matches_ask(struct matches *matches);

/* Prints what came of it. */
void
matches_print(const struct matches *matches, const char *to,
	enum format format);

/* A row's own text in few words, in the arena. */
const char *
matches_text(const struct matches *matches, const struct match_row *row);

#endif
