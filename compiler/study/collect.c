/*
 * What a situation has to collect, by what the run collects.
 */
#include "study/collect.h"

#include <string.h>

#include "study/slots.h"

static const struct record *
single_record(enum collected what, const struct situation *situation)
{
	switch (what) {
	case COLLECT_CHARACTER:
		return situation->character;
	case COLLECT_CARDBACK:
		return situation->cardback;
	case COLLECT_PAIRING:
		return situation->pairing;
	case COLLECT_FRONT:
		return situation->front;
	case COLLECT_VARIANT:
		return situation->variant;
	case COLLECT_BLISTER:
		return situation->blister;
	case COLLECT_STICKER:
		return situation->sticker;
	case COLLECT_PACKAGE:
		return situation->package;
	case COLLECT_PREPRODUCTION:
		return situation->preproduction;
	case COLLECT_ANOMALY:
		return situation->anomaly;
	case COLLECT_MARKET:
		return situation->market;
	case COLLECT_COMBINATION:
	case COLLECT_ACCESSORY:
	case COLLECT_OFFER:
	case COLLECT_NOTHING:
		break;
	}
	return NULL;
}

/* What came with the figure: as the combination says, else as usual. */
static void
collect_accessories(const struct model *model,
	const struct situation *situation, collect_function *function,
	void *data)
{
	const struct value *list = situation->accessories;
	const struct record *accessory;
	unsigned i;

	if (list == NULL && situation->character != NULL)
		list = model_get(model, situation->character->values,
			NAME(CHARACTER_ACCESSORIES));
	for (i = 0; i < value_count(list); i++) {
		accessory = value_item(list, i)->reference.record;
		if (accessory != NULL)
			function(data, situation, accessory, NULL);
	}
}

const struct record *
situation_added_offer(const struct model *model,
	const struct situation *situation)
{
	return situation->sticker == NULL ? NULL : model_record(model,
		situation->sticker->values, NAME(STICKER_OFFER));
}

/* A card may have one offer printed and another stuck on. */
static void
collect_offers(const struct model *model, const struct situation *situation,
	collect_function *function, void *data)
{
	const struct record *added = situation_added_offer(model, situation);

	if (situation->offer != NULL)
		function(data, situation, situation->offer, NULL);
	if (added != NULL && added != situation->offer)
		function(data, situation, added, NULL);
}

void
collect(const struct model *model, enum collected what,
	const struct situation *situation, collect_function *function,
	void *data)
{
	const struct record *record;

	if (what == COLLECT_ACCESSORY) {
		collect_accessories(model, situation, function, data);
		return;
	}
	if (what == COLLECT_COMBINATION) {
		if (situation->item != NULL)
			function(data, situation, situation->pairing,
				situation->item);
		return;
	}
	if (what == COLLECT_OFFER) {
		collect_offers(model, situation, function, data);
		return;
	}
	record = single_record(what, situation);
	if (record != NULL)
		function(data, situation, record, NULL);
}

const char *
slot_code(struct arena *arena, const struct record *record,
	const struct value *item)
{
	if (item == NULL || item->group[0] == NULL)
		return arena_print(arena, "%s/%s", record->kind->name,
			record->id);
	return arena_print(arena, "%s/%s.%s", record->kind->name, record->id,
		item->group[0]->text);
}

bool
study_may_exist(const char *concluded)
{
	return model_may_exist(concluded);
}

bool
study_is_settled(const char *concluded)
{
	return concluded == NULL || strcmp(concluded, "accepted") == 0;
}
