/*
 * Simulated histories of which the truth is known: how often each method's
 * interval holds it, and what the rule that chooses makes of them.
 *
 * coverage CORPORA prints a table over that many histories of each setting,
 * and fails where
 * - an exact interval holds the truth less often than in 95 % of them,
 * - an approximate one does so more or less often than going through every
 *   possible outcome says that it must,
 * - the default does so in less than 93 % where what it assumes is true,
 * - the default says nothing of unequal chances where they are plainly so, or
 *   its lower limit is above the truth there in more than 5 %,
 * each by more than three standard errors of the simulation. The histories
 * follow a fixed seed.
 */
#include <glib.h>
#include <math.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "study/estimate/chain.h"
#include "study/estimate/choose.h"
#include "study/estimate/lists.h"
#include "study/estimate/pooled.h"

enum { MOST_PIECES = 400, MOST_OCCASIONS = 64 };

/* How a setting deals out chances. */
enum dealing {
	FIXED_CATCHES,		/* so many on each occasion, all alike */
	SAME_CHANCE,		/* `rate` for all on every occasion */
	TIMES_DIFFER,		/* from half of it to one and a half */
	TWO_CLASSES,		/* a fifth of the pieces eight times as often */
	SPREAD,			/* exponential about `rate` */
	SEEN_ONCE,		/* a piece once seen seldom comes back */
};

struct setting {
	const char *name;
	enum dealing dealing;
	unsigned pieces;
	unsigned occasions;
	double rate;
	const unsigned *catches;
	bool equal;		/* what the default assumes is true */
	bool plain;		/* plainly unequal: must be noticed */
};

static const unsigned twenty_fifteen[] = {20, 15};
static const unsigned fives[] = {5, 6, 7, 8};
static const unsigned ones[] = {1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1,
	1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1};

static const struct setting settings[] = {
	{"two lists, 20 and 15 of 100", FIXED_CATCHES, 100, 2, 0,
		twenty_fifteen, true, false},
	{"two lists of 40", SAME_CHANCE, 40, 2, 0.3, NULL, true, false},
	{"four lists, 5 to 8 of 30", FIXED_CATCHES, 30, 4, 0, fives, true,
		false},
	{"four lists of 12", SAME_CHANCE, 12, 4, 0.3, NULL, true, false},
	{"six lists of 30", SAME_CHANCE, 30, 6, 0.15, NULL, true, false},
	{"ten uneven lists of 100", TIMES_DIFFER, 100, 10, 0.08, NULL, true,
		false},
	{"twenty lists of 150", SAME_CHANCE, 150, 20, 0.04, NULL, true, false},
	{"40 single sightings of 40", FIXED_CATCHES, 40, 40, 0, ones, true,
		false},
	{"ten lists of 4, often seen", SAME_CHANCE, 4, 10, 0.3, NULL, true,
		false},
	{"ten lists of 400, hardly seen", SAME_CHANCE, 400, 10, 0.005, NULL,
		true, false},
	{"two classes of 100", TWO_CLASSES, 100, 10, 0.05, NULL, false, true},
	{"spread chances of 250", SPREAD, 250, 12, 0.1, NULL, false, true},
	{"spread chances of 30", SPREAD, 30, 6, 0.15, NULL, false, false},
	{"pieces that go away, of 60", SEEN_ONCE, 60, 8, 0.1, NULL, false,
		false},
};

/* Steele, Lea and Flood 2014: splitmix64. */
static uint64_t dice;

static double
roll(void)
{
	uint64_t z = dice += 0x9e3779b97f4a7c15;

	z = (z ^ z >> 30) * 0xbf58476d1ce4e5b9;
	z = (z ^ z >> 27) * 0x94d049bb133111eb;
	return ((z ^ z >> 31) >> 11) * 0x1p-53;
}

static unsigned failures, checks;

static void
check(bool fine, const char *what, const char *where, double is, double limit)
{
	checks++;
	if (fine)
		return;
	failures++;
	printf("FAIL %s: %s: %.4f against %.4f\n", where, what, is, limit);
}

static void
deal_fixed(const struct setting *setting, unsigned char *seen)
{
	unsigned order[MOST_PIECES], i, k, other, piece;

	for (i = 0; i < setting->pieces; i++)
		order[i] = i;
	for (k = 0; k < setting->occasions; k++)
		for (i = 0; i < setting->catches[k]; i++) {
			other = i + (unsigned)(roll() * (setting->pieces - i));
			piece = order[other];
			order[other] = order[i];
			order[i] = piece;
			seen[piece * setting->occasions + k] = 1;
		}
}

