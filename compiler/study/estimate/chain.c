/*
 * The chain of hypergeometric steps. A step's chances are found by ratios from
 * the likeliest one and divided by their sum, which keeps all digits where
 * logarithms of factorials would lose them.
 */
#include "study/estimate/chain.h"

#include <glib.h>
#include <math.h>

#include "study/estimate/quantile.h"

#define MOST_PIECES 2e9

/* Exact ties, such as 1/40 against 2.5 %, count as equal. */
#define TIE (TAIL * (1 - 1e-9))

/* What is smaller than this beside the likeliest adds nothing. */
#define NOTHING 1e-20

enum { HALVINGS = 200 };

struct draw {
	double all;
	double known;
	double caught;
};

/* How much likelier it is that k + 1 are new than that k are. */
static double
ratio(const struct draw *draw, double k)
{
	return (draw->all - draw->known - k) * (draw->caught - k) /
		((k + 1) * (draw->known - draw->caught + k + 1));
}

static double
likeliest(const struct draw *draw)
{
	double fresh = draw->all - draw->known;
	double k = floor((draw->caught + 1) * (fresh + 1) / (draw->all + 2));

	return fmin(fmax(k, fmax(0, draw->caught - draw->known)),
		fmin(fresh, draw->caught));
}

/* Adds `chance`, spread over the numbers of new ones, to room[known ...]. */
static void
spread(const struct draw *draw, double chance, double *room, unsigned most)
{
	double middle = likeliest(draw), sum = 1, w, k;
	double first = fmax(0, draw->caught - draw->known);
	double last = fmin(draw->all - draw->known, draw->caught);

	for (k = middle, w = 1; k < last && w > NOTHING; k++) {
		w *= ratio(draw, k);
		sum += w;
	}
	for (k = middle, w = 1; k > first && w > NOTHING; k--) {
		w /= ratio(draw, k - 1);
		sum += w;
	}
	for (k = middle, w = chance / sum; w > NOTHING * chance; k++) {
		if (draw->known + k <= most)
			room[(unsigned)(draw->known + k)] += w;
		if (k >= last)
			break;
		w *= ratio(draw, k);
	}
	for (k = middle, w = chance / sum; k > first; k--) {
		w /= ratio(draw, k - 1);
		if (w <= NOTHING * chance)
			break;
		if (draw->known + k - 1 <= most)
			room[(unsigned)(draw->known + k - 1)] += w;
	}
}

void
chain_init(struct chain *chain, unsigned most, unsigned known)
{
	*chain = (struct chain){g_new0(double, (gsize)most + 1),
		g_new0(double, (gsize)most + 1), most, known, known};
	chain->chances[known] = 1;
}

void
chain_release(struct chain *chain)
{
	g_free(chain->chances);
	g_free(chain->room);
}

void
chain_step(struct chain *chain, double all, unsigned caught)
{
	double *before = chain->chances, *after = chain->room;
	struct draw draw = {all, 0, caught};
	unsigned first = chain->first, last = chain->last, m;

	for (m = first; m <= last; m++) {
		draw.known = m;
		if (before[m] > NOTHING)
			spread(&draw, before[m], after, chain->most);
		before[m] = 0;
	}
	chain->chances = after;
	chain->room = before;
	last = caught > chain->most - last ? chain->most : last + caught;
	while (first < last && !(after[first] > 0))
		first++;
	while (last > first && !(after[last] > 0))
		last--;
	chain->first = first;
	chain->last = last;
}

double
chain_at_most(const unsigned *caught, unsigned count, unsigned distinct,
	double all)
{
	struct chain chain;
	double sum = 0;
	unsigned i;

	chain_init(&chain, distinct, 0);
	for (i = 0; i < count; i++)
		if (caught[i] > 0)
			chain_step(&chain, all, caught[i]);
	for (i = chain.first; i <= chain.last; i++)
		sum += chain.chances[i];
	chain_release(&chain);
	return sum;
}

struct catches {
	const unsigned *caught;
	unsigned count;
	unsigned distinct;
	double sightings;
	double most;		/* on one occasion */
	unsigned held;
};

