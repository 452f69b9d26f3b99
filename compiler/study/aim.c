/*
 * A run's fields made ready, and what they select among situations.
 */
#include "study/aim.h"

#include <limits.h>
#include <string.h>

#include "study/collect.h"

static enum collected
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
		[COLLECT_ANOMALY] = "anomaly",
		[COLLECT_MARKET] = "market",
	};
	const char *word = model_word(model, run->values, NAME(RUN_COLLECT));
	size_t i;

	for (i = 0; word != NULL && i < G_N_ELEMENTS(words); i++)
		if (strcmp(words[i], word) == 0)
			return (enum collected)i;
	return COLLECT_NOTHING;
}

static struct selection
choose(const struct model *model, const struct record *run,
	enum field_name name, struct arena *arena)
{
	const struct value *list = model_get(model, run->values, name);
	struct selection choice = {.given = list != NULL};
	unsigned i;

	choice.count = value_count(list);
	choice.items = arena_array(arena, const struct record *,
		choice.count);
	for (i = 0; i < choice.count; i++)
		choice.items[i] = value_item(list, i)->reference.record;
	return choice;
}

/* Whether a character carries every tag of a list. */
static bool
has_tags(const struct model *model, const struct record *character,
	const struct value *wanted)
{
	const struct value *tags = model_get(model, character->values,
		NAME(CHARACTER_TAGS));
	unsigned i, j;

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

static const bool *
find_tagged(const struct model *model, const struct record *run,
	struct arena *arena)
{
	const struct value *wanted = model_get(model, run->values,
		NAME(RUN_TAGS));
	struct record_list characters = model_records_of(model, "character");
	bool *tagged;
	unsigned i;

	if (wanted == NULL)
		return NULL;
	tagged = arena_array(arena, bool, characters.count);
	for (i = 0; i < characters.count; i++)
		tagged[i] = has_tags(model, characters.items[i], wanted);
	return tagged;
}

static const char **
list_words(const struct value *list, struct arena *arena)
{
	const char **words;
	unsigned i;

	if (list == NULL)
		return NULL;
	words = arena_array(arena, const char *, value_count(list) + 1);
	for (i = 0; i < value_count(list); i++)
		words[i] = value_item(list, i)->word->word;
	return words;
}

int
aim_step(const struct model *model, const struct record *scale,
	const char *step)
{
	const struct value *steps = model_get(model, scale->values,
		NAME(SCALE_STEPS));
	unsigned i;

	for (i = 0; step != NULL && i < value_count(steps); i++)
		if (strcmp(value_item(steps, i)->text, step) == 0)
			return (int)i;
	return -1;
}

static void
read_conditions(const struct model *model, struct aim *aim)
{
	struct value *const *values = aim->run->values;
	const struct value *least = model_get(model, values, NAME(RUN_LEAST));

	aim->form = model_word(model, values, NAME(RUN_FORM));
	aim->unpunched = model_yes(model, values, NAME(RUN_UNPUNCHED));
	aim->complete = model_yes(model, values, NAME(RUN_COMPLETE));
	aim->case_style = model_text(model, values, NAME(RUN_CASE_STYLE));
	aim->same_case = aim->case_style != NULL || model_yes(model, values,
		NAME(RUN_SAME_CASE));
	aim->altered = model_yes(model, values, NAME(RUN_ALTERED));
	aim->anomalies = aim->what == COLLECT_ANOMALY || model_yes(model,
		values, NAME(RUN_ANOMALIES));
	if (least == NULL)
		return;
	aim->scale = model_record(model, least->group, NAME(RUN_LEAST_SCALE));
	if (aim->scale != NULL)
		aim->least = aim_step(model, aim->scale, model_text(model,
			least->group, NAME(RUN_LEAST_STEP)));
	if (aim->least < 0)
		aim->least = INT_MAX;
}

struct aim *
aim_of_run(const struct model *model, const struct record *run,
	struct arena *arena)
{
	struct aim *aim = arena_one(arena, struct aim);

	aim->run = run;
	aim->id = run->id;
	aim->name = run->name;
	aim->what = collected_of(model, run);
	aim->characters = choose(model, run, NAME(RUN_CHARACTERS), arena);
	aim->markets = choose(model, run, NAME(RUN_MARKETS), arena);
	aim->cardbacks = choose(model, run, NAME(RUN_CARDBACKS), arena);
	aim->offers = choose(model, run, NAME(RUN_OFFERS), arena);
	aim->stickers = choose(model, run, NAME(RUN_STICKERS), arena);
	aim->fronts = choose(model, run, NAME(RUN_FRONTS), arena);
	aim->blisters = choose(model, run, NAME(RUN_BLISTERS), arena);
	aim->variants = choose(model, run, NAME(RUN_VARIANTS), arena);
	aim->packages = choose(model, run, NAME(RUN_PACKAGES), arena);
	aim->preproductions = choose(model, run, NAME(RUN_PREPRODUCTIONS),
		arena);
	aim->tagged = find_tagged(model, run, arena);
	aim->from = model_date(model, run->values, NAME(RUN_FROM));
	aim->to = model_date(model, run->values, NAME(RUN_TO));
	aim->concluded = list_words(model_get(model, run->values,
		NAME(RUN_CONCLUDED)), arena);
	read_conditions(model, aim);
	return aim;
}

static bool
allows(const struct selection *choice, const struct record *record)
{
	unsigned i;

	if (!choice->given)
		return true;
	for (i = 0; i < choice->count; i++)
		if (choice->items[i] == record)
			return record != NULL;
	return false;
}

/* Whether a card back may have been sold within the aim's years. */
static bool
in_years(const struct model *model, const struct aim *aim,
	const struct record *cardback)
{
	const struct date *first, *last;

	if (aim->from == NULL && aim->to == NULL)
		return true;
	if (cardback == NULL)
		return false;
	first = model_date(model, cardback->values, NAME(CARDBACK_FROM));
	last = model_date(model, cardback->values, NAME(CARDBACK_TO));
	if (aim->from != NULL && last != NULL && last->last < aim->from->first)
		return false;
	return aim->to == NULL || first == NULL ||
		first->first <= aim->to->last;
}

/* What nobody has doubted in writing is taken for accepted. */
static bool
is_concluded_so(const struct aim *aim, const char *concluded)
{
	return aim->concluded == NULL || g_strv_contains(aim->concluded,
		concluded == NULL ? "accepted" : concluded);
}

bool
aim_selects(const struct model *model, const struct aim *aim,
	const struct situation *situation)
{
	return allows(&aim->characters, situation->character) &&
		allows(&aim->markets, situation->market) &&
		allows(&aim->cardbacks, situation->cardback) &&
		allows(&aim->fronts, situation->front) &&
		allows(&aim->blisters, situation->blister) &&
		allows(&aim->variants, situation->variant) &&
		allows(&aim->stickers, situation->sticker) &&
		allows(&aim->packages, situation->package) &&
		allows(&aim->preproductions, situation->preproduction) &&
		(aim->tagged == NULL || (situation->character != NULL &&
			aim->tagged[situation->character->index])) &&
		(!aim->offers.given ||
			allows(&aim->offers, situation->offer) ||
			allows(&aim->offers, situation_added_offer(model,
				situation))) &&
		in_years(model, aim, situation->cardback) &&
		is_concluded_so(aim, situation->concluded);
}
