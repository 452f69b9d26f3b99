/*
 * A table of names. The room of a label is the label with each digit as 0:
 * the figures of our fonts are all of one width.
 */
#include "write/handbook/places.h"

#include <string.h>

#include "base/arena.h"

void
places_init(struct places *places, struct arena *arena)
{
	places->arena = arena;
	places->spots = g_hash_table_new(g_str_hash, g_str_equal);
	places->used = NULL;
}

void
places_release(struct places *places)
{
	g_hash_table_destroy(places->spots);
}

bool
places_declare(struct places *places, const char *name)
{
	struct spot *spot;

	if (g_hash_table_contains(places->spots, name))
		return false;
	spot = arena_one(places->arena, struct spot);
	spot->name = name;
	spot->room = "00";
	g_hash_table_insert(places->spots,
		arena_text(places->arena, name, strlen(name)), spot);
	return true;
}

struct spot *
places_find(const struct places *places, const char *name)
{
	return g_hash_table_lookup(places->spots, name);
}

struct spot *
places_use(struct places *places, const char *name)
{
	struct spot *spot = places_find(places, name);

	if (spot != NULL && places->used != NULL)
		g_ptr_array_add(places->used, spot);
	return spot;
}

static bool
needs_room(const struct places *places, struct spot *spot, bool grow)
{
	char *room;
	size_t i;

	if (spot->label == NULL)
		return false;
	if (grow && strlen(spot->label) <= strlen(spot->room))
		return false;
	room = arena_text(places->arena, spot->label, strlen(spot->label));
	for (i = 0; room[i] != '\0'; i++) {
		if (g_ascii_isdigit(room[i]))
			room[i] = '0';
	}
	if (strcmp(room, spot->room) == 0)
		return false;
	spot->room = room;
	return true;
}

unsigned
places_settle(struct places *places, bool grow)
{
	GHashTableIter iter;
	unsigned moved = 0;
	gpointer value;
	struct spot *spot;

	g_hash_table_iter_init(&iter, places->spots);
	while (g_hash_table_iter_next(&iter, NULL, &value)) {
		spot = value;
		spot->moved = needs_room(places, spot, grow);
		moved += spot->moved;
	}
	return moved;
}
