/*
 * Work on folders by descriptor: nothing here follows a symbolic link, so
 * nothing can be led out of the folder it was given.
 */
#ifndef BASE_FOLDER_H
#define BASE_FOLDER_H

#include <stdbool.h>
#include <stddef.h>

/*
 * Open the folder `name` under `parent` (or AT_FDCWD). Returns a descriptor,
 * or -1 with errno; a link or a file is ENOTDIR.
 */
int
folder_open(int parent, const char *name);

/* Whether `folder` has no entry; false with errno where it can't be read. */
bool
folder_is_empty(int folder);

/* Whether `path` under `folder` is a plain file. */
bool
folder_has_file(int folder, const char *path);

/*
 * Whether `path` under `folder` is a plain file of exactly these bytes. Any
 * trouble on the way is a no.
 */
bool
folder_same(int folder, const char *path, const void *bytes, size_t size);

/*
 * Remove `name` under `parent` with all that is in it. Goes on where something
 * can't be removed, and then returns false with the first errno.
 */
bool
folder_remove(int parent, const char *name);

/*
 * Call `visit` for each entry of `folder` but "." and "..", in the file
 * system's order, until it returns false. Entries may be removed meanwhile.
 * Returns false with errno where the folder can't be read, or where `visit`
 * returned false.
 */
bool
folder_each(int folder, bool (*visit)(int folder, const char *name, void *data),
	void *data);

#endif
