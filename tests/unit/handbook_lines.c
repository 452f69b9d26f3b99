/*
 * The line breaker against an exhaustive search: for short paragraphs every
 * set of breaks is tried and weighed by the formulas of the paper.
 */
#include "write/handbook/lines.h"

#include <math.h>

#include "suite.h"

enum { MOST_WORDS = 11 };

static GArray *lines;
static struct atom atoms[2 * MOST_WORDS];

static void
set_up(void)
{
	lines = g_array_new(FALSE, TRUE, sizeof(struct line));
}

static void
tear_down(void)
{
	g_array_free(lines, TRUE);
}

/* Words of the given widths with spaces of 3 between. */
static uint32_t
make_atoms(const double *widths, unsigned words)
{
	uint32_t count = 0;
	unsigned i;

	for (i = 0; i < words; i++) {
		if (i > 0)
			atoms[count++] = (struct atom){ATOM_GLUE, 3, 1.5f, 0.8f,
				0};
		atoms[count++] = (struct atom){ATOM_BOX, (float)widths[i], 0, 0,
			0};
	}
	return count;
}

static const struct line *
line_at(unsigned i)
{
	return &g_array_index(lines, struct line, i);
}

/* Demerits of a ragged line of words; HUGE_VAL where they do not fit. */
static double
weigh(const double *widths, unsigned from, unsigned to, unsigned words,
	const struct measure *measure)
{
	double width = 3.0 * (to - from - 1), room, ratio, bad;
	unsigned i;

	for (i = from; i < to; i++)
		width += widths[i];
	room = from == 0 ? measure->first : measure->rest;
	if (width > room)
		return HUGE_VAL;
	if (to == words)
		return 1 +
			(from > 0 && width < 0.12 * measure->rest ? 5000 : 0);
	ratio = (room - width) / measure->slack;
	bad = 1 + 100 * ratio * ratio * ratio;
	return bad * bad;
}

static double
weigh_breaks(const double *widths, unsigned words, unsigned breaks,
	const struct measure *measure)
{
	double sum = 0;
	unsigned from = 0, i;

	for (i = 1; i <= words; i++) {
		if (i < words && !(breaks & 1u << (i - 1)))
			continue;
		sum += weigh(widths, from, i, words, measure);
		from = i;
	}
	return sum;
}

START_TEST(test_no_better_way)
{
	const struct measure measure = {60, 70, 25};
	GRand *random = g_rand_new_with_seed((guint32)_i);
	double widths[MOST_WORDS], best = HUGE_VAL, found;
	unsigned words = 4 + (unsigned)_i % (MOST_WORDS - 3), i, breaks = 0;

	for (i = 0; i < words; i++)
		widths[i] = g_rand_int_range(random, 4, 40);
	lines_break(atoms, make_atoms(widths, words), &measure, lines);
	for (i = 0; i + 1 < lines->len; i++)
		breaks |= 1u << (line_at(i)->to / 2);
	found = weigh_breaks(widths, words, breaks, &measure);
	for (i = 0; i < 1u << (words - 1); i++)
		best = MIN(best, weigh_breaks(widths, words, i, &measure));
	ck_assert(found < HUGE_VAL);
	ck_assert_double_le(found, best + 1e-3);
	g_rand_free(random);
}
END_TEST

START_TEST(test_justified_lines_fill)
{
	const double widths[] = {20, 14, 25, 11, 18, 22, 9, 30, 16, 21, 12};
	const struct measure measure = {90, 90, 0};
	const struct line *line;
	double stretch, width;
	unsigned i;

	lines_break(atoms, make_atoms(widths, MOST_WORDS), &measure, lines);
	ck_assert_uint_gt(lines->len, 2);
	for (i = 0; i + 1 < lines->len; i++) {
		line = line_at(i);
		stretch = (line->to - line->from) / 2 *
			(line->ratio < 0 ? 0.8 : 1.5);
		width = (double)line->width + (double)line->ratio * stretch;
		ck_assert_double_eq_tol(width, 90, 0.01);
	}
	ck_assert_uint_eq(line_at(lines->len - 1)->to, 2 * MOST_WORDS - 1);
}
END_TEST

START_TEST(test_wide_word_sticks_out)
{
	const double widths[] = {10, 200, 10};
	const struct measure measure = {50, 50, 20};

	lines_break(atoms, make_atoms(widths, 3), &measure, lines);
	ck_assert_uint_eq(lines->len, 3);
	ck_assert(!line_at(0)->tight);
	ck_assert(line_at(1)->tight);
	ck_assert(!line_at(2)->tight);
}
END_TEST

START_TEST(test_forced_break)
{
	const struct measure measure = {500, 500, 0};
	struct atom some[] = {
		{ATOM_BOX, 10, 0, 0, 0},
		{ATOM_PENALTY, 0, 0, 0, LINES_ALWAYS},
		{ATOM_BOX, 20, 0, 0, 0},
	};

	lines_break(some, 3, &measure, lines);
	ck_assert_uint_eq(lines->len, 2);
	ck_assert_float_eq(line_at(0)->width, 10);
	ck_assert_float_eq(line_at(0)->ratio, 0);
	ck_assert_float_eq(line_at(1)->width, 20);
}
END_TEST

START_TEST(test_hyphen_only_at_the_end)
{
	const struct measure measure = {34, 34, 10};
	struct atom some[] = {
		{ATOM_BOX, 10, 0, 0, 0},
		{ATOM_GLUE, 3, 1, 1, 0},
		{ATOM_BOX, 15, 0, 0, 0},
		{ATOM_PENALTY, 4, 0, 0, 50},
		{ATOM_BOX, 20, 0, 0, 0},
	};

	lines_break(some, 5, &measure, lines);
	ck_assert_uint_eq(lines->len, 2);
	ck_assert(line_at(0)->broken);
	ck_assert_float_eq(line_at(0)->width, 32);
	ck_assert_float_eq(line_at(1)->width, 20);
}
END_TEST

START_TEST(test_nothing)
{
	const struct measure measure = {50, 50, 0};

	lines_break(atoms, 0, &measure, lines);
	ck_assert_uint_eq(lines->len, 0);
}
END_TEST

int
main(void)
{
	Suite *suite = suite_create("handbook lines");
	TCase *tests = tcase_create("lines");

	tcase_add_checked_fixture(tests, set_up, tear_down);
	tcase_add_loop_test(tests, test_no_better_way, 0, 200);
	tcase_add_test(tests, test_justified_lines_fill);
	tcase_add_test(tests, test_wide_word_sticks_out);
	tcase_add_test(tests, test_forced_break);
	tcase_add_test(tests, test_hyphen_only_at_the_end);
	tcase_add_test(tests, test_nothing);
	suite_add_tcase(suite, tests);
	return suite_run(suite);
}
