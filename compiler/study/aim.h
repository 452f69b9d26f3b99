/*
 * Aims: what somebody sets out to complete, with everything that a run record
 * says made ready to be asked many times. An aim may also be made by hand,
 * for a run that nobody has written down.
 */
#ifndef STUDY_AIM_H
#define STUDY_AIM_H

#include "study/situation.h"

/* Records that something has to be one of; all will do where none is given. */
struct selection {
	const struct record **items;
	unsigned count;
	bool given;
};

struct aim {
	const struct record *run;	/* or NULL: made by hand */
	const char *id;
	const char *name;
	enum collected what;

	/* The selection. */
	struct selection characters, markets, cardbacks, offers, stickers,
		fronts, blisters, variants, packages, preproductions;
	const bool *tagged;		/* by character, or NULL: all */
	const struct date *from, *to;	/* or NULL */
	const char **concluded;		/* ends with NULL; or NULL: any */
	bool anomalies;

	/* Conditions on a piece. */
	const char *form;		/* or NULL */
	const struct record *scale;	/* of the least grade, or NULL */
	int least;			/* its place among the steps; worst if
					   the scale does not have it */
	bool unpunched, complete, same_case, altered;
	const char *case_style;		/* or NULL: the one most have */
};

/* The aim that a run states, in `arena`. */
struct aim *
aim_of_run(const struct model *model, const struct record *run,
	struct arena *arena);

/* Whether the aim selects the situation. */
bool
aim_selects(const struct model *model, const struct aim *aim,
	const struct situation *situation);

/* The place of a step on its scale, best first; -1 if it is no step of it. */
int
aim_step(const struct model *model, const struct record *scale,
	const char *step);

#endif
