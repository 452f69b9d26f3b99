/*
 * The two ends of an output folder: its making, and its exchange with OUT.
 *
 * The temporary folder is called ".NAME.hangtab-PID-N", lies beside OUT, and
 * is locked by its maker with flock() for as long as it works on it. The
 * kernel drops the lock of a run that ends in any way, so a temporary that can
 * be locked is stale and may be removed.
 */
#include "base/output.h"

#include <errno.h>
#include <fcntl.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/file.h>
#include <sys/stat.h>
#include <unistd.h>

#include "base/folder.h"
#include "base/output_inside.h"

static const char marker_text[] =
	"hangtab writes this folder anew each time: what is put here is lost.\n";

/*
 * Split OUT into the folder that it lies in, absolute and without links, and
 * its name there. Where OUT is a link, what it leads to is OUT.
 */
static bool
split_path(struct output *out, char **above, GError **error)
{
	char *real = realpath(out->shown, NULL);
	struct stat status;
	char *whole;

	if (real == NULL && lstat(out->shown, &status) == 0 &&
		S_ISLNK(status.st_mode))
		return output_refused(out->shown,
			"is a link that leads nowhere; remove it or choose "
			"another folder", error);
	whole = real != NULL ? g_strdup(real) :
		g_canonicalize_filename(out->shown, NULL);
	free(real);
	*above = g_path_get_dirname(whole);
	out->name = g_path_get_basename(whole);
	g_free(whole);
	if (strchr(out->name, '/') != NULL)
		return output_refused(out->shown,
			"cannot be an output folder; choose another", error);
	return true;
}

static bool
open_parent(struct output *out, GError **error)
{
	char *above = NULL;
	bool opened = false;

	if (*out->shown == '\0')
		return output_refused(out->shown,
			"is no path; name a folder to write to", error);
	if (split_path(out, &above, error)) {
		if (!output_fails(out, "mkdir") &&
			g_mkdir_with_parents(above, 0777) == 0)
			out->parent = folder_open(AT_FDCWD, above);
		opened = out->parent >= 0 ||
			output_failed(out, "open the folder", above, error);
		out->place = g_strdup(above);
	}
	g_free(above);
	return opened;
}

/*
 * Look at what is at OUT: `earlier` becomes a descriptor of it, or -1 where
 * there is nothing. False with an error where it may be somebody's work.
 */
static bool
judge(const struct output *out, int *earlier, GError **error)
{
	*earlier = output_fails(out, "look") ? -1 :
		folder_open(out->parent, out->name);
	if (*earlier < 0 && errno == ENOENT)
		return true;
	if (*earlier < 0 && (errno == ENOTDIR || errno == ELOOP))
		return output_refused(out->shown,
			"is not a folder; choose another place or remove it",
			error);
	if (*earlier < 0)
		return output_failed(out, "open", out->shown, error);
	if (folder_has_file(*earlier, OUTPUT_MARKER) ||
		folder_is_empty(*earlier))
		return true;
	close(*earlier);
	*earlier = -1;
	return output_refused(out->shown,
		"holds something that hangtab did not write; choose an empty "
		"folder or one that does not exist", error);
}

/* Remove the temporary `name` if no living run holds it. */
static bool
remove_stale(int parent, const char *name, void *data)
{
	const char *prefix = data;
	int folder;

	if (!g_str_has_prefix(name, prefix))
		return true;
	folder = folder_open(parent, name);
	if (folder < 0)
		return true;
	if (flock(folder, LOCK_EX | LOCK_NB) == 0 &&
		(folder_has_file(folder, OUTPUT_MARKER) ||
			folder_is_empty(folder)))
		folder_remove(parent, name);
	close(folder);
	return true;
}

/*
 * Clear away what crashed runs left. Where a file system has no exchange, a
 * crash between two renames leaves the earlier OUT aside: put it back.
 */
static void
clean_up(struct output *out)
{
	char *prefix = g_strdup_printf(".%s.hangtab-", out->name);
	char *aside = g_strconcat(prefix, "earlier", NULL);

	renameat2(out->parent, aside, out->parent, out->name, RENAME_NOREPLACE);
	folder_each(out->parent, remove_stale, prefix);
	g_free(aside);
	g_free(prefix);
}

/*
 * Make a folder of this name and lock it. Another run that cleans up may take
 * it away before it is opened or locked: then the name no longer leads to it,
 * which is EEXIST as well, so that another name is tried.
 */
static bool
make_locked(struct output *out, const char *name)
{
	struct stat here, there;

	if (output_fails(out, "mkdir") || mkdirat(out->parent, name, 0777) != 0)
		return false;
	out->folder = folder_open(out->parent, name);
	if (out->folder < 0) {
		if (errno == ENOENT)
			errno = EEXIST;
		return false;
	}
	flock(out->folder, LOCK_EX);
	if (fstat(out->folder, &here) == 0 &&
		fstatat(out->parent, name, &there, AT_SYMLINK_NOFOLLOW) == 0 &&
		here.st_dev == there.st_dev && here.st_ino == there.st_ino)
		return true;
	close(out->folder);
	out->folder = -1;
	errno = EEXIST;
	return false;
}

