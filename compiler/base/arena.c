/*
 * Arenas as a chain of blocks. Blocks double in size up to a limit, so that a
 * small page costs little and a large corpus few calls; a piece larger than a
 * block gets a block of its own.
 */
#include "base/arena.h"

#include <glib.h>
#include <stdarg.h>
#include <stdalign.h>
#include <stdint.h>
#include <stdio.h>
#include <string.h>

enum { FIRST_BLOCK = 4096, LARGEST_BLOCK = 1 << 20 };

struct block {
	struct block *next;
	size_t size;
	size_t used;
	alignas(max_align_t) char bytes[];
};

struct arena {
	struct block *blocks;
};

struct arena *
arena_new(void)
{
	return g_new0(struct arena, 1);
}

void
arena_free(struct arena *arena)
{
	struct block *block, *next;

	if (arena == NULL)
		return;
	for (block = arena->blocks; block != NULL; block = next) {
		next = block->next;
		g_free(block);
	}
	g_free(arena);
}

static struct block *
add_block(struct arena *arena, size_t least)
{
	size_t size = FIRST_BLOCK;
	struct block *block;

	if (arena->blocks != NULL)
		size = MIN(arena->blocks->size * 2, (size_t)LARGEST_BLOCK);
	size = MAX(size, least);
	block = g_malloc0(sizeof(*block) + size);
	block->size = size;
	block->next = arena->blocks;
	arena->blocks = block;
	return block;
}

void *
arena_alloc(struct arena *arena, size_t size)
{
	const size_t grain = alignof(max_align_t);
	struct block *block = arena->blocks;
	void *piece;

	g_assert(size <= SIZE_MAX / 2);
	size = (size + grain - 1) / grain * grain;
	if (block == NULL || block->size - block->used < size)
		block = add_block(arena, size);
	piece = block->bytes + block->used;
	block->used += size;
	return piece;
}

char *
arena_text(struct arena *arena, const char *text, size_t size)
{
	char *copy = arena_alloc(arena, size + 1);

	if (size > 0)
		memcpy(copy, text, size);
	return copy;
}

char *
arena_print(struct arena *arena, const char *format, ...)
{
	va_list args;
	char *text;
	int size;

	va_start(args, format);
	size = vsnprintf(NULL, 0, format, args);
	va_end(args);
	text = arena_alloc(arena, (size_t)size + 1);
	va_start(args, format);
	vsnprintf(text, (size_t)size + 1, format, args);
	va_end(args);
	return text;
}
