/*
 * The atomic output folder: what is written, what is linked, what is refused,
 * and what is cleared away.
 */
#include "base/output.h"

#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

#include "out.h"

static char *folder;

static void
set_up(void)
{
	folder = scratch_new();
}

static void
tear_down(void)
{
	scratch_free(folder);
}

static ino_t
number_of(const char *path)
{
	struct stat status;

	ck_assert_int_eq(stat(path, &status), 0);
	return status.st_ino;
}

START_TEST(writes_a_new_folder)
{
	write_first();
	assert_first();
}
END_TEST

START_TEST(makes_the_folders_above)
{
	struct output *out = output_open("a/b//out/", NULL);

	ck_assert_ptr_nonnull(out);
	add(out, "x", "y");
	commit(out);
	assert_holds("a/b/out/x", "y");
}
END_TEST

START_TEST(obeys_the_umask)
{
	struct stat status;
	mode_t before = umask(022);

	write_first();
	umask(before);
	ck_assert_int_eq(stat("out", &status), 0);
	ck_assert_int_eq(status.st_mode & 0777, 0755);
	ck_assert_int_eq(stat("out/index.html", &status), 0);
	ck_assert_int_eq(status.st_mode & 0777, 0644);
}
END_TEST

START_TEST(replaces_and_links)
{
	struct output *out;
	ino_t index, back;

	write_first();
	index = number_of("out/index.html");
	back = number_of("out/cardback/18a.html");
	out = open_out();
	add(out, "index.html", "one");
	add(out, "cardback/18a.html", "owt");
	assert_holds("out/cardback/18a.html", "two");
	commit(out);
	assert_holds("out/cardback/18a.html", "owt");
	ck_assert(number_of("out/index.html") == index);
	ck_assert(number_of("out/cardback/18a.html") != back);
	ck_assert(!g_file_test("out/cardback/deep", G_FILE_TEST_EXISTS));
	ck_assert_int_eq(entries_here(), 1);
}
END_TEST

START_TEST(abandons)
{
	struct output *out;

	write_first();
	out = open_out();
	add(out, "index.html", "other");
	output_abandon(out);
	output_abandon(NULL);
	assert_first();
}
END_TEST

START_TEST(reserves_for_libraries)
{
	struct output *out;
	ino_t first = 0;
	int round;
	char *place;

	for (round = 0; round < 3; round++) {
		out = open_out();
		place = output_reserve(out, "data/guide.db", NULL);
		ck_assert_ptr_nonnull(place);
		ck_assert(g_path_is_absolute(place));
		ck_assert(!g_file_test(place, G_FILE_TEST_EXISTS));
		ck_assert(g_file_set_contents(place, round < 2 ? "A" : "B", 1,
			NULL));
		g_free(place);
		ck_assert(output_settle(out, "data/guide.db", NULL));
		commit(out);
		if (round == 0)
			first = number_of("out/data/guide.db");
		else
			ck_assert_int_eq(number_of("out/data/guide.db") ==
					first,
				round == 1);
	}
	assert_holds("out/data/guide.db", "B");
}
END_TEST

START_TEST(unsettled_is_an_error)
{
	struct output *out;
	GError *error = NULL;

	write_first();
	out = open_out();
	g_free(output_reserve(out, "guide.db", NULL));
	ck_assert(!output_commit(out, &error));
	assert_code(error, OUTPUT_REFUSED, "never settled");
	assert_first();

	error = NULL;
	out = open_out();
	g_free(output_reserve(out, "guide.db", NULL));
	ck_assert(!output_settle(out, "guide.db", &error));
	assert_code(error, OUTPUT_FAILED, "guide.db");
	error = NULL;
	ck_assert(!output_settle(out, "other.db", &error));
	assert_code(error, OUTPUT_REFUSED, "was not reserved");
	output_abandon(out);
}
END_TEST

START_TEST(keeps_files_and_folders)
{
	struct output *out;
	char **names;
	GError *error = NULL;
	ino_t back;

	write_first();
	back = number_of("out/cardback/18a.html");
	out = open_out();
	names = output_earlier(out);
	ck_assert_str_eq(names[0], "cardback");
	ck_assert_str_eq(names[1], "index.html");
	ck_assert_ptr_null(names[2]);
	g_strfreev(names);
	ck_assert(output_keep(out, "cardback", &error));
	ck_assert(output_keep(out, "index.html", &error));
	ck_assert(!output_keep(out, "nothing", &error));
	ck_assert_ptr_null(error);
	ck_assert(!output_keep(out, "../out", &error));
	assert_code(error, OUTPUT_REFUSED, "../out");
	commit(out);
	assert_first();
	ck_assert(number_of("out/cardback/18a.html") == back);
}
END_TEST

static const char *const bad_paths[] = {
	"",
	"/etc/x",
	"../x",
	"a/../../x",
	"a/..",
	".",
	"a/./b",
	"a//b",
	"a/",
	"a\nb",
	"a\x7f",
	"\xff",
	OUTPUT_MARKER,
};

START_TEST(refuses_paths)
{
	struct output *out = open_out();
	GError *error = NULL;

	ck_assert(!output_add(out, bad_paths[_i], "x", 1, &error));
	assert_code(error, OUTPUT_REFUSED, "is not a path inside");
	ck_assert_ptr_null(output_reserve(out, bad_paths[_i], NULL));
	output_abandon(out);
	ck_assert_int_eq(entries_here(), 0);
}
END_TEST

