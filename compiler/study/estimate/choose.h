/*
 * The ways to estimate how many pieces there are, with what to print of each,
 * and the one rule that chooses among them.
 */
#ifndef STUDY_ESTIMATE_CHOOSE_H
#define STUDY_ESTIMATE_CHOOSE_H

#include "study/estimate/equal.h"
#include "study/estimate/history.h"

enum method {
	METHOD_EXACT,
	METHOD_CHAPMAN,
	METHOD_CHAPMAN_LOG_NORMAL,
	METHOD_SADINLE,
	METHOD_SCHNABEL,
	METHOD_SCHUMACHER,
	METHOD_CHAO,
	METHOD_CHAO_CLASSIC,
	METHOD_ACE,
	METHOD_POISSON,
	METHOD_ZELTERMAN,
	METHODS
};

struct method_words {
	const char *name;	/* as typed after --method */
	const char *title;
	const char *source;	/* author and year; a second after ";" */
	const char *formula;
	const char *limits;	/* how the 95 % limits are made */
	const char *needs;	/* of the data */
	const char *assumes;
};

const struct method_words *
method_words(enum method method);

/* False if no method has this name. */
bool
method_named(const char *name, enum method *method);

/*
 * One method on these data. False, and FIGURE_NONE, if the data are not of the
 * kind that the method needs: its words say which.
 */
bool
estimate_by(enum method method, const struct history *history,
	struct figure *figure);

enum caveat {
	CAVEAT_NOTHING,		/* no piece was seen */
	CAVEAT_ONE_OCCASION,
	CAVEAT_NONE_AGAIN,
	CAVEAT_FEW_AGAIN,
	CAVEAT_UNEQUAL,		/* the data contradict equal chances */
	CAVEAT_LOWER_BOUND,
	CAVEAT_EQUAL,		/* equal chances are taken for granted */
	CAVEAT_UNTESTED,	/* and could not be tested */
	CAVEAT_TOO_EVEN,
	CAVEAT_CONTAINED,	/* one of two lists holds all of the other */
	CAVEAT_APPROXIMATE,	/* too many for exact limits */
	CAVEAT_RAISED,
	CAVEAT_OPEN,		/* no upper limit */
	CAVEATS
};

/* A sentence for people, without its stop. */
const char *
caveat_words(enum caveat caveat);

/* Sightings of known pieces that a number needs; see estimate_choose. */
enum { CHOOSE_LEAST_AGAIN = 3 };

struct choice {
	enum method method;	/* also where the figure is FIGURE_LEAST */
	struct figure figure;
	struct history_sums sums;
	struct equal_test test;
	enum caveat caveats[CAVEATS];
	unsigned caveat_count;
};

/*
 * The rule, the first that fits:
 * - nothing seen: FIGURE_NONE;
 * - a single occasion, or known pieces seen again fewer than three times, or
 *   one piece alone seen again: FIGURE_LEAST, with the exact lower limit;
 * - more pairs of sightings of one piece than equal chances explain
 *   (equal_test below 5 %): Chao's lower bound over the occasions, corrected,
 *   with the log-normal interval; the classic one holds the truth more often,
 *   but says too much more often too (tests/outside/coverage.c), which a bound
 *   must not;
 * - two occasions: Chapman with the exact interval;
 * - more: Darroch with the exact interval; Schnabel with Garwood's limits if
 *   there are more than CHAIN_MOST_SIGHTINGS sightings.
 */
struct choice
estimate_choose(const struct history *history);

#endif
