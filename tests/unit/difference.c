/*
 * Unified diffs: what patch(1) makes of them is what was meant.
 */
#include "suite.h"

#include <glib.h>
#include <stdio.h>
#include <string.h>
#include <sys/stat.h>

#include <sys/stat.h>
#include <unistd.h>

#include "base/difference.h"

static char *
difference(const char *old, const char *new)
{
	char *text = NULL;
	size_t size;
	FILE *stream = open_memstream(&text, &size);

	difference_print("x", (struct bytes){old, strlen(old)},
		(struct bytes){new, strlen(new)}, stream);
	fclose(stream);
	return text;
}

START_TEST(same_is_nothing)
{
	char *text = difference("a\nb\n", "a\nb\n");

	ck_assert_str_eq(text, "");
	free(text);
}
END_TEST

START_TEST(one_line)
{
	char *text = difference("1\n2\n3\n4\n5\n6\n7\n8\n9\n",
		"1\n2\n3\n4\nfive\n6\n7\n8\n9\n");

	ck_assert_str_eq(text, "--- a/x\n+++ b/x\n@@ -2,7 +2,7 @@\n 2\n 3\n"
		" 4\n-5\n+five\n 6\n 7\n 8\n");
	free(text);
}
END_TEST

START_TEST(ends)
{
	char *text = difference("", "a");

	ck_assert_str_eq(text, "--- a/x\n+++ b/x\n@@ -0,0 +1 @@\n+a\n"
		"\\ No newline at end of file\n");
	free(text);
	text = difference("a\r\nb", "a\r\n");
	ck_assert_str_eq(text, "--- a/x\n+++ b/x\n@@ -1,2 +1 @@\n a\r\n-b\n"
		"\\ No newline at end of file\n");
	free(text);
}
END_TEST

/* A text of lines drawn from few, so that many are the same. */
static char *
draw(GRand *rand, int most)
{
	GString *text = g_string_new(NULL);
	int i, count = g_rand_int_range(rand, 0, most);

	for (i = 0; i < count; i++)
		g_string_append_printf(text, "%d%s",
			g_rand_int_range(rand, 0, 6),
			i + 1 == count && count % 3 == 0 ? "" : "\n");
	return g_string_free(text, FALSE);
}

static void
write_file(const char *path, const char *text)
{
	ck_assert(g_file_set_contents(path, text, -1, NULL));
}

START_TEST(patch_agrees)
{
	GRand *rand = g_rand_new_with_seed(4);
	char *folder = g_dir_make_tmp("difference-XXXXXX", NULL);
	char *file = g_build_filename(folder, "x", NULL);
	char *given = g_build_filename(folder, "d", NULL);
	const char *patch[] = {"git", "apply", "--unsafe-paths",
		"--whitespace=nowarn", "d", NULL};
	int i, status;

	for (i = 0; i < 60; i++) {
		char *old = draw(rand, 40), *new = draw(rand, 40), *got;
		char *text = difference(old, new);

		write_file(file, old);
		write_file(given, text);
		if (*text != '\0') {
			ck_assert(g_spawn_sync(folder, (char **)(uintptr_t)
				patch, NULL, G_SPAWN_SEARCH_PATH, NULL, NULL,
				NULL, NULL, &status, NULL));
			ck_assert_msg(status == 0, "refused:\n%s", text);
		}
		/* An empty text is, to git, a file that is gone. */
		if (!g_file_get_contents(file, &got, NULL, NULL))
			got = g_strdup("");
		ck_assert_str_eq(got, new);
		g_free(got);
		free(text);
		g_free(old);
		g_free(new);
	}
	g_remove(file);
	g_remove(given);
	g_remove(folder);
	g_free(file);
	g_free(given);
	g_free(folder);
	g_rand_free(rand);
}
END_TEST

START_TEST(far_apart)
{
	GString *old = g_string_new(NULL), *new = g_string_new(NULL);
	char *text;
	int i;

	for (i = 0; i < 5000; i++) {
		g_string_append_printf(old, "old %d\n", i);
		g_string_append_printf(new, "new %d\n", i);
	}
	text = difference(old->str, new->str);
	ck_assert(g_str_has_prefix(text, "--- a/x\n+++ b/x\n"
		"@@ -1,5000 +1,5000 @@\n-old 0\n"));
	free(text);
	g_string_free(old, TRUE);
	g_string_free(new, TRUE);
}
END_TEST

START_TEST(replaced)
{
	char *folder = g_dir_make_tmp("replace-XXXXXX", NULL);
	char *file = g_build_filename(folder, "x", NULL);
	char *link = g_build_filename(folder, "link", NULL);
	struct bytes old = {"old", 3}, new = {"newer", 5};
	struct stat info;
	char *why = NULL, *got;

	write_file(file, "old");
	ck_assert_int_eq(chmod(file, 0640), 0);
	ck_assert_int_eq(symlink("x", link), 0);
	ck_assert(!replace_file(link, old, new, &why));
	ck_assert_str_eq(why, "it is a link or no plain file");
	g_free(why);
	ck_assert(!replace_file(file, new, new, &why));
	ck_assert_str_eq(why, "it was changed meanwhile");
	g_free(why);
	ck_assert(replace_file(file, old, new, &why));
	ck_assert(g_file_get_contents(file, &got, NULL, NULL));
	ck_assert_str_eq(got, "newer");
	ck_assert_int_eq(stat(file, &info), 0);
	ck_assert_uint_eq(info.st_mode & 07777, 0640);
	g_remove(file);
	g_remove(link);
	ck_assert_int_eq(g_remove(folder), 0);
	g_free(got);
	g_free(link);
	g_free(file);
	g_free(folder);
}
END_TEST

int
main(void)
{
	Suite *suite = suite_create("difference");
	TCase *cases = tcase_create("difference");

	tcase_set_timeout(cases, 60);
	tcase_add_test(cases, same_is_nothing);
	tcase_add_test(cases, one_line);
	tcase_add_test(cases, ends);
	tcase_add_test(cases, patch_agrees);
	tcase_add_test(cases, far_apart);
	tcase_add_test(cases, replaced);
	suite_add_tcase(suite, cases);
	return suite_run(suite);
}
