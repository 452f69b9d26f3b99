/*
 * Weighing pairings and variants. A confidence is a product: how surely the
 * row names the character, how far its label, market and form leave this one,
 * and what its own doubts take away.
 */
#include <string.h>

#include "match/matching.h"
#include "study/slots.h"

/* What a row leaves of the card backs. */
struct backs {
	GPtrArray *allowed;	/* by its labels; empty: all */
	GPtrArray *denied;
	GHashTable *numbers;	/* that its labels name */
	bool lettered;		/* every label has its letters */
	bool any;		/* it gives a label */
	bool unknown;		/* a label that nobody gives */
	bool other;		/* another back in another scheme */
};

static void
add_all(GPtrArray *list, const struct label_said *said)
{
	unsigned i;

	for (i = 0; i < said->count; i++)
		if (!g_ptr_array_find(list, said->cardbacks[i], NULL))
			g_ptr_array_add(list,
				(gpointer)(uintptr_t)said->cardbacks[i]);
}

/* Labels of two schemes for one card back: what both name. */
static GPtrArray *
both_of(const GPtrArray *left, const struct label_said *right)
{
	GPtrArray *both = g_ptr_array_new();
	unsigned i;

	for (i = 0; i < right->count; i++)
		if (g_ptr_array_find((GPtrArray *)(uintptr_t)left,
			right->cardbacks[i], NULL))
			g_ptr_array_add(both,
				(gpointer)(uintptr_t)right->cardbacks[i]);
	return both;
}

static void
add_label(struct backs *backs, const struct label_said *said)
{
	GPtrArray *both;

	if (said->negated) {
		add_all(backs->denied, said);
		return;
	}
	backs->lettered &= said->letters != NULL;
	backs->unknown |= said->count == 0;
	backs->other |= said->other;
	g_hash_table_add(backs->numbers, GUINT_TO_POINTER(said->number));
	if (backs->any) {
		both = both_of(backs->allowed, said);
		if (both->len > 0) {
			g_ptr_array_free(backs->allowed, TRUE);
			backs->allowed = both;
			backs->any = true;
			return;
		}
		g_ptr_array_free(both, TRUE);
	}
	backs->any = true;
	add_all(backs->allowed, said);
}

static void
backs_init(struct backs *backs, const struct reading *reading)
{
	guint i;

	*backs = (struct backs){
		.allowed = g_ptr_array_new(),
		.denied = g_ptr_array_new(),
		.numbers = g_hash_table_new(NULL, NULL),
		.lettered = true,
	};
	for (i = 0; i < reading->labels->len; i++)
		add_label(backs, &g_array_index(reading->labels,
			struct label_said, i));
}

static void
backs_release(struct backs *backs)
{
	g_ptr_array_free(backs->allowed, TRUE);
	g_ptr_array_free(backs->denied, TRUE);
	g_hash_table_destroy(backs->numbers);
}

static bool
holds(const GPtrArray *list, const struct record *record)
{
	return g_ptr_array_find((GPtrArray *)(uintptr_t)list, record, NULL);
}

double
doubts_leave(const struct reading *reading, const char **why)
{
	*why = NULL;
	if (reading->several) {
		*why = "the row is about several pieces";
		return 0.4;
	}
	if (reading->doubted) {
		*why = "the row doubts it itself";
		return 0.6;
	}
	if (reading->copy) {
		*why = "the row speaks of a copy";
		return 0.6;
	}
	if (reading->market_strange) {
		*why = "no market has that country";
		return 0.6;
	}
	if (reading->text.cut) {
		*why = "the row is too long to be read to its end";
		return 0.6;
	}
	return 1;
}

/* How far the form leaves a piece on its card. */
static double
carded_share(const struct reading *reading, const struct backs *backs)
{
	if (reading->stage != MEANS_NOTHING)
		return 0.1;
	switch (reading->form) {
	case FORM_CARDED:
	case FORM_CARD_ONLY:
		return 1;
	case FORM_UNSAID:
		return backs->any ? 0.7 : 0.5;
	case FORM_LOOSE:
		return backs->any ? 0.4 : 0.1;
	case FORM_BAGGED:
	case FORM_BOXED:
		return backs->any && backs->lettered ? 0.8 : 0.3;
	}
	return 0;
}

