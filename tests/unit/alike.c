/*
 * Things that nothing tells apart, against every pair held against every other;
 * and a group as large as a corpus, in which each thing was put in twice.
 */
#include <string.h>

#include "sense/alike.h"
#include "suite.h"

enum { FEATURES = 30 };

static uint32_t
next(uint32_t *seed)
{
	*seed ^= *seed << 13;
	*seed ^= *seed >> 17;
	*seed ^= *seed << 5;
	return *seed;
}

/* Of 100 scores `wild` are missing, and as many stand for several states. */
static void
make_item(struct alike *item, struct score *scores, unsigned features,
	unsigned states, unsigned wild, uint32_t *seed)
{
	unsigned i, count = 0;

	for (i = 0; i < features; i++) {
		if (next(seed) % 100 < wild)
			continue;
		scores[count] = (struct score){i, (state_set)1 << next(seed) %
			states};
		if (next(seed) % 100 < wild)
			scores[count].states |= (state_set)1 << next(seed) %
				states;
		if (next(seed) % 100 < 3)
			scores[count].states = 0;
		count++;
	}
	item->scores = (struct score_list){scores, count};
}

static void
check_item(const struct alike *items, unsigned place)
{
	const struct alike *item = &items[place];
	unsigned alike = 0, i;

	for (i = 0; i < place; i++)
		alike += !alike_divided(item, &items[i]);
	ck_assert_uint_eq(item->count, MIN(alike, ALIKE_MOST));
	ck_assert_int_eq(item->more, alike > ALIKE_MOST);
	for (i = 0; i < item->count; i++) {
		ck_assert(item->others[i] < item);
		ck_assert(!alike_divided(item, item->others[i]));
	}
}

START_TEST(every_pair)
{
	enum { MOST = 300 };
	static const unsigned wild[] = {0, 5, 30, 80, 99};
	struct alike *items = g_new0(struct alike, MOST);
	struct score *scores = g_new(struct score, MOST * FEATURES);
	uint32_t seed = 20261;
	unsigned round, i;

	for (round = 0; round < 60; round++) {
		unsigned count = 2 + next(&seed) % (MOST - 2);
		unsigned features = 1 + next(&seed) % 12;

		memset(items, 0, sizeof(*items) * MOST);
		for (i = 0; i < count; i++)
			make_item(&items[i], scores + (size_t)i * FEATURES,
				features, 2 + round % 3,
				wild[round % G_N_ELEMENTS(wild)], &seed);
		alike_find(items, count, features);
		for (i = 0; i < count; i++)
			check_item(items, i);
	}
	g_free(scores);
	g_free(items);
}
END_TEST

/* All pairs would be five thousand million. */
START_TEST(as_large_as_a_corpus)
{
	enum { HALF = 50000 };
	struct alike *items = g_new0(struct alike, 2 * HALF);
	struct score *scores = g_new(struct score, (size_t)HALF * FEATURES);
	uint32_t seed = 5;
	unsigned i;

	for (i = 0; i < HALF; i++)
		make_item(&items[i], scores + (size_t)i * FEATURES, FEATURES,
			4, 5, &seed);
	for (i = 0; i < HALF; i++)
		items[HALF + i].scores = items[i].scores;
	alike_find(items, 2 * HALF, FEATURES);
	for (i = 0; i < HALF; i++) {
		ck_assert_uint_eq(items[i].count, 0);
		ck_assert_uint_eq(items[HALF + i].count, 1);
		ck_assert_ptr_eq(items[HALF + i].others[0], &items[i]);
	}
	g_free(scores);
	g_free(items);
}
END_TEST

int
main(void)
{
	Suite *suite = suite_create("alike");
	TCase *tests = tcase_create("pairs");

	tcase_set_timeout(tests, 120);
	tcase_add_test(tests, every_pair);
	tcase_add_test(tests, as_large_as_a_corpus);
	suite_add_tcase(suite, tests);
	return suite_run(suite);
}