START_TEST(refuses_writing_twice)
{
	struct output *out = open_out();
	GError *error = NULL;

	add(out, "x", "1");
	ck_assert(!output_add(out, "x", "2", 1, &error));
	assert_code(error, OUTPUT_REFUSED, "written twice");
	output_abandon(out);
}
END_TEST

START_TEST(refuses_foreign_folders)
{
	GError *error = NULL;

	ck_assert_int_eq(g_mkdir("out", 0777), 0);
	ck_assert(g_file_set_contents("out/letter", "dear", 4, NULL));
	ck_assert_ptr_null(output_open("out", &error));
	assert_code(error, OUTPUT_REFUSED, "did not write");
	assert_holds("out/letter", "dear");
	ck_assert_int_eq(entries_here(), 1);

	error = NULL;
	ck_assert_ptr_null(output_open("out/letter", &error));
	assert_code(error, OUTPUT_REFUSED, "is not a folder");
	error = NULL;
	ck_assert_ptr_null(output_open("/", &error));
	assert_code(error, OUTPUT_REFUSED, "cannot be an output folder");
	error = NULL;
	ck_assert_ptr_null(output_open("", &error));
	assert_code(error, OUTPUT_REFUSED, "no path");
	error = NULL;
	ck_assert_int_eq(symlink("nowhere", "link"), 0);
	ck_assert_ptr_null(output_open("link", &error));
	assert_code(error, OUTPUT_REFUSED, "leads nowhere");
}
END_TEST

/* A folder that filled up while we were writing is found out at the end. */
START_TEST(refuses_foreign_folders_late)
{
	struct output *out = open_out();
	GError *error = NULL;

	add(out, "x", "1");
	ck_assert_int_eq(g_mkdir("out", 0777), 0);
	ck_assert(g_file_set_contents("out/letter", "dear", 4, NULL));
	ck_assert(!output_commit(out, &error));
	assert_code(error, OUTPUT_REFUSED, "did not write");
	assert_holds("out/letter", "dear");
	ck_assert_int_eq(entries_here(), 1);
}
END_TEST

START_TEST(takes_empty_folders_and_links)
{
	ck_assert_int_eq(g_mkdir("real", 0777), 0);
	ck_assert_int_eq(symlink("real", "out"), 0);
	write_first();
	assert_holds("real/index.html", "one");
	ck_assert(g_file_test("out", G_FILE_TEST_IS_SYMLINK));
}
END_TEST

/* A run that dies leaves a temporary; the next one clears it away. */
START_TEST(cleans_up_after_a_crash)
{
	struct output *living, *out;
	pid_t child;

	write_first();
	child = fork();
	if (child == 0) {
		add(open_out(), "x", "half");
		_exit(0);
	}
	ck_assert_int_eq(waitpid(child, NULL, 0), child);
	ck_assert_int_eq(entries_here(), 2);
	ck_assert_int_eq(g_mkdir(".out.hangtab-mine", 0777), 0);
	ck_assert(g_file_set_contents(".out.hangtab-mine/x", "1", 1, NULL));

	living = open_out();
	ck_assert_int_eq(entries_here(), 3);
	out = open_out();
	ck_assert_int_eq(entries_here(), 4);
	output_abandon(out);
	add(living, "x", "y");
	commit(living);
	assert_holds("out/x", "y");
	ck_assert_int_eq(entries_here(), 2);
}
END_TEST

/* A crash between the two renames of a file system without exchange. */
START_TEST(puts_the_earlier_back)
{
	write_first();
	ck_assert_int_eq(rename("out", ".out.hangtab-earlier"), 0);
	output_abandon(open_out());
	assert_first();
}
END_TEST

static void *
add_many(void *data)
{
	static int next;
	int base = g_atomic_int_add(&next, 1) * 1000;
	int i;

	for (i = 0; i < 200; i++) {
		char *path = g_strdup_printf("%d/%d.html", i % 7, base + i);

		add(data, path, path);
		g_free(path);
	}
	return NULL;
}

START_TEST(takes_files_from_threads)
{
	struct output *out = open_out();
	GThread *threads[4];
	int i;

	for (i = 0; i < 4; i++)
		threads[i] = g_thread_new(NULL, add_many, out);
	for (i = 0; i < 4; i++)
		g_thread_join(threads[i]);
	commit(out);
	assert_holds("out/3/3.html", "3/3.html");
	assert_holds("out/6/3195.html", "6/3195.html");
}
END_TEST

int
main(void)
{
	Suite *suite = suite_create("output");
	TCase *cases = tcase_create("output");

	tcase_add_checked_fixture(cases, set_up, tear_down);
	tcase_add_test(cases, writes_a_new_folder);
	tcase_add_test(cases, makes_the_folders_above);
	tcase_add_test(cases, obeys_the_umask);
	tcase_add_test(cases, replaces_and_links);
	tcase_add_test(cases, abandons);
	tcase_add_test(cases, reserves_for_libraries);
	tcase_add_test(cases, unsettled_is_an_error);
	tcase_add_test(cases, keeps_files_and_folders);
	tcase_add_loop_test(cases, refuses_paths, 0, G_N_ELEMENTS(bad_paths));
	tcase_add_test(cases, refuses_writing_twice);
	tcase_add_test(cases, refuses_foreign_folders);
	tcase_add_test(cases, refuses_foreign_folders_late);
	tcase_add_test(cases, takes_empty_folders_and_links);
	tcase_add_test(cases, cleans_up_after_a_crash);
	tcase_add_test(cases, puts_the_earlier_back);
	tcase_add_test(cases, takes_files_from_threads);
	suite_add_tcase(suite, cases);
	return suite_run(suite);
}
