/*
 * The atomic output folder: what is written, what is linked, what is refused,
 * and that OUT stays whole whichever step the system refuses.
 */
#include "base/output.h"

#include <errno.h>
#include <string.h>
#include <sys/mount.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

#include "suite.h"

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

static void
add(struct output *out, const char *path, const char *text)
{
	GError *error = NULL;

	if (!output_add(out, path, text, strlen(text), &error))
		ck_abort_msg("%s", error->message);
}

static struct output *
open_out(void)
{
	GError *error = NULL;
	struct output *out = output_open("out", &error);

	if (out == NULL)
		ck_abort_msg("%s", error->message);
	return out;
}

static void
commit(struct output *out)
{
	GError *error = NULL;

	if (!output_commit(out, &error))
		ck_abort_msg("%s", error->message);
}

static void
assert_holds(const char *path, const char *text)
{
	char *bytes = NULL;

	ck_assert_msg(g_file_get_contents(path, &bytes, NULL, NULL),
		"%s cannot be read", path);
	ck_assert_str_eq(bytes, text);
	g_free(bytes);
}

static ino_t
number_of(const char *path)
{
	struct stat status;

	ck_assert_int_eq(stat(path, &status), 0);
	return status.st_ino;
}

/* How many entries the scratch folder has: OUT and nothing else, mostly. */
static int
entries_here(void)
{
	GDir *dir = g_dir_open(".", 0, NULL);
	int count = 0;

	while (g_dir_read_name(dir) != NULL)
		count++;
	g_dir_close(dir);
	return count;
}

static void
assert_code(GError *error, int code, const char *part)
{
	ck_assert_ptr_nonnull(error);
	ck_assert(g_error_matches(error, OUTPUT_ERROR, code));
	ck_assert_msg(strstr(error->message, part) != NULL,
		"\"%s\" lacks \"%s\"", error->message, part);
	g_error_free(error);
}

/* An OUT with three files, as the ground of what follows. */
static void
write_first(void)
{
	struct output *out = open_out();

	add(out, "index.html", "one");
	add(out, "cardback/18a.html", "two");
	add(out, "cardback/deep/er/x.html", "");
	commit(out);
}

static void
assert_first(void)
{
	assert_holds("out/index.html", "one");
	assert_holds("out/cardback/18a.html", "two");
	assert_holds("out/cardback/deep/er/x.html", "");
	ck_assert(g_file_test("out/" OUTPUT_MARKER, G_FILE_TEST_EXISTS));
	ck_assert_int_eq(entries_here(), 1);
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
	GError *error = NULL;
	ino_t back;

	write_first();
	back = number_of("out/cardback/18a.html");
	out = open_out();
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

/* Let the n-th step fail, with a chosen errno. */
struct plan {
	int left;
	int number;
	const char *only;
	char *step;
};

static int
fail_at(const char *step, void *data)
{
	struct plan *plan = data;

	if (plan->only != NULL && strcmp(plan->only, step) != 0)
		return 0;
	if (plan->left-- != 0)
		return 0;
	g_free(plan->step);
	plan->step = g_strdup(step);
	return plan->number;
}

/* One run through everything that writes; whether it got to the end. */
static bool
write_second(struct plan *plan, GError **error)
{
	struct output_fault fault = {.before = fail_at, .data = plan};
	struct output *out = output_open_faulty("out", &fault, error);
	char *place = NULL;
	bool fine;

	if (out == NULL)
		return false;
	fine = output_add(out, "index.html", "one", 3, error) &&
		output_add(out, "cardback/18a.html", "changed", 7, error) &&
		output_keep(out, "cardback/deep", error);
	if (fine)
		place = output_reserve(out, "a/guide.db", error);
	fine = place != NULL && g_file_set_contents(place, "db", 2, NULL) &&
		output_settle(out, "a/guide.db", error);
	g_free(place);
	if (fine)
		return output_commit(out, error);
	output_abandon(out);
	return false;
}

static void
assert_second(void)
{
	assert_holds("out/index.html", "one");
	assert_holds("out/cardback/18a.html", "changed");
	assert_holds("out/cardback/deep/er/x.html", "");
	assert_holds("out/a/guide.db", "db");
	ck_assert_int_eq(entries_here(), 1);
}

/*
 * Every step refused in turn: the run fails with the system's word, or gets by
 * without the step (a link); OUT is the earlier one or the new one, whole.
 */
START_TEST(stays_whole_at_each_fault)
{
	struct plan plan = {.number = ENOSPC};
	GError *error = NULL;
	int at;

	for (at = 0; at < 100; at++) {
		bool done;

		write_first();
		plan.left = at;
		done = write_second(&plan, &error);
		if (done) {
			assert_second();
			if (plan.left >= 0)
				break;
			ck_assert_str_eq(plan.step, "link");
			continue;
		}
		assert_first();
		assert_code(error, OUTPUT_FAILED, g_strerror(ENOSPC));
		error = NULL;
	}
	ck_assert_int_gt(at, 15);
	ck_assert_int_lt(at, 100);
	g_free(plan.step);
}
END_TEST

START_TEST(does_without_exchange)
{
	struct plan plan = {.number = EINVAL, .only = "exchange"};
	GError *error = NULL;

	write_first();
	ck_assert(write_second(&plan, &error));
	ck_assert_ptr_null(error);
	ck_assert_str_eq(plan.step, "exchange");
	assert_second();
	g_free(plan.step);
}
END_TEST

/* A real full disk: a file system of 64 KiB. Only root can make one. */
START_TEST(survives_a_full_disk)
{
	struct output *out;
	GError *error = NULL;
	char *much = g_malloc0(1 << 17);

	if (mount("none", folder, "tmpfs", 0, "size=64k") != 0) {
		g_free(much);
		return;
	}
	ck_assert_int_eq(g_chdir(folder), 0);
	write_first();
	out = open_out();
	ck_assert(!output_add(out, "big", much, 1 << 17, &error));
	assert_code(error, OUTPUT_FAILED, g_strerror(ENOSPC));
	output_abandon(out);
	assert_first();
	ck_assert_int_eq(g_chdir("/"), 0);
	ck_assert_int_eq(umount(folder), 0);
	g_free(much);
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
	tcase_add_test(cases, stays_whole_at_each_fault);
	tcase_add_test(cases, does_without_exchange);
	tcase_add_test(cases, survives_a_full_disk);
	tcase_add_test(cases, takes_files_from_threads);
	suite_add_tcase(suite, cases);
	return suite_run(suite);
}
