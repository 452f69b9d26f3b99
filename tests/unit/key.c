/*
 * Weights of features, on six items A to F. The measure is M. J. Dallwitz's
 * (Systematic Zoology 23, 1974, 50-57); the items are our own, and the figures
 * were worked out by another program from the published formula.
 */
#include "study/key.h"

#include <math.h>

#include "suite.h"

enum { ITEMS = 6 };

static const double alike[ITEMS] = {1, 1, 1, 1, 1, 1};
static const uint64_t border[ITEMS] = {1, 1, 1, 2, 2, 2};
static const uint64_t back[ITEMS] = {1, 1, 2, 2, 4, 4};
static const uint64_t stamp[ITEMS] = {1, 2, 1, 2, 1, 2};
static const uint64_t variable[ITEMS] = {1, 3, 2, 2, 1, 2};
static const uint64_t constant[ITEMS] = {1, 1, 1, 1, 1, 1};
static const uint64_t lacking[ITEMS] = {1, 1, 2, 2, 0, 2};

static void
expect(const uint64_t *sets, double power, double even, double cost,
	double weighed)
{
	/* The cheapest in the example is of reliability 9. */
	double cheapest = pow(1.4, 5 - 9);
	struct key_weight weight = key_weigh(sets, alike, ITEMS, 1);

	ck_assert(weight.usable);
	ck_assert_double_eq_tol(weight.power, power, 1e-10);
	ck_assert_double_eq_tol(key_suitability(&weight, 1, 1), even, 1e-10);
	weight = key_weigh(sets, alike, ITEMS, 0.8);
	ck_assert_double_eq_tol(key_suitability(&weight, cost, cheapest),
		weighed, 1e-10);
}

START_TEST(test_example)
{
	expect(back, 1.5849625007, 2.0, 1, 1.2603082049);
	expect(border, 1, 2.5849625007, 1, 1.4125787434);
	expect(stamp, 1, 2.5849625007, pow(1.4, 2), 2.3725787434);
	expect(variable, 0.7628357147, 2.8221267860, 1, 1.5330567794);
	ck_assert_double_eq_tol(key_weigh(variable, alike, ITEMS, 0.8)
		.variation, 0.2256641376, 1e-10);
}
END_TEST

START_TEST(test_not_usable)
{
	ck_assert(!key_weigh(constant, alike, ITEMS, 0.8).usable);
	ck_assert(!key_weigh(lacking, alike, ITEMS, 0.8).usable);
	ck_assert(!key_weigh(back, alike, 1, 0.8).usable);
	ck_assert(!key_weigh(back, alike, 0, 0.8).usable);
}
END_TEST

START_TEST(test_left)
{
	static const double common[ITEMS] = {3, 1, 1, 1, 1, 1};

	ck_assert_double_eq_tol(key_weigh(back, alike, ITEMS, 0.8).left, 2,
		1e-12);
	/* A half of the pieces under a state of three, half under three. */
	ck_assert_double_eq_tol(key_weigh(border, common, ITEMS, 0.8).left, 3,
		1e-12);
	/* Five of eight under two items, three of eight under four. */
	ck_assert_double_eq_tol(key_weigh((const uint64_t[]){1, 1, 2, 2, 2,
		2}, (const double[]){4, 1, 1, 1, 0.5, 0.5}, ITEMS, 0.8).left,
		5.0 / 8 * 2 + 3.0 / 8 * 4, 1e-12);
}
END_TEST

int
main(void)
{
	Suite *suite = suite_create("key");
	TCase *tests = tcase_create("weights");

	tcase_add_test(tests, test_example);
	tcase_add_test(tests, test_not_usable);
	tcase_add_test(tests, test_left);
	suite_add_tcase(suite, tests);
	return suite_run(suite);
}
