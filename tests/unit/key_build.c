/*
 * Keys over tables: the example of unit/key.c to its end, small tables made to
 * show one thing each, and 200 random ones of 8 to 12 items on which the builder
 * is measured against the best key there is. The bounds are our own.
 */
#include "study/key_build.h"

#include <math.h>
#include <string.h>

#include "base/arena.h"
#include "study/key_best.h"
#include "suite.h"

enum { SETS = 200, MOST_FEATURES = 12 };

static const double alike[12] = {1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1};

/* border, back, stamp, variable, constant; of items A to F */
static const uint64_t example[] = {
	1, 1, 1, 2, 2, 2,
	1, 1, 2, 2, 4, 4,
	1, 2, 1, 2, 1, 2,
	1, 3, 2, 2, 1, 2,
	1, 1, 1, 1, 1, 1,
};

/* Follows an item by every lead it can take; counts where it arrives. */
static unsigned
follow(const struct key_table *table, const struct key_lead *lead,
	unsigned item)
{
	unsigned i, ends = 0;
	bool here = false;

	for (i = 0; i < lead->count; i++)
		here = here || lead->items[i] == item;
	ck_assert(here);
	if (lead->step == NULL)
		return 1;
	for (i = 0; i < lead->step->count; i++)
		if ((table->sets[lead->step->feature * table->items + item] &
			lead->step->leads[i].states) != 0)
			ends += follow(table, &lead->step->leads[i], item);
	ck_assert_uint_gt(ends, 0);
	return ends;
}

/* Every lead holds the items that can take it, and no other. */
static void
assert_sound(const struct key_table *table, const struct key *key)
{
	unsigned i, j;

	for (i = 0; i < table->items; i++)
		follow(table, &key->start, i);
	for (i = 0; i < key->count; i++) {
		const struct key_step *step = key->steps[i];
		uint64_t held = 0;

		ck_assert_uint_eq(step->number, i + 1);
		ck_assert_uint_lt(step->from, step->number);
		for (j = 0; j < step->count; j++) {
			ck_assert_uint_eq(held & step->leads[j].states, 0);
			ck_assert_uint_gt(step->leads[j].count, 0);
			held |= step->leads[j].states;
		}
	}
}

/* Items that end together share a state of every feature, in threes too. */
static void
assert_undivided(const struct key_table *table, const struct key_lead *lead)
{
	unsigned i, j;

	if (lead->step != NULL) {
		for (i = 0; i < lead->step->count; i++)
			assert_undivided(table, &lead->step->leads[i]);
		return;
	}
	for (i = 0; i < table->features; i++) {
		uint64_t all = UINT64_MAX;

		for (j = 0; j < lead->count; j++)
			all &= table->sets[i * table->items + lead->items[j]];
		ck_assert_uint_ne(all, 0);
	}
}

START_TEST(test_example)
{
	/* Reliabilities 5, 5, 3, 5 and 9, as costs to the base of 1.4. */
	const double costs[] = {1, 1, pow(1.4, 2), 1, pow(1.4, -4)};
	struct key_table table = {6, 5, example, alike, alike, NULL, 0};
	struct arena *arena = arena_new();
	struct key *key = key_build(&table, arena);

	ck_assert_uint_eq(key->start.step->feature, 1);
	ck_assert_double_eq_tol(key->report.mean, 2, 1e-12);
	ck_assert_double_eq_tol(key->report.mean * table.items, 12, 1e-12);
	ck_assert_double_eq_tol(key->report.cost, 2, 1e-12);
	ck_assert_uint_eq(key->report.longest, 2);
	ck_assert_uint_eq(key->report.together, 0);
	ck_assert_uint_eq(key->count, 4);
	assert_sound(&table, key);
	ck_assert_double_eq_tol(key_best_cost(&table), 2, 1e-12);
	table.costs = costs;
	key = key_build(&table, arena);
	ck_assert_uint_eq(key->start.step->feature, 1);
	ck_assert_double_eq_tol(key->report.mean, 2, 1e-12);
	ck_assert_double_eq_tol(key->report.cost, key_best_cost(&table),
		1e-12);
	arena_free(arena);
}
END_TEST

/*
 * A feature that divides nothing must not say what a bit costs, or the cheap
 * one of two would be asked where the dear one settles more for less. Too many
 * items for anything to be tried out.
 */
