/*
 * Greek in Latin letters by ISO 843:1997. The first examples are such as stand
 * in textbooks of modern Greek and on road signs; the others are what the demo
 * corpus has.
 */
#include "suite.h"

#include <string.h>

#include "search/greek.h"
#include "search/tokens.h"

static const struct {
	const char *greek, *letters, *sounds;
} examples[] = {
	{"αθήνα", "athina", "athina"},
	{"θεσσαλονίκη", "thessaloniki", "thessaloniki"},
	{"ευαγγελία", "euaggelia", "evangelia"},
	{"ναύπλιο", "nauplio", "nafplio"},
	{"εύβοια", "euvoia", "evvoia"},
	{"αύρα", "aura", "avra"},
	{"ουρανός", "ouranos", "ouranos"},
	{"μπάλα", "mpala", "bala"},
	{"λάμπα", "lampa", "lampa"},
	{"άγχος", "agchos", "anchos"},
	{"σφίγξ", "sfigx", "sfinx"},
	{"αγκαλιά", "agkalia", "agkalia"},
	{"ψυχή", "psychi", "psychi"},
	{"άυλος", "aylos", "aylos"},
	{"προϋπόθεση", "proypothesi", "proypothesi"},
	{"ξωτικό", "xotiko", "xotiko"},
	{"18β", "18v", "18v"},
};

START_TEST(words)
{
	GString *out = g_string_new(NULL);

	ck_assert(search_append_greek(out, examples[_i].greek, GREEK_TYPE_1));
	ck_assert_str_eq(out->str, examples[_i].letters);
	g_string_truncate(out, 0);
	ck_assert(search_append_greek(out, examples[_i].greek, GREEK_TYPE_2));
	ck_assert_str_eq(out->str, examples[_i].sounds);
	g_string_free(out, TRUE);
}
END_TEST

START_TEST(others_stay)
{
	GString *out = g_string_new(NULL);

	ck_assert(!search_append_greek(out, "osier24", GREEK_TYPE_2));
	ck_assert_str_eq(out->str, "osier24");
	search_append_latin(out, "osier24");
	ck_assert_str_eq(out->str, "osier24");
	g_string_free(out, TRUE);
}
END_TEST

START_TEST(capitals_and_text)
{
	GString *out = g_string_new(NULL);

	search_append_plain(out, "Η ΝΑΥΠΛΙΟ, Ναύπλιο");
	ck_assert_ptr_nonnull(strstr(out->str, " nafplio"));
	ck_assert_ptr_nonnull(strstr(out->str, " nauplio"));
	g_string_free(out, TRUE);
}
END_TEST

int
main(void)
{
	Suite *suite = suite_create("greek");
	TCase *tests = tcase_create("greek");

	tcase_add_loop_test(tests, words, 0, (int)G_N_ELEMENTS(examples));
	tcase_add_test(tests, others_stay);
	tcase_add_test(tests, capitals_and_text);
	suite_add_tcase(suite, tests);
	return suite_run(suite);
}
