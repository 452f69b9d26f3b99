/*
 * Folders by descriptor. The functions share one habit: they are given an
 * open folder and a name in it, and leave the descriptor as they found it.
 */
#include "base/folder.h"

#include <dirent.h>
#include <errno.h>
#include <fcntl.h>
#include <glib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

int
folder_open(int parent, const char *name)
{
	return openat(parent, name,
		O_RDONLY | O_DIRECTORY | O_NOFOLLOW | O_CLOEXEC);
}

bool
folder_each(int folder, bool (*visit)(int folder, const char *name, void *data),
	void *data)
{
	/* A descriptor of its own, since closedir() closes what it was given
	 * and a shared one would share the reading position. */
	int own = folder_open(folder, ".");
	DIR *entries = own < 0 ? NULL : fdopendir(own);
	bool going = true;
	int trouble;

	if (entries == NULL) {
		trouble = errno;
		if (own >= 0)
			close(own);
		errno = trouble;
		return false;
	}
	while (going) {
		const struct dirent *entry;

		errno = 0;
		entry = readdir(entries);
		if (entry == NULL)
			break;
		if (strcmp(entry->d_name, ".") == 0 ||
			strcmp(entry->d_name, "..") == 0)
			continue;
		going = visit(folder, entry->d_name, data);
	}
	trouble = errno;
	closedir(entries);
	errno = trouble;
	return going && trouble == 0;
}

static bool
stop_at_first(int folder, const char *name, void *data)
{
	bool *seen = data;

	(void)folder;
	(void)name;
	*seen = true;
	return false;
}

bool
folder_is_empty(int folder)
{
	bool seen = false;

	return folder_each(folder, stop_at_first, &seen) && !seen;
}

bool
folder_has_file(int folder, const char *path)
{
	struct stat status;

	return fstatat(folder, path, &status, AT_SYMLINK_NOFOLLOW) == 0 &&
		S_ISREG(status.st_mode);
}

/* Read rather than mapped: a file cut short meanwhile must not be a crash. */
static bool
holds(int file, const char *bytes, size_t size)
{
	char chunk[65536];
	size_t done = 0;

	while (done < size) {
		size_t wanted = MIN(size - done, sizeof(chunk));
		ssize_t got = read(file, chunk, wanted);

		if (got <= 0 || memcmp(chunk, bytes + done, (size_t)got) != 0)
			return false;
		done += (size_t)got;
	}
	return true;
}

bool
folder_same(int folder, const char *path, const void *bytes, size_t size)
{
	int file = openat(folder, path,
		O_RDONLY | O_NOFOLLOW | O_NONBLOCK | O_CLOEXEC);
	struct stat status;
	bool same;

	if (file < 0)
		return false;
	same = fstat(file, &status) == 0 && S_ISREG(status.st_mode) &&
		(size_t)status.st_size == size && holds(file, bytes, size);
	close(file);
	return same;
}

static bool
remove_entry(int folder, const char *name, void *data)
{
	int *first = data;

	if (!folder_remove(folder, name) && *first == 0)
		*first = errno;
	return true;
}

bool
folder_remove(int parent, const char *name)
{
	int first = 0;
	int folder;

	if (unlinkat(parent, name, 0) == 0)
		return true;
	if (errno != EISDIR && errno != EPERM)
		return false;
	folder = folder_open(parent, name);
	if (folder < 0)
		return false;
	if (!folder_each(folder, remove_entry, &first) && first == 0)
		first = errno;
	close(folder);
	if (unlinkat(parent, name, AT_REMOVEDIR) == 0)
		return true;
	if (first != 0)
		errno = first;
	return false;
}
