/*
 * Single pieces of the rules of the trade.
 *
 * Check digits: the examples published by GS1 Hong Kong (629104150021 3) and
 * GS1 India (890400021003 7), UPC-A 036000291452 and ISBN 9780306406157, both
 * printed in many places; the rest computed by the rule of the GS1 General
 * Specifications, section 7.9. All codes of the tables: outside/code-lists.
 */
#include <string.h>

#include "sense/sensing.h"
#include "sense/tables.h"
#include "suite.h"

START_TEST(check_digits)
{
	static const char *const whole[] = {
		"6291041500213", "8904000210037", "036000291452",
		"010101010105", "9780306406157", "4006381333931", "96385074",
		"000000000000", "999999999993",
	};
	size_t i;

	for (i = 0; i < G_N_ELEMENTS(whole); i++) {
		size_t count = strlen(whole[i]) - 1;

		ck_assert_int_eq(check_digit(whole[i], count),
			whole[i][count]);
	}
	ck_assert_int_ne(check_digit("629104150021", 12), '4');
	/* A 13-digit code with a zero before it is the 12-digit one. */
	ck_assert_int_eq(check_digit("003600029145", 12),
		check_digit("03600029145", 11));
}
END_TEST

/*
 * Every single wrong digit shows; two neighbours swapped do not where they
 * differ by five.
 */
START_TEST(wrong_digits)
{
	char code[] = "629104150021", digit;
	char right = check_digit(code, 12);
	size_t i;

	for (i = 0; i < 12; i++) {
		char kept = code[i];

		for (digit = '0'; digit <= '9'; digit++) {
			code[i] = digit;
			ck_assert(digit == kept ||
				check_digit(code, 12) != right);
		}
		code[i] = kept;
	}
	ck_assert_int_eq(check_digit("160000000000", 12),
		check_digit("610000000000", 12));
	ck_assert_int_ne(check_digit("120000000000", 12),
		check_digit("210000000000", 12));
}
END_TEST

START_TEST(labels)
{
	static const struct {
		const char *text;
		struct label label;
		const char *again;
	} cases[] = {
		{"18B", {18, 2, 0}, "18B"}, {"18b", {18, 2, 0}, "18B"},
		{"18-B", {18, 2, 0}, "18B"}, {"18 B", {18, 2, 0}, "18B"},
		{"18-back B", {18, 2, 0}, "18B"},
		{"18 back b", {18, 2, 0}, "18B"},
		{"18-Back-B", {18, 2, 0}, "18B"},
		{"18backB", {18, 2, 0}, "18B"},
		{"11B1", {11, 2, 1}, "11B1"}, {"11Ba", {11, 2, 1}, "11B1"},
		{"7Z", {7, 26, 0}, "7Z"}, {"7AA", {7, 27, 0}, "7AA"},
		{"7AZ", {7, 52, 0}, "7AZ"}, {"7BA", {7, 53, 0}, "7BA"},
		{"7ZZ", {7, 702, 0}, "7ZZ"}, {"7AAA", {7, 703, 0}, "7AAA"},
		{"24", {24, 0, 0}, "24"}, {"24-back", {24, 0, 0}, "24"},
		{"11B12", {11, 2, 12}, "11B12"},
	};
	static const char *const others[] = {"", "A", "A18", "18?", "18B?",
		"18B1x", "18ABCD", "18 B C", "1234567A", "18Β", "18b1b"};
	struct arena *arena = arena_new();
	struct label label;
	size_t i;

	for (i = 0; i < G_N_ELEMENTS(cases); i++) {
		ck_assert_msg(label_read(cases[i].text, &label), "%s",
			cases[i].text);
		ck_assert_msg(label.number == cases[i].label.number &&
			label.letter == cases[i].label.letter &&
			label.sub == cases[i].label.sub, "%s", cases[i].text);
		ck_assert_str_eq(label_text(arena, label), cases[i].again);
	}
	for (i = 0; i < G_N_ELEMENTS(others); i++)
		ck_assert_msg(!label_read(others[i], &label), "%s",
			others[i]);
	arena_free(arena);
}
END_TEST

START_TEST(languages)
{
	static const struct {
		const char *tag;
		size_t from, to;
	} bad[] = {
		{"", 0, 0}, {"eng", 0, 3}, {"greek", 0, 5}, {"en-", 2, 3},
		{"en--GB", 2, 3}, {"-en", 0, 0}, {"en-UK", 3, 5},
		{"en-GB-US", 6, 8}, {"de-1901-1901", 8, 12}, {"en_GB", 0, 5},
		{"sr-Lotn", 3, 7}, {"en-a", 3, 4}, {"ar-a-aaa-b-bbb-a-ccc",
		15, 16}, {"en-GB é", 3, 8}, {"a-DE", 0, 1},
		{"zh-abc", 3, 6}, {"en-abcdefghi", 3, 12},
	};
	static const char *const good[] = {"en", "EL", "fr-CA", "sr-Latn-RS",
		"de-CH-1901", "zh-yue-HK", "i-klingon", "x-ours", "en-x-a",
		"es-419", "qaa-Qaaa-QM"};
	size_t i, from, to;

	for (i = 0; i < G_N_ELEMENTS(good); i++)
		ck_assert_msg(!language_is_bad(good[i], &from, &to), "%s",
			good[i]);
	for (i = 0; i < G_N_ELEMENTS(bad); i++) {
		ck_assert_msg(language_is_bad(bad[i].tag, &from, &to), "%s",
			bad[i].tag);
		ck_assert_msg(from == bad[i].from && to == bad[i].to,
			"%s: %zu to %zu", bad[i].tag, from, to);
	}
}
END_TEST

/* The lookups are by halving: the tables must be in order. */
START_TEST(tables)
{
	struct date date;
	size_t i;

	for (i = 0; i < countries_count; i++) {
		ck_assert(i == 0 || strcmp(countries[i - 1].code,
			countries[i].code) <= 0);
		ck_assert(countries[i].last == NULL ||
			shape_date(countries[i].last, &date));
	}
	for (i = 0; i < currencies_count; i++) {
		ck_assert(i == 0 || strcmp(currencies[i - 1].code,
			currencies[i].code) < 0);
		ck_assert(currencies[i].last == NULL ||
			*currencies[i].last == '\0' ||
			shape_date(currencies[i].last, &date));
	}
	for (i = 1; i < languages3_count; i++)
		ck_assert(strncmp(languages3[i - 1], languages3[i], 2) < 0);
}
END_TEST

START_TEST(surprises)
{
	ck_assert(sense_is_surprise(DIAG_LETTERS_HOLE));
	ck_assert(sense_is_surprise(DIAG_VARIANT_BEFORE_KNOWN));
	ck_assert(!sense_is_surprise(DIAG_LABEL_TWICE));
	ck_assert(!sense_is_surprise(DIAG_FORMER_ID));
	ck_assert(!sense_is_surprise(DIAG_EXCEPTION_UNUSED));
	ck_assert(!sense_is_surprise(DIAG_BAD_DATE));
}
END_TEST

int
main(void)
{
	Suite *suite = suite_create("trade");
	TCase *all = tcase_create("all");

	tcase_add_test(all, check_digits);
	tcase_add_test(all, wrong_digits);
	tcase_add_test(all, labels);
	tcase_add_test(all, languages);
	tcase_add_test(all, tables);
	tcase_add_test(all, surprises);
	suite_add_tcase(suite, all);
	return suite_run(suite);
}
