/*
 * Counts over the rows and columns of a history.
 */
#include "study/estimate/history.h"

static unsigned
times_seen(const struct history *history, unsigned piece)
{
	unsigned times = 0, i;

	for (i = 0; i < history->occasions; i++)
		times += history_seen(history, piece, i);
	return times;
}

static unsigned
seen_on(const struct history *history, unsigned occasion)
{
	unsigned caught = 0, i;

	for (i = 0; i < history->pieces; i++)
		caught += history_seen(history, i, occasion);
	return caught;
}

struct history_sums
history_sum(const struct history *history)
{
	struct history_sums sums = {0};
	unsigned times, i;

	for (i = 0; i < history->pieces; i++) {
		times = times_seen(history, i);
		sums.sightings += times;
		sums.distinct += times > 0;
		sums.repeated += times > 1;
	}
	for (i = 0; i < history->occasions; i++)
		sums.held += seen_on(history, i) > 0;
	return sums;
}

struct frequencies
history_frequencies(const struct history *history, unsigned *room)
{
	unsigned times, i;

	for (i = 0; i < history->occasions; i++)
		room[i] = 0;
	for (i = 0; i < history->pieces; i++) {
		times = times_seen(history, i);
		if (times > 0)
			room[times - 1]++;
	}
	return (struct frequencies){room, history->occasions,
		history->occasions};
}

void
history_occasions(const struct history *history, struct occasion *room)
{
	unsigned i, k;

	for (k = 0; k < history->occasions; k++)
		room[k] = (struct occasion){.caught = seen_on(history, k)};
	for (i = 0; i < history->pieces; i++) {
		bool before = false;

		for (k = 0; k < history->occasions; k++) {
			if (!history_seen(history, i, k))
				continue;
			room[k].again += before;
			before = true;
		}
	}
}

struct two_lists
history_lists(const struct history *history, unsigned first, unsigned second)
{
	struct two_lists lists = {seen_on(history, first),
		seen_on(history, second), 0};
	unsigned i;

	for (i = 0; i < history->pieces; i++)
		lists.both += history_seen(history, i, first) &&
			history_seen(history, i, second);
	return lists;
}

bool
history_two(const struct history *history, struct two_lists *lists)
{
	unsigned held[2], count = 0, i;

	for (i = 0; i < history->occasions; i++) {
		if (seen_on(history, i) == 0)
			continue;
		if (count == 2)
			return false;
		held[count++] = i;
	}
	if (count < 2)
		return false;
	*lists = history_lists(history, held[0], held[1]);
	return true;
}
