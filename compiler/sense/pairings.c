/*
 * Surprises about a character on a card back: when the character came, who
 * sealed the blister, when the variant is known from. What is already doubted
 * or disproved surprises nobody.
 */
#include "sense/sensing.h"

#include <string.h>

/* A pairing, and what all its combinations are held against. */
struct paired {
	const struct record *pairing;
	const struct record *cardback;
	const struct record *market;
	const struct date *from;
	const struct date *to;
};

static bool
is_doubted(const char *concluded)
{
	return concluded != NULL && (strcmp(concluded, "doubted") == 0 ||
		strcmp(concluded, "disproved") == 0 ||
		strcmp(concluded, "never-issued") == 0);
}

static void
check_character(struct sensing *sensing, const struct paired *paired)
{
	const struct value *value = model_get(sensing->model,
		paired->pairing->values, NAME(PAIRING_CHARACTER));
	const struct value *released, *to;
	struct diag *diag;

	if (value == NULL)
		return;
	released = model_get(sensing->model, value->reference.record->values,
		NAME(CHARACTER_RELEASED));
	to = model_get(sensing->model, paired->cardback->values,
		NAME(CARDBACK_TO));
	if (released == NULL || to == NULL ||
		released->date.year <= to->date.year ||
		sense_excused(sensing, paired->pairing,
			DIAG_CHARACTER_AFTER_CARDBACK))
		return;
	diag = diag_report(sensing->diags, DIAG_CHARACTER_AFTER_CARDBACK,
		value->span, "\"%s\" came in %s, and the card back was last "
		"sold in %s", value->reference.record->name,
		released->date.text, to->date.text);
	diag_note(diag, released->span, "the character's release is here");
	diag_note(diag, to->span, "the card back's last date is here");
	sense_help(diag, paired->pairing, "look at the card back and at both "
		"dates again");
}

/* Whether a factory's sealing for a market may overlap the card's sale. */
static bool
may_overlap(const struct sensing *sensing, const struct paired *paired,
	struct value *const *sealing)
{
	const struct date *from = model_date(sensing->model, sealing,
		NAME(FACTORY_SEALS_FOR_FROM));
	const struct date *to = model_date(sensing->model, sealing,
		NAME(FACTORY_SEALS_FOR_TO));

	return (from == NULL || paired->to == NULL ||
			paired->to->last >= from->first) &&
		(to == NULL || paired->from == NULL ||
			paired->from->first <= to->last);
}

static bool
may_have_sealed(const struct sensing *sensing, const struct paired *paired,
	const struct value *list)
{
	unsigned i;

	for (i = 0; i < value_count(list); i++) {
		struct value *const *sealing = value_item(list, i)->group;

		if (model_record(sensing->model, sealing,
			NAME(FACTORY_SEALS_FOR_MARKET)) == paired->market &&
			may_overlap(sensing, paired, sealing))
			return true;
	}
	return false;
}

/* A factory of which no sealing is recorded may have sealed for anybody. */
static void
check_blister(struct sensing *sensing, const struct paired *paired,
	struct value *const *combination)
{
	const struct value *blister = model_get(sensing->model, combination,
		NAME(COMBINATION_BLISTER));
	const struct record *factory;
	const struct value *list;
	struct diag *diag;

	if (blister == NULL || paired->market == NULL)
		return;
	factory = model_record(sensing->model,
		blister->reference.record->values, NAME(BLISTER_SEALED_BY));
	if (factory == NULL)
		return;
	list = model_get(sensing->model, factory->values,
		NAME(FACTORY_SEALS_FOR));
	if (value_count(list) == 0 || may_have_sealed(sensing, paired, list) ||
		sense_excused(sensing, paired->pairing,
			DIAG_BLISTER_WRONG_MARKET))
		return;
	diag = diag_report(sensing->diags, DIAG_BLISTER_WRONG_MARKET,
		blister->span, "the blister \"%s\" was sealed by \"%s\", which "
		"did not seal for \"%s\" then",
		blister->reference.record->name, factory->name,
		paired->market->name);
	diag_note(diag, list->span, "what \"%s\" sealed for is here",
		factory->name);
	sense_help(diag, paired->pairing, "look at outline, stems and seal "
		"again, not at the tint alone");
}

/* Which card back is the earlier goes by when each was first sold. */
static void
check_variant(struct sensing *sensing, const struct paired *paired,
	struct value *const *combination)
{
	const struct value *variant = model_get(sensing->model, combination,
		NAME(COMBINATION_VARIANT));
	const struct value *known;
	const struct date *from;
	struct diag *diag;

	if (variant == NULL || paired->from == NULL)
		return;
	known = model_get(sensing->model, variant->reference.record->values,
		NAME(VARIANT_KNOWN_FROM));
	from = known == NULL ? NULL : model_date(sensing->model,
		known->reference.record->values, NAME(CARDBACK_FROM));
	if (from == NULL || from->first <= paired->from->last ||
		sense_excused(sensing, paired->pairing,
			DIAG_VARIANT_BEFORE_KNOWN))
		return;
	diag = diag_report(sensing->diags, DIAG_VARIANT_BEFORE_KNOWN,
		variant->span, "\"%s\" is known from \"%s\" (%s) on, and this "
		"card back is earlier (%s)", variant->reference.record->name,
		known->reference.record->name, from->text, paired->from->text);
	diag_note(diag, known->span, "the variant's first card back is here");
	sense_help(diag, paired->pairing, "look at the tells again, or give "
		"the variant an earlier \"known_from\"");
}

static void
check_pairing(struct sensing *sensing, const struct record *pairing)
{
	const struct model *model = sensing->model;
	struct paired paired = {.pairing = pairing};
	const struct value *list = model_get(model, pairing->values,
		NAME(PAIRING_COMBINATIONS));
	unsigned i;

	paired.cardback = model_record(model, pairing->values,
		NAME(PAIRING_CARDBACK));
	if (paired.cardback == NULL || is_doubted(model_word(model,
		pairing->values, NAME(PAIRING_CONCLUDED))))
		return;
	paired.market = model_record(model, paired.cardback->values,
		NAME(CARDBACK_MARKET));
	paired.from = model_date(model, paired.cardback->values,
		NAME(CARDBACK_FROM));
	paired.to = model_date(model, paired.cardback->values,
		NAME(CARDBACK_TO));
	check_character(sensing, &paired);
	for (i = 0; i < value_count(list); i++) {
		struct value *const *values = value_item(list, i)->group;

		if (is_doubted(model_word(model, values,
			NAME(COMBINATION_CONCLUDED))))
			continue;
		check_blister(sensing, &paired, values);
		check_variant(sensing, &paired, values);
	}
}

void
sense_pairings(struct sensing *sensing)
{
	struct record_list list = sense_records(sensing, "pairing");
	unsigned i;

	for (i = 0; i < list.count; i++)
		check_pairing(sensing, list.items[i]);
}