/* A pairing held against what a row says. */
struct held {
	const struct record *pairing;
	const struct record *cardback;
	bool fits_label;
	bool fits_number;
	bool fits_market;
	bool exists;		/* or may */
	double doubt;		/* what its own conclusion leaves */
};

struct weighing {
	struct matcher *matcher;
	const struct reading *reading;
	struct matched *matched;
	struct backs backs;
	GArray *held;		/* struct held, of one character */
};

static double
conclusion_leaves(const char *concluded, bool *exists)
{
	*exists = study_may_exist(concluded);
	if (concluded == NULL || strcmp(concluded, "accepted") == 0)
		return 1;
	if (strcmp(concluded, "open") == 0)
		return 0.95;
	return *exists ? 0.6 : 0.4;
}

static void
hold(struct weighing *weighing, const struct record *pairing)
{
	const struct model *model = weighing->matcher->model;
	const struct backs *backs = &weighing->backs;
	struct held one = {.pairing = pairing};
	const struct record *market;

	one.cardback = model_record(model, pairing->values,
		NAME(PAIRING_CARDBACK));
	if (one.cardback == NULL || holds(backs->denied, one.cardback))
		return;
	market = model_record(model, one.cardback->values,
		NAME(CARDBACK_MARKET));
	one.fits_label = !backs->any || holds(backs->allowed, one.cardback);
	one.fits_number = backs->any && g_hash_table_contains(backs->numbers,
		GUINT_TO_POINTER((guint)model_whole(model,
		one.cardback->values, NAME(CARDBACK_NUMBER), 0)));
	one.fits_market = weighing->reading->markets->len == 0 ||
		holds(weighing->reading->markets, market);
	one.doubt = conclusion_leaves(model_word(model, pairing->values,
		NAME(PAIRING_CONCLUDED)), &one.exists);
	g_array_append_val(weighing->held, one);
}

/* Whether the pairing is the only one that what was said leaves. */
static double
label_share(const struct weighing *weighing, const struct held *one,
	unsigned fitting)
{
	const struct backs *backs = &weighing->backs;
	const struct reading *reading = weighing->reading;
	double share;

	if (!one->fits_label)
		return one->fits_number ? 0.2 : 0.05;
	if (!one->fits_market && !(backs->any && backs->lettered))
		return 0.05;
	if (backs->any && backs->lettered)
		share = 1.0 / backs->allowed->len;
	else if (backs->any)
		share = fitting > 1 ? 1.0 / fitting :
			backs->allowed->len == 1 ? 1 : 0.7;
	else
		share = 0.7 / MAX(fitting, 1u);
	if (!one->fits_market)
		share *= reading->markets_far ? 0.97 : 0.5;
	return share;
}

/* Situations of the pairing that agree with the other parts that are named. */
static bool
agrees(const struct reading *reading, const struct situation *situation)
{
	static const struct {
		enum naming naming;
		size_t part;
	} parts[] = {
		{NAMES_BLISTER, offsetof(struct situation, blister)},
		{NAMES_ANOMALY, offsetof(struct situation, anomaly)},
		{NAMES_STICKER, offsetof(struct situation, sticker)},
	};
	size_t i;
	guint j;

	for (i = 0; i < G_N_ELEMENTS(parts); i++) {
		const GArray *list = reading->named[parts[i].naming];
		const struct record *part = *(const struct record *const *)
			(const void *)((const char *)situation +
			parts[i].part);
		bool any = false, found = false;

		for (j = 0; j < list->len; j++) {
			const struct named *named = &g_array_index(list,
				struct named, j);

			if (named->cover < 0.99 || named->negated)
				continue;
			any = true;
			found |= named->record == part;
		}
		if (any && !found)
			return false;
	}
	return true;
}

static GArray *
situations_left(const struct weighing *weighing, const struct record *pairing)
{
	GArray *all = g_array_new(FALSE, FALSE, sizeof(struct situation));
	GArray *left = g_array_new(FALSE, FALSE, sizeof(struct situation));
	guint i;

	situations_of(weighing->matcher->model, pairing, all);
	for (i = 0; i < all->len; i++)
		if (agrees(weighing->reading, &g_array_index(all,
			struct situation, i)))
			g_array_append_val(left, g_array_index(all,
				struct situation, i));
	if (left->len > 0) {
		g_array_free(all, TRUE);
		return left;
	}
	g_array_free(left, TRUE);
	return all;
}

