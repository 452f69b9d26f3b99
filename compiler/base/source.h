/*
 * Source files and places in them. A span is the one way to say where
 * something stands: a file and a range of its bytes. Lines and columns are
 * worked out only when a place is shown to a person.
 */
#ifndef BASE_SOURCE_H
#define BASE_SOURCE_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

/* Bytes `from` up to, not including, `to` of a file; file 0 is nowhere. */
struct span {
	uint32_t file;
	uint32_t from;
	uint32_t to;
};

#define SPAN_NOWHERE ((struct span){0, 0, 0})

struct source {
	const char *path;	/* as a person would type it */
	const char *bytes;	/* NUL-terminated; not part of size */
	uint32_t size;
	struct line_starts *lines;	/* of source.c */
};

/* A place as people count: from 1, columns in characters. */
struct place {
	uint32_t line;
	uint32_t column;
};

struct sources;

struct sources *
sources_new(void);

void
sources_free(struct sources *sources);

/*
 * Adds a file under `path` (copied), with `size` bytes (taken over: allocated
 * by g_malloc, with a NUL behind). Returns its number, from 1.
 */
uint32_t
sources_add(struct sources *sources, const char *path, char *bytes,
	uint32_t size);

/*
 * Reads `file` from disk and adds it under `path`. On failure returns 0 and
 * sets *why to a text the caller frees with g_free.
 */
uint32_t
sources_read(struct sources *sources, const char *file, const char *path,
	char **why);

/*
 * From now on `bytes` (copied) stand for the file on disk that is read under
 * `path`.
 */
void
sources_edit(struct sources *sources, const char *path, const char *bytes,
	size_t size);

/* The file with that number, or NULL for 0. */
const struct source *
sources_get(const struct sources *sources, uint32_t file);

uint32_t
sources_count(const struct sources *sources);

/* Line and column of a byte of a file. */
struct place
source_place(const struct source *source, uint32_t byte);

/* The first byte of the line that holds `byte`, and the byte after its last. */
struct span
source_line(const struct source *source, uint32_t byte);

#endif
