/*
 * Weighing what is no figure: accessories, packages, preproduction pieces,
 * stickers, premiums, and cards without a figure.
 */
#include <string.h>

#include "match/matching.h"
#include "study/slots.h"

static const double whole = 0.99;

enum { LOOKED_AT = 24 };	/* names of a kind: what fits less is not meant */

static const struct named *
named_at(const struct reading *reading, enum naming naming, guint i)
{
	return &g_array_index(reading->named[naming], struct named, i);
}

static guint
count_named(const struct reading *reading, enum naming naming)
{
	return MIN(reading->named[naming]->len, (guint)LOOKED_AT);
}

/* Whether all the words of a name are those of the character. */
static bool
is_only_character(const struct reading *reading, const struct named *named)
{
	size_t i;

	for (i = 0; i < G_N_ELEMENTS(named->words.bits); i++)
		if ((named->words.bits[i] &
			~reading->character_words.bits[i]) != 0)
			return false;
	return true;
}

static bool
lists_character(const struct model *model, const struct record *record,
	enum field_name name, const struct reading *reading)
{
	const struct value *list = model_get(model, record->values, name);
	unsigned i;

	for (i = 0; i < value_count(list); i++)
		if (g_ptr_array_find(reading->characters,
			value_item(list, i)->reference.record, NULL))
			return true;
	return false;
}

static bool
has_label(const struct reading *reading)
{
	guint i;

	for (i = 0; i < reading->labels->len; i++)
		if (g_array_index(reading->labels, struct label_said, i).sure)
			return true;
	return false;
}

static bool
is_doubted(const struct reading *reading, const struct named *named)
{
	unsigned i;

	for (i = 0; i < reading->text.count; i++)
		if ((named->words.bits[i / 64] >> i % 64 & 1) != 0 &&
			reading->text.words[i].doubted)
			return true;
	return false;
}

static double
doubts_about(const struct reading *reading, const struct named *named,
	const char **why)
{
	double left = doubts_leave(reading, why);

	if (*why == NULL && is_doubted(reading, named)) {
		*why = "the row doubts it itself";
		left = 0.6;
	}
	return left;
}

/* The first word of a name that is no word of the character's. */
static unsigned
first_own(const struct reading *reading, const struct named *named)
{
	unsigned i;

	for (i = named->first; i <= named->last; i++)
		if ((named->words.bits[i / 64] >> i % 64 & 1) != 0 &&
			(reading->character_words.bits[i / 64] >> i % 64 &
			1) == 0)
			return i;
	return named->first;
}

/* Whether an owner stands before the thing: "Quoy's keys". */
static bool
is_owned(const struct reading *reading, const struct named *named)
{
	unsigned first = first_own(reading, named);
	const struct row_word *word;
	size_t size;

	if (first == 0 || first >= reading->text.count)
		return false;
	word = &reading->text.words[first - 1];
	size = strlen(word->text);
	return word->used && word->cell ==
		reading->text.words[first].cell && (word->owner ||
		(size > 4 && word->text[size - 1] == 's'));
}

/* Whether "with" stands between the character and the thing. */
static bool
is_carried(const struct reading *reading, const struct named *named)
{
	unsigned first = first_own(reading, named), i;

	/* In a column beside that of the character. */
	if (reading->text.words[first].role == COLUMN_PART)
		for (i = 0; i < reading->text.count; i++)
			if (reading->text.words[i].used &&
				reading->text.words[i].role ==
				COLUMN_CHARACTER)
				return true;
	for (i = 0; i < first && i < reading->text.count; i++) {
		enum meaning meaning = reading->text.words[i].meaning;

		if (meaning == MEANS_WITH || meaning == MEANS_WITHOUT ||
			meaning == MEANS_NOT)
			return true;
	}
	return false;
}

/* "ladder gone": whether what is said behind the thing is that it lacks. */
static bool
is_lacking(const struct reading *reading, const struct named *named)
{
	enum { NEAR = 3 };
	const struct row_text *text = &reading->text;
	unsigned i;

	for (i = named->last + 1; i < text->count && i <= named->last + NEAR;
		i++) {
		if (text->words[i].clause != text->words[named->last].clause ||
			text->words[i].cell != text->words[named->last].cell)
			return false;
		if (text->words[i].meaning == MEANS_WITHOUT)
			return true;
	}
	return false;
}

/* "cloth or vinyl": whether what names the thing is one of two. */
static bool
is_alternative(const struct reading *reading, const struct named *named)
{
	const struct row_text *text = &reading->text;
	unsigned i, from = named->first == 0 ? 0 : named->first - 1;

	for (i = from; i < text->count && i <= named->last + 1; i++)
		if (text->words[i].meaning == MEANS_OR &&
			text->words[i].cell == text->words[named->first].cell)
			return true;
	return false;
}

