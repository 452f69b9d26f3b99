/*
 * What goes into an output folder. Each file is entered by its path first, so
 * that none is written twice; then it is linked, written, or left to a library.
 * All work is relative to open descriptors: of the temporary folder, and of
 * the earlier OUT.
 */
#include "base/output.h"

#include <errno.h>
#include <fcntl.h>
#include <stdio.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include "base/folder.h"
#include "base/output_inside.h"

GQuark
output_error_quark(void)
{
	return g_quark_from_static_string("hangtab-output");
}

bool
output_fails(const struct output *out, const char *step)
{
	int number = 0;

	if (out->fault != NULL)
		number = out->fault->before(step, out->fault->data);
	if (number != 0)
		errno = number;
	return number != 0;
}

bool
output_failed(const struct output *out, const char *verb, const char *what,
	GError **error)
{
	int number = errno;

	g_set_error(error, OUTPUT_ERROR, OUTPUT_FAILED,
		"cannot %s \"%s\" for \"%s\": %s", verb, what, out->shown,
		g_strerror(number));
	return false;
}

bool
output_refused(const char *shown, const char *why, GError **error)
{
	g_set_error(error, OUTPUT_ERROR, OUTPUT_REFUSED, "\"%s\" %s", shown,
		why);
	return false;
}

/* Whether `path` names a file below a folder, and cannot lead out of it. */
static bool
is_safe(const char *path)
{
	char **parts, **part;
	bool safe = *path != '\0' && g_utf8_validate(path, -1, NULL) &&
		strcmp(path, OUTPUT_MARKER) != 0;
	const char *byte;

	for (byte = path; safe && *byte != '\0'; byte++)
		safe = (unsigned char)*byte >= ' ' && *byte != 0x7f;
	parts = g_strsplit(path, "/", -1);
	for (part = parts; safe && *part != NULL; part++)
		safe = **part != '\0' && strlen(*part) <= 255 &&
			strcmp(*part, ".") != 0 && strcmp(*part, "..") != 0;
	g_strfreev(parts);
	return safe;
}

static bool
make_folder(struct output *out, const char *path, GError **error)
{
	if (g_hash_table_contains(out->folders, path))
		return true;
	if (output_fails(out, "mkdir") ||
		(mkdirat(out->folder, path, 0777) != 0 && errno != EEXIST))
		return output_failed(out, "make the folder", path, error);
	g_hash_table_add(out->folders, g_strdup(path));
	return true;
}

/* Make the folders that the file `path` lies in. */
static bool
make_folders(struct output *out, const char *path, GError **error)
{
	char *above = g_path_get_dirname(path);
	bool made = strcmp(above, ".") == 0 ||
		g_hash_table_contains(out->folders, above);
	char *slash;

	if (!made) {
		made = true;
		for (slash = strchr(above, '/'); made && slash != NULL;
			slash = strchr(slash + 1, '/')) {
			*slash = '\0';
			made = make_folder(out, above, error);
			*slash = '/';
		}
		made = made && make_folder(out, above, error);
	}
	g_free(above);
	return made;
}

/*
 * Enter `path` as `entry`, which it must not be yet: what was never entered
 * can be reserved or done, what is reserved only done.
 */
static bool
enter(struct output *out, const char *path, enum entry from, enum entry to,
	GError **error)
{
	bool entered;

	if (!is_safe(path))
		return output_refused(path,
			"is not a path inside the output folder", error);
	g_mutex_lock(&out->lock);
	if (GPOINTER_TO_INT(g_hash_table_lookup(out->entries, path)) !=
		(int)from) {
		entered = output_refused(path,
			from == ENTRY_NONE ? "was written twice" :
					     "was not reserved",
			error);
	} else {
		entered = make_folders(out, path, error);
		g_hash_table_insert(out->entries, g_strdup(path),
			GINT_TO_POINTER((int)to));
		out->unsettled += to == ENTRY_RESERVED;
		out->unsettled -= from == ENTRY_RESERVED;
	}
	g_mutex_unlock(&out->lock);
	return entered;
}

/* Link the earlier OUT's file. False is no error: it can be written instead. */
static bool
link_earlier(const struct output *out, const char *path)
{
	return out->earlier >= 0 && !output_fails(out, "link") &&
		linkat(out->earlier, path, out->folder, path, 0) == 0;
}

static bool
write_all(const struct output *out, int file, const char *bytes, size_t size)
{
	size_t done = 0;

	while (done < size) {
		ssize_t wrote = output_fails(out, "write") ?
			-1 :
			write(file, bytes + done, size - done);

		if (wrote < 0 && errno != EINTR)
			return false;
		done += wrote < 0 ? 0 : (size_t)wrote;
	}
	return true;
}

bool
output_put(struct output *out, const char *path, const void *bytes, size_t size,
	GError **error)
{
	int file = output_fails(out, "create") ?
		-1 :
		openat(out->folder, path,
			O_WRONLY | O_CREAT | O_EXCL | O_NOFOLLOW | O_CLOEXEC,
			0666);
	bool wrote;

	if (file < 0)
		return output_failed(out, "write", path, error);
	wrote = write_all(out, file, bytes, size);
	if (!wrote) {
		output_failed(out, "write", path, error);
		close(file);
		return false;
	}
	if (output_fails(out, "close") || close(file) != 0)
		return output_failed(out, "write", path, error);
	g_atomic_int_set(&out->written, 1);
	return true;
}

