/*
 * The whole file is written beside its place and then given its name, so that
 * nobody ever reads half of it, and under no other mode.
 */
#include "base/private.h"

#include <errno.h>
#include <fcntl.h>
#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include "base/output.h"

static const char settings_name[] = "corpus.yaml";

static bool G_GNUC_PRINTF(3, 4)
fail(GError **error, enum output_error code, const char *format, ...)
{
	char *message;
	va_list args;

	va_start(args, format);
	message = g_strdup_vprintf(format, args);
	va_end(args);
	g_set_error_literal(error, OUTPUT_ERROR, (gint)code, message);
	g_free(message);
	return false;
}

/* Whether two paths name one folder. */
static bool
is_same(const char *one, const char *other)
{
	struct stat a, b;

	return stat(one, &a) == 0 && stat(other, &b) == 0 &&
		a.st_dev == b.st_dev && a.st_ino == b.st_ino;
}

static bool
has_file(const char *folder, const char *name)
{
	char *path = g_build_filename(folder, name, NULL);
	bool found = g_file_test(path, G_FILE_TEST_EXISTS);

	g_free(path);
	return found;
}

/* Whether a folder, or one around it, is a guide or a corpus. */
static bool
check_around(const char *folder, const char *corpus, GError **error)
{
	char *at = g_strdup(folder), *above;
	bool good = true;

	for (;;) {
		if (has_file(at, OUTPUT_MARKER))
			good = fail(error, OUTPUT_REFUSED, "\"%s\" is a guide, "
				"which is for everybody; write your own papers "
				"somewhere else", at);
		else if (has_file(at, settings_name) ||
			(corpus != NULL && is_same(at, corpus)))
			good = fail(error, OUTPUT_REFUSED, "\"%s\" is a "
				"corpus, which is for everybody; write your "
				"own papers somewhere else", at);
		if (!good || strcmp(at, "/") == 0)
			break;
		above = g_path_get_dirname(at);
		g_free(at);
		at = above;
	}
	g_free(at);
	return good;
}

/*
 * Where the folder really is: links in what is there of it are followed, and
 * what is not there yet stays as it was named. Free it with g_free.
 */
static char *
true_place(const char *folder)
{
	char *whole = g_canonicalize_filename(folder, NULL), *found, *rest;
	char *at = g_strdup(whole), *above;

	for (found = realpath(at, NULL); found == NULL && strcmp(at, "/") != 0;
		found = realpath(at, NULL)) {
		above = g_path_get_dirname(at);
		g_free(at);
		at = above;
	}
	rest = g_build_filename(found == NULL ? "/" : found,
		whole + strlen(at), NULL);
	free(found);
	g_free(whole);
	g_free(at);
	return rest;
}

static bool
write_all(int file, const char *bytes, size_t size)
{
	ssize_t done;

	for (; size > 0; bytes += done, size -= (size_t)done) {
		done = write(file, bytes, size);
		if (done < 0 && errno == EINTR)
			done = 0;
		else if (done < 0)
			return false;
	}
	return fsync(file) == 0;
}

/* Gives the finished file its name. */
static bool
settle(const char *made, const char *path, bool again, GError **error)
{
	int failed = again ? rename(made, path) : link(made, path);

	if (failed == 0)
		return true;
	if (errno == EEXIST)
		return fail(error, OUTPUT_REFUSED, "\"%s\" is there already, "
			"and nothing is written over", path);
	return fail(error, OUTPUT_FAILED, "\"%s\" cannot be written: %s", path,
		g_strerror(errno));
}

static bool
write_beside(const char *path, const void *bytes, size_t size, bool again,
	GError **error)
{
	char *made = g_strdup_printf("%s.XXXXXX", path);
	int file = g_mkstemp_full(made, O_WRONLY | O_CLOEXEC, 0600);
	bool good = file >= 0 && fchmod(file, 0600) == 0 &&
		write_all(file, bytes, size);

	if (!good)
		fail(error, OUTPUT_FAILED, "\"%s\" cannot be written: %s",
			path, g_strerror(errno));
	if (file >= 0 && close(file) != 0 && good)
		good = fail(error, OUTPUT_FAILED, "\"%s\" cannot be written: "
			"%s", path, g_strerror(errno));
	good = good && settle(made, path, again, error);
	if (file >= 0 && (!good || !again))
		unlink(made);
	g_free(made);
	return good;
}

bool
private_write(const char *path, const char *corpus, const void *bytes,
	size_t size, bool again, GError **error)
{
	char *named = g_path_get_dirname(path), *name, *folder, *place;
	bool good;

	name = g_path_get_basename(path);
	folder = true_place(named);
	place = g_build_filename(folder, name, NULL);
	good = check_around(folder, corpus, error);
	if (good && g_mkdir_with_parents(folder, 0700) != 0)
		good = fail(error, OUTPUT_FAILED, "\"%s\" cannot be made: %s",
			named, g_strerror(errno));
	good = good && write_beside(place, bytes, size, again, error);
	g_free(place);
	g_free(folder);
	g_free(name);
	g_free(named);
	return good;
}
