/*
 * Situations of a pairing, and what a run selects among them.
 */
#include "study/situation.h"

#include <string.h>

enum collected
collected_of(const struct model *model, const struct record *run)
{
	static const char *const words[] = {
		[COLLECT_CHARACTER] = "character",
		[COLLECT_CARDBACK] = "cardback",
		[COLLECT_PAIRING] = "pairing",
		[COLLECT_COMBINATION] = "combination",
		[COLLECT_FRONT] = "front",
		[COLLECT_VARIANT] = "variant",
		[COLLECT_BLISTER] = "blister",
		[COLLECT_STICKER] = "sticker",
		[COLLECT_OFFER] = "offer",
		[COLLECT_ACCESSORY] = "accessory",
		[COLLECT_PACKAGE] = "package",
		[COLLECT_PREPRODUCTION] = "preproduction",
	};
	const char *word = model_word(model, run->values, NAME(RUN_COLLECT));
	size_t i;

	for (i = 0; word != NULL && i < G_N_ELEMENTS(words); i++)
		if (strcmp(words[i], word) == 0)
			return (enum collected)i;
	return COLLECT_NOTHING;
}

static struct situation
of_pairing(const struct model *model, const struct record *pairing)
{
	struct situation one = {.pairing = pairing};
	struct value *const *values = pairing->values;

	one.character = model_record(model, values, NAME(PAIRING_CHARACTER));
	one.cardback = model_record(model, values, NAME(PAIRING_CARDBACK));
	one.concluded = model_word(model, values, NAME(PAIRING_CONCLUDED));
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
		one.concluded = less_sure(whole.concluded, model_word(model,
			values, NAME(COMBINATION_CONCLUDED)));
		g_array_append_val(out, one);
	}
}

/* Whether the list names the record; an absent list names everything. */
static bool
names_record(const struct value *list, const struct record *record)
{
	unsigned i;

	if (list == NULL)
		return true;
	for (i = 0; i < value_count(list); i++)
		if (value_item(list, i)->reference.record == record)
			return true;
	return false;
}

/* Whether a character carries every tag of a list. */
static bool
has_tags(const struct model *model, const struct record *character,
	const struct value *wanted)
{
	const struct value *tags;
	unsigned i, j;

	if (wanted == NULL)
		return true;
	if (character == NULL)
		return false;
	tags = model_get(model, character->values, NAME(CHARACTER_TAGS));
	for (i = 0; i < value_count(wanted); i++) {
		for (j = 0; j < value_count(tags); j++)
			if (strcmp(value_item(wanted, i)->text,
				value_item(tags, j)->text) == 0)
				break;
		if (j == value_count(tags))
			return false;
	}
	return true;
}

/* Whether a card back may have been sold within the run's years. */
static bool
in_years(const struct model *model, const struct record *run,
	const struct record *cardback)
{
	const struct date *from, *to, *first, *last;

	from = model_date(model, run->values, NAME(RUN_FROM));
	to = model_date(model, run->values, NAME(RUN_TO));
	if (from == NULL && to == NULL)
		return true;
	if (cardback == NULL)
		return false;
	first = model_date(model, cardback->values, NAME(CARDBACK_FROM));
	last = model_date(model, cardback->values, NAME(CARDBACK_TO));
	if (from != NULL && last != NULL && last->last < from->first)
		return false;
	return to == NULL || first == NULL || first->first <= to->last;
}

bool
situation_selected(const struct model *model, const struct record *run,
	const struct situation *situation)
{
	const struct value *offers = model_get(model, run->values,
		NAME(RUN_OFFERS));
	const struct record *added = situation->sticker == NULL ? NULL :
		model_record(model, situation->sticker->values,
			NAME(STICKER_OFFER));

	return names_record(model_get(model, run->values,
		NAME(RUN_CHARACTERS)), situation->character) &&
		names_record(model_get(model, run->values, NAME(RUN_MARKETS)),
			situation->market) &&
		names_record(model_get(model, run->values,
			NAME(RUN_CARDBACKS)), situation->cardback) &&
		names_record(model_get(model, run->values,
			NAME(RUN_BLISTERS)), situation->blister) &&
		(names_record(offers, situation->offer) ||
			names_record(offers, added)) &&
		has_tags(model, situation->character, model_get(model,
			run->values, NAME(RUN_TAGS))) &&
		in_years(model, run, situation->cardback);
}