bool
output_add(struct output *out, const char *path, const void *bytes, size_t size,
	GError **error)
{
	if (!enter(out, path, ENTRY_NONE, ENTRY_DONE, error))
		return false;
	if (out->earlier >= 0 && folder_same(out->earlier, path, bytes, size) &&
		link_earlier(out, path))
		return true;
	return output_put(out, path, bytes, size, error);
}

char *
output_reserve(struct output *out, const char *path, GError **error)
{
	if (!enter(out, path, ENTRY_NONE, ENTRY_RESERVED, error))
		return NULL;
	return g_build_filename(out->place, path, NULL);
}

/*
 * Give `path` the earlier OUT's file in place of the new one, which has the
 * same bytes. Where that file can't be linked the new one is as good.
 */
static bool
relink(struct output *out, const char *path)
{
	static const char second[] = OUTPUT_MARKER ".second";
	bool fine = true;

	g_mutex_lock(&out->lock);
	if (!output_fails(out, "link") &&
		linkat(out->earlier, path, out->folder, second, 0) == 0)
		fine = renameat(out->folder, second, out->folder, path) == 0;
	g_mutex_unlock(&out->lock);
	return fine;
}

bool
output_settle(struct output *out, const char *path, GError **error)
{
	char *place;
	GMappedFile *file;
	bool same;

	if (!enter(out, path, ENTRY_RESERVED, ENTRY_DONE, error))
		return false;
	if (!folder_has_file(out->folder, path)) {
		errno = ENOENT;
		return output_failed(out, "find", path, error);
	}
	g_atomic_int_set(&out->written, 1);
	if (out->earlier < 0)
		return true;
	place = g_build_filename(out->place, path, NULL);
	file = g_mapped_file_new(place, FALSE, NULL);
	g_free(place);
	same = file != NULL &&
		folder_same(out->earlier, path,
			g_mapped_file_get_contents(file),
			g_mapped_file_get_length(file));
	if (file != NULL)
		g_mapped_file_unref(file);
	return !same || relink(out, path) ||
		output_failed(out, "link", path, error);
}

/* The bytes of the earlier OUT's file, written again. */
static bool
copy_earlier(struct output *out, const char *path, GError **error)
{
	int file = openat(out->earlier, path,
		O_RDONLY | O_NOFOLLOW | O_NONBLOCK | O_CLOEXEC);
	GMappedFile *map = file < 0 ?
		NULL :
		g_mapped_file_new_from_fd(file, FALSE, NULL);
	bool copied = map != NULL ?
		output_put(out, path, g_mapped_file_get_contents(map),
			g_mapped_file_get_length(map), error) :
		output_failed(out, "read the earlier", path, error);

	if (map != NULL)
		g_mapped_file_unref(map);
	if (file >= 0)
		close(file);
	return copied;
}

struct keeping {
	struct output *out;
	const char *path;
	GError **error;
};

static bool
keep_entry(int folder, const char *name, void *data)
{
	const struct keeping *keeping = data;
	char *path = g_strconcat(keeping->path, "/", name, NULL);
	bool kept = output_keep(keeping->out, path, keeping->error);

	(void)folder;
	g_free(path);
	return kept;
}

static bool
keep_folder(struct output *out, const char *path, GError **error)
{
	struct keeping keeping = {.out = out, .path = path, .error = error};
	int folder = folder_open(out->earlier, path);
	bool kept = folder >= 0 && folder_each(folder, keep_entry, &keeping);

	if (!kept && (error == NULL || *error == NULL))
		output_failed(out, "read the earlier", path, error);
	if (folder >= 0)
		close(folder);
	return kept;
}

bool
output_keep(struct output *out, const char *path, GError **error)
{
	struct stat status;

	if (!is_safe(path))
		return enter(out, path, ENTRY_NONE, ENTRY_DONE, error);
	if (out->earlier < 0 ||
		fstatat(out->earlier, path, &status, AT_SYMLINK_NOFOLLOW) != 0)
		return false;
	if (S_ISDIR(status.st_mode))
		return keep_folder(out, path, error);
	return enter(out, path, ENTRY_NONE, ENTRY_DONE, error) &&
		(link_earlier(out, path) || copy_earlier(out, path, error));
}

static bool
note_name(int folder, const char *name, void *data)
{
	(void)folder;
	if (strcmp(name, OUTPUT_MARKER) != 0)
		g_ptr_array_add(data, g_strdup(name));
	return true;
}

static int
compare_names(const void *left, const void *right)
{
	return strcmp(*(const char *const *)left, *(const char *const *)right);
}

char **
output_earlier(const struct output *out)
{
	GPtrArray *names = g_ptr_array_new();

	if (out->earlier >= 0)
		folder_each(out->earlier, note_name, names);
	g_ptr_array_sort(names, compare_names);
	g_ptr_array_add(names, NULL);
	return (char **)g_ptr_array_free(names, FALSE);
}