/* How far the row is about the accessory and not the figure. */
static double
alone_share(const struct reading *reading, const struct named *named)
{
	bool figure = reading->characters->len > 0 &&
		reading->character_fit >= 0.75;

	if (has_label(reading) || reading->stage != MEANS_NOTHING)
		return 0.05;
	if (is_alternative(reading, named))
		return 0.5;
	if (reading->form == FORM_CARDED || is_carried(reading, named) ||
		is_lacking(reading, named))
		return 0.1;
	if (reading->only || is_owned(reading, named))
		return 1;
	if (reading->spare && reading->form != FORM_LOOSE)
		return 1;
	if (!figure)
		return reading->form == FORM_UNSAID ? 0.95 :
			reading->form == FORM_LOOSE ? 0.9 : 0.4;
	return reading->form == FORM_UNSAID ? 0.6 : 0.15;
}

/* How many accessories fit as well. */
static unsigned
count_as_good(const struct reading *reading, const struct model *model,
	const struct named *named, bool related)
{
	unsigned count = 0;
	guint i;

	for (i = 0; i < count_named(reading, NAMES_ACCESSORY); i++) {
		const struct named *other = named_at(reading, NAMES_ACCESSORY,
			i);

		count += !other->negated && other->mass > 0 &&
			lists_character(model, other->record,
			NAME(ACCESSORY_CHARACTERS), reading) == related &&
			(other->cover >= whole || named->cover < whole) &&
			other->mass > named->mass - 1e-9;
	}
	return MAX(count, 1u);
}

static bool
share_character(const struct model *model, const struct record *left,
	const struct record *right)
{
	const struct value *one = model_get(model, left->values,
		NAME(ACCESSORY_CHARACTERS));
	const struct value *two = model_get(model, right->values,
		NAME(ACCESSORY_CHARACTERS));
	unsigned i, j;

	for (i = 0; i < value_count(one); i++)
		for (j = 0; j < value_count(two); j++)
			if (value_item(one, i)->reference.record ==
				value_item(two, j)->reference.record)
				return true;
	return false;
}

/* Whether a second accessory stands beside this one: "bucket and mallet". */
static bool
is_with_another(const struct reading *reading, const struct model *model,
	const struct named *named)
{
	guint i;

	for (i = 0; i < count_named(reading, NAMES_ACCESSORY); i++) {
		const struct named *other = named_at(reading, NAMES_ACCESSORY,
			i);

		if (other->telling && !other->negated && other->cover > 0.4 &&
			!words_meet(&other->words, &named->words) &&
			!is_only_character(reading, other) &&
			share_character(model, named->record, other->record))
			return true;
	}
	return false;
}

static void
weigh_accessory(struct matcher *matcher, const struct reading *reading,
	const struct named *named, struct matched *matched)
{
	bool related = lists_character(matcher->model, named->record,
		NAME(ACCESSORY_CHARACTERS), reading);
	bool figure = reading->characters->len > 0 &&
		reading->character_fit >= 0.75;
	struct match_candidate *candidate;
	const char *why;
	double sure;

	if (named->negated || named->mass <= 0 || (named->cover < whole &&
		((is_only_character(reading, named) && (named->name->id ||
		!reading->only)) ||
		(!named->telling && !related))))
		return;
	if (named->cover >= whole)
		sure = related || !figure ? 0.95 : 0.5;
	else if (related)
		sure = 0.9;
	else
		sure = (named->own ? 0.7 : 0.5) * named->cover;
	sure *= 1 - (1 - named->fit) * 0.5;
	if (is_with_another(reading, matcher->model, named))
		sure *= 0.7;
	sure /= count_as_good(reading, matcher->model, named, related);
	candidate = matched_add(matched, named->record, sure *
		alone_share(reading, named) *
		doubts_about(reading, named, &why));
	if (candidate == NULL)
		return;
	candidate_because(matched, candidate, "%s", named->cover >= whole ?
		"the accessory is named" : "part of its name is there");
	if (related)
		candidate_because(matched, candidate, "and whose it is");
	if (why != NULL)
		candidate_because(matched, candidate, "%s", why);
}

/* The cardbacks that a row's labels allow, or none given: all. */
static bool
label_allows(const struct reading *reading, const struct record *cardback)
{
	bool any = false;
	guint i;
	unsigned j;

	for (i = 0; i < reading->labels->len; i++) {
		const struct label_said *said = &g_array_index(
			reading->labels, struct label_said, i);

		if (said->negated || !said->sure)
			continue;
		any = true;
		for (j = 0; j < said->count; j++)
			if (said->cardbacks[j] == cardback)
				return true;
	}
	return !any;
}