/* Says why, for a person. */
static void
explain(const struct weighing *weighing, struct match_candidate *candidate,
	const struct held *one, unsigned fitting)
{
	const struct reading *reading = weighing->reading;
	struct matched *matched = weighing->matched;
	const struct backs *backs = &weighing->backs;
	const char *why;

	candidate_because(matched, candidate, "%s, %s",
		reading->characters->len == 1 ? "the character is named" :
		reading->characters->len == 0 ? "no character is named" :
		"more than one character fits", !backs->any ?
		"no card back is" : !one->fits_label ?
		"but not on this card back" : backs->lettered ?
		"and so is the card back" : "of its label the number alone");
	if (backs->any && !backs->lettered && one->fits_label && fitting == 1)
		candidate_because(matched, candidate, "it is known on no "
			"other with that number");
	if (backs->other && one->fits_label)
		candidate_because(matched, candidate, "the label is read in "
			"the scheme in use; in another it is another card");
	if (!one->fits_market)
		candidate_because(matched, candidate, "the row names another "
			"market");
	if (!one->exists)
		candidate_because(matched, candidate, "the guide says that "
			"there is none");
	else if (one->doubt < 1)
		candidate_because(matched, candidate, "the guide is not sure "
			"that it exists");
	doubts_leave(reading, &why);
	if (why != NULL)
		candidate_because(matched, candidate, "%s", why);
	if (reading->character_fit < 0.95 && reading->characters->len == 1)
		candidate_because(matched, candidate, "the name is not "
			"spelt as the guide has it");
}

/* Weighs the pairings that are held, of one character or of one card back. */
static void
weigh_held(struct weighing *weighing, double sure)
{
	unsigned fitting = 0;
	const char *why;
	guint i;

	for (i = 0; i < weighing->held->len; i++) {
		const struct held *one = &g_array_index(weighing->held,
			struct held, i);

		fitting += one->fits_label && one->exists && (
			one->fits_market || (weighing->backs.any &&
			weighing->backs.lettered));
	}
	sure *= carded_share(weighing->reading, &weighing->backs) *
		doubts_leave(weighing->reading, &why);
	for (i = 0; i < weighing->held->len; i++) {
		const struct held *one = &g_array_index(weighing->held,
			struct held, i);
		struct match_candidate *candidate = matched_add(
			weighing->matched, one->pairing, sure * one->doubt *
			label_share(weighing, one, fitting));

		if (candidate == NULL)
			continue;
		candidate->refuted = !one->exists;
		candidate->situations = situations_left(weighing,
			one->pairing);
		explain(weighing, candidate, one, fitting);
	}
	g_array_set_size(weighing->held, 0);
}

static void
hold_pointing(struct weighing *weighing, const struct record *target,
	enum field_name name)
{
	struct pointer_list list = model_pointing(weighing->matcher->model,
		target);
	size_t i;

	for (i = 0; i < list.count; i++)
		if (list.items[i].field == model_field(
			weighing->matcher->model, name))
			hold(weighing, list.items[i].from);
}

/* What is known of the card back, whatever the character. */
static void
keep_backs(const struct weighing *weighing)
{
	struct matched *matched = weighing->matched;
	guint i;

	for (i = 0; i < weighing->backs.allowed->len; i++)
		g_ptr_array_add(matched->cardbacks,
			weighing->backs.allowed->pdata[i]);
	for (i = 0; i < weighing->backs.denied->len; i++)
		g_ptr_array_add(matched->not_cardbacks,
			weighing->backs.denied->pdata[i]);
}

/* Whether a character is known on a card back that the labels allow. */
static bool
is_on_label(struct weighing *weighing, const struct record *character)
{
	bool on = false;
	guint i;

	hold_pointing(weighing, character, NAME(PAIRING_CHARACTER));
	for (i = 0; i < weighing->held->len; i++)
		on |= g_array_index(weighing->held, struct held, i).fits_label;
	g_array_set_size(weighing->held, 0);
	return on;
}

/*
 * Where the character that is named is not known on the label's card back,
 * another may be meant that shares part of the name. It is offered, no more.
 */
