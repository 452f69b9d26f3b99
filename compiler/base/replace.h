/*
 * One file's bytes replaced by others: whole or not at all.
 */
#ifndef BASE_REPLACE_H
#define BASE_REPLACE_H

#include <stdbool.h>
#include <stddef.h>

/* Bytes and their number; the bytes belong to someone else. */
struct bytes {
	const char *bytes;
	size_t size;
};

/*
 * Replaces the file at `path`, which must still hold `old`, by `new`: written
 * beside it, then renamed over it, with its mode kept. A link, or anything but
 * a plain file, is refused. On failure the file is as it was; returns false
 * and sets *why to a text that the caller frees with g_free.
 */
bool
replace_file(const char *path, struct bytes old, struct bytes new, char **why);

#endif
