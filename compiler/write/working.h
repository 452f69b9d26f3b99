/*
 * How many there are, in words: the same on the terminal, on the pages, in the
 * handbook and in the database. A short answer for tables, and the working as
 * a person would write it.
 */
#ifndef WRITE_WORKING_H
#define WRITE_WORKING_H

#include "study/reckon.h"

enum working_part {
	WORKING_ANSWER,
	WORKING_RISK,		/* of an anomaly: what a buyer risks */
	WORKING_DATA,
	WORKING_METHOD,
	WORKING_CAVEAT,
	WORKING_ASSUMED,
	WORKING_QUOTED,
	WORKING_REPORT,		/* population reports */
	WORKING_PARTS
};

struct working_line {
	enum working_part part;
	const char *text;
	const struct record *about;	/* to link to, or NULL */
};

struct working {
	const struct working_line *lines;	/* by part */
	unsigned count;
};

/* What a part is headed by. */
const char *
working_heading(enum working_part part);

/* A figure in whole pieces: the nearest, and limits rounded outwards. */
struct working_whole {
	int64_t point;
	int64_t low;
	int64_t high;		/* 0 where open */
	bool open;		/* no upper limit */
};

struct working_whole
working_whole(const struct figure *figure);

/*
 * "about 46 (39 to 60)", "at least about 46 (39 to 60)", "at least 5 seen; too
 * few to estimate", "none seen". In `arena`.
 */
const char *
working_answer(const struct choice *choice, struct arena *arena);

/* "30 % (12 to 57 %)": of 95 %; in `arena`. */
const char *
working_share(unsigned affected, unsigned all, struct range range,
	struct arena *arena);

/* A quoted one: "40 to 60 surviving, carded". In `arena`. */
const char *
working_quoted(const struct quoted *quoted, struct arena *arena);

/* What a figure is a number of, for columns and captions. */
extern const char working_of[];

/* The last line wherever estimates are printed. */
extern const char working_caution[];

/*
 * The whole working, in `arena`. With `exact` a share has the limits of
 * Clopper and Pearson beside Wilson's.
 */
struct working *
working_of_reckoning(const struct reckoning *reckoning, bool exact,
	struct arena *arena);

/* For write/working_method.c and write/working.c alone: the method's part. */
void
working_method(const struct reckoning *reckoning, GString *numbers);

#endif
