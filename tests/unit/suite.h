/*
 * What every unit suite needs: Check, a closing line, and a scratch folder
 * that goes with the process.
 */
#ifndef UNIT_SUITE_H
#define UNIT_SUITE_H

#include <check.h>
#include <fcntl.h>
#include <glib.h>
#include <glib/gstdio.h>
#include <stdlib.h>

#include "base/folder.h"

/* Run the suite and print Check's closing line; for main to return. */
static inline int
suite_run(Suite *suite)
{
	SRunner *runner = srunner_create(suite);
	int failed;

	srunner_run_all(runner, CK_NORMAL);
	failed = srunner_ntests_failed(runner);
	srunner_free(runner);
	return failed == 0 ? EXIT_SUCCESS : EXIT_FAILURE;
}

/* A new, empty folder, the working directory from now on. */
static inline char *
scratch_new(void)
{
	char *folder = g_dir_make_tmp("hangtab-unit-XXXXXX", NULL);

	ck_assert_ptr_nonnull(folder);
	ck_assert_int_eq(g_chdir(folder), 0);
	return folder;
}

static inline void
scratch_free(char *folder)
{
	ck_assert_int_eq(g_chdir("/"), 0);
	ck_assert(folder_remove(AT_FDCWD, folder));
	g_free(folder);
}

#endif
