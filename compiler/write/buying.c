/*
 * Sentences for the buyer: the answer first, numbers with what they count, and
 * never more than is known.
 */
#include "write/buying.h"

#include <string.h>

#include "model/text.h"
#include "write/working.h"

/* Of more things than these, alike, the rest are counted and not named. */
enum { MOST_NAMED = 6 };

struct telling {
	const struct model *model;
	const struct buyer *buyer;
	struct arena *arena;
	GArray *sentences;
};

const char *
buying_heading(enum buying_part part)
{
	static const char *const headings[] = {
		[BUYING_EXISTS] = "Does it exist?",
		[BUYING_RISKS] = "Anomalies here",
		[BUYING_FAKES] = "What is imitated",
		[BUYING_OTHERS] = "What else it could be",
		[BUYING_ASK] = "Ask the seller for",
	};

	return headings[part];
}

static void
say(struct telling *telling, enum buying_part part,
	const struct record *about, const char *text)
{
	struct sentence sentence = {part, text, about};

	g_array_append_val(telling->sentences, sentence);
}

static const char *
plural(unsigned count)
{
	return count == 1 ? "" : "s";
}

static void
say_seen(struct telling *telling)
{
	const struct seen_count *seen = &telling->buyer->seen;

	if (strcmp(telling->buyer->record->kind->name, "pairing") != 0)
		return;
	if (seen->specimens == 0) {
		say(telling, BUYING_EXISTS, NULL, seen->possible == 0 ?
			"No single piece of this pairing is on record." :
			arena_print(telling->arena, "No piece on record is "
				"surely this pairing; %u may be.",
				seen->possible));
		return;
	}
	say(telling, BUYING_EXISTS, NULL, arena_print(telling->arena,
		"%u piece%s of this pairing told apart, on %u list%s; last "
		"seen %s.", seen->specimens, plural(seen->specimens),
		seen->lists, plural(seen->lists),
		seen->last == NULL ? "at no stated date" : date_words(
			seen->last, telling->arena)));
}

static void
say_searches(struct telling *telling)
{
	const struct value *list = telling->buyer->looked_for;
	unsigned i;

	for (i = 0; i < value_count(list); i++) {
		GString *text = g_string_new("Looked for and not found: ");

		value_append_words(value_item(list, i), text);
		g_string_append_c(text, '.');
		say(telling, BUYING_EXISTS, NULL, arena_text(telling->arena,
			text->str, text->len));
		g_string_free(text, TRUE);
	}
}

static void
say_existence(struct telling *telling)
{
	const struct buyer *buyer = telling->buyer;
	const char *seen = buyer->how_seen == NULL ? NULL :
		buyer->how_seen->title;

	if (buyer->concluded != NULL)
		say(telling, BUYING_EXISTS, NULL, arena_print(telling->arena,
			"Concluded: %s%s%s.", buyer->concluded->title,
			seen == NULL ? "" : "; best evidence: ",
			seen == NULL ? "" : seen));
	else if (seen != NULL)
		say(telling, BUYING_EXISTS, NULL, arena_print(telling->arena,
			"Nothing is concluded yet; best evidence: %s.",
			seen));
	say_seen(telling);
	say_searches(telling);
}

/* Kinds of which a buyer would ask whether anything is wrong with them. */
static bool
is_piece(const struct record *record)
{
	return strcmp(record->kind->name, "pairing") == 0 ||
		strcmp(record->kind->name, "character") == 0 ||
		strcmp(record->kind->name, "cardback") == 0;
}

/* Of an anomaly itself: how it stands, and every way to tell it. */
static void
say_itself(struct telling *telling)
{
	const struct record *anomaly = telling->buyer->record;
	const struct value *standing = model_get(telling->model,
		anomaly->values, NAME(ANOMALY_STANDING));
	const struct value *tells = model_get(telling->model,
		anomaly->values, NAME(ANOMALY_TELLS));
	unsigned i;

	if (standing != NULL)
		say(telling, BUYING_RISKS, NULL, arena_print(telling->arena,
			"This is an anomaly: %s%s%s", standing->word->title,
			standing->word->says == NULL ? "." : ". ",
			standing->word->says == NULL ? "" :
			standing->word->says));
	for (i = 0; i < value_count(tells); i++)
		say(telling, BUYING_RISKS, NULL, arena_print(telling->arena,
			"Look for: %s.", value_item(tells, i)->text));
}

/* How many of those seen, and so what the risk is. */
static const char *
risk_words(struct telling *telling, const struct risk *risk,
	const char *place)
{
	if (risk->seen == 0)
		return arena_print(telling->arena, "no carded piece without "
			"alterations was told apart %s.", place);
	return arena_print(telling->arena, "%u of the %u %s told apart %s, or "
		"%s.", risk->affected, risk->seen, risk->seen == 1 ?
		"carded piece without alterations" :
		"carded pieces without alterations", place,
		working_share(risk->affected, risk->seen, risk->share,
			telling->arena));
}

static void
say_risks(struct telling *telling)
{
	const struct buyer *buyer = telling->buyer;
	/* The pieces of one pairing, or of all that the thing is part of. */
	const char *place = strcmp(buyer->record->kind->name, "pairing") == 0 ?
		"here" : "on all pairings together";
	unsigned i;

	if (strcmp(buyer->record->kind->name, "anomaly") == 0)
		say_itself(telling);
	if (buyer->risk_count == 0 && is_piece(buyer->record))
		say(telling, BUYING_RISKS, NULL, "None on record, which is "
			"not proof that there is none.");

	for (i = 0; i < buyer->risk_count; i++) {
		const struct risk *risk = &buyer->risks[i];
		const struct value *standing = model_get(telling->model,
			risk->anomaly->values, NAME(ANOMALY_STANDING));
		const struct value *tells = model_get(telling->model,
			risk->anomaly->values, NAME(ANOMALY_TELLS));

		say(telling, BUYING_RISKS, risk->anomaly, arena_print(
			telling->arena, "%s (%s): %s%s%s%s", risk->anomaly
			->name, standing == NULL ? "standing not stated" :
			standing->word->title, risk_words(telling, risk,
				place), value_count(tells) == 0 ? "" :
			" Look for: ", value_count(tells) == 0 ? "" :
			value_item(tells, 0)->text,
			value_count(tells) == 0 ? "" : "."));
	}
}

