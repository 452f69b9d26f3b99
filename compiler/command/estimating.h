/*
 * Estimates that were asked for, and how they are printed.
 */
#ifndef COMMAND_ESTIMATING_H
#define COMMAND_ESTIMATING_H

#include "command/command.h"
#include "study/reckon.h"

struct estimating {
	const struct reckonings *reckonings;
	struct arena *arena;
	GPtrArray *asked;	/* struct reckoning */
	bool exact;		/* shares with exact limits too */
	bool all_methods;
	bool everything;	/* the overview without limit */
};

/* Prints what was asked for. */
void
estimating_print(const struct estimating *estimating, enum format format);

/* Prints what has a number, and how many have not. */
void
estimating_overview(const struct estimating *estimating, enum format format);

#endif
