/*
 * Dates as intervals of days. The day numbers are held against GLib's; leap
 * years are those of the Gregorian calendar: 1900 is none, 2000 is one.
 */
#include "shape/value.h"

#include <string.h>

#include "suite.h"

static day_number
day(int year, int month, int date)
{
	GDate *made = g_date_new_dmy((GDateDay)date, (GDateMonth)month,
		(GDateYear)year);
	day_number number = (day_number)g_date_get_julian(made);

	g_date_free(made);
	return number;
}

START_TEST(intervals)
{
	static const struct {
		const char *text;
		int first[3];
		int last[3];
	} cases[] = {
		{"1983", {1983, 1, 1}, {1983, 12, 31}},
		{"1983-11", {1983, 11, 1}, {1983, 11, 30}},
		{"1983-11-05", {1983, 11, 5}, {1983, 11, 5}},
		{"1984-02", {1984, 2, 1}, {1984, 2, 29}},
		{"1983-02", {1983, 2, 1}, {1983, 2, 28}},
		{"1900-02", {1900, 2, 1}, {1900, 2, 28}},
		{"2000-02", {2000, 2, 1}, {2000, 2, 29}},
		{"1984-02-29", {1984, 2, 29}, {1984, 2, 29}},
		{"0001", {1, 1, 1}, {1, 12, 31}},
		{"9999-12-31", {9999, 12, 31}, {9999, 12, 31}},
	};
	struct date date;
	size_t i;

	for (i = 0; i < G_N_ELEMENTS(cases); i++) {
		const int *first = cases[i].first, *last = cases[i].last;

		ck_assert_msg(shape_date(cases[i].text, &date), "%s",
			cases[i].text);
		ck_assert_int_eq(date.first, day(first[0], first[1],
			first[2]));
		ck_assert_int_eq(date.last, day(last[0], last[1], last[2]));
		ck_assert_str_eq(date.text, cases[i].text);
		ck_assert_int_eq(date.year, first[0]);
	}
}
END_TEST

START_TEST(no_dates)
{
	static const char *const cases[] = {
		"", "83", "1983-", "1983-1", "1983-00", "1983-13",
		"1983-11-5", "1983-11-00", "1983-11-31", "1983-02-29",
		"1900-02-29", "0000", "1983-11-05T12:00", "05.11.1983",
		"1983/11", "-983", "198x", "1983-1a", "19833", " 1983",
		"1983 ", "١٩٨٣",
	};
	struct date date;
	size_t i;

	for (i = 0; i < G_N_ELEMENTS(cases); i++)
		ck_assert_msg(!shape_date(cases[i], &date), "\"%s\"",
			cases[i]);
}
END_TEST

/* Each day of four hundred years follows the one before. */
START_TEST(every_day)
{
	day_number before = 0;
	struct date date;
	int year, month, of_month;
	char text[16];

	for (year = 1800; year < 2200; year++)
		for (month = 1; month <= 12; month++)
			for (of_month = 1; of_month <= 31; of_month++) {
				g_snprintf(text, sizeof(text),
					"%04d-%02d-%02d", year, month,
					of_month);
				if (!shape_date(text, &date))
					continue;
				ck_assert(before == 0 ||
					date.first == before + 1);
				before = date.last;
			}
	ck_assert_int_eq(before, day(2199, 12, 31));
}
END_TEST

int
main(void)
{
	Suite *suite = suite_create("dates");
	TCase *all = tcase_create("all");

	tcase_add_test(all, intervals);
	tcase_add_test(all, no_dates);
	tcase_add_test(all, every_day);
	suite_add_tcase(suite, all);
	return suite_run(suite);
}
