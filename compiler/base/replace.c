/*
 * Replacing a file by way of a hidden one beside it, on the same file system.
 * Whoever reads the folder meanwhile passes hidden files by.
 */
#include "base/replace.h"

#include <errno.h>
#include <fcntl.h>
#include <glib.h>
#include <stdio.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include "base/folder.h"

static bool
write_all(int fd, struct bytes bytes)
{
	size_t done = 0;

	while (done < bytes.size) {
		ssize_t some = write(fd, bytes.bytes + done,
			bytes.size - done);

		if (some < 0 && errno != EINTR)
			return false;
		if (some > 0)
			done += (size_t)some;
	}
	return true;
}

/*
 * Writes the hidden file and renames it. The owner is kept where the system
 * lets us; a file that one may edit but not give away still gets mended.
 */
static bool
write_over(const char *path, const struct stat *info, struct bytes new)
{
	char *folder = g_path_get_dirname(path);
	char *name = g_path_get_basename(path);
	char *hidden = g_strdup_printf("%s/.%s.XXXXXX", folder, name);
	int fd = g_mkstemp_full(hidden, O_WRONLY | O_CLOEXEC, 0600);
	bool done = fd >= 0;
	int error;

	if (done && fchown(fd, info->st_uid, info->st_gid) != 0)
		errno = 0;
	done = done && write_all(fd, new) &&
		fchmod(fd, info->st_mode & 07777) == 0 && fsync(fd) == 0;
	error = errno;
	if (fd >= 0 && close(fd) != 0 && done) {
		error = errno;
		done = false;
	}
	if (done && rename(hidden, path) != 0) {
		error = errno;
		done = false;
	}
	if (!done && fd >= 0)
		unlink(hidden);
	g_free(hidden);
	g_free(name);
	g_free(folder);
	errno = error;
	return done;
}

bool
replace_file(const char *path, struct bytes old, struct bytes new, char **why)
{
	struct stat info;

	if (lstat(path, &info) == 0) {
		if (!S_ISREG(info.st_mode)) {
			*why = g_strdup("it is a link or no plain file");
			return false;
		}
		if (!folder_same(AT_FDCWD, path, old.bytes, old.size)) {
			*why = g_strdup("it was changed meanwhile");
			return false;
		}
		if (access(path, W_OK) == 0 && write_over(path, &info, new))
			return true;
	}
	*why = g_strdup(g_strerror(errno));
	return false;
}
