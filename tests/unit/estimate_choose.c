/*
 * Histories of pieces and occasions, exact limits over several of them, and
 * the rule that chooses a method. "As published" as in estimate.c.
 */
#include <math.h>
#include <string.h>

#include "study/estimate/chain.h"
#include "study/estimate/choose.h"
#include "study/estimate/lists.h"
#include "suite.h"

#define NEAR(a, b, digits) \
	ck_assert_msg(fabs((a) - (b)) <= (digits), "%s is %.12g, not %.12g", \
		#a, (double)(a), (double)(b))
#define EQUAL(a, b) NEAR(a, b, 1e-9 * fabs(b))

/* Rows as text, one piece a row, "x" where it was seen. */
static struct history
history_of(const char *rows, unsigned occasions, unsigned char *room)
{
	size_t length = strlen(rows), i;

	for (i = 0; i < length; i++)
		room[i] = rows[i] == 'x';
	return (struct history){length / occasions, occasions, room};
}

static bool
has(const struct choice *choice, enum caveat caveat)
{
	unsigned i;

	for (i = 0; i < choice->caveat_count; i++)
		if (choice->caveats[i] == caveat)
			return true;
	return false;
}

/*
 * Darroch 1958 on the hares of Cormack 1989 (Rcapture 1.4-4, closedp.t, Mt:
 * 75.06620134, s.e. 3.35233), the sunfish of Gerking 1953 (R), and the deer
 * mice of Otis and others 1978 (VGAM 1.1-7, posbernoulli.t: 38.4026028891,
 * s.e. 0.663494333).
 */
START_TEST(darroch)
{
	static const unsigned hares[] = {16, 28, 20, 26, 23, 32};
	static const unsigned sunfish[] = {10, 27, 17, 7, 1, 5, 6, 15, 9, 18,
		16, 5, 7, 19};
	static const unsigned mice[] = {15, 20, 16, 19, 25, 25};
	struct figure f = estimate_darroch(hares, 6, 68);

	NEAR(f.point, 75.06620134, 5e-9);
	NEAR(sqrt(f.variance), 3.35233, 5e-6);
	EQUAL(sqrt(f.variance), 3.3523309985);
	ck_assert(f.low > 68 && f.low < f.point && f.high > f.point);
	EQUAL(estimate_darroch(sunfish, 14, 138).point, 448.499293258);
	f = estimate_darroch(mice, 6, 38);
	NEAR(f.point, 38.4026028891, 1e-8);
	NEAR(sqrt(f.variance), 0.663494333, 1e-6);
	EQUAL(f.low, 38.0);
}
END_TEST

/* Two occasions: the inverted hypergeometric test (R's phyper). */
START_TEST(two_occasions)
{
	static const struct {
		unsigned caught[2], both;
		double low, high;
	} rows[] = {{{948, 421}, 167, 2154, 2682}, {{109, 177}, 57, 295, 403},
		{{500, 149}, 7, 5334, 26102}, {{50, 40}, 10, 130, 377},
		{{20, 15}, 3, 46, 445}, {{10, 8}, 0, 31, INFINITY},
		{{10, 5}, 5, 10, 18}, {{1, 1}, 1, 1, 40}};
	double low, high;
	unsigned i;

	for (i = 0; i < G_N_ELEMENTS(rows); i++) {
		chain_exact(rows[i].caught, 2, rows[i].caught[0] +
			rows[i].caught[1] - rows[i].both, &low, &high);
		EQUAL(low, rows[i].low);
		if (isinf(rows[i].high))
			ck_assert(isinf(high));
		else
			EQUAL(high, rows[i].high);
	}
}
END_TEST

/* More occasions: the chain worked out in R 4.2.2 with dhyper. */
START_TEST(several_occasions)
{
	static const struct {
		unsigned caught[14], count, distinct;
		double low, high;
	} rows[] = {{{16, 28, 20, 26, 23, 32}, 6, 68, 70, 84},
		{{15, 20, 16, 19, 25, 25}, 6, 38, 38, 40},
		{{10, 27, 17, 7, 1, 5, 6, 15, 9, 18, 16, 5, 7, 19}, 14, 138,
			320, 674},
		{{1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1}, 12, 9, 9, 85},
		{{1, 1, 1, 1}, 4, 1, 1, 3}, {{5, 6, 7, 8}, 4, 15, 15, 28},
		{{5, 0, 6, 7, 0, 8}, 6, 15, 15, 28}};
	double low, high;
	unsigned i;

	for (i = 0; i < G_N_ELEMENTS(rows); i++) {
		chain_exact(rows[i].caught, rows[i].count, rows[i].distinct,
			&low, &high);
		EQUAL(low, rows[i].low);
		EQUAL(high, rows[i].high);
	}
	EQUAL(chain_at_most(rows[5].caught, 4, 15, 30), 0.0163140100455826);
}
END_TEST

START_TEST(counts)
{
	unsigned char room[64];
	unsigned seen[4];
	struct occasion occasions[4];
	struct history history = history_of("x.x." "xx.x" "...." "..x.", 4,
		room);
	struct history_sums sums = history_sum(&history);
	struct frequencies frequencies = history_frequencies(&history, seen);
	struct two_lists lists = history_lists(&history, 0, 2);

	ck_assert_uint_eq(sums.distinct, 3);
	ck_assert_uint_eq(sums.sightings, 6);
	ck_assert_uint_eq(sums.repeated, 2);
	ck_assert_uint_eq(sums.held, 4);
	ck_assert_uint_eq(frequencies.lists, 4);
	ck_assert_uint_eq(seen[0], 1);
	ck_assert_uint_eq(seen[1], 1);
	ck_assert_uint_eq(seen[2], 1);
	history_occasions(&history, occasions);
	ck_assert_uint_eq(occasions[0].caught, 2);
	ck_assert_uint_eq(occasions[1].again, 1);
	ck_assert_uint_eq(occasions[2].again, 1);
	ck_assert_uint_eq(occasions[3].again, 1);
	ck_assert_uint_eq(lists.first, 2);
	ck_assert_uint_eq(lists.second, 2);
	ck_assert_uint_eq(lists.both, 1);
	ck_assert(!history_two(&history, &lists));
}
END_TEST

START_TEST(too_few)
{
	unsigned char room[64];
	struct history history = history_of("x..", 3, room);
	struct choice choice = estimate_choose(&history);

	ck_assert_int_eq(choice.figure.state, FIGURE_LEAST);
	EQUAL(choice.figure.low, 1.0);
	ck_assert(has(&choice, CAVEAT_ONE_OCCASION));
	history = history_of("x.." ".x." "..x", 3, room);
	choice = estimate_choose(&history);
	ck_assert_int_eq(choice.figure.state, FIGURE_LEAST);
	ck_assert(has(&choice, CAVEAT_NONE_AGAIN));
	history = history_of("xx." ".xx" "..x", 3, room);
	choice = estimate_choose(&history);
	ck_assert_int_eq(choice.figure.state, FIGURE_LEAST);
	EQUAL(choice.figure.seen, 3.0);
	ck_assert(has(&choice, CAVEAT_FEW_AGAIN));
	history = history_of("...", 3, room);
	choice = estimate_choose(&history);
	ck_assert_int_eq(choice.figure.state, FIGURE_NONE);
	history.pieces = 0;
	choice = estimate_choose(&history);
	ck_assert_int_eq(choice.figure.state, FIGURE_NONE);
}
END_TEST

START_TEST(chosen)
{
	unsigned char room[400];
	struct history history = history_of("xx" "xx" "xx" "x." "x." ".x", 2,
		room);
	struct choice choice = estimate_choose(&history);
	unsigned i;

	ck_assert_int_eq(choice.method, METHOD_CHAPMAN);
	EQUAL(choice.figure.point, 6.5);
	ck_assert(has(&choice, CAVEAT_EQUAL) && has(&choice, CAVEAT_UNTESTED));
	history = history_of("xx" "xx" "xx" "x." "x.", 2, room);
	choice = estimate_choose(&history);
	ck_assert(has(&choice, CAVEAT_CONTAINED));
	history = history_of("xx.x" "x.x." ".xx." "...x" "x..x", 4, room);
	choice = estimate_choose(&history);
	ck_assert_int_eq(choice.method, METHOD_EXACT);
	ck_assert_int_eq(choice.figure.state, FIGURE_GIVEN);
	ck_assert(choice.test.done);
	/* Four on every occasion, and twenty once each. */
	memset(room, 0, sizeof room);
	for (i = 0; i < 4 * 10; i++)
		room[i] = 1;
	for (i = 0; i < 20; i++)
		room[(4 + i) * 10 + i / 2] = 1;
	history = (struct history){24, 10, room};
	choice = estimate_choose(&history);
	ck_assert_int_eq(choice.method, METHOD_CHAO);
	ck_assert(has(&choice, CAVEAT_UNEQUAL));
	ck_assert(has(&choice, CAVEAT_LOWER_BOUND));
}
END_TEST

/* What the default makes of data at the edge. */
START_TEST(edges)
{
	unsigned char room[64];
	/* Everything on both lists. */
	struct history history = history_of("xx" "xx" "xx" "xx" "xx", 2,
		room);
	struct choice choice = estimate_choose(&history);

	EQUAL(choice.figure.point, 5.0);
	EQUAL(choice.figure.low, 5.0);
	ck_assert(choice.figure.high > 5 && isfinite(choice.figure.high));
	ck_assert(has(&choice, CAVEAT_CONTAINED));
	/* One piece, seen again and again. */
	history = history_of("xxxxxx", 6, room);
	choice = estimate_choose(&history);
	ck_assert_int_eq(choice.figure.state, FIGURE_LEAST);
	EQUAL(choice.figure.low, 1.0);
	/* A single singleton. */
	history = history_of("xxx." ".xxx" "x.x." "...x", 4, room);
	choice = estimate_choose(&history);
	ck_assert_int_eq(choice.figure.state, FIGURE_GIVEN);
	ck_assert(choice.figure.point >= 4 && choice.figure.low >= 4);
	/* Two occasions, and one that saw nothing. */
	history = history_of("x.x" "x.x" "x.x" "x.." "..x", 3, room);
	choice = estimate_choose(&history);
	ck_assert_int_eq(choice.method, METHOD_CHAPMAN);
	EQUAL(choice.figure.point, 5.25);
	/* No overlap: the least that there must be, and why. */
	history = history_of("x." "x." "x." "x." ".x" ".x" ".x" ".x", 2,
		room);
	choice = estimate_choose(&history);
	ck_assert_int_eq(choice.figure.state, FIGURE_LEAST);
	ck_assert(choice.figure.low >= 8 && isinf(choice.figure.high));
	ck_assert(has(&choice, CAVEAT_NONE_AGAIN));
}
END_TEST

/* Too many sightings for exact limits, and nearly too many. */
START_TEST(large)
{
	enum { PIECES = 1000, OCCASIONS = 10 };
	unsigned char *seen = g_malloc(PIECES * OCCASIONS);
	struct history history = {PIECES, OCCASIONS, seen};
	struct choice choice;
	struct figure figure;
	unsigned i;

	for (i = 0; i < PIECES * OCCASIONS; i++)
		seen[i] = (i * 2654435761u >> 16) % 16 < 9;
	choice = estimate_choose(&history);
	ck_assert_uint_gt(choice.sums.sightings, CHAIN_MOST_SIGHTINGS);
	ck_assert(choice.method == METHOD_SCHNABEL ||
		choice.method == METHOD_CHAO);
	ck_assert(!estimate_by(METHOD_EXACT, &history, &figure));
	for (i = 0; i < PIECES * OCCASIONS; i++)
		seen[i] = (i * 2654435761u >> 16) % 16 < 7;
	choice = estimate_choose(&history);
	ck_assert_uint_le(choice.sums.sightings, CHAIN_MOST_SIGHTINGS);
	ck_assert_int_eq(choice.figure.state, FIGURE_GIVEN);
	g_free(seen);
	/* More on a list than 32 bits hold the product of. */
	figure = estimate_chapman(100000, 90000, 40000, LISTS_EXACT);
	EQUAL(figure.point, 100001.0 * 90001 / 40001 - 1);
	ck_assert(figure.low < figure.point && figure.high > figure.point);
	ck_assert_int_eq(estimate_chapman(4000000000u, 4000000000u, 1,
		LISTS_EXACT).state, FIGURE_NONE);
}
END_TEST

START_TEST(named)
{
	enum method method = METHODS;
	unsigned i;

	for (i = 0; i < METHODS; i++) {
		ck_assert(method_named(method_words(i)->name, &method));
		ck_assert_int_eq(method, i);
		ck_assert(method_words(i)->assumes != NULL);
	}
	for (i = 0; i < CAVEATS; i++)
		ck_assert(caveat_words(i) != NULL);
	ck_assert(!method_named("guess", &method));
}
END_TEST

int
main(void)
{
	Suite *suite = suite_create("estimate_choose");
	TCase *tests = tcase_create("estimate_choose");

	suite_add_tcase(suite, tests);
	tcase_add_test(tests, darroch);
	tcase_add_test(tests, two_occasions);
	tcase_add_test(tests, several_occasions);
	tcase_add_test(tests, edges);
	tcase_add_test(tests, large);
	tcase_add_test(tests, counts);
	tcase_add_test(tests, too_few);
	tcase_add_test(tests, chosen);
	tcase_add_test(tests, named);
	return suite_run(suite);
}
