/*
 * Situations of one pairing, and of all.
 */
#include "study/situation.h"

#include <string.h>

static struct situation
of_pairing(const struct model *model, const struct record *pairing)
{
	struct situation one = {.pairing = pairing};
	struct value *const *values = pairing->values;

	one.character = model_record(model, values, NAME(PAIRING_CHARACTER));
	one.cardback = model_record(model, values, NAME(PAIRING_CARDBACK));
	one.concluded = model_word(model, values, NAME(PAIRING_CONCLUDED));
	one.looked_for = value_count(model_get(model, values,
		NAME(PAIRING_LOOKED_FOR))) > 0;
	if (one.cardback != NULL) {
		one.market = model_record(model, one.cardback->values,
			NAME(CARDBACK_MARKET));
		one.offer = model_record(model, one.cardback->values,
			NAME(CARDBACK_OFFER));
	}
	return one;
}

/* The less sure of two conclusions; what is not said is no doubt. */
static const char *
less_sure(const char *whole, const char *part)
{
	if (whole != NULL && strcmp(whole, "accepted") != 0)
		return whole;
	return part == NULL ? whole : part;
}

void
situations_of(const struct model *model, const struct record *pairing,
	GArray *out)
{
	const struct value *list = model_get(model, pairing->values,
		NAME(PAIRING_COMBINATIONS));
	struct situation whole = of_pairing(model, pairing), one;
	unsigned i;

	if (value_count(list) == 0)
		g_array_append_val(out, whole);
	for (i = 0; i < value_count(list); i++) {
		struct value *const *values = value_item(list, i)->group;

		one = whole;
		one.item = value_item(list, i);
		one.front = model_record(model, values,
			NAME(COMBINATION_FRONT));
		one.blister = model_record(model, values,
			NAME(COMBINATION_BLISTER));
		one.variant = model_record(model, values,
			NAME(COMBINATION_VARIANT));
		one.sticker = model_record(model, values,
			NAME(COMBINATION_STICKER));
		one.anomaly = model_record(model, values,
			NAME(COMBINATION_ANOMALY));
		one.accessories = model_get(model, values,
			NAME(COMBINATION_ACCESSORIES));
		one.looked_for = whole.looked_for || value_count(model_get(
			model, values, NAME(COMBINATION_LOOKED_FOR))) > 0;
		one.concluded = less_sure(whole.concluded, model_word(model,
			values, NAME(COMBINATION_CONCLUDED)));
		g_array_append_val(out, one);
	}
}

struct situations *
study_situations(const struct model *model, struct arena *arena)
{
	struct record_list pairings = model_records_of(model, "pairing");
	struct situations *all = arena_one(arena, struct situations);
	GArray *found = g_array_new(FALSE, TRUE, sizeof(struct situation));
	unsigned *first = arena_array(arena, unsigned, pairings.count + 1);
	struct situation *items;
	unsigned i;

	for (i = 0; i < pairings.count; i++) {
		first[i] = found->len;
		situations_of(model, pairings.items[i], found);
	}
	first[i] = found->len;
	items = arena_array(arena, struct situation, found->len);
	if (found->len > 0)
		memcpy(items, found->data, sizeof(*items) * found->len);
	all->items = items;
	all->count = found->len;
	all->first = first;
	g_array_free(found, TRUE);
	return all;
}