static double
chance_of(const struct setting *setting, unsigned piece)
{
	switch (setting->dealing) {
	case TWO_CLASSES:
		return piece % 5 == 0 ? 8 * setting->rate : setting->rate;
	case SPREAD:
		return 1 - exp(setting->rate * log(1 - roll()));
	case FIXED_CATCHES:
	case SAME_CHANCE:
	case TIMES_DIFFER:
	case SEEN_ONCE:
		break;
	}
	return setting->rate;
}

/* One history; `seen` is all 0. */
static void
deal(const struct setting *setting, unsigned char *seen)
{
	unsigned i, k;

	if (setting->dealing == FIXED_CATCHES) {
		deal_fixed(setting, seen);
		return;
	}
	for (i = 0; i < setting->pieces; i++) {
		double chance = chance_of(setting, i);
		bool before = false;

		for (k = 0; k < setting->occasions; k++) {
			double now = chance;

			if (setting->dealing == TIMES_DIFFER)
				now *= k % 2 == 0 ? 0.5 : 1.5;
			if (setting->dealing == SEEN_ONCE && before)
				now /= 8;
			if (roll() < now) {
				seen[i * setting->occasions + k] = 1;
				before = true;
			}
		}
	}
}

/* What is counted of one method, or of the default, over a setting. */
struct tally {
	unsigned given;		/* histories that gave a number */
	unsigned held;		/* what was said held the truth */
	unsigned given_held;
	unsigned above;		/* said more than there were */
	double width;		/* sum of log(high/low) of closed intervals */
	unsigned closed;
	double bias;		/* sum of point/truth */
};

static void
count(struct tally *tally, const struct figure *figure, double truth)
{
	bool held = figure->state == FIGURE_NONE ||
		(figure->low <= truth && figure->high >= truth);

	tally->held += held;
	tally->above += figure->state != FIGURE_NONE && figure->low > truth;
	if (figure->state != FIGURE_GIVEN)
		return;
	tally->given++;
	tally->given_held += held;
	tally->bias += figure->point / truth;
	if (isfinite(figure->high) && figure->low > 0) {
		tally->width += log(figure->high / figure->low);
		tally->closed++;
	}
}

static double
error_of(double share, unsigned corpora)
{
	return sqrt(fmax(share * (1 - share), 1.0 / corpora) / corpora);
}

static void
print_tally(const char *name, const struct tally *tally, unsigned corpora)
{
	printf("  %-20s %6.1f %8.1f %8.1f", name,
		100.0 * tally->given / corpora, 100.0 * tally->held / corpora,
		tally->given == 0 ? NAN :
		100.0 * tally->given_held / tally->given);
	printf(" %8.2f %8.1f %8.1f", tally->given == 0 ? NAN :
		tally->bias / tally->given, tally->closed == 0 ? NAN :
		exp(tally->width / tally->closed),
		100.0 * tally->above / corpora);
}

struct totals {
	struct tally by[METHODS];
	struct tally chosen;
	unsigned doubted;	/* histories said to be unequal */
	unsigned warned;	/* wrong figures that carried a caveat of it */
	unsigned wrong;
};

static bool
has(const struct choice *choice, enum caveat caveat)
{
	unsigned i;

	for (i = 0; i < choice->caveat_count; i++)
		if (choice->caveats[i] == caveat)
			return true;
	return false;
}

static void
choose(struct totals *totals, const struct history *history, double truth)
{
	struct choice choice = estimate_choose(history);
	const struct figure *figure = &choice.figure;

	count(&totals->chosen, figure, truth);
	totals->doubted += has(&choice, CAVEAT_UNEQUAL);
	if (figure->state == FIGURE_NONE ||
		(figure->low <= truth && figure->high >= truth))
		return;
	totals->wrong++;
	totals->warned += has(&choice, CAVEAT_EQUAL) ||
		has(&choice, CAVEAT_LOWER_BOUND) ||
		has(&choice, CAVEAT_TOO_EVEN);
}

static void
simulate(const struct setting *setting, unsigned corpora,
	struct totals *totals)
{
	size_t cells = (size_t)setting->pieces * setting->occasions;
	unsigned char *seen = g_malloc(cells);
	struct history history = {setting->pieces, setting->occasions, seen};
	struct figure figure;
	unsigned i, m;

	for (i = 0; i < corpora; i++) {
		memset(seen, 0, cells);
		deal(setting, seen);
		for (m = 0; m < METHODS; m++) {
			estimate_by(m, &history, &figure);
			count(&totals->by[m], &figure, setting->pieces);
		}
		choose(totals, &history, setting->pieces);
	}
	g_free(seen);
}

