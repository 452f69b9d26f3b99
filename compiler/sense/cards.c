/*
 * Surprises about card backs and what is stuck on them.
 */
#include "sense/sensing.h"

#include <inttypes.h>
#include <string.h>

static void
check_pictures(struct sensing *sensing, const struct record *cardback)
{
	const struct model *model = sensing->model;
	const struct value *number = model_get(model, cardback->values,
		NAME(CARDBACK_NUMBER));
	const struct value *pictures = model_get(model, cardback->values,
		NAME(CARDBACK_PICTURES));
	struct diag *diag;

	if (number == NULL || pictures == NULL || !model_yes(model,
		cardback->values, NAME(CARDBACK_PICTURES_COMPLETE)) ||
		number->whole == (int64_t)value_count(pictures) ||
		sense_excused(sensing, cardback, DIAG_PICTURES_COUNT))
		return;
	diag = diag_report(sensing->diags, DIAG_PICTURES_COUNT, number->span,
		"%" PRId64 " figures are pictured, but the complete list names "
		"%u", number->whole, value_count(pictures));
	diag_note(diag, pictures->span, "the list is here");
	sense_help(diag, cardback, "count the pictures again");
}

void
sense_pictures(struct sensing *sensing)
{
	struct record_list list = sense_records(sensing, "cardback");
	unsigned i;

	for (i = 0; i < list.count; i++)
		check_pictures(sensing, list.items[i]);
}

/* Card backs that print an offer, by offer, number pictured and market. */
static const char *
printed_key(const struct sensing *sensing, const struct record *offer,
	const struct record *cardback)
{
	const struct record *market = model_record(sensing->model,
		cardback->values, NAME(CARDBACK_MARKET));
	int64_t number = model_whole(sensing->model, cardback->values,
		NAME(CARDBACK_NUMBER), 0);

	return arena_print(sensing->arena, "%s/%" PRId64 "/%s", offer->id,
		number, market == NULL ? "" : market->id);
}

/* The earliest of those for each key; without a date they say nothing. */
static GHashTable *
gather_printed(struct sensing *sensing)
{
	struct record_list list = sense_records(sensing, "cardback");
	GHashTable *table = g_hash_table_new(g_str_hash, g_str_equal);
	unsigned i;

	for (i = 0; i < list.count; i++) {
		const struct record *cardback = list.items[i], *other;
		const struct record *offer = model_record(sensing->model,
			cardback->values, NAME(CARDBACK_OFFER));
		const struct date *from = model_date(sensing->model,
			cardback->values, NAME(CARDBACK_FROM));
		const char *key;

		if (offer == NULL || from == NULL)
			continue;
		key = printed_key(sensing, offer, cardback);
		other = g_hash_table_lookup(table, key);
		if (other == NULL || from->last < model_date(sensing->model,
			other->values, NAME(CARDBACK_FROM))->last)
			g_hash_table_insert(table, (gpointer)(uintptr_t)key,
				(gpointer)(uintptr_t)cardback);
	}
	return table;
}

/* When cards with the sticker were first sold: surely not before this. */
static const struct date *
stickered_from(const struct sensing *sensing, const struct record *sticker,
	const struct record *cardback)
{
	const struct date *one = model_date(sensing->model, sticker->values,
		NAME(STICKER_FROM));
	const struct date *other = model_date(sensing->model,
		cardback->values, NAME(CARDBACK_FROM));

	if (one == NULL || other == NULL)
		return one == NULL ? other : one;
	return one->first > other->first ? one : other;
}

static void
check_stickered(struct sensing *sensing, GHashTable *printed,
	const struct record *sticker, const struct record *offer,
	const struct value *item)
{
	const struct record *cardback = item->reference.record, *other;
	const struct date *date, *from;
	struct diag *diag;

	other = g_hash_table_lookup(printed, printed_key(sensing, offer,
		cardback));
	date = stickered_from(sensing, sticker, cardback);
	if (other == NULL || other == cardback || date == NULL)
		return;
	from = model_date(sensing->model, other->values, NAME(CARDBACK_FROM));
	if (date->first <= from->last || sense_excused(sensing, sticker,
		DIAG_STICKER_AFTER_PRINTED))
		return;
	diag = diag_report(sensing->diags, DIAG_STICKER_AFTER_PRINTED,
		item->span, "\"%s\" has this sticker from %s, but the offer "
		"was printed from %s", cardback->name, date->text, from->text);
	diag_note(diag, model_get(sensing->model, other->values,
		NAME(CARDBACK_OFFER))->span, "\"%s\" has it printed",
		other->name);
	sense_help(diag, sticker, "stickered cards mostly come first: look at "
		"the dates again");
}

/* Stickers that extend or cancel an offer come later, as they should. */
static bool
announces(const struct sensing *sensing, const struct record *sticker)
{
	const char *kind = model_word(sensing->model, sticker->values,
		NAME(STICKER_KIND));

	return kind != NULL && strcmp(kind, "offer") == 0;
}

void
sense_stickers(struct sensing *sensing)
{
	struct record_list list = sense_records(sensing, "sticker");
	GHashTable *printed = gather_printed(sensing);
	unsigned i, j;

	for (i = 0; i < list.count; i++) {
		const struct record *sticker = list.items[i];
		const struct record *offer = model_record(sensing->model,
			sticker->values, NAME(STICKER_OFFER));
		const struct value *cards = model_get(sensing->model,
			sticker->values, NAME(STICKER_CARDBACKS));

		if (offer == NULL || !announces(sensing, sticker))
			continue;
		for (j = 0; j < value_count(cards); j++)
			check_stickered(sensing, printed, sticker, offer,
				value_item(cards, j));
	}
	g_hash_table_destroy(printed);
}
