/*
 * Arenas: memory that is handed out piece by piece and freed at once. A run
 * of the compiler has one for what lives to the end; a stage or a page may
 * have its own.
 */
#ifndef BASE_ARENA_H
#define BASE_ARENA_H

#include <stddef.h>

struct arena;

/* A new, empty arena; free it with arena_free. Never NULL. */
struct arena *
arena_new(void);

/* Frees all that came from the arena, and the arena. NULL is allowed. */
void
arena_free(struct arena *arena);

/* `size` zeroed bytes, aligned for any type, owned by the arena. */
void *
arena_alloc(struct arena *arena, size_t size);

/* A NUL-terminated copy of `size` bytes at `text`. */
char *
arena_text(struct arena *arena, const char *text, size_t size);

/* As printf, into the arena. */
char *
arena_print(struct arena *arena, const char *format, ...)
	__attribute__((format(printf, 2, 3)));

/* A zeroed array of `count` objects of `type`. */
#define arena_array(arena, type, count) \
	((type *)arena_alloc((arena), sizeof(type) * (size_t)(count)))

/* One zeroed object of `type`. */
#define arena_one(arena, type) arena_array(arena, type, 1)

#endif
