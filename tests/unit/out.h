/*
 * What the suites of the output folder share: writing into "out" in a scratch
 * folder, and looking at what is there.
 */
#ifndef UNIT_OUT_H
#define UNIT_OUT_H

#include <string.h>

#include "base/output.h"
#include "suite.h"

static inline void
add(struct output *out, const char *path, const char *text)
{
	GError *error = NULL;

	if (!output_add(out, path, text, strlen(text), &error))
		ck_abort_msg("%s", error->message);
}

static inline struct output *
open_out(void)
{
	GError *error = NULL;
	struct output *out = output_open("out", &error);

	if (out == NULL)
		ck_abort_msg("%s", error->message);
	return out;
}

static inline void
commit(struct output *out)
{
	GError *error = NULL;

	if (!output_commit(out, &error))
		ck_abort_msg("%s", error->message);
}

static inline void
assert_holds(const char *path, const char *text)
{
	char *bytes = NULL;

	ck_assert_msg(g_file_get_contents(path, &bytes, NULL, NULL),
		"%s cannot be read", path);
	ck_assert_str_eq(bytes, text);
	g_free(bytes);
}

/* How many entries the scratch folder has: OUT and nothing else, mostly. */
static inline int
entries_here(void)
{
	GDir *dir = g_dir_open(".", 0, NULL);
	int count = 0;

	while (g_dir_read_name(dir) != NULL)
		count++;
	g_dir_close(dir);
	return count;
}

static inline void
assert_code(GError *error, int code, const char *part)
{
	ck_assert_ptr_nonnull(error);
	ck_assert(g_error_matches(error, OUTPUT_ERROR, code));
	ck_assert_msg(strstr(error->message, part) != NULL,
		"\"%s\" lacks \"%s\"", error->message, part);
	g_error_free(error);
}

/* An OUT with three files, as the ground of what follows. */
static inline void
write_first(void)
{
	struct output *out = open_out();

	add(out, "index.html", "one");
	add(out, "cardback/18a.html", "two");
	add(out, "cardback/deep/er/x.html", "");
	commit(out);
}

static inline void
assert_first(void)
{
	assert_holds("out/index.html", "one");
	assert_holds("out/cardback/18a.html", "two");
	assert_holds("out/cardback/deep/er/x.html", "");
	ck_assert(g_file_test("out/" OUTPUT_MARKER, G_FILE_TEST_EXISTS));
	ck_assert_int_eq(entries_here(), 1);
}

#endif
