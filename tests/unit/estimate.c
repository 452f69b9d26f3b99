/*
 * Estimators against published worked examples and reference programs. "As
 * published" are figures as others quote them from the page; the rest were
 * worked out by R 4.2.2 or the R packages named. The edges follow.
 */
#include <math.h>

#include "study/estimate/frequencies.h"
#include "study/estimate/lists.h"
#include "study/estimate/occasions.h"
#include "study/estimate/quantile.h"
#include "study/estimate/share.h"
#include "suite.h"

#define NEAR(a, b, digits) \
	ck_assert_msg(fabs((a) - (b)) <= (digits), "%s is %.12g, not %.12g", \
		#a, (double)(a), (double)(b))
#define EQUAL(a, b) NEAR(a, b, 1e-9 * fabs(b))

/* Anchors from R 4.2.2: qnorm, qt, qchisq and qbeta. */
START_TEST(quantiles)
{
	EQUAL(quantile_normal(0.9), 1.2815515655446);
	EQUAL(quantile_normal(0.975), 1.95996398454005);
	EQUAL(quantile_normal(0.999), 3.09023230616781);
	EQUAL(quantile_normal(1e-10), -6.36134090240406);
	EQUAL(quantile_t(0.975, 1), 12.70620473617);
	EQUAL(quantile_t(0.975, 2), 4.302652729749);
	EQUAL(quantile_t(0.975, 5), 2.570581835636);
	EQUAL(quantile_t(0.975, 12), 2.178812829667);
	EQUAL(quantile_t(0.975, 30), 2.042272456301);
	EQUAL(quantile_chi2(0.025, 2), 0.05063561596858);
	EQUAL(quantile_chi2(0.975, 2), 7.377758908228);
	EQUAL(quantile_chi2(0.975, 4), 11.14328678188);
	EQUAL(quantile_chi2(0.025, 48), 30.75450570937);
	EQUAL(quantile_chi2(0.975, 50), 71.42019518751);
	EQUAL(quantile_chi2(0.025, 2e6), 1996081.966681);
	EQUAL(quantile_chi2(0.975, 2000002), 2003923.823891);
	EQUAL(quantile_beta(0.025, 1, 20), 0.00126508949795);
	EQUAL(quantile_beta(0.975, 1, 20), 0.1684334709831);
	EQUAL(quantile_beta(0.025, 81, 183), 0.2527367455853);
	EQUAL(quantile_beta(0.975, 82, 182), 0.3676219226014);
	EQUAL(quantile_beta(0.975, 2, 999999), 5.571630655172e-06);
	EQUAL(quantile_beta(0.025, 0.5, 20.5), 2.424647845924e-05);
	EQUAL(quantile_beta(0.975, 0.5, 20.5), 0.1166389829049);
	EQUAL(quantile_beta(0.025, 5000, 5001), 0.49015138059);
}
END_TEST

/*
 * Worked examples as published (Chapman's number and where the page has it its
 * standard error): Krebs 1989, box 2.1; Ricker 1975; Seber 1982, tables 3.7 and
 * 3.8; Pine and others 2013, box 11.2. The limits were worked out by R.
 */
START_TEST(chapman)
{
	static const struct {
		unsigned first, second, both;
		double point, error, log_low, log_high, logit_low, logit_high;
	} rows[] = {
		{948, 421, 167, 2383, 129.05625930, 2155.715270, 2663.948928,
			2159.300921, 2673.570688},
		{109, 177, 57, 337, 24.81102116, 297.864264, 397.081256,
			298.322377, 401.865383},
		{500, 149, 7, 9393, 3022.18386477, 5174.243871, 17537.742538,
			5115.926813, 20290.665338},
		{1000, 243, 21, 11101, 2183.70106650, 7660.708890,
			16379.486178, 7701.245083, 17078.976289},
		{421, 332, 88, 1578, 126.55639951, 1361.638871, 1861.411015,
			1365.388805, 1875.694078},
		{20, 15, 3, 83, 29.27114620, 49.921030, 177.136746, 48.560452,
			260.465206},
	};
	struct figure f;
	unsigned i;

	for (i = 0; i < G_N_ELEMENTS(rows); i++) {
		f = estimate_chapman(rows[i].first, rows[i].second,
			rows[i].both, LISTS_LOG_NORMAL);
		NEAR(f.point, rows[i].point, 0.5);
		NEAR(sqrt(f.variance), rows[i].error, 5e-9);
		NEAR(f.low, rows[i].log_low, 1e-6);
		NEAR(f.high, rows[i].log_high, 1e-6);
		f = estimate_chapman(rows[i].first, rows[i].second,
			rows[i].both, LISTS_SADINLE);
		NEAR(f.low, rows[i].logit_low, 1e-6);
		NEAR(f.high, rows[i].logit_high, 1e-6);
	}
	/* Seber 1982: s.e. 2184, limits with z = 1.96: 6820 to 15382. */
	f = estimate_chapman(1000, 243, 21, LISTS_WALD);
	NEAR(sqrt(f.variance), 2184, 0.5);
	NEAR(f.low, 6821.024557, 1e-6);
	NEAR(f.high, 15380.975443, 1e-6);
}
END_TEST

START_TEST(chapman_edges)
{
	struct figure f = estimate_chapman(10, 8, 0, LISTS_EXACT);

	ck_assert_int_eq(f.state, FIGURE_LEAST);
	EQUAL(f.low, 31.0);
	ck_assert(isinf(f.high));
	f = estimate_chapman(10, 5, 5, LISTS_LOG_NORMAL);
	EQUAL(f.low, 10.0);
	EQUAL(f.high, 18.0);
	f = estimate_chapman(1, 1, 1, LISTS_EXACT);
	EQUAL(f.low, 1.0);
	EQUAL(f.high, 40.0);
	f = estimate_chapman(10, 5, 5, LISTS_SADINLE);
	EQUAL(f.low, 10.0);
	NEAR(f.high, 39.50, 0.005);
	ck_assert_int_eq(estimate_chapman(3, 2, 3, LISTS_EXACT).state,
		FIGURE_NONE);
	ck_assert_int_eq(estimate_chapman(0, 2, 0, LISTS_EXACT).state,
		FIGURE_NONE);
}
END_TEST

/* Enumerated in R: 20 and 15 of 100. */
START_TEST(coverage)
{
	NEAR(lists_coverage(100, 20, 15, LISTS_WALD), 0.853089, 5e-7);
	NEAR(lists_coverage(100, 20, 15, LISTS_LOG_NORMAL), 0.927659, 5e-7);
	NEAR(lists_coverage(100, 20, 15, LISTS_SADINLE), 0.953853, 5e-7);
	NEAR(lists_coverage(100, 20, 15, LISTS_EXACT), 0.989333, 5e-7);
	EQUAL(lists_coverage(5, 5, 3, LISTS_EXACT), 1.0);
	EQUAL(lists_coverage(1, 1, 1, LISTS_EXACT), 1.0);
}
END_TEST

/* Gerking 1953 as in Krebs 1989, table 2.1; and hares, Cormack 1989. */
static const struct occasion sunfish[] = {{10, 0, 0}, {27, 0, 0},
	{17, 0, 0}, {7, 0, 0}, {1, 0, 0}, {5, 0, 0}, {6, 2, 0}, {15, 1, 0},
	{9, 5, 0}, {18, 5, 0}, {16, 4, 2}, {5, 2, 0}, {7, 2, 1}, {19, 3, 0}};
static const struct occasion hares[] = {{16, 0, 0}, {28, 4, 0}, {20, 11, 0},
	{26, 17, 0}, {23, 17, 0}, {32, 28, 0}};

START_TEST(occasions)
{
	struct figure f = estimate_schnabel(sunfish, 14);

	NEAR(f.point, 447.5, 0.05);
	NEAR(f.low, 300.75526878, 1e-7);
	NEAR(f.high, 698.43424580, 1e-7);
	f = estimate_schumacher(sunfish, 14);
	NEAR(f.point, 423, 0.5);
	NEAR(f.low, 299.65887093, 1e-7);
	NEAR(f.high, 718.73880101, 1e-7);
	f = estimate_schnabel(hares, 6);
	EQUAL(f.point, 76.6753246753);
	/* Krebs' 61.3 is below the 68 hares that were seen. */
	NEAR(f.raw_low, 61.3486806, 1e-6);
	EQUAL(f.low, 68.0);
	NEAR(f.high, 97.1576838, 1e-6);
	f = estimate_schumacher(hares, 6);
	EQUAL(f.point, 75.3433778858);
	NEAR(f.high, 81.9739296, 1e-6);
}
END_TEST

/* Otis and others 1978, deer mice: the model does not fit. */
START_TEST(occasions_edges)
{
	static const struct occasion mice[] = {{15, 0, 0}, {20, 12, 0},
		{16, 10, 0}, {19, 16, 0}, {25, 22, 0}, {25, 22, 0}};
	static const struct occasion apart[] = {{3, 0, 0}, {4, 0, 0}};
	static const struct occasion two[] = {{10, 0, 0}, {8, 4, 0}};
	struct figure f = estimate_schnabel(mice, 6);

	ck_assert(f.raised);
	NEAR(f.raw_point, 35.2926829268, 1e-9);
	EQUAL(f.point, 38.0);
	f = estimate_schnabel(apart, 2);
	ck_assert_int_eq(f.state, FIGURE_LEAST);
	EQUAL(f.low, 7.0);
	f = estimate_schumacher(two, 2);
	EQUAL(f.point, 20.0);
	ck_assert(isinf(f.high));
	ck_assert_int_eq(estimate_schnabel(two, 1).state, FIGURE_NONE);
}
END_TEST

/* Edwards and Eberhardt 1967, cottontails (135 there were); SPECIES 1.2.0. */
static const unsigned cottontails[] = {43, 16, 8, 6, 0, 2, 1};

/* The ten-sample table of EstimateS; f1, f2, ... of it. */
static const unsigned samples[] = {3, 3, 0, 2, 1};

START_TEST(chao)
{
	struct frequencies data = {cottontails, 7, 0};
	struct figure f = estimate_chao1(&data, CHAO_CLASSIC);

	NEAR(f.point, 133.78125, 1e-9);
	EQUAL(sqrt(f.variance), 24.02129310);
	NEAR(f.low, 102.419493, 1e-6);
	NEAR(f.high, 202.371573, 1e-6);
	f = estimate_chao1(&data, CHAO_CORRECTED);
	NEAR(f.point, 129.11764706, 1e-8);
	NEAR(f.low, 100.461058, 1e-6);
	NEAR(f.high, 191.345969, 1e-6);
	data = (struct frequencies){samples, 5, 0};
	f = estimate_chao1(&data, CHAO_CORRECTED);
	EQUAL(f.point, 9.75);
	NEAR(f.low, 9.066562, 1e-6);
	NEAR(f.high, 17.450716, 1e-6);
	f = estimate_chao1(&data, CHAO_CLASSIC);
	EQUAL(f.point, 10.5);
	NEAR(f.high, 21.884811, 1e-6);
}
END_TEST

/*
 * ACE on the cottontails, on the butterflies of Corbet (Fisher, Corbet and
 * Williams 1943), and on the spiders of Ellison and others 2010 under girdled
 * trees: SPECIES 1.2.0 and SpadeR 0.1.1.
 */
static const unsigned butterflies[] = {118, 74, 44, 24, 29, 22, 20, 19, 20,
	15, 12, 14, 6, 12, 6, 9, 9, 6, 10, 10, 11, 5, 3, 3, 119};
static const unsigned spiders[] = {12, 4, 0, 1, 0, 2, 0, 1, 1, 0, 0, 0, 0, 0,
	2, 0, 1, 0, 0, 0, 0, 1, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0,
	0, 0, 0, 0, 0, 0, 0, 1};

START_TEST(ace)
{
	static const unsigned plenty[] = {0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 3};
	struct frequencies data = {cottontails, 7, 0};
	struct figure f = estimate_ace(&data);

	NEAR(f.point, 132.6265723356, 1e-9);
	NEAR(sqrt(f.variance), 20.25715233, 1e-8);
	NEAR(f.low, 104.683874, 1e-6);
	NEAR(f.high, 187.789945, 1e-6);
	data = (struct frequencies){butterflies, 25, 0};
	f = estimate_ace(&data);
	NEAR(f.point, 712.23869620, 1e-8);
	NEAR(sqrt(f.variance), 17.351406, 1e-6);
	data = (struct frequencies){spiders, 46, 0};
	f = estimate_ace(&data);
	NEAR(f.point, 48.4152290303, 1e-9);
	NEAR(sqrt(f.variance), 14.32102957, 1e-8);
	NEAR(f.low, 33.120854, 1e-6);
	NEAR(f.high, 96.559307, 1e-6);
	data = (struct frequencies){plenty, 12, 0};
	ck_assert_int_eq(estimate_ace(&data).state, FIGURE_LEAST);
}
END_TEST

/*
 * Chao2 on the hares: Rcapture 1.4-4 prints 79.83712121, s.e. 6.37376; on the
 * trees of Barro Colorado (Condit and others 2002) and the dune meadow of
 * Jongman and others 1987: specpool of vegan 2.6-4.
 */
START_TEST(chao_lists)
{
	static const unsigned seen[] = {25, 22, 13, 5, 1, 2};
	static const unsigned trees[] = {21, 19, 185}, dune[] = {3, 2, 25};
	struct frequencies data = {seen, 6, 6};
	struct figure f = estimate_chao1(&data, CHAO_CLASSIC);

	NEAR(f.point, 79.83712121, 5e-9);
	NEAR(sqrt(f.variance), 6.37376, 1e-5);
	data = (struct frequencies){trees, 3, 50};
	f = estimate_chao1(&data, CHAO_CLASSIC);
	NEAR(f.point, 236.373157895, 1e-9);
	NEAR(sqrt(f.variance), 6.54361038, 1e-8);
	data = (struct frequencies){dune, 3, 20};
	f = estimate_chao1(&data, CHAO_CLASSIC);
	NEAR(f.point, 32.1375, 1e-9);
	NEAR(sqrt(f.variance), 3.24250337, 1e-8);
}
END_TEST

START_TEST(frequency_edges)
{
	static const unsigned singles[] = {5}, one[] = {1}, thrice[] = {1, 1, 1};
	static const unsigned twice[] = {0, 3}, many[] = {100000, 1};
	static const unsigned bare[] = {2, 0, 0, 1, 1};
	struct frequencies data = {singles, 1, 0};
	struct figure f = estimate_chao1(&data, CHAO_CORRECTED);

	EQUAL(f.point, 15.0);
	NEAR(f.low, 6.946282, 1e-6);
	ck_assert(isinf(f.high));
	ck_assert_int_eq(estimate_ace(&data).state, FIGURE_LEAST);
	ck_assert_int_eq(estimate_poisson(&data).state, FIGURE_LEAST);
	ck_assert_int_eq(estimate_zelterman(&data).state, FIGURE_LEAST);
	data.seen = one;
	ck_assert_int_eq(estimate_chao1(&data, CHAO_CLASSIC).state,
		FIGURE_LEAST);
	data = (struct frequencies){thrice, 3, 0};
	f = estimate_chao1(&data, CHAO_CORRECTED);
	ck_assert_int_eq(f.state, FIGURE_LEAST);
	EQUAL(f.low, 3.0);
	data = (struct frequencies){bare, 5, 0};
	f = estimate_chao1(&data, CHAO_CORRECTED);
	EQUAL(f.point, 5.0);
	NEAR(f.high, 17.272794, 1e-6);
	data = (struct frequencies){twice, 2, 0};
	f = estimate_chao1(&data, CHAO_CORRECTED);
	EQUAL(f.point, 3.0);
	ck_assert(f.high > f.low);
	data.seen = many;
	f = estimate_chao1(&data, CHAO_CLASSIC);
	EQUAL(f.point, 100001 + 5e9);
	ck_assert(isfinite(f.high) && f.high > f.point);
	data.count = 0;
	ck_assert_int_eq(estimate_chao1(&data, CHAO_CLASSIC).state,
		FIGURE_NONE);
}
END_TEST

/* Newcombe 1998, table I, as published; Garwood's limits by R. */
START_TEST(shares)
{
	struct range r;

	ck_assert(share_wilson(81, 263, &r));
	NEAR(r.low, 0.2553, 5e-5);
	NEAR(r.high, 0.3662, 5e-5);
	ck_assert(share_wilson(15, 148, &r));
	NEAR(r.low, 0.0624, 5e-5);
	NEAR(r.high, 0.1605, 5e-5);
	ck_assert(share_wilson(0, 20, &r));
	NEAR(r.high, 0.1611, 5e-5);
	ck_assert(share_wilson(1, 29, &r));
	NEAR(r.low, 0.0061, 5e-5);
	NEAR(r.high, 0.1718, 5e-5);
	ck_assert(share_wilson(1, 1000000, &r));
	EQUAL(r.low, 1.765245767454e-07);
	EQUAL(r.high, 5.664911804311e-06);
	ck_assert(share_exact(0, 1000000, &r));
	EQUAL(r.high, 3.688872650206e-06);
	ck_assert(share_exact(20, 20, &r));
	NEAR(r.low, 0.8315665290, 1e-10);
	ck_assert(!(r.high < 1));
	ck_assert(share_exact(7, 10, &r));
	NEAR(r.low, 0.3475471499, 1e-10);
	NEAR(r.high, 0.9332604888, 1e-10);
	ck_assert(share_exact(1, 29, &r));
	NEAR(r.low, 0.0008726469, 1e-10);
	NEAR(r.high, 0.1776442955, 1e-10);
	ck_assert(share_wilson(0, 20, &r) && !(r.low > 0));
	ck_assert(share_wilson(20, 20, &r) && !(r.high < 1));
	ck_assert(!share_wilson(0, 0, &r) && !share_exact(3, 2, &r));
}
END_TEST

/* Garwood 1936: poisson.test of R 4.2.2, and chi2.ppf of SciPy 1.10.1. */
START_TEST(garwood)
{
	static const double rows[][3] = {{0, 0, 3.68887945},
		{1, 0.02531781, 5.57164339}, {2, 0.24220928, 7.22468767},
		{3, 0.61867212, 8.76727307}, {5, 1.62348639, 11.66833208},
		{10, 4.79538870, 18.39035604}, {20, 12.21651959, 30.88837790},
		{24, 15.37725285, 35.71009759},
		{50, 37.11096374, 65.91876666},
		{100, 81.36399125, 121.62679379}};
	struct range r;
	unsigned i;

	for (i = 0; i < G_N_ELEMENTS(rows); i++) {
		r = count_garwood(rows[i][0]);
		NEAR(r.low, rows[i][1], 6e-9);
		NEAR(r.high, rows[i][2], 6e-9);
	}
	r = count_garwood(1e6);
	EQUAL(r.low, 1996081.966681 / 2);
	EQUAL(r.high, 2003923.823891 / 2);
}
END_TEST

/* A share of a number, worked by hand from R's intervals. */
START_TEST(shares_of_numbers)
{
	struct figure number = estimate_chapman(948, 421, 167,
		LISTS_LOG_NORMAL);
	struct figure f = estimate_share_of(&number, 15, 148);

	NEAR(f.point, 241.49975869, 1e-7);
	NEAR(f.low, 147.141514, 1e-6);
	NEAR(f.high, 387.543820, 1e-6);
	number = estimate_chapman(20, 15, 3, LISTS_LOG_NORMAL);
	f = estimate_share_of(&number, 6, 20);
	NEAR(f.point, 24.9, 1e-9);
	NEAR(f.low, 10.281949, 1e-6);
	NEAR(f.high, 63.454176, 1e-6);
	f = estimate_share_of(&number, 0, 20);
	NEAR(f.high, 28.54118620, 1e-7);
}
END_TEST

int
main(void)
{
	Suite *suite = suite_create("estimate");
	TCase *tests = tcase_create("estimate");

	suite_add_tcase(suite, tests);
	tcase_add_test(tests, quantiles);
	tcase_add_test(tests, chapman);
	tcase_add_test(tests, chapman_edges);
	tcase_add_test(tests, coverage);
	tcase_add_test(tests, occasions);
	tcase_add_test(tests, occasions_edges);
	tcase_add_test(tests, chao);
	tcase_add_test(tests, ace);
	tcase_add_test(tests, chao_lists);
	tcase_add_test(tests, frequency_edges);
	tcase_add_test(tests, shares);
	tcase_add_test(tests, garwood);
	tcase_add_test(tests, shares_of_numbers);
	return suite_run(suite);
}
