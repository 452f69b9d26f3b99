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
	unsigned *gaps;		/* by piece */
	bool *taken;		/* by piece: among those that close most */
};

typedef void claim_function(struct gathering *gathering,
	const struct filling *filling, const struct filled_slot *slot,
	const struct claim *claim);

static void
count(struct gathering *gathering, const struct filling *filling,
	const struct filled_slot *slot, const struct claim *claim)
{
	(void)filling;
	(void)slot;
	gathering->gaps[claim->piece]++;
}

static void
note(struct gathering *gathering, const struct filling *filling,
	const struct filled_slot *slot, const struct claim *claim)
{
	struct again one = {.piece = claim->piece, .gaps = 1};
	const char *key;
	unsigned place;

	if (!gathering->taken[claim->piece])
		return;
	one.look_at = study_look_at(gathering->pieces, filling, slot, claim,
		gathering->arena);
	if (one.look_at == NULL)
		one.look_at = "it again, and all of it";
	key = arena_print(gathering->arena, "%u %s", one.piece, one.look_at);
	place = GPOINTER_TO_UINT(g_hash_table_lookup(gathering->known, key));
	if (place > 0) {
		g_array_index(gathering->all, struct again, place - 1).gaps++;
		return;
	}
	g_array_append_val(gathering->all, one);
	g_hash_table_insert(gathering->known, (gpointer)(uintptr_t)key,
		GUINT_TO_POINTER(gathering->all->len));
}

static void
each_claim(struct gathering *gathering, struct filling *const *fillings,
	unsigned of, claim_function *function)
{
	unsigned i, j, k;

	for (i = 0; i < of; i++)
		for (j = 0; j < fillings[i]->count; j++) {
			const struct filled_slot *slot =
				&fillings[i]->items[j];

			if (slot->state != SLOT_POSSIBLE ||
				slot->slot->standing != SLOT_SURE)
				continue;
			for (k = 0; k < slot->count; k++)
				if (slot->claims[k].kind == CLAIM_POSSIBLE)
					function(gathering, fillings[i], slot,
						&slot->claims[k]);
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

/* Takes the pieces that may close most; gives how many others there are. */
static unsigned
take_most(struct gathering *gathering, unsigned most)
{
	GArray *order = g_array_new(FALSE, FALSE, sizeof(struct again));
	unsigned i, others;

	for (i = 0; i < gathering->pieces->count; i++) {
		struct again one = {i, "", gathering->gaps[i]};

		if (one.gaps > 0)
			g_array_append_val(order, one);
	}
	g_array_sort(order, compare_again);
	for (i = 0; i < order->len && i < most; i++)
		gathering->taken[g_array_index(order, struct again, i)
			.piece] = true;
	others = order->len - i;
	g_array_free(order, TRUE);
	return others;
}

struct again_list
study_again(const struct pieces *pieces, struct filling *const *fillings,
	unsigned filling_count, unsigned most, struct arena *arena)
{
	struct gathering gathering = {
		.pieces = pieces,
		.arena = arena,
		.all = g_array_new(FALSE, FALSE, sizeof(struct again)),
		.known = g_hash_table_new(g_str_hash, g_str_equal),
		.gaps = g_new0(unsigned, pieces->count + 1),
		.taken = g_new0(bool, pieces->count + 1),
	};
	struct again_list list = {0};
	struct again *items;

	each_claim(&gathering, fillings, filling_count, count);
	list.others = take_most(&gathering, most);
	each_claim(&gathering, fillings, filling_count, note);
	g_array_sort(gathering.all, compare_again);
	list.count = gathering.all->len;
	items = arena_array(arena, struct again, list.count);
	if (list.count > 0)
		memcpy(items, gathering.all->data, sizeof(*items) *
			list.count);
	list.items = items;
	g_array_free(gathering.all, TRUE);
	g_hash_table_destroy(gathering.known);
	g_free(gathering.gaps);
	g_free(gathering.taken);
	return list;
}