static void
say_fakes(struct telling *telling)
{
	const struct buyer *buyer = telling->buyer;
	unsigned i;

	for (i = 0; i < buyer->fake_count; i++) {
		const struct fake *fake = &buyer->fakes[i];
		const struct value *tells = model_get(telling->model,
			fake->imitation->values, NAME(IMITATION_TELLS));
		const char *genuine = NULL;

		if (value_count(tells) > 0)
			genuine = model_text(telling->model,
				value_item(tells, 0)->group,
				NAME(IMITATION_TELL_GENUINE));
		say(telling, BUYING_FAKES, fake->imitation, arena_print(
			telling->arena, "%s, for %s.%s%s%s",
			fake->imitation->name, fake->part->name,
			genuine == NULL ? "" : " The genuine one: ",
			genuine == NULL ? "" : genuine,
			genuine == NULL ? "" : "."));
	}
}

/* A card back among those of one market: its label is enough. */
static const char *
name_cardback(struct telling *telling, const struct situation *situation)
{
	const struct model *model = telling->model;
	const struct record *mine = model_record(model,
		telling->buyer->record->values, NAME(PAIRING_CARDBACK));
	const struct value *labels = model_get(model,
		situation->cardback->values, NAME(CARDBACK_LABELS));
	const char *label = NULL;

	if (mine != NULL && model_record(model, mine->values,
		NAME(CARDBACK_MARKET)) == situation->market &&
		value_count(labels) > 0)
		label = model_text(model, value_item(labels, 0)->group,
			NAME(CARDBACK_LABELS_LABEL));
	return label != NULL ? label : situation->cardback->name;
}

/* The character is the same: the card back says which. */
static const char *
name_situation(struct telling *telling, const struct situation *situation)
{
	const char *name = situation->cardback == NULL ?
		situation->pairing->name : name_cardback(telling, situation);

	if (situation->item == NULL || situation->item->group[0] == NULL)
		return name;
	return arena_print(telling->arena, "%s combination %s", name,
		situation->item->group[0]->text);
}

/* Whether an earlier alternative is told apart by the same feature. */
static bool
was_said(const struct questions *questions, unsigned i)
{
	unsigned j;

	for (j = 0; j < i; j++)
		if (questions->alternatives[j].feature ==
			questions->alternatives[i].feature)
			return true;
	return false;
}

/* The alternatives that one feature tells apart, or none does, in a sentence. */
static void
say_alike(struct telling *telling, const struct record *feature)
{
	const struct questions *questions = telling->buyer->questions;
	GString *names = g_string_new(NULL);
	unsigned i, named = 0;

	for (i = 0; i < questions->alternative_count; i++) {
		const struct alternative *one = &questions->alternatives[i];

		if (one->feature != feature || named++ >= MOST_NAMED)
			continue;
		g_string_append_printf(names, "%s%s", names->len == 0 ? "" :
			"; ", name_situation(telling, one->situation));
	}
	if (named > MOST_NAMED)
		g_string_append_printf(names, "; and %u more",
			named - MOST_NAMED);
	say(telling, BUYING_OTHERS, feature, feature == NULL ?
		arena_print(telling->arena, "Nothing on record tells it from "
			"these: %s.", names->str) :
		arena_print(telling->arena, "Told apart by %s: %s.",
			feature->name, names->str));
	g_string_free(names, TRUE);
}

static void
say_others(struct telling *telling)
{
	const struct questions *questions = telling->buyer->questions;
	unsigned i;

	if (questions == NULL || questions->alternative_count == 0)
		return;
	say(telling, BUYING_OTHERS, NULL, arena_print(telling->arena,
		"A photograph of the front alone does not tell it from %u "
		"other%s.",
		questions->alternative_count,
		plural(questions->alternative_count)));
	if (questions->undivided > 0)
		say_alike(telling, NULL);
	for (i = 0; i < questions->alternative_count; i++)
		if (questions->alternatives[i].divided &&
			!was_said(questions, i))
			say_alike(telling,
				questions->alternatives[i].feature);
}

static void
say_requests(struct telling *telling)
{
	const struct questions *questions = telling->buyer->questions;
	unsigned i;

	for (i = 0; questions != NULL && i < questions->request_count; i++)
		say(telling, BUYING_ASK, questions->requests[i].features[0],
			questions->requests[i].text);
}

struct sentences *
buying_sentences(const struct model *model, const struct buyer *buyer,
	struct arena *arena)
{
	struct sentences *sentences = arena_one(arena, struct sentences);
	struct telling telling = {model, buyer, arena,
		g_array_new(FALSE, FALSE, sizeof(struct sentence))};
	struct sentence *items;

	say_existence(&telling);
	say_risks(&telling);
	say_fakes(&telling);
	say_others(&telling);
	say_requests(&telling);
	sentences->count = telling.sentences->len;
	items = arena_array(arena, struct sentence, sentences->count);
	if (sentences->count > 0)
		memcpy(items, telling.sentences->data,
			sizeof(*items) * sentences->count);
	sentences->items = items;
	g_array_free(telling.sentences, TRUE);
	return sentences;
}
