/*
 * Set cover against brute force over every choice of sets, on seeded
 * instances; and greedy cover within what is promised of it.
 */
#include "study/cover.h"

#include "suite.h"

enum { SETS = 10, LARGE = 26 };

struct instance {
	struct cover_set sets[SETS];
	unsigned items[SETS][LARGE];
	unsigned universe;
};

static struct instance
instance_new(guint32 seed, unsigned universe)
{
	GRand *rand = g_rand_new_with_seed(seed);
	struct instance one = {.universe = universe};
	unsigned i, j;

	for (i = 0; i < SETS; i++) {
		struct cover_set *set = &one.sets[i];

		set->weight = g_rand_int_range(rand, 1, 9);
		for (j = 0; j < universe; j++)
			if (g_rand_int_range(rand, 0, 4) == 0)
				one.items[i][set->count++] = j;
	}
	g_rand_free(rand);
	return one;
}

/* The sets lie in the instance, wherever that was copied to. */
static void
settle(struct instance *one)
{
	unsigned i;

	for (i = 0; i < SETS; i++)
		one->sets[i].items = one->items[i];
}

static void
weigh(const struct instance *one, unsigned choice, unsigned *covered,
	int64_t *weight)
{
	guint32 mask = 0;
	unsigned i, j;

	*weight = 0;
	for (i = 0; i < SETS; i++)
		for (j = 0; (choice >> i & 1) != 0 && j <=
			one->sets[i].count; j++) {
			if (j == one->sets[i].count)
				*weight += one->sets[i].weight;
			else
				mask |= (guint32)1 << one->items[i][j];
		}
	*covered = (unsigned)__builtin_popcount(mask);
}

/* The most that a choice within the budget covers, and the least weight. */
static void
brute(const struct instance *one, int64_t budget, unsigned *most,
	int64_t *least)
{
	unsigned choice, covered;
	int64_t weight;

	*most = 0;
	*least = 0;
	for (choice = 0; choice < 1u << SETS; choice++) {
		weigh(one, choice, &covered, &weight);
		if (weight <= budget && (covered > *most ||
			(covered == *most && weight < *least))) {
			*most = covered;
			*least = weight;
		}
	}
}

static void
check_sound(const struct instance *one, const struct cover *cover)
{
	unsigned choice = 0, covered, i, gains = 0;
	int64_t weight;

	for (i = 0; i < cover->count; i++) {
		ck_assert_uint_eq(choice >> cover->sets[i] & 1, 0);
		choice |= 1u << cover->sets[i];
		gains += cover->gains[i];
	}
	weigh(one, choice, &covered, &weight);
	ck_assert_uint_eq(covered, cover->covered);
	ck_assert_uint_eq(gains, covered);
	ck_assert_int_eq(weight, cover->weight);
}

START_TEST(test_exact_is_brute_force)
{
	struct arena *arena = arena_new();
	struct instance one = instance_new((guint32)_i, 3 + (unsigned)_i % 15);
	struct cover *cover;
	unsigned most;
	int64_t least;

	settle(&one);
	brute(&one, INT64_MAX, &most, &least);
	cover = cover_all(one.sets, SETS, one.universe, arena);
	ck_assert(cover->exact);
	check_sound(&one, cover);
	ck_assert_uint_eq(cover->covered, most);
	ck_assert_uint_eq(cover->beyond, one.universe - most);
	ck_assert_int_eq(cover->weight, least);
	arena_free(arena);
}
END_TEST

START_TEST(test_budget_is_brute_force)
{
	struct arena *arena = arena_new();
	struct instance one = instance_new((guint32)_i, 3 + (unsigned)_i % 15);
	struct cover *cover;
	unsigned most;
	int64_t least;

	settle(&one);
	brute(&one, _i % 20, &most, &least);
	cover = cover_within(one.sets, SETS, one.universe, _i % 20, arena);
	ck_assert(cover->exact);
	check_sound(&one, cover);
	ck_assert_uint_eq(cover->covered, most);
	ck_assert_int_eq(cover->weight, least);
	arena_free(arena);
}
END_TEST

START_TEST(test_greedy_keeps_its_bounds)
{
	struct arena *arena = arena_new();
	struct instance one = instance_new((guint32)_i, LARGE);
	struct cover *cover;
	unsigned most;
	int64_t least, budget = 1 + _i % 30;

	settle(&one);
	brute(&one, INT64_MAX, &most, &least);
	cover = cover_all(one.sets, SETS, one.universe, arena);
	ck_assert(!cover->exact);
	check_sound(&one, cover);
	ck_assert_uint_eq(cover->covered, most);
	ck_assert_int_ge(cover->weight, least);
	ck_assert(cover->least <= (double)least);
	ck_assert((double)cover->weight <= cover->factor * (double)least);
	brute(&one, budget, &most, &least);
	cover = cover_within(one.sets, SETS, one.universe, budget, arena);
	check_sound(&one, cover);
	ck_assert_int_le(cover->weight, budget);
	ck_assert(cover->covered * cover->factor >= most);
	arena_free(arena);
}
END_TEST

START_TEST(test_nothing_to_cover)
{
	struct arena *arena = arena_new();
	struct cover *cover = cover_all(NULL, 0, 3, arena);

	ck_assert_uint_eq(cover->count, 0);
	ck_assert_uint_eq(cover->beyond, 3);
	ck_assert_uint_eq(cover_all(NULL, 0, 0, arena)->beyond, 0);
	ck_assert_uint_eq(cover_all(NULL, 0, 40, arena)->beyond, 40);
	arena_free(arena);
}
END_TEST

int
main(void)
{
	Suite *suite = suite_create("cover");
	TCase *tests = tcase_create("brute force");

	tcase_add_loop_test(tests, test_exact_is_brute_force, 0, 150);
	tcase_add_loop_test(tests, test_budget_is_brute_force, 0, 150);
	tcase_add_loop_test(tests, test_greedy_keeps_its_bounds, 0, 150);
	tcase_add_test(tests, test_nothing_to_cover);
	suite_add_tcase(suite, tests);
	return suite_run(suite);
}
