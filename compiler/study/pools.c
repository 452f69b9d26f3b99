/*
 * Counts, for each market, how many pieces were seen once, twice and so on.
 */
#include "study/pools.h"

#include <glib.h>

#include "study/evidence_inside.h"

struct pools {
	struct pool *items;	/* by market */
};

const struct record *
pools_market(const struct model *model, const struct record *pairing)
{
	const struct record *cardback = model_record(model, pairing->values,
		NAME(PAIRING_CARDBACK));

	return cardback == NULL ? NULL : model_record(model, cardback->values,
		NAME(CARDBACK_MARKET));
}

static void
count_piece(GArray **times, unsigned seen)
{
	if (*times == NULL)
		*times = g_array_new(FALSE, TRUE, sizeof(unsigned));
	if ((*times)->len < seen)
		g_array_set_size(*times, seen);
	g_array_index(*times, unsigned, seen - 1)++;
}

static void
count_pairing(const struct model *model, const struct seen *seen,
	const struct evidences *evidences, const struct record *pairing,
	GArray **times)
{
	const struct record *market = pools_market(model, pairing);
	struct seen_list list = seen_of_pairing(seen, pairing);
	unsigned i;

	for (i = 0; market != NULL && i < list.count; i++) {
		const struct piece_seen *piece = &evidences->pieces[
			list.items[i].specimen->index];

		if (list.items[i].certain && piece->count > 0 &&
			piece->standing == STANDING_COUNTS)
			count_piece(&times[market->index], piece->count);
	}
}

struct pools *
pools_gather(const struct model *model, const struct seen *seen,
	const struct evidences *evidences, struct arena *arena)
{
	struct pools *pools = arena_one(arena, struct pools);
	struct record_list pairings = model_records_of(model, "pairing");
	unsigned markets = model_records_of(model, "market").count, i;
	GArray **times = g_new0(GArray *, markets + 1);

	pools->items = arena_array(arena, struct pool, markets);
	for (i = 0; i < pairings.count; i++)
		count_pairing(model, seen, evidences, pairings.items[i],
			times);
	for (i = 0; i < markets; i++) {
		struct frequencies all;

		if (times[i] == NULL)
			continue;
		all = (struct frequencies){(const unsigned *)(const void *)
			times[i]->data, times[i]->len, 0};
		pools->items[i] = pool_poisson(&all, 1);
		g_array_free(times[i], TRUE);
	}
	g_free(times);
	return pools;
}

struct pool
pools_of(const struct pools *pools, const struct record *market)
{
	return market == NULL ? (struct pool){.given = false} :
		pools->items[market->index];
}