/* How far the row's label and character are those of a preproduction piece. */
static double
fits_of(struct matcher *matcher, const struct reading *reading,
	const struct named *named, const struct record *record)
{
	const struct value *of = model_get(matcher->model, record->values,
		NAME(PREPRODUCTION_OF));
	bool label = !has_label(reading), character =
		reading->characters->len == 0;
	double fit = 1;
	unsigned i;

	for (i = 0; i < value_count(of); i++) {
		const struct record *target =
			value_item(of, i)->reference.record;
		const char *kind = target->kind->name;

		if (strcmp(kind, "cardback") == 0)
			label |= label_allows(reading, target);
		else if (strcmp(kind, "variant") == 0)
			character |= g_ptr_array_find(reading->characters,
				model_record(matcher->model, target->values,
				NAME(VARIANT_CHARACTER)), NULL);
		else if (strcmp(kind, "front") == 0)
			character |= g_ptr_array_find(reading->characters,
				model_record(matcher->model, target->values,
				NAME(FRONT_CHARACTER)), NULL);
	}
	/* Its name may hold a character that it is not of. */
	for (i = 0; named != NULL && i < reading->text.count; i++)
		character |= reading->text.words[i].used &&
			(named->words.bits[i / 64] >> i % 64 & 1) != 0;
	if (!label)
		fit *= 0.05;
	return character ? fit : fit * 0.3;
}

static const char *
stage_word(enum meaning stage)
{
	return stage == MEANS_PROOF ? "proof-card" : stage == MEANS_SHEET ?
		"uncut-sheet" : "test-moulding";
}

/* All of the stage that the row names, each by how far it fits. */
static void
weigh_preproduction(struct matcher *matcher, const struct reading *reading,
	struct matched *matched)
{
	struct record_list list = model_records_of(matcher->model,
		"preproduction");
	double *fits = g_new0(double, list.count + 1), sum = 0, most = 0;
	double next = 0;
	const char *why;
	double left = doubts_leave(reading, &why);
	unsigned i, good = 0;

	for (i = 0; i < list.count; i++) {
		const struct record *record = list.items[i];
		const struct named *named = find_named(reading,
			NAMES_PREPRODUCTION, record);
		const char *stage = model_word(matcher->model,
			record->values, NAME(PREPRODUCTION_STAGE));

		if (g_strcmp0(stage, stage_word(reading->stage)) != 0)
			continue;
		fits[i] = fits_of(matcher, reading, named, record);
		good += fits[i] > 0.9;
		if (named != NULL)
			fits[i] *= 1 + named->cover;
		sum += fits[i];
		next = MAX(next, MIN(most, fits[i]));
		most = MAX(most, fits[i]);
	}
	for (i = 0; i < list.count; i++) {
		bool alone = good == 1 && fits[i] == most && most > 0.9;
		/* Most of its name is there, and little of any other's. */
		bool named = fits[i] == most && most >= 1.6 && next < 1.3;
		struct match_candidate *candidate;

		if (fits[i] <= 0)
			continue;
		candidate = matched_add(matched, list.items[i], left *
			((alone && (has_label(reading) ||
			reading->characters->len > 0)) || named ? 0.95 :
			0.7 * fits[i] / sum));
		if (candidate == NULL)
			continue;
		candidate_because(matched, candidate, "%s", alone || named ?
			"the only one of its sort that fits" :
			"one of several of its sort");
		if (why != NULL)
			candidate_because(matched, candidate, "%s", why);
	}
	g_free(fits);
}

/* Whether the row's form is that of the package. */
static bool
has_form(const struct matcher *matcher, const struct reading *reading,
	const struct record *package)
{
	const char *form = model_word(matcher->model, package->values,
		NAME(PACKAGE_FORM));

	if (form == NULL)
		return false;
	return strcmp(form, "bagged") == 0 ? reading->form == FORM_BAGGED :
		reading->form == FORM_BOXED;
}

static double
package_share(struct matcher *matcher, const struct reading *reading,
	const struct record *package, const struct named *named)
{
	const struct record *offer = model_record(matcher->model,
		package->values, NAME(PACKAGE_OFFER));
	const struct named *offered = offer == NULL ? NULL :
		find_named(reading, NAMES_OFFER, offer);
	bool form = has_form(matcher, reading, package);

	if (package == reading->packed)
		return 0.9;
	if (named != NULL && named->cover >= whole)
		return 0.95;
	if (form && offered != NULL && offered->cover >= whole)
		return 0.85;
	if (form && lists_character(matcher->model, package,
		NAME(PACKAGE_CHARACTERS), reading))
		return 0.6;
	if (named == NULL || !named->telling)
		return 0;
	return named->cover * (form || reading->premium ? 0.8 : 0.4);
}

static bool
is_any_whole(const struct reading *reading)
{
	guint i;

	for (i = 0; i < reading->named[NAMES_PACKAGE]->len; i++)
		if (named_at(reading, NAMES_PACKAGE, i)->cover >= whole)
			return true;
	return false;
}

