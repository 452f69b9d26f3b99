/*
 * The rule that chooses a method, and what has to be said beside its figure.
 */
#include "study/estimate/choose.h"

#include <glib.h>
#include <math.h>

#include "study/estimate/chain.h"

static const char *const caveats[CAVEATS] = {
	[CAVEAT_NOTHING] = "no piece was seen",
	[CAVEAT_ONE_OCCASION] = "all were seen on one occasion, so none can "
		"have been seen again",
	[CAVEAT_NONE_AGAIN] = "no piece was seen twice: the data set no upper "
		"limit",
	[CAVEAT_FEW_AGAIN] = "too few were seen again for an estimate",
	[CAVEAT_UNEQUAL] = "some pieces were seen so much more often than "
		"others that they cannot all be as likely to be seen",
	[CAVEAT_LOWER_BOUND] = "this is a lower bound: there may be more, of "
		"pieces that are hardly ever seen; if those once seen seldom "
		"come back, there may be fewer",
	[CAVEAT_EQUAL] = "if some pieces are likelier to be seen than others, "
		"there are more than this; if those once seen seldom come "
		"back, fewer",
	[CAVEAT_UNTESTED] = "these data cannot show whether all pieces are as "
		"likely to be seen",
	[CAVEAT_TOO_EVEN] = "pieces were seen again more evenly than chance "
		"has it: those once seen may seldom come back, and then there "
		"are fewer than this",
	[CAVEAT_CONTAINED] = "one list holds all of the other: if one was "
		"copied from the other, they say nothing about the number",
	[CAVEAT_APPROXIMATE] = "too many sightings for exact limits: these "
		"are approximate",
	[CAVEAT_RAISED] = "the method gave less than was seen; it was raised "
		"to that, and does not fit these data",
	[CAVEAT_OPEN] = "the data set no upper limit",
};

const char *
caveat_words(enum caveat caveat)
{
	return caveats[caveat];
}

static void
say(struct choice *choice, enum caveat caveat)
{
	choice->caveats[choice->caveat_count++] = caveat;
}

/* Too little for a number: at least so many. */
static void
only_least(struct choice *choice, const struct history *history)
{
	const struct history_sums *sums = &choice->sums;
	struct figure figure;

	if (sums->held < 2)
		say(choice, CAVEAT_ONE_OCCASION);
	else if (sums->sightings == sums->distinct)
		say(choice, CAVEAT_NONE_AGAIN);
	else
		say(choice, CAVEAT_FEW_AGAIN);
	choice->figure = figure_least(sums->distinct, sums->distinct);
	if (estimate_by(choice->method, history, &figure)) {
		choice->figure = figure_least(sums->distinct, figure.low);
		if (figure.low > sums->distinct)
			say(choice, CAVEAT_EQUAL);
	}
}

static bool
one_holds_other(const struct history *history)
{
	struct two_lists lists;

	return history_two(history, &lists) &&
		(lists.both == lists.first || lists.both == lists.second);
}

static void
test_chances(struct choice *choice, const struct history *history)
{
	choice->test = equal_test(history);
	if (!choice->test.done) {
		say(choice, CAVEAT_UNTESTED);
		return;
	}
	if (choice->test.even < EQUAL_DOUBT)
		say(choice, CAVEAT_TOO_EVEN);
	if (choice->test.uneven >= EQUAL_DOUBT)
		return;
	choice->method = METHOD_CHAO;
	say(choice, CAVEAT_UNEQUAL);
}

static void
say_rest(struct choice *choice, const struct history *history)
{
	if (choice->method == METHOD_CHAO)
		say(choice, CAVEAT_LOWER_BOUND);
	else
		say(choice, CAVEAT_EQUAL);
	if (choice->method == METHOD_CHAPMAN && one_holds_other(history))
		say(choice, CAVEAT_CONTAINED);
	if (choice->method == METHOD_SCHNABEL)
		say(choice, CAVEAT_APPROXIMATE);
	if (choice->figure.raised)
		say(choice, CAVEAT_RAISED);
	if (choice->figure.state == FIGURE_GIVEN && isinf(choice->figure.high))
		say(choice, CAVEAT_OPEN);
}

struct choice
estimate_choose(const struct history *history)
{
	struct choice choice = {.method = METHOD_EXACT,
		.sums = history_sum(history)};
	const struct history_sums *sums = &choice.sums;

	if (sums->held == 2)
		choice.method = METHOD_CHAPMAN;
	if (sums->sightings > CHAIN_MOST_SIGHTINGS)
		choice.method = METHOD_SCHNABEL;
	if (sums->distinct == 0) {
		say(&choice, CAVEAT_NOTHING);
		return choice;
	}
	if (sums->held < 2 || sums->repeated < 2 ||
		sums->sightings - sums->distinct < CHOOSE_LEAST_AGAIN) {
		only_least(&choice, history);
		return choice;
	}
	test_chances(&choice, history);
	estimate_by(choice.method, history, &choice.figure);
	say_rest(&choice, history);
	return choice;
}
