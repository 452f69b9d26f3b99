/*
 * An output folder that appears whole or not at all.
 *
 * What is written lands in a temporary folder beside OUT, on the same file
 * system. A commit exchanges the two in one step and removes the old one; an
 * abandoned or crashed run leaves the earlier OUT as it was. A file whose
 * bytes are those of the earlier OUT is hard-linked and not written again.
 *
 * OUT has to be absent, empty, or carry our marker; anything else may be
 * somebody's work, and is refused.
 *
 * Paths of files are relative to OUT, with "/" between their parts. One that
 * is absolute, climbs out, or is no UTF-8 is refused. An output may be added
 * to from several threads at once; opening and ending it may not overlap.
 */
#ifndef BASE_OUTPUT_H
#define BASE_OUTPUT_H

#include <glib.h>
#include <stdbool.h>
#include <stddef.h>

#define OUTPUT_MARKER ".hangtab-output"

/*
 * Errors are GErrors of this domain, with messages fit to be printed after
 * "hangtab: ".
 */
#define OUTPUT_ERROR output_error_quark()
GQuark
output_error_quark(void);

enum output_error {
	OUTPUT_REFUSED, /* OUT, or a path, is not one we write to: exit 2 */
	OUTPUT_FAILED	/* the system failed: disk, permission: exit 3 */
};

struct output;

/*
 * Called before each step that the system may refuse, with the step's name
 * ("mkdir", "write", "sync", "exchange"...). A result other than 0 is taken
 * for the errno of that step, which is then not done. For tests.
 */
struct output_fault {
	int (*before)(const char *step, void *data);
	void *data;
};

/*
 * Begin to write the folder `path`; folders above it are made, and
 * temporaries of crashed runs removed. Returns NULL and an error where OUT is
 * refused or the temporary can't be made. End it with output_commit() or
 * output_abandon(), one of them, once.
 */
struct output *
output_open(const char *path, GError **error);

/* The same with `fault`, which must outlive the output; NULL for none. */
struct output *
output_open_faulty(const char *path, const struct output_fault *fault,
	GError **error);

/*
 * Write the file `path` with `size` bytes. Returns false with an error where
 * the path is refused or was given before, or the system fails; the output
 * can then only be abandoned.
 */
bool
output_add(struct output *out, const char *path, const void *bytes, size_t size,
	GError **error);

/*
 * For libraries that write files themselves: the absolute place of the file
 * `path`, which does not exist yet; its folder does. The caller frees the text
 * with g_free(), and calls output_settle() when the file is written and
 * closed. NULL with an error as with output_add().
 */
char *
output_reserve(struct output *out, const char *path, GError **error);
bool
output_settle(struct output *out, const char *path, GError **error);

/*
 * Take the file or folder `path` over from the earlier OUT as it is. Returns
 * false without an error where the earlier OUT has none, and with an error
 * where the system fails.
 */
bool
output_keep(struct output *out, const char *path, GError **error);

/*
 * The names at the top of the earlier OUT but our marker's, sorted by bytes;
 * none where there was no OUT. Free with g_strfreev().
 */
char **
output_earlier(const struct output *out);

/*
 * Put what was written in OUT's place and free `out`. Returns false with an
 * error, and OUT as it was before, where that fails or where a reserved file
 * was never settled.
 */
bool
output_commit(struct output *out, GError **error);

/* Remove what was written and free `out`; OUT stays as it was. NULL is fine. */
void
output_abandon(struct output *out);

#endif
