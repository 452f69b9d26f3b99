/*
 * Looking for the data that comes with the program. A program in a source
 * tree must use the tree's schema, even where an older one is installed, so
 * the folders around the program come before the one given at build time.
 */
#include "base/place.h"

#include <glib.h>

#ifndef HANGTAB_DATADIR
#define HANGTAB_DATADIR "/usr/local/share/hangtab"
#endif

/*
 * `root`/`name` if it is a data folder, else NULL. A stray folder called
 * "site" somewhere above the program must not be taken for ours: the schema
 * has to lie beside it. In a source tree the codes lie among the tests.
 */
static char *
data_in(const char *root, const char *name)
{
	char *witness = g_build_filename(root, "schema", "every.yaml", NULL);
	char *path = NULL;

	if (g_file_test(witness, G_FILE_TEST_IS_REGULAR))
		path = g_build_filename(root, name, NULL);
	g_free(witness);
	if (path == NULL || g_file_test(path, G_FILE_TEST_IS_DIR))
		return path;
	g_free(path);
	path = g_build_filename(root, "tests", name, NULL);
	if (!g_file_test(path, G_FILE_TEST_IS_DIR))
		g_clear_pointer(&path, g_free);
	return path;
}

static char *
data_near_program(const char *name)
{
	char *program = g_file_read_link("/proc/self/exe", NULL);
	char *found = NULL;
	char *folder, *share;
	int level;

	if (program == NULL)
		return NULL;
	folder = g_path_get_dirname(program);
	for (level = 0; level < 3 && found == NULL; level++) {
		char *above = g_path_get_dirname(folder);

		g_free(folder);
		folder = above;
		found = data_in(folder, name);
		if (found != NULL || level > 0)
			continue;
		share = g_build_filename(folder, "share", "hangtab", NULL);
		found = data_in(share, name);
		g_free(share);
	}
	g_free(folder);
	g_free(program);
	return found;
}

char *
place_data(const char *name)
{
	const char *given = g_getenv("HANGTAB_DATA");
	char *found = NULL;

	if (given != NULL && *given != '\0')
		return data_in(given, name);
	found = data_near_program(name);
	if (found == NULL)
		found = data_in(HANGTAB_DATADIR, name);
	return found;
}
