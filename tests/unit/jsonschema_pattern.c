/*
 * The pattern of whole numbers takes exactly those within the bounds.
 */
#include "suite.h"

#include <inttypes.h>
#include <stdint.h>

#include "write/jsonschema/pattern.h"

static GRegex *
pattern_of(int64_t least, int64_t most)
{
	struct field field = {.least = least, .most = most};
	GString *out = g_string_new(NULL);
	GRegex *regex;

	pattern_whole(out, &field);
	regex = g_regex_new(out->str, 0, 0, NULL);
	ck_assert_ptr_nonnull(regex);
	g_string_free(out, TRUE);
	return regex;
}

static void
hold(GRegex *regex, const char *text, bool taken)
{
	ck_assert_msg(g_regex_match(regex, text, 0, NULL) == taken,
		"%s: %s", text, g_regex_get_pattern(regex));
}

START_TEST(within_bounds)
{
	static const int64_t bounds[][2] = {
		{0, 0}, {0, 9}, {1, 10}, {7, 7}, {8, 123}, {99, 101},
		{100, 999}, {101, 1998}, {190, 220}, {-5, 5}, {-120, -7},
		{-1, -1}, {-1, 0}, {0, 1999}, {999, 1000}, {19, 1903},
	};
	char text[24];
	size_t i;
	int64_t j;

	for (i = 0; i < G_N_ELEMENTS(bounds); i++) {
		GRegex *regex = pattern_of(bounds[i][0], bounds[i][1]);

		for (j = -2100; j <= 2100; j++) {
			g_snprintf(text, sizeof(text), "%" PRId64, j);
			hold(regex, text, j >= bounds[i][0] &&
				j <= bounds[i][1]);
		}
		hold(regex, "", false);
		hold(regex, "-", false);
		hold(regex, "-0", false);
		hold(regex, "007", false);
		g_regex_unref(regex);
	}
}
END_TEST

START_TEST(without_bounds)
{
	GRegex *regex = pattern_of(INT64_MIN, INT64_MAX);

	hold(regex, "9223372036854775807", true);
	hold(regex, "9223372036854775808", false);
	hold(regex, "-9223372036854775808", true);
	hold(regex, "-9223372036854775809", false);
	hold(regex, "10000000000000000000", false);
	hold(regex, "999999999999999999", true);
	hold(regex, "0", true);
	hold(regex, "-1", true);
	g_regex_unref(regex);
}
END_TEST

int
main(void)
{
	Suite *suite = suite_create("jsonschema_pattern");
	TCase *cases = tcase_create("jsonschema_pattern");

	tcase_set_timeout(cases, 60);
	tcase_add_test(cases, within_bounds);
	tcase_add_test(cases, without_bounds);
	suite_add_tcase(suite, cases);
	return suite_run(suite);
}