/*
 * Every possible outcome of a setting with its chance, as histories that say
 * the same to the methods that `told` names.
 */
struct going {
	const struct setting *setting;
	unsigned char *seen;
	bool told[METHODS];
	double shares[METHODS];
};

static void
add_outcome(struct going *going, double chance)
{
	struct history history = {going->setting->pieces,
		going->setting->occasions, going->seen};
	double truth = going->setting->pieces;
	struct figure figure;
	unsigned m;

	for (m = 0; m < METHODS; m++) {
		if (!going->told[m])
			continue;
		estimate_by(m, &history, &figure);
		if (figure.state == FIGURE_NONE ||
			(figure.low <= truth && figure.high >= truth))
			going->shares[m] += chance;
	}
}

/*
 * Fixed catches: by how many are new on each occasion. With two occasions that
 * is all there is; with more, which of the known ones come again is all the
 * same to methods that look at catches alone.
 */
static void
go_on(struct going *going, unsigned occasion, unsigned known, double chance)
{
	const struct setting *setting = going->setting;
	unsigned caught, fresh, i;
	struct chain chain;

	if (occasion == setting->occasions) {
		add_outcome(going, chance);
		return;
	}
	caught = setting->catches[occasion];
	chain_init(&chain, setting->pieces, known);
	chain_step(&chain, setting->pieces, caught);
	for (fresh = 0; fresh <= caught; fresh++) {
		if (known + fresh > setting->pieces ||
			!(chain.chances[known + fresh] > 0))
			continue;
		for (i = 0; i < setting->pieces; i++)
			going->seen[i * setting->occasions + occasion] =
				i < caught - fresh ||
				(i >= known && i < known + fresh);
		go_on(going, occasion + 1, known + fresh,
			chance * chain.chances[known + fresh]);
	}
	chain_release(&chain);
}

/* The same chance for all: by how many are seen so many times. */
static void
go_down(struct going *going, unsigned times, unsigned done, double chance)
{
	const struct setting *setting = going->setting;
	unsigned t = setting->occasions, left = setting->pieces - done, n, i;
	double one = exp(lgamma(t + 1.0) - lgamma(times + 1.0) -
		lgamma(t - times + 1.0)) * pow(setting->rate, times) *
		pow(1 - setting->rate, t - times);

	for (n = times == 0 ? left : 0; n <= left; n++) {
		double ways = exp(lgamma(left + 1.0) - lgamma(n + 1.0) -
			lgamma(left - n + 1.0)) * pow(one, n);

		for (i = done * t; i < (done + n) * t; i++)
			going->seen[i] = i % t < times;
		if (times == 0)
			add_outcome(going, chance * ways);
		else
			go_down(going, times - 1, done + n, chance * ways);
	}
}

/* How often each method must hold the truth; NAN where that is not known. */
static void
go_through(const struct setting *setting, double *shares)
{
	struct going going = {.setting = setting, .seen = g_malloc0(
		(size_t)setting->pieces * setting->occasions)};
	bool by_catches = setting->dealing == FIXED_CATCHES &&
		setting->occasions <= 4;
	bool by_times = setting->dealing == SAME_CHANCE &&
		setting->occasions == 4;
	unsigned m;

	for (m = 0; m < METHODS; m++)
		going.told[m] = (by_catches && (m <= METHOD_SCHUMACHER ||
			setting->occasions == 2)) ||
			(by_times && m >= METHOD_CHAO);
	if (by_catches)
		go_on(&going, 0, 0, 1);
	if (by_times)
		go_down(&going, setting->occasions, 0, 1);
	for (m = 0; m < METHODS; m++)
		shares[m] = going.told[m] ? going.shares[m] : NAN;
	g_free(going.seen);
}

