/*
 * Possible claims, by piece and by what to look at.
 */
#include "study/again.h"

#include <string.h>

struct gathering {
	const struct pieces *pieces;
	struct arena *arena;
	GArray *all;		/* struct again */
	GHashTable *known;	/* "piece words" → place, from 1 */
};

static void
note(struct gathering *gathering, const struct filling *filling,
	const struct filled_slot *slot)
{
	unsigned i;

	for (i = 0; i < slot->count; i++) {
		const struct claim *claim = &slot->claims[i];
		struct again one = {.piece = claim->piece, .gaps = 1};
		const char *key;
		unsigned place;

		if (claim->kind != CLAIM_POSSIBLE)
			continue;
		one.look_at = study_look_at(gathering->pieces, filling, slot,
			claim, gathering->arena);
		if (one.look_at == NULL)
			one.look_at = "it again, and all of it";
		key = arena_print(gathering->arena, "%u %s", one.piece,
			one.look_at);
		place = GPOINTER_TO_UINT(g_hash_table_lookup(
			gathering->known, key));
		if (place > 0) {
			g_array_index(gathering->all, struct again,
				place - 1).gaps++;
			continue;
		}
		g_array_append_val(gathering->all, one);
		g_hash_table_insert(gathering->known,
			(gpointer)(uintptr_t)key,
			GUINT_TO_POINTER(gathering->all->len));
	}
}

static gint
compare_again(gconstpointer a, gconstpointer b)
{
	const struct again *one = a, *other = b;

	if (one->gaps != other->gaps)
		return one->gaps > other->gaps ? -1 : 1;
	if (one->piece != other->piece)
		return one->piece < other->piece ? -1 : 1;
	return strcmp(one->look_at, other->look_at);
}

struct again_list
study_again(const struct pieces *pieces, struct filling *const *fillings,
	unsigned count, struct arena *arena)
{
	struct gathering gathering = {
		.pieces = pieces,
		.arena = arena,
		.all = g_array_new(FALSE, FALSE, sizeof(struct again)),
		.known = g_hash_table_new(g_str_hash, g_str_equal),
	};
	struct again_list list = {0};
	struct again *items;
	unsigned i, j;

	for (i = 0; i < count; i++)
		for (j = 0; j < fillings[i]->count; j++) {
			const struct filled_slot *slot =
				&fillings[i]->items[j];

			if (slot->state == SLOT_POSSIBLE &&
				slot->slot->standing == SLOT_SURE)
				note(&gathering, fillings[i], slot);
		}
	g_array_sort(gathering.all, compare_again);
	list.count = gathering.all->len;
	items = arena_array(arena, struct again, list.count);
	if (list.count > 0)
		memcpy(items, gathering.all->data, sizeof(*items) *
			list.count);
	list.items = items;
	g_array_free(gathering.all, TRUE);
	g_hash_table_destroy(gathering.known);
	return list;
}
