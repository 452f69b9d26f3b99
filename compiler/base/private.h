/*
 * Files for their owner alone: reports on one's own pieces. A file is made with
 * mode 0600, folders above it that are not there yet with 0700. Nothing is
 * written into a published guide, nor into a corpus, from which a guide may be
 * made.
 */
#ifndef BASE_PRIVATE_H
#define BASE_PRIVATE_H

#include <glib.h>
#include <stdbool.h>

/*
 * Writes `size` bytes as the file `path`, which must not exist unless `again`:
 * then a file of that name is replaced as a whole. False with an error of
 * OUTPUT_ERROR (base/output.h) where the place is refused or the system fails;
 * an earlier file is then as it was. `corpus` is the folder of the corpus in
 * use, or NULL.
 */
bool
private_write(const char *path, const char *corpus, const void *bytes,
	size_t size, bool again, GError **error);

#endif
