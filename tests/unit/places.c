/*
 * Places inside scalars: each letter Q of a scalar's text must be led back to
 * the Q of the file that it was read from, however the scalar is written. The
 * cases are of our own; then thousands of random ones, from a fixed seed.
 */
#include "read/yaml.h"

#include <string.h>

#include "suite.h"

static const char *const cases[] = {
	"Q", "a Q b", "éQ ελQ 漢Q",
	"one\n  Q two\n\n  Q three\n  Q",
	"'it''s Q'", "'''Q'''", "'Q\n\n   Q\n  Q'", "'  Q  \n  Q  '",
	"\"Q\"", "\"\\\\Q \\\"Q\\\" \\u00e9Q \\x41Q \\U0001F38FQ\"",
	"\"\\N\\_\\L\\PQb\"", "\"a\\\n  Q \\\n  \\ Q\"",
	"\"Q\n\n\n  Q \n  Q\"", "\"\\tQ\\nQ\\eQ\\/Q\\aQ\\bQ\\vQ\\fQ\\rQ\"",
	"|\n  Q\n  a Q\n\n    Q\n  Q\n", "|+\n  Q\n\n  Q\n\n\n",
	"|-\n  Q\n  \tQ\n", "|2\n    Q\n   Q\n  Q\n",
	"|\n\n\n  Q\n  Q", ">\n  Q\n  Q\n\n  Q\n", ">-\n  Q\n    Q\n  Q\n",
	">+\n\n  Q\n\n\n  a Q\n    b Q\n\n    Q\n\n  Q\n\n",
	">1\n  Q\n Q\n", ">\n  é\n  éQ\n   漢Q\n  Q # Q\n",
	"|  # Q in a comment is none\n  Q # Q\n",
	"\"Q\xC2\x85Q\xE2\x80\xA8Q\xE2\x80\xA9 Q\"",
	">\n  Q\xC2\x85  Q\xE2\x80\xA8  Q\xE2\x80\xA9  Q\n",
};

/* The scalar behind "k: " in a file that holds it; NULL if it is not YAML. */
static const struct node *
read_value(struct sources *sources, const char *written, struct arena *arena)
{
	char *text = g_strdup_printf("k: %s", written);
	struct diags *diags = diags_new(sources);
	uint32_t file = sources_add(sources, "in.yaml", text,
		(uint32_t)strlen(text));
	const struct node *node = read_yaml(sources, file, arena, diags);

	if (node != NULL)
		node = node_get(node, "k");
	diags_free(diags);
	return node == NULL || node->kind != NODE_SCALAR ? NULL : node;
}

/* How many letters Q were led back right; fails at one that was not. */
static unsigned
follow(const char *written)
{
	struct arena *arena = arena_new();
	struct sources *sources = sources_new();
	const struct node *node = read_value(sources, written, arena);
	struct node_places *places;
	const char *bytes;
	uint32_t i, at = 0;
	unsigned count = 0;

	if (node == NULL || node->count == 0)
		goto out;
	bytes = sources_get(sources, 1)->bytes;
	places = node_places_new(node, sources);
	at = node->span.from;
	for (i = 0; i < node->count; i++) {
		struct span span;

		if (node->text[i] != 'Q')
			continue;
		span = node_span_within(node, sources, i, i + 1);
		ck_assert_msg(span.to == span.from + 1 && span.from >= at &&
			bytes[span.from] == 'Q', "Q number %u of\n%s\nis led "
			"to byte %u to %u\n%s", count + 1, written,
			span.from, span.to, bytes + span.from);
		at = span.to;
		span = node_places_span(places, i, i + 1);
		ck_assert_uint_eq(span.to, at);
		count++;
	}
	node_places_free(places);
out:
	sources_free(sources);
	arena_free(arena);
	return count;
}

START_TEST(styles)
{
	ck_assert_uint_gt(follow(cases[_i]), 0);
}
END_TEST

START_TEST(line_ends)
{
	char **lines = g_strsplit(cases[_i], "\n", 0);
	char *windows = g_strjoinv("\r\n", lines);
	char *old = g_strjoinv("\r", lines);

	ck_assert_uint_eq(follow(windows), follow(cases[_i]));
	ck_assert_uint_eq(follow(old), follow(cases[_i]));
	g_free(old);
	g_free(windows);
	g_strfreev(lines);
}
END_TEST

static char *
random_scalar(GRand *rand)
{
	static const char *const begins[] = {"", "'", "\"", "|\n ", ">\n ",
		"|+\n  ", ">-\n  ", "|1\n ", ">2\n  ", "|-\n\n "};
	static const char *const pieces[] = {"Q", "Q", "Q", "a", " ", "  ",
		"\n ", "\n  ", "\n   ", "\n\n ", "\n\n\n  ", "\t", "é", "漢",
		"''", "\\n", "\\\"", "\\u00e9", "\\\n ", "\\\\", "Q Q", "-",
		"\r\n ", "\xC2\x85 ", "\xE2\x80\xA8 "};
	guint begin = (guint)g_rand_int_range(rand, 0,
		G_N_ELEMENTS(begins));
	GString *out = g_string_new(begins[begin]);
	int i, count = g_rand_int_range(rand, 1, 14);

	for (i = 0; i < count; i++)
		g_string_append(out, pieces[g_rand_int_range(rand, 0,
			G_N_ELEMENTS(pieces))]);
	if (begin == 1 || begin == 2)
		g_string_append_c(out, *begins[begin]);
	g_string_append_c(out, '\n');
	return g_string_free(out, FALSE);
}

START_TEST(random_scalars)
{
	GRand *rand = g_rand_new_with_seed(1983);
	unsigned i, count = 0;

	for (i = 0; i < 30000; i++) {
		char *written = random_scalar(rand);

		count += follow(written);
		g_free(written);
	}
	ck_assert_uint_gt(count, 25000);
	g_rand_free(rand);
}
END_TEST

int
main(void)
{
	Suite *suite = suite_create("places");
	TCase *all = tcase_create("all");

	tcase_set_timeout(all, 60);
	tcase_add_loop_test(all, styles, 0, G_N_ELEMENTS(cases));
	tcase_add_loop_test(all, line_ends, 0, G_N_ELEMENTS(cases));
	tcase_add_test(all, random_scalars);
	suite_add_tcase(suite, all);
	return suite_run(suite);
}