static void
weigh_package(struct matcher *matcher, const struct reading *reading,
	const struct record *package, struct matched *matched)
{
	const struct named *named = find_named(reading, NAMES_PACKAGE,
		package);
	double share = package_share(matcher, reading, package, named), left;
	struct match_candidate *candidate;
	const char *why;
	bool exists = study_may_exist(model_word(matcher->model,
		package->values, NAME(PACKAGE_CONCLUDED)));

	if (share <= 0)
		return;
	left = named == NULL ? doubts_leave(reading, &why) :
		doubts_about(reading, named, &why);
	if (has_label(reading))
		share *= 0.1;
	if (reading->form == FORM_LOOSE)
		share *= 0.5;
	if (reading->markets->len > 0 && !g_ptr_array_find(reading->markets,
		model_record(matcher->model, package->values,
		NAME(PACKAGE_MARKET)), NULL))
		share *= 0.5;
	/* One that is named whole is more than one that it may be. */
	if ((named == NULL || named->cover < whole) &&
		reading->packed != package && is_any_whole(reading))
		share *= 0.6;
	candidate = matched_add(matched, package, share * left *
		(exists ? 1 : 0.4));
	if (candidate == NULL)
		return;
	candidate->refuted = !exists;
	candidate_because(matched, candidate, "%s", named != NULL &&
		named->cover >= whole ? "the package is named" :
		"it is in such a package, or part of its name is there");
	if (why != NULL)
		candidate_because(matched, candidate, "%s", why);
}

static void
weigh_packages(struct matcher *matcher, const struct reading *reading,
	struct matched *matched)
{
	struct record_list list = model_records_of(matcher->model, "package");
	bool wrapped = reading->form == FORM_BAGGED ||
		reading->form == FORM_BOXED;
	guint i;

	/* Without its wrapping only a name leads to a package. */
	if (wrapped)
		for (i = 0; i < list.count; i++)
			weigh_package(matcher, reading, list.items[i],
				matched);
	else
		for (i = 0; i < count_named(reading, NAMES_PACKAGE); i++)
			weigh_package(matcher, reading, named_at(reading,
				NAMES_PACKAGE, i)->record, matched);
}

/* Stickers and premiums: as a rule they are part of something else. */
static void
weigh_extras(const struct reading *reading, enum naming naming,
	bool wanted, struct matched *matched)
{
	bool other = reading->characters->len > 0 || has_label(reading);
	guint i;

	for (i = 0; i < count_named(reading, naming); i++) {
		const struct named *named = named_at(reading, naming, i);
		struct match_candidate *candidate;
		const char *why;
		double share = named->cover >= whole ? 0.9 :
			0.5 * named->cover;

		if (named->mass <= 0 || named->negated || (!named->telling &&
			named->cover < whole))
			continue;
		if (other)
			share *= 0.1;
		else if (!wanted)
			share *= 0.8;
		if (reading->form == FORM_BAGGED ||
			reading->form == FORM_BOXED)
			share *= 0.5;
		candidate = matched_add(matched, named->record, share *
			doubts_about(reading, named, &why));
		if (candidate != NULL)
			candidate_because(matched, candidate, "%s",
				named->cover >= whole ? "it is named" :
				"part of its name is there");
	}
}

/* A card back by itself. */
static void
weigh_backs(const struct reading *reading, struct matched *matched)
{
	const char *why;
	double left = doubts_leave(reading, &why);
	guint i;
	unsigned j;

	if (reading->characters->len > 0 || reading->stage != MEANS_NOTHING)
		return;
	for (i = 0; i < reading->labels->len; i++) {
		const struct label_said *said = &g_array_index(
			reading->labels, struct label_said, i);

		for (j = 0; j < said->count && said->sure && !said->negated;
			j++) {
			struct match_candidate *candidate = matched_add(
				matched, said->cardbacks[j], left *
				(reading->form == FORM_CARD_ONLY ? 0.9 : 0.5) /
				said->count / reading->labels->len);

			if (candidate != NULL)
				candidate_because(matched, candidate,
					"its label is named, and no "
					"character");
		}
	}
}

void
weigh_things(struct matcher *matcher, const struct reading *reading,
	struct matched *matched)
{
	guint i;

	for (i = 0; i < count_named(reading, NAMES_ACCESSORY); i++)
		weigh_accessory(matcher, reading, named_at(reading,
			NAMES_ACCESSORY, i), matched);
	if (reading->stage != MEANS_NOTHING)
		weigh_preproduction(matcher, reading, matched);
	weigh_packages(matcher, reading, matched);
	weigh_extras(reading, NAMES_STICKER, false, matched);
	weigh_extras(reading, NAMES_OFFER, reading->premium, matched);
	weigh_backs(reading, matched);
}
