/*
 * What goes into the formula of each method, written out.
 */
#include <glib.h>
#include <math.h>

#include "write/working.h"

/* More occasions than these are not written out one by one. */
enum { MOST_WRITTEN = 40 };

static void
put_catches(const struct history *history, const struct occasion *occasions,
	GString *out)
{
	unsigned i, written = 0;

	for (i = 0; i < history->occasions; i++) {
		if (occasions[i].caught == 0)
			continue;
		if (written == MOST_WRITTEN) {
			g_string_append(out, ", and so on");
			break;
		}
		g_string_append_printf(out, "%s%u", written++ == 0 ? "" :
			", ", occasions[i].caught);
	}
}

static void
put_sums(const struct history *history, enum method method,
	const struct occasion *occasions, GString *out)
{
	struct occasion_sums sums;

	if (!occasions_sum(occasions, history->occasions, &sums))
		return;
	if (method == METHOD_SCHNABEL)
		g_string_append_printf(out, "ΣCM = %.0f, ΣR = %.0f", sums.cm,
			sums.r);
	else
		g_string_append_printf(out, "ΣCM² = %.0f, ΣRM = %.0f",
			sums.cmm, sums.rm);
}

static void
put_lists(const struct history *history, GString *out)
{
	struct two_lists lists;

	if (history_two(history, &lists))
		g_string_append_printf(out, "n1 = %u, n2 = %u, m = %u",
			lists.first, lists.second, lists.both);
}

static void
put_frequencies(const struct history *history, const struct history_sums *sums,
	enum method method, GString *out)
{
	unsigned *room = g_new(unsigned, history->occasions + 1);
	struct frequencies found = history_frequencies(history, room);
	unsigned once = found.count > 0 ? found.seen[0] : 0;
	unsigned twice = found.count > 1 ? found.seen[1] : 0;

	if (method == METHOD_POISSON)
		g_string_append_printf(out, "D = %u, sightings = %u",
			sums->distinct, sums->sightings);
	else if (method == METHOD_ACE)
		g_string_append_printf(out, "D = %u, f1 = %u, sightings = %u",
			sums->distinct, once, sums->sightings);
	else
		g_string_append_printf(out, "D = %u, f1 = %u, f2 = %u, T = %u",
			sums->distinct, once, twice, found.lists);
	g_free(room);
}

void
working_method(const struct reckoning *reckoning, GString *out)
{
	const struct history *history = &reckoning->evidence->history;
	struct occasion *occasions = g_new(struct occasion,
		history->occasions + 1);

	history_occasions(history, occasions);
	switch (reckoning->choice.method) {
	case METHOD_EXACT:
		g_string_append_printf(out, "D = %u; C = ",
			reckoning->choice.sums.distinct);
		put_catches(history, occasions, out);
		break;
	case METHOD_CHAPMAN:
	case METHOD_CHAPMAN_LOG_NORMAL:
	case METHOD_SADINLE:
		put_lists(history, out);
		break;
	case METHOD_SCHNABEL:
	case METHOD_SCHUMACHER:
		put_sums(history, reckoning->choice.method, occasions, out);
		break;
	case METHOD_CHAO:
	case METHOD_CHAO_CLASSIC:
	case METHOD_ACE:
	case METHOD_POISSON:
	case METHOD_ZELTERMAN:
		put_frequencies(history, &reckoning->choice.sums,
			reckoning->choice.method, out);
		break;
	case METHODS:
		break;
	}
	g_free(occasions);
}