static bool
make_temporary(struct output *out, GError **error)
{
	bool made = false;
	int number;
	char *place;

	for (number = 0; !made && number < 100; number++) {
		g_free(out->temporary);
		out->temporary = g_strdup_printf(".%s.hangtab-%ld-%d",
			out->name, (long)getpid(), number);
		made = make_locked(out, out->temporary);
		if (!made && errno != EEXIST)
			break;
	}
	if (!made)
		return output_failed(out, "make the folder", out->temporary,
			error);
	place = g_build_filename(out->place, out->temporary, NULL);
	g_free(out->place);
	out->place = place;
	return true;
}

static void
close_folder(int folder)
{
	if (folder >= 0)
		close(folder);
}

static void
free_output(struct output *out)
{
	close_folder(out->parent);
	close_folder(out->folder);
	close_folder(out->earlier);
	g_hash_table_unref(out->entries);
	g_hash_table_unref(out->folders);
	g_mutex_clear(&out->lock);
	g_free(out->shown);
	g_free(out->name);
	g_free(out->temporary);
	g_free(out->place);
	g_free(out);
}

struct output *
output_open_faulty(const char *path, const struct output_fault *fault,
	GError **error)
{
	struct output *out = g_new0(struct output, 1);

	out->fault = fault;
	out->shown = g_strdup(path);
	out->parent = out->folder = out->earlier = -1;
	g_mutex_init(&out->lock);
	out->entries = g_hash_table_new_full(g_str_hash, g_str_equal, g_free,
		NULL);
	out->folders = g_hash_table_new_full(g_str_hash, g_str_equal, g_free,
		NULL);
	if (open_parent(out, error)) {
		clean_up(out);
		if (judge(out, &out->earlier, error) &&
			make_temporary(out, error) &&
			output_put(out, OUTPUT_MARKER, marker_text,
				sizeof(marker_text) - 1, error))
			return out;
	}
	output_abandon(out);
	return NULL;
}

struct output *
output_open(const char *path, GError **error)
{
	return output_open_faulty(path, NULL, error);
}

/*
 * For file systems that cannot exchange two folders: put OUT aside, then the
 * new one in its place. A crash between the two is mended by clean_up().
 */
static bool
exchange_in_two(struct output *out)
{
	char *aside = g_strdup_printf(".%s.hangtab-earlier", out->name);
	int at = out->parent;
	bool done = renameat(at, out->name, at, aside) == 0;

	if (done && renameat(at, out->temporary, at, out->name) != 0) {
		int number = errno;

		renameat(at, aside, at, out->name);
		errno = number;
		done = false;
	}
	if (done)
		folder_remove(at, aside);
	g_free(aside);
	return done;
}

/* Put the temporary at OUT, and remove the earlier OUT if there is one. */
static bool
exchange(struct output *out, bool exists)
{
	unsigned how = exists ? RENAME_EXCHANGE : RENAME_NOREPLACE;
	bool done = !output_fails(out, "exchange") &&
		renameat2(out->parent, out->temporary, out->parent, out->name,
			how) == 0;

	if (!done && (errno == EINVAL || errno == ENOSYS))
		return exists ? exchange_in_two(out) :
				renameat(out->parent, out->temporary,
					out->parent, out->name) == 0;
	/* Where that fails the new OUT is there all the same, and the next
	 * run clears the old one away. */
	if (done && exists)
		folder_remove(out->parent, out->temporary);
	return done;
}

/*
 * Look at OUT again, since somebody may have written there meanwhile, and
 * exchange. Another run may make or remove OUT between the two: then once more.
 */
static bool
put_in_place(struct output *out, GError **error)
{
	int tries, found;

	for (tries = 0; tries < 3; tries++) {
		if (!judge(out, &found, error))
			return false;
		close_folder(found);
		if (exchange(out, found >= 0))
			return true;
		if (errno != EEXIST && errno != ENOENT)
			break;
	}
	return output_failed(out, "put in place", out->shown, error);
}

bool
output_commit(struct output *out, GError **error)
{
	bool committed = false;

	if (out->unsettled > 0)
		output_refused(out->shown,
			"has a file that was reserved and never settled",
			error);
	else if (output_fails(out, "sync") ||
		(out->written != 0 && syncfs(out->folder) != 0))
		output_failed(out, "write", out->shown, error);
	else
		committed = put_in_place(out, error);
	if (!committed) {
		output_abandon(out);
		return false;
	}
	fsync(out->parent);
	free_output(out);
	return true;
}

void
output_abandon(struct output *out)
{
	if (out == NULL)
		return;
	if (out->folder >= 0)
		folder_remove(out->parent, out->temporary);
	free_output(out);
}