START_TEST(test_cheapest)
{
	enum { ITEMS = 64 };
	uint64_t sets[3 * ITEMS];
	double common[ITEMS];
	const double costs[] = {1, 1.2, 1e-6};
	struct key_table table = {ITEMS, 3, sets, common, costs, NULL, 0};
	struct arena *arena = arena_new();
	struct key *key;
	unsigned i;

	for (i = 0; i < ITEMS; i++) {
		common[i] = 1;
		sets[i] = (uint64_t)1 << i % 2;
		sets[ITEMS + i] = (uint64_t)1 << i % 32;
		sets[2 * ITEMS + i] = 1;
	}
	key = key_build(&table, arena);
	ck_assert_uint_eq(key->start.step->feature, 1);
	arena_free(arena);
}
END_TEST

START_TEST(test_leads)
{
	/* The second may be any of the states that only it can be. */
	const uint64_t sets[] = {1, 15, 2};
	struct key_table table = {3, 1, sets, alike, alike, NULL, 0};
	struct arena *arena = arena_new();
	struct key *key = key_build(&table, arena);
	const struct key_step *step = key->start.step;

	ck_assert_uint_eq(step->count, 3);
	ck_assert_uint_eq(step->leads[0].states, 1);
	ck_assert_uint_eq(step->leads[0].count, 2);
	ck_assert_uint_eq(step->leads[1].states, 2);
	ck_assert_uint_eq(step->leads[1].count, 2);
	ck_assert_uint_eq(step->leads[2].states, 12);
	ck_assert_uint_eq(step->leads[2].count, 1);
	ck_assert_uint_eq(key->report.together, 3);
	ck_assert(!step->leads[0].given_up);
	assert_sound(&table, key);
	arena_free(arena);
}
END_TEST

START_TEST(test_inapplicable)
{
	const uint64_t sets[] = {KEY_INAPPLICABLE, 1, KEY_INAPPLICABLE};
	struct key_table table = {3, 1, sets, alike, alike, NULL, 0};
	struct arena *arena = arena_new();
	struct key *key = key_build(&table, arena);

	ck_assert_uint_eq(key->start.step->count, 2);
	ck_assert_uint_eq(key->start.step->leads[1].states, KEY_INAPPLICABLE);
	ck_assert_uint_eq(key->start.step->leads[1].count, 2);
	ck_assert_uint_eq(key->report.together, 2);
	arena_free(arena);
}
END_TEST

START_TEST(test_confirming)
{
	/* The second names the same halves the other way round. */
	const uint64_t sets[] = {1, 1, 2, 2, 4, 4, 1, 1, 1, 2, 1, 2};
	const uint64_t *also;
	struct key_table table = {4, 3, sets, alike, alike, NULL, 0};
	struct arena *arena = arena_new();
	struct key *key = key_build(&table, arena);
	const struct key_step *step = key->start.step;

	ck_assert_uint_eq(step->feature, 0);
	ck_assert_uint_eq(step->also_count, 1);
	ck_assert_uint_eq(step->also[0].feature, 1);
	also = step->also[0].states;
	ck_assert_uint_eq(also[0], 4);
	ck_assert_uint_eq(also[1], 1);
	arena_free(arena);
}
END_TEST

START_TEST(test_first)
{
	const unsigned first[] = {4, 2};
	struct key_table table = {6, 5, example, alike, alike, first, 2};
	struct arena *arena = arena_new();
	struct key *key = key_build(&table, arena);

	ck_assert_uint_eq(key->start.step->feature, 2);
	assert_sound(&table, key);
	arena_free(arena);
}
END_TEST

START_TEST(test_few)
{
	const uint64_t same[] = {1, 1};
	struct key_table table = {2, 1, same, alike, alike, NULL, 0};
	struct arena *arena = arena_new();
	struct key *key = key_build(&table, arena);

	ck_assert_ptr_null(key->start.step);
	ck_assert_uint_eq(key->start.count, 2);
	ck_assert_uint_eq(key->report.together, 2);
	for (table.items = 0; table.items < 2; table.items++) {
		key = key_build(&table, arena);
		ck_assert_uint_eq(key->count, 0);
		ck_assert_uint_eq(key->start.count, table.items);
		ck_assert_double_eq(key->report.mean, 0);
		ck_assert_uint_eq(key->report.together, 0);
	}
	arena_free(arena);
}
END_TEST

/*
 * Two of 60 items differ in each of 30 features that are unknown of all
 * others: a key that asked them all would have more than 2^29 leads.
 */
