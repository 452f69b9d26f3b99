/*
 * OUT stays whole whichever step the system refuses: each in turn, and a disk
 * that is really full.
 */
#include "base/output.h"

#include <errno.h>
#include <sys/mount.h>

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

int
main(void)
{
	Suite *suite = suite_create("output_faults");
	TCase *cases = tcase_create("output_faults");

	tcase_add_checked_fixture(cases, set_up, tear_down);
	tcase_add_test(cases, stays_whole_at_each_fault);
	tcase_add_test(cases, does_without_exchange);
	tcase_add_test(cases, survives_a_full_disk);
	suite_add_tcase(suite, cases);
	return suite_run(suite);
}