static struct catches
catches_of(const unsigned *caught, unsigned count, unsigned distinct)
{
	struct catches catches = {caught, count, distinct, 0, 0, 0};
	unsigned i;

	for (i = 0; i < count; i++) {
		catches.sightings += caught[i];
		catches.most = fmax(catches.most, caught[i]);
		catches.held += caught[i] > 0;
	}
	return catches;
}

/* P(as many distinct ones, or more): grows with `all`. */
static bool
many_enough(const struct catches *catches, double all)
{
	return catches->distinct == 0 ||
		1 - chain_at_most(catches->caught, catches->count,
			catches->distinct - 1, all) >= TIE;
}

/* P(as many, or fewer): falls with `all`. */
static bool
few_enough(const struct catches *catches, double all)
{
	return chain_at_most(catches->caught, catches->count,
		catches->distinct, all) >= TIE;
}

static double
least_all(const struct catches *catches)
{
	double low = catches->distinct, high = low, middle;

	while (high < MOST_PIECES && !many_enough(catches, high)) {
		low = high + 1;
		high = fmin(high * 2, MOST_PIECES);
	}
	while (low < high) {
		middle = floor((low + high) / 2);
		if (many_enough(catches, middle))
			high = middle;
		else
			low = middle + 1;
	}
	return low;
}

static double
most_all(const struct catches *catches)
{
	double low = catches->distinct, high = low, middle;

	if (catches->sightings <= catches->distinct)
		return INFINITY;
	while (few_enough(catches, high)) {
		if (high >= MOST_PIECES)
			return INFINITY;
		low = high;
		high = fmin(high * 2, MOST_PIECES);
	}
	while (low + 1 < high) {
		middle = floor((low + high) / 2);
		if (few_enough(catches, middle))
			low = middle;
		else
			high = middle;
	}
	return low;
}

void
chain_exact(const unsigned *caught, unsigned count, unsigned distinct,
	double *low, double *high)
{
	struct catches catches = catches_of(caught, count, distinct);

	*low = least_all(&catches);
	*high = most_all(&catches);
}

/* Above 0 where `all` is more than the likeliest number. */
static double
beyond(const struct catches *catches, double all)
{
	double sum = 0;
	unsigned i;

	for (i = 0; i < catches->count; i++)
		sum += log1p(-(double)catches->caught[i] / all);
	return -(double)catches->distinct / all - expm1(sum);
}

double
darroch_root(const unsigned *caught, unsigned count, unsigned distinct)
{
	struct catches catches = catches_of(caught, count, distinct);
	double low = distinct, high = low, middle;
	int i;

	if (catches.sightings <= distinct)
		return INFINITY;
	if (catches.most >= distinct)
		return distinct;
	while (beyond(&catches, high) <= 0)
		high *= 2;
	for (i = 0; i < HALVINGS; i++) {
		middle = low + (high - low) / 2;
		if (middle <= low || middle >= high)
			break;
		if (beyond(&catches, middle) <= 0)
			low = middle;
		else
			high = middle;
	}
	return high;
}

static double
darroch_variance(const struct catches *catches, double all)
{
	double sum;
	unsigned i;

	if (all <= catches->distinct)
		return 0;
	sum = 1 / (all - catches->distinct) + (catches->held - 1) / all;
	for (i = 0; i < catches->count; i++)
		if (catches->caught[i] > 0)
			sum -= 1 / (all - catches->caught[i]);
	return 1 / sum;
}

struct figure
estimate_darroch(const unsigned *caught, unsigned count, unsigned distinct)
{
	struct catches catches = catches_of(caught, count, distinct);
	double low, high, point;

	if (catches.held < 2 || catches.most > distinct ||
		catches.sightings < distinct ||
		catches.sightings > CHAIN_MOST_SIGHTINGS)
		return (struct figure){.state = FIGURE_NONE};
	chain_exact(caught, count, distinct, &low, &high);
	if (catches.sightings <= distinct)
		return figure_least(distinct, low);
	point = darroch_root(caught, count, distinct);
	return figure_given(distinct, point,
		darroch_variance(&catches, point), low, high);
}