START_TEST(test_little_recorded)
{
	enum { ITEMS = 60, FEATURES = 30 };
	static uint64_t sets[ITEMS * FEATURES];
	double ones[ITEMS];
	struct key_table table = {ITEMS, FEATURES, sets, ones, ones, NULL, 0};
	struct arena *arena = arena_new();
	struct key *key;
	unsigned i;

	for (i = 0; i < ITEMS * FEATURES; i++)
		sets[i] = 3;
	for (i = 0; i < ITEMS; i++)
		ones[i] = 1;
	for (i = 0; i < FEATURES; i++) {
		sets[i * ITEMS + 2 * i] = 1;
		sets[i * ITEMS + 2 * i + 1] = 2;
	}
	key = key_build(&table, arena);
	ck_assert_uint_eq(key->count, 0);
	ck_assert(key->start.given_up);
	arena_free(arena);
}
END_TEST

/* A generator of numbers that gives the same everywhere. */
static uint64_t state;

static unsigned
pick(unsigned below)
{
	uint64_t x;

	state += 0x9E3779B97F4A7C15;
	x = (state ^ state >> 30) * 0xBF58476D1CE4E5B9;
	x = (x ^ x >> 27) * 0x94D049BB133111EB;
	return (unsigned)((x ^ x >> 31) >> 33) % below;
}

struct sample {
	uint64_t sets[MOST_FEATURES * KEY_BEST_ITEMS];
	double common[KEY_BEST_ITEMS];
	double costs[MOST_FEATURES];
	struct key_table table;
};

/* A twentieth unknown, a twentieth inapplicable, a tenth in two states. */
static uint64_t
pick_states(unsigned states)
{
	unsigned chance = pick(20);

	if (chance == 0)
		return ((uint64_t)1 << states) - 1;
	if (chance == 1)
		return KEY_INAPPLICABLE;
	if (chance < 4)
		return (uint64_t)1 << pick(states) |
			(uint64_t)1 << pick(states);
	return (uint64_t)1 << pick(states);
}

static void
pick_sample(struct sample *sample, unsigned seed)
{
	unsigned items, features, f, i;

	state = seed;
	items = 8 + pick(5);
	features = 5 + pick(MOST_FEATURES - 4);
	for (f = 0; f < features; f++) {
		unsigned states = 2 + pick(4);

		for (i = 0; i < items; i++)
			sample->sets[f * items + i] = pick_states(states);
		sample->costs[f] = pow(1.4, pick(10));
	}
	for (i = 0; i < items; i++)
		sample->common[i] = 1 + pick(4) * pick(12);
	sample->table = (struct key_table){items, features, sample->sets,
		sample->common, sample->costs, NULL, 0};
}

START_TEST(test_against_best)
{
	double sum = 0, worst = 0, ratio;
	unsigned i, equal = 0;

	for (i = 0; i < SETS; i++) {
		struct arena *arena = arena_new();
		struct sample sample;
		struct key *key;

		pick_sample(&sample, 1974 + i);
		key = key_build(&sample.table, arena);
		assert_sound(&sample.table, key);
		assert_undivided(&sample.table, &key->start);
		ratio = key->report.cost / key_best_cost(&sample.table);
		ck_assert_double_ge(ratio, 1 - 1e-7);
		sum += ratio;
		worst = fmax(worst, ratio);
		equal += ratio < 1 + 1e-7;
		arena_free(arena);
	}
	printf("%u sets: mean %.4f, worst %.4f times the best; %u as good\n",
		SETS, sum / SETS, worst, equal);
	ck_assert_double_le(sum / SETS, 1.05);
	ck_assert_double_le(worst, 1.25);
}
END_TEST

int
main(void)
{
	Suite *suite = suite_create("key_build");
	TCase *tests = tcase_create("keys");

	tcase_set_timeout(tests, 60);
	tcase_add_test(tests, test_example);
	tcase_add_test(tests, test_cheapest);
	tcase_add_test(tests, test_leads);
	tcase_add_test(tests, test_inapplicable);
	tcase_add_test(tests, test_confirming);
	tcase_add_test(tests, test_first);
	tcase_add_test(tests, test_few);
	tcase_add_test(tests, test_little_recorded);
	tcase_add_test(tests, test_against_best);
	suite_add_tcase(suite, tests);
	return suite_run(suite);
}