static void
compare(const struct setting *setting, const struct totals *totals,
	const double *every, unsigned corpora)
{
	double share = (double)totals->chosen.held / corpora;
	unsigned m;

	for (m = 0; m < METHODS; m++) {
		double held = (double)totals->by[m].held / corpora;

		if (isnan(every[m]))
			continue;
		check(fabs(held - every[m]) <= 3 * error_of(every[m], corpora),
			method_words(m)->name, setting->name, held, every[m]);
	}
	if (setting->equal) {
		double exact = (double)totals->by[METHOD_EXACT].held / corpora;
		double doubt = (double)totals->doubted / corpora;

		check(exact >= 0.95 - 3 * error_of(0.95, corpora), "exact",
			setting->name, exact, 0.95);
		check(share >= 0.93 - (corpora < 2000 ?
			3 * error_of(0.93, corpora) : 0), "default",
			setting->name, share, 0.93);
		check(doubt <= EQUAL_DOUBT + 3 * error_of(EQUAL_DOUBT,
			corpora), "false alarms", setting->name, doubt,
			EQUAL_DOUBT);
	}
	if (setting->dealing == TWO_CLASSES || setting->dealing == SPREAD) {
		double above = (double)totals->chosen.above / corpora;

		check(above <= 0.05 + 3 * error_of(0.05, corpora),
			"a bound above the truth", setting->name, above, 0.05);
	}
	if (setting->plain)
		check(totals->doubted >= 0.9 * corpora, "noticed",
			setting->name, (double)totals->doubted / corpora, 0.9);
	check(totals->warned == totals->wrong, "caveats of wrong figures",
		setting->name, totals->warned, totals->wrong);
}

static void
run(const struct setting *setting, unsigned corpora)
{
	struct totals totals = {0};
	double every[METHODS];
	unsigned m;

	dice = 0x5a17 + (uint64_t)(setting - settings);
	simulate(setting, corpora, &totals);
	go_through(setting, every);
	printf("%s\n", setting->name);
	for (m = 0; m < METHODS; m++) {
		if (totals.by[m].given == 0)
			continue;
		print_tally(method_words(m)->name, &totals.by[m], corpora);
		if (isnan(every[m]))
			printf("\n");
		else
			printf(" %8.2f\n", 100 * every[m]);
	}
	print_tally("default", &totals.chosen, corpora);
	printf("  unequal said of %.1f %%\n", 100.0 * totals.doubted / corpora);
	compare(setting, &totals, every, corpora);
}

static unsigned
roll_poisson(double rate)
{
	double left = exp(-rate), product = roll();
	unsigned number = 0;

	for (; product > left; number++)
		product *= roll();
	return number;
}

/* Small groups of one rate: with the rate of all of them, and of each alone. */
static void
run_pooled(unsigned corpora)
{
	static const unsigned sizes[] = {4, 6, 8, 10, 12, 15, 20, 30};
	enum { GROUPS = G_N_ELEMENTS(sizes), MOST_TIMES = 20 };
	struct tally pooled = {0}, alone = {0};
	unsigned i, k, g;

	dice = 0x9001;
	for (i = 0; i < corpora; i++) {
		unsigned seen[GROUPS][MOST_TIMES] = {{0}};
		struct frequencies groups[GROUPS];
		struct pool pool;
		struct figure figure;

		for (g = 0; g < GROUPS; g++) {
			for (k = 0; k < sizes[g]; k++) {
				unsigned times = roll_poisson(0.8);

				if (times > 0)
					seen[g][MIN(times, MOST_TIMES) - 1]++;
			}
			groups[g] = (struct frequencies){seen[g], MOST_TIMES,
				0};
		}
		pool = pool_poisson(groups, GROUPS);
		for (g = 0; g < GROUPS; g++) {
			figure = estimate_pooled(&pool, &groups[g]);
			count(&pooled, &figure, sizes[g]);
			figure = estimate_poisson(&groups[g]);
			count(&alone, &figure, sizes[g]);
		}
	}
	printf("eight groups of 4 to 30, sightings at one rate\n");
	print_tally("poisson, pooled", &pooled, corpora * GROUPS);
	printf("\n");
	print_tally("poisson, alone", &alone, corpora * GROUPS);
	printf("\n");
	check(pooled.given_held >= 0.95 * pooled.given, "poisson, pooled",
		"groups", (double)pooled.given_held / pooled.given, 0.95);
}

int
main(int argc, char **argv)
{
	unsigned corpora = argc > 1 ? (unsigned)atoi(argv[1]) : 200;
	unsigned half = argc > 2 ? (unsigned)atoi(argv[2]) : 2, i;

	printf("%u histories of each setting; in %%, but for point and width\n"
		"  %-20s %6s %8s %8s %8s %8s %8s %8s\n", corpora, "method",
		"number", "holds", "of these", "point", "width", "above",
		"must");
	for (i = 0; i < G_N_ELEMENTS(settings); i++)
		if (half > 1 || i % 2 == half)
			run(&settings[i], corpora);
	if (half != 1)
		run_pooled(corpora);
	printf("%u passed, %u failed\n", checks - failures, failures);
	return failures == 0 ? EXIT_SUCCESS : EXIT_FAILURE;
}