static void
weigh_others(struct weighing *weighing)
{
	const struct reading *reading = weighing->reading;
	const GArray *list = reading->named[NAMES_CHARACTER];
	double most = 0;
	guint i;

	for (i = 0; i < reading->characters->len; i++)
		if (is_on_label(weighing, reading->characters->pdata[i]))
			return;
	for (i = 0; i < list->len; i++) {
		const struct named *one = &g_array_index(list, struct named,
			i);

		most = MAX(most, one->mass);
		if (one->mass < most / 2 || one->negated || holds(
			reading->characters, one->record) ||
			!is_on_label(weighing, one->record))
			continue;
		hold_pointing(weighing, one->record,
			NAME(PAIRING_CHARACTER));
		weigh_held(weighing, 0.4);
	}
}

void
weigh_pairings(struct matcher *matcher, const struct reading *reading,
	struct matched *matched)
{
	struct weighing weighing = {
		.matcher = matcher,
		.reading = reading,
		.matched = matched,
		.held = g_array_new(FALSE, FALSE, sizeof(struct held)),
	};
	double sure = reading->character_fit;
	guint i;

	backs_init(&weighing.backs, reading);
	keep_backs(&weighing);
	for (i = 0; i < reading->characters->len; i++) {
		hold_pointing(&weighing, reading->characters->pdata[i],
			NAME(PAIRING_CHARACTER));
		weigh_held(&weighing, sure / reading->characters->len);
	}
	if (weighing.backs.any && weighing.backs.lettered)
		weigh_others(&weighing);
	if (reading->characters->len == 0 && weighing.backs.any)
		for (i = 0; i < weighing.backs.allowed->len; i++) {
			hold_pointing(&weighing,
				weighing.backs.allowed->pdata[i],
				NAME(PAIRING_CARDBACK));
			weigh_held(&weighing, 0.5 / MAX(1u,
				weighing.held->len));
		}
	backs_release(&weighing.backs);
	g_array_free(weighing.held, TRUE);
}

static double
loose_share(const struct reading *reading)
{
	if (reading->stage != MEANS_NOTHING)
		return 0.1;
	switch (reading->form) {
	case FORM_LOOSE:
		return 1;
	case FORM_UNSAID:
		return 0.6;
	case FORM_BAGGED:
		return 0.5;
	case FORM_CARDED:
	case FORM_CARD_ONLY:
	case FORM_BOXED:
		return 0.1;
	}
	return 0;
}

void
weigh_variants(struct matcher *matcher, const struct reading *reading,
	struct matched *matched)
{
	const char *why;
	double sure = reading->character_fit * loose_share(reading) *
		doubts_leave(reading, &why);
	guint i, j;

	for (i = 0; i < reading->characters->len; i++) {
		GPtrArray *variants = variants_of(matcher,
			reading->characters->pdata[i]);
		struct told told = variants_tell(matcher, reading, variants);

		for (j = 0; j < variants->len; j++) {
			struct match_candidate *candidate;
			bool alone = told.alone == (int)j, exists;
			double share = alone ? (told.doubted ? 0.6 : 0.95) :
				variants->len == 1 ? (told.denied ? 0.6 :
				0.97) : MIN(0.6,
				told.weights[j]) * (told.alone < 0 ? 1 : 0.3);

			share *= conclusion_leaves(model_word(matcher->model,
				((const struct record *)
				variants->pdata[j])->values,
				NAME(VARIANT_CONCLUDED)), &exists);
			if (alone && reading->characters->len == 1 &&
				!told.doubted)
				matched->variant = variants->pdata[j];
			candidate = matched_add(matched, variants->pdata[j],
				sure * share / reading->characters->len);
			if (candidate == NULL)
				continue;
			candidate_because(matched, candidate, "%s%s%s", alone ?
				told.phrase == NULL ? "told apart by several "
				"words" : "told apart by \"" :
				variants->len == 1 ? "the only variant" :
				"nothing in the row tells the variants apart",
				alone && told.phrase != NULL ?
				g_strstrip(arena_text(matched->arena,
				told.phrase, strlen(told.phrase))) : "",
				alone && told.phrase != NULL ? "\"" : "");
			if (why != NULL)
				candidate_because(matched, candidate, "%s",
					why);
		}
		g_ptr_array_free(variants, TRUE);
	}
}
