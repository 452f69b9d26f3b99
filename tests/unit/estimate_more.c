/*
 * Rates over like groups, coverage, rarefaction and extrapolation, against
 * published worked examples and reference programs. "As published" as in
 * estimate.c.
 */
#include <math.h>

#include "study/estimate/accumulate.h"
#include "study/estimate/pooled.h"
#include "study/estimate/quantile.h"
#include "suite.h"

#define NEAR(a, b, digits) \
	ck_assert_msg(fabs((a) - (b)) <= (digits), "%s is %.12g, not %.12g", \
		#a, (double)(a), (double)(b))
#define EQUAL(a, b) NEAR(a, b, 1e-9 * fabs(b))

/* Van der Heijden and others 2003; and Cruyff and van der Heijden 2008. */
static const unsigned foreigners[] = {1645, 183, 37, 13, 1, 1};
static const unsigned rotterdam[] = {1206, 474, 198, 95, 29, 19, 5, 2, 0, 1};

/*
 * Zero-truncated Poisson. As published in 2003, table 3: 7080, from 6363 to
 * 7797 by the normal interval. To more digits, and on Rotterdam and the hares
 * of Cormack 1989: vglm(y ~ 1, pospoisson) of VGAM 1.1-7.
 */
START_TEST(poisson)
{
	static const unsigned hares[] = {25, 22, 13, 5, 1, 2};
	struct frequencies data = {foreigners, 6, 0};
	struct figure f = estimate_poisson(&data);
	struct pool pool = pool_poisson(&data, 1);
	double half = quantile_normal(1 - TAIL) * sqrt(f.variance);

	NEAR(f.point, 7080, 0.5);
	NEAR(f.point - half, 6363, 0.5);
	NEAR(f.point + half, 7797, 0.5);
	EQUAL(f.point, 7079.92814953);
	EQUAL(pool.rate, 0.308618951189);
	NEAR(sqrt(pool.variance) / pool.rate, 0.0559147145581, 1e-8);
	data = (struct frequencies){rotterdam, 10, 0};
	EQUAL(estimate_poisson(&data).point, 2936.75773688);
	data = (struct frequencies){hares, 6, 0};
	EQUAL(estimate_poisson(&data).point, 81.9832714742);
}
END_TEST

/*
 * Zelterman. As published by Böhning and van der Heijden 2009: 9425, and by
 * singleRcapture 0.1.0 from 8084 to 10765 by the normal interval. Rotterdam as
 * the binomial regression that they show it to be: glm of R 4.2.2.
 */
START_TEST(zelterman)
{
	struct frequencies data = {foreigners, 6, 0};
	struct figure f = estimate_zelterman(&data);
	double half = quantile_normal(1 - TAIL) * sqrt(f.variance);

	NEAR(f.point, 9425, 0.5);
	NEAR(f.point - half, 8084, 0.5);
	NEAR(f.point + half, 10765, 0.5);
	EQUAL(f.point, 9424.55519386);
	data = (struct frequencies){rotterdam, 10, 0};
	EQUAL(estimate_zelterman(&data).point, 3727.25853386);
}
END_TEST

/* Groups of one kind add up to what they are together. */
START_TEST(pooled)
{
	static const unsigned some[] = {600, 80, 20, 5, 1, 0};
	static const unsigned rest[] = {1045, 103, 17, 8, 0, 1};
	static const unsigned one[] = {1}, none[] = {0};
	struct frequencies groups[] = {{some, 6, 0}, {rest, 6, 0},
		{one, 1, 0}, {none, 1, 0}};
	struct frequencies whole = {foreigners, 6, 0};
	struct pool pool = pool_poisson(groups, 2);
	struct figure a = estimate_pooled(&pool, &groups[0]);
	struct figure b = estimate_pooled(&pool, &groups[1]);
	struct figure alone = estimate_poisson(&groups[0]);

	EQUAL(a.point + b.point, estimate_poisson(&whole).point);
	ck_assert(a.variance < alone.variance);
	a = estimate_pooled(&pool, &groups[2]);
	EQUAL(a.point, 7079.92814953 / 1880);
	ck_assert(a.low >= 1 && a.low < a.point && a.high > a.point);
	ck_assert_int_eq(estimate_pooled(&pool, &groups[3]).state,
		FIGURE_NONE);
	pool = pool_poisson(&groups[2], 1);
	ck_assert(!pool.given);
	ck_assert_int_eq(estimate_pooled(&pool, &groups[2]).state,
		FIGURE_LEAST);
	pool = pool_zelterman(groups, 2);
	EQUAL(pool.rate, 2 * 183 / 1645.0);
	ck_assert(!pool_zelterman(&groups[2], 2).given);
	ck_assert(!pool_poisson(groups, 0).given);
}
END_TEST

/*
 * Counts of each number of times. Beetles of Osa, old growth and second
 * (Colwell and others 2012, table 1), and the spiders of Ellison and others
 * 2010 under girdled and under logged trees.
 */
static const unsigned old_times[] = {1, 2, 3, 4, 5, 6, 7, 8, 14, 42};
static const unsigned old_counts[] = {84, 10, 4, 3, 5, 1, 2, 1, 1, 1};
static const unsigned second_times[] = {1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12,
	14, 17, 19, 20, 21, 24, 26, 40, 57, 60, 64, 71, 77};
static const unsigned second_counts[] = {70, 17, 4, 5, 5, 5, 5, 3, 1, 2, 3, 2,
	2, 1, 2, 3, 1, 1, 1, 1, 2, 1, 1, 1, 1};
static const unsigned girdled_times[] = {1, 2, 4, 6, 8, 9, 15, 17, 22, 46};
static const unsigned girdled_counts[] = {12, 4, 1, 2, 1, 1, 2, 1, 1, 1};
static const unsigned logged_times[] = {1, 2, 3, 4, 5, 7, 8, 10, 13, 15, 16,
	22, 88};
static const unsigned logged_counts[] = {14, 4, 4, 3, 1, 3, 2, 1, 1, 1, 1, 1,
	1};

enum { MOST_TIMES = 100 };

struct sample {
	unsigned seen[MOST_TIMES];
	struct frequencies data;
};

static void
fill(struct sample *sample, const unsigned *times, const unsigned *counts,
	unsigned length)
{
	unsigned i;

	*sample = (struct sample){0};
	for (i = 0; i < length; i++)
		sample->seen[times[i] - 1] = counts[i];
	sample->data = (struct frequencies){sample->seen, MOST_TIMES, 0};
}

#define FILL(sample, name) \
	fill(&(sample), name##_times, name##_counts, \
		G_N_ELEMENTS(name##_times))

/*
 * Chao1 on these, both forms: EstimateS as others quote it for Osa (Colwell and
 * others 2012 print 464.8 and 284.1); SPECIES 1.2.0 for the classic form and
 * vegan 2.6-4 for the corrected point, to more digits by R.
 */
START_TEST(chao)
{
	struct sample s;
	struct figure f;

	FILL(s, old);
	f = estimate_chao1(&s.data, CHAO_CLASSIC);
	NEAR(f.point, 464.8, 1e-9);
	NEAR(sqrt(f.variance), 136.84525567, 1e-8);
	NEAR(f.low, 281.379354, 1e-6);
	NEAR(f.high, 846.846588, 1e-6);
	f = estimate_chao1(&s.data, CHAO_CORRECTED);
	NEAR(f.point, 428.90909091, 1e-8);
	NEAR(sqrt(f.variance), 116.00544013, 1e-8);
	NEAR(f.low, 270.158407, 1e-6);
	NEAR(f.high, 747.004953, 1e-6);
	FILL(s, second);
	f = estimate_chao1(&s.data, CHAO_CLASSIC);
	NEAR(f.point, 284.11764706, 1e-8);
	NEAR(f.low, 213.945087, 1e-6);
	NEAR(f.high, 420.882708, 1e-6);
	f = estimate_chao1(&s.data, CHAO_CORRECTED);
	NEAR(f.point, 274.16666667, 1e-8);
	NEAR(f.high, 398.112705, 1e-6);
	FILL(s, girdled);
	f = estimate_chao1(&s.data, CHAO_CLASSIC);
	NEAR(f.point, 44, 1e-9);
	NEAR(f.low, 30.539345, 1e-6);
	NEAR(f.high, 97.375942, 1e-6);
	f = estimate_chao1(&s.data, CHAO_CORRECTED);
	NEAR(f.point, 39.2, 1e-9);
	NEAR(sqrt(f.variance), 10.22538019, 1e-8);
	NEAR(f.high, 76.601411, 1e-6);
}
END_TEST

/* No singletons: scikit-bio's test, after EstimateS: 4, from 4 to 4.95. */
START_TEST(chao_repeated)
{
	static const unsigned seen[] = {0, 2, 0, 1, 1};
	struct frequencies data = {seen, 5, 0};
	struct figure f = estimate_chao1(&data, CHAO_CORRECTED);

	NEAR(f.point, 4, 1e-9);
	NEAR(f.low, 4, 1e-9);
	NEAR(f.high, 4.95, 0.005);
	NEAR(sqrt(f.variance), 0.3861127744, 1e-10);
}
END_TEST

/* DataInfo of iNEXT 3.0.2 prints 0.9289 and 0.9446; the rest by R. */
START_TEST(coverages)
{
	struct sample s;
	struct estimable e;

	FILL(s, girdled);
	e = coverage_chao_jost(&s.data);
	NEAR(e.value, 0.9289, 5e-5);
	NEAR(e.value, 0.9288554388, 1e-10);
	e = coverage_good(&s.data);
	NEAR(e.value, 0.9285714286, 1e-10);
	NEAR(e.error, 0.02604319, 1e-8);
	FILL(s, logged);
	e = coverage_chao_jost(&s.data);
	NEAR(e.value, 0.9446, 5e-5);
	NEAR(e.value, 0.9445706354, 1e-10);
	NEAR(coverage_good(&s.data).error, 0.01828079, 1e-8);
	FILL(s, old);
	NEAR(coverage_good(&s.data).value, 0.6455696203, 1e-10);
	NEAR(coverage_good(&s.data).error, 0.03635257, 1e-8);
	NEAR(coverage_chao_jost(&s.data).value, 0.6459268369, 1e-10);
	FILL(s, second);
	NEAR(coverage_chao_jost(&s.data).value, 0.9283144000, 1e-10);
	NEAR(coverage_good(&s.data).error, 0.01019349, 1e-8);
}
END_TEST

/* Rarefied: vegan 2.6-4, rarefy; estimateD of iNEXT 3.0.2. */
START_TEST(rarefied)
{
	static const double efforts[] = {10, 50, 100, 120};
	static const double found[] = {8.69320707, 34.09127045, 58.61715078,
		67.28661320};
	struct sample s;
	struct estimable e;
	unsigned i;

	FILL(s, second);
	e = rarefy(&s.data, 237);
	NEAR(e.value, 70.1893459409, 1e-8);
	NEAR(e.error, 5.53955869, 1e-8);
	FILL(s, old);
	for (i = 0; i < G_N_ELEMENTS(efforts); i++)
		NEAR(rarefy(&s.data, efforts[i]).value, found[i], 1e-8);
	FILL(s, girdled);
	NEAR(rarefy(&s.data, 84).value, 18.91235971, 1e-8);
	NEAR(rarefy(&s.data, 167).value, 25.92857143, 1e-8);
	NEAR(rarefy(&s.data, 1).value, 1, 1e-9);
	NEAR(rarefy(&s.data, 168).value, 26, 1e-9);
	ck_assert(!rarefy(&s.data, 169).given && !rarefy(&s.data, 0).given);
}
END_TEST

/*
 * Colwell and others 2012, table 1, old growth: as published 145.74 (s.e.
 * 12.20), 176.25 (15.38), 228.80 (22.58), 271.77 (30.84), 306.93 (39.79) and
 * 335.68 (48.97), as others quote it; worked out again in R to more digits.
 */
START_TEST(extrapolated)
{
	static const double more[] = {100, 200, 400, 600, 800, 1000};
	static const double found[] = {145.73695983, 176.24777891,
		228.79550937, 271.77386633, 306.92551134, 335.67575296};
	static const double errors[] = {12.2048916, 15.3826502, 22.5754386,
		30.8421204, 39.7902108, 48.9746273};
	struct sample s;
	struct estimable e;
	unsigned i;

	FILL(s, old);
	for (i = 0; i < G_N_ELEMENTS(more); i++) {
		e = extrapolate(&s.data, more[i]);
		NEAR(e.value, found[i], 1e-8);
		NEAR(e.error, errors[i], 1e-7);
	}
	NEAR(extrapolate(&s.data, 1e9).value, 464.8, 1e-6);
	FILL(s, second);
	NEAR(effort_until(&s.data, 0.90).value, 3262.936374, 1e-6);
	NEAR(effort_until(&s.data, 0.95).value, 4655.754473, 1e-6);
	NEAR(effort_until(&s.data, 0.99).value, 7889.777949, 1e-6);
	FILL(s, girdled);
	NEAR(effort_until(&s.data, 0.90).value, 355.009339, 1e-6);
	NEAR(effort_until(&s.data, 0.95).value, 529.682428, 1e-6);
	ck_assert(!(effort_until(&s.data, 0.5).value > 0));
}
END_TEST

/*
 * Over lists. What one list more adds is what Chao and Jost say is missed:
 * exact, as each list has as many as the average one.
 */
START_TEST(by_lists)
{
	static const unsigned seen[] = {25, 22, 13, 5, 1, 2};
	struct frequencies data = {seen, 6, 6};
	struct estimable e = extrapolate(&data, 1);
	double sightings = frequencies_sightings(&data);

	EQUAL(e.value - 68, sightings / 6 *
		(1 - coverage_chao_jost(&data).value));
	NEAR(extrapolate(&data, 1e6).value, 79.8371212121, 1e-9);
	NEAR(rarefy(&data, 6).value, 68, 1e-9);
	NEAR(rarefy(&data, 1).value, sightings / 6, 1e-9);
	e = effort_until(&data, 0.95);
	EQUAL(extrapolate(&data, e.value).value, 0.95 * 79.8371212121);
}
END_TEST

START_TEST(not_estimable)
{
	static const unsigned singles[] = {5}, single[] = {1, 0, 3};
	static const unsigned twice[] = {0, 4}, pair[] = {0, 1};
	struct frequencies data = {singles, 1, 0};

	ck_assert(!coverage_good(&data).given);
	NEAR(coverage_chao_jost(&data).value, 0.1111111111, 1e-10);
	ck_assert(!extrapolate(&data, 1).given);
	ck_assert(!effort_until(&data, 0.9).given);
	ck_assert(rarefy(&data, 2).given);
	data = (struct frequencies){single, 3, 0};
	ck_assert(!coverage_chao_jost(&data).given);
	ck_assert(coverage_good(&data).given);
	ck_assert(!extrapolate(&data, 1).given);
	data = (struct frequencies){single, 1, 0};
	ck_assert(!coverage_good(&data).given);
	ck_assert(!coverage_chao_jost(&data).given);
	data = (struct frequencies){twice, 2, 0};
	EQUAL(coverage_chao_jost(&data).value, 1.0);
	ck_assert(!extrapolate(&data, 5).given);
	/* scikit-bio's Esty interval here goes below 0. */
	data = (struct frequencies){pair, 2, 0};
	ck_assert(!(coverage_good(&data).low > 0));
	EQUAL(coverage_good(&data).high, 1.0);
	data = (struct frequencies){pair, 0, 0};
	ck_assert(!coverage_good(&data).given && !rarefy(&data, 1).given);
	ck_assert(!coverage_chao_jost(&data).given);
	data = (struct frequencies){singles, 1, 1};
	ck_assert(!coverage_good(&data).given);
	ck_assert(!coverage_chao_jost(&data).given);
	ck_assert(!extrapolate(&data, 1).given);
}
END_TEST

int
main(void)
{
	Suite *suite = suite_create("estimate_more");
	TCase *tests = tcase_create("estimate_more");

	suite_add_tcase(suite, tests);
	tcase_add_test(tests, poisson);
	tcase_add_test(tests, zelterman);
	tcase_add_test(tests, pooled);
	tcase_add_test(tests, chao);
	tcase_add_test(tests, chao_repeated);
	tcase_add_test(tests, coverages);
	tcase_add_test(tests, rarefied);
	tcase_add_test(tests, extrapolated);
	tcase_add_test(tests, by_lists);
	tcase_add_test(tests, not_estimable);
	return suite_run(suite);
}
