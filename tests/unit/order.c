/*
 * The order of text, against lists that stand in order.
 *
 * Source of the first list: UTS #10 (Unicode Collation Algorithm) with its
 * default table and variable elements "shifted", as Perl's Unicode::Collate
 * 1.31 sorts it; its "#1 10 2" stands here as "#1 2 10", since our numbers go
 * by value. The German rows show that no locale's rules are applied.
 */
#include "base/order.h"

#include <locale.h>
#include <string.h>

#include "suite.h"

static struct arena *arena;
static struct order *order;

static void
set_up(void)
{
	arena = arena_new();
	order = order_new();
}

static void
tear_down(void)
{
	order_free(order);
	arena_free(arena);
}

static const char *const uts10[] = {
	"#1",
	"2",
	"10",
	"Ångström",
	"apfel",
	"Apfel",
	"Äpfel",
	"cote",
	"Cote",
	"coté",
	"côte",
	"côté",
	"de luge",
	"de-luge",
	"deluge",
	"de Luge",
	"Strasse",
	"Straße",
	"Strassf",
	"zebra",
	"Zürich",
	NULL,
};

static const char *const numbers[] = {
	"0",
	"00",
	"card 1",
	"card 2",
	"card 2A",
	"card 2B",
	"card 010",
	"card 10",
	"card 18-A",
	"card 18A",
	"card 18-B",
	"card 100",
	"card 12345678901234567890",
	"card 12345678901234567891",
	NULL,
};

static const char *const scripts[] = {
	"",
	"a",
	"á",
	"b",
	"z",
	"α",
	"ά",
	"Άλφα",
	"β",
	"Ω",
	"а",
	"я",
	NULL,
};

static void
assert_sorted(const char *const *texts)
{
	size_t i, j;

	for (i = 0; texts[i] != NULL; i++) {
		for (j = 0; texts[j] != NULL; j++) {
			int by_key = strcmp(order_key(order, texts[i], arena),
				order_key(order, texts[j], arena));
			int straight = order_compare(order, texts[i], texts[j]);

			ck_assert_msg((i > j) - (i < j) ==
						(by_key > 0) - (by_key < 0) &&
					by_key == straight,
				"\"%s\" against \"%s\"", texts[i], texts[j]);
		}
	}
}

START_TEST(follows_uts10)
{
	assert_sorted(uts10);
}
END_TEST

START_TEST(counts_numbers_by_value)
{
	assert_sorted(numbers);
}
END_TEST

START_TEST(sorts_scripts)
{
	assert_sorted(scripts);
}
END_TEST

START_TEST(ignores_the_locale)
{
	static const char *const locales[] = {"sv_SE.UTF-8", "C.UTF-8", "C"};
	size_t i;

	for (i = 0; i < G_N_ELEMENTS(locales); i++) {
		g_setenv("LC_ALL", locales[i], TRUE);
		setlocale(LC_ALL, "");
		order_free(order);
		order = order_new();
		assert_sorted(uts10);
	}
	g_unsetenv("LC_ALL");
}
END_TEST

/* Composed and decomposed are one text to the order, yet never a tie. */
START_TEST(has_no_ties)
{
	const char *composed = "caf\xc3\xa9";
	const char *apart = "cafe\xcc\x81";

	ck_assert_int_ne(order_compare(order, composed, apart), 0);
	ck_assert_int_lt(order_compare(order, composed, "cafea"), 0);
	ck_assert_int_lt(order_compare(order, apart, "cafea"), 0);
	ck_assert_int_eq(order_compare(order, apart, apart), 0);
}
END_TEST

START_TEST(takes_anything)
{
	char *marks = g_malloc0(3 + 40000 * 2);
	int i;

	/* 40,000 combining marks, an overlong form, a lone surrogate. */
	marks[0] = 'a';
	for (i = 0; i < 40000; i++)
		memcpy(marks + 1 + 2 * i, "\xcc\x81", 2);
	ck_assert_int_lt(order_compare(order, "a", marks), 0);
	ck_assert_int_gt(order_compare(order, "b", marks), 0);
	ck_assert_int_ne(order_compare(order, "\xc0\x80", "\xed\xa0\x80"), 0);
	g_free(marks);
}
END_TEST

int
main(void)
{
	Suite *suite = suite_create("order");
	TCase *cases = tcase_create("order");

	tcase_add_checked_fixture(cases, set_up, tear_down);
	tcase_add_test(cases, follows_uts10);
	tcase_add_test(cases, counts_numbers_by_value);
	tcase_add_test(cases, sorts_scripts);
	tcase_add_test(cases, ignores_the_locale);
	tcase_add_test(cases, has_no_ties);
	tcase_add_test(cases, takes_anything);
	suite_add_tcase(suite, cases);
	return suite_run(suite);
}
