/*
 * The one place where the site escapes.
 */
#include <string.h>

#include "suite.h"
#include "write/site/html.h"

static void
assert_text(const char *text, const char *wanted)
{
	GString *out = g_string_new(NULL);

	html_text(out, text);
	ck_assert_str_eq(out->str, wanted);
	g_string_free(out, TRUE);
}

START_TEST(text_is_text)
{
	assert_text("", "");
	assert_text("plain, \u03bc\u03b5 \u4e2d", "plain, \u03bc\u03b5 \u4e2d");
	assert_text("<a href=\"x\">'&amp;'</a>",
		"&lt;a href=&quot;x&quot;&gt;&#39;&amp;amp;&#39;&lt;/a&gt;");
	assert_text("a\tb\nc", "a\tb\nc");
	assert_text("\x01\x1f\x7f", "\ufffd\ufffd\ufffd");
	assert_text("\xc2\x85\xc2\x9f\u2028\u2029\ufffe\ufdd0",
		"\ufffd\ufffd\ufffd\ufffd\ufffd\ufffd");
}
END_TEST

START_TEST(directions_end_with_their_text)
{
	assert_text("\u202eabc", "\u202eabc\u202c");
	assert_text("\u2067a\u202bb", "\u2067a\u202bb\u202c\u2069");
	assert_text("\u2067a\u2069b", "\u2067a\u2069b");
	assert_text("a\u202cb\u2069", "ab");
	/* A closing one of the other sort closes nothing. */
	assert_text("\u2067a\u202cb", "\u2067ab\u2069");
	assert_text("\u200e\u200f", "\u200e\u200f");
}
END_TEST

START_TEST(deep_directions_are_cut)
{
	GString *in = g_string_new(NULL), *out = g_string_new(NULL);
	int i, depth = 0;
	const char *at;

	for (i = 0; i < 1000; i++)
		g_string_append(in, "\u202b");
	html_text(out, in->str);
	for (at = out->str; *at != '\0'; at = g_utf8_next_char(at)) {
		depth += g_utf8_get_char(at) == 0x202B ? 1 : -1;
		ck_assert_int_ge(depth, 0);
	}
	ck_assert_int_eq(depth, 0);
	g_string_free(in, TRUE);
	g_string_free(out, TRUE);
}
END_TEST

START_TEST(put_escapes_what_is_given)
{
	GString *out = g_string_new(NULL);

	html_put(out, "<b>%s</b> %u %d 100%%", "<&>", 7u, -7);
	ck_assert_str_eq(out->str, "<b>&lt;&amp;&gt;</b> 7 -7 100%");
	g_string_free(out, TRUE);
}
END_TEST

static const struct {
	const char *address;
	bool good;
} addresses[] = {
	{"https://example.invalid", true},
	{"http://example.invalid/a?b=c#d", true},
	{"HTTPS://example.invalid:8080/", true},
	{"mailto:someone@example.invalid", true},
	{"mailto:nobody", false},
	{"mailto:a@b?bcc=\"", false},
	{"https://", false},
	{"https://.example", false},
	{"https://exa mple/", false},
	{"https://example.invalid:99999/", false},
	{"https://someone@example.invalid/", false},
	{"//example.invalid/", false},
	{"javascript:alert(1)", false},
	{"data:text/html,x", false},
	{"file:///etc/passwd", false},
	{"", false},
};

START_TEST(addresses_are_sorted)
{
	ck_assert_msg(html_is_address(addresses[_i].address) ==
		addresses[_i].good, "%s", addresses[_i].address);
}
END_TEST

START_TEST(address_is_quoted)
{
	GString *out = g_string_new(NULL);

	html_address(out, "http://h/\"><b>'?a=1&b=%41%zz[\xce\xbb]");
	ck_assert_str_eq(out->str,
		"http://h/%22%3E%3Cb%3E%27?a=1&amp;b=%41%25zz%5B%CE%BB%5D");
	g_string_free(out, TRUE);
}
END_TEST

START_TEST(places_and_languages)
{
	GString *out = g_string_new(NULL);

	html_place(out, "a-1 _\"\xce\xbb");
	ck_assert_str_eq(out->str, "a-1_20_5f_22_ce_bb");
	g_string_truncate(out, 0);
	html_language(out, "zh-Hant");
	html_language(out, "x\" onclick=\"y");
	html_language(out, "");
	ck_assert_str_eq(out->str, " lang=\"zh-Hant\"");
	g_string_free(out, TRUE);
}
END_TEST

int
main(void)
{
	Suite *suite = suite_create("site_html");
	TCase *tests = tcase_create("all");

	tcase_add_test(tests, text_is_text);
	tcase_add_test(tests, directions_end_with_their_text);
	tcase_add_test(tests, deep_directions_are_cut);
	tcase_add_test(tests, put_escapes_what_is_given);
	tcase_add_loop_test(tests, addresses_are_sorted, 0,
		(int)G_N_ELEMENTS(addresses));
	tcase_add_test(tests, address_is_quoted);
	tcase_add_test(tests, places_and_languages);
	suite_add_tcase(suite, tests);
	return suite_run(suite);
}
