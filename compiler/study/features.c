/*
 * Scores are references to states, "feature.state", in the records of fronts,
 * backs, blisters, variants and characters. They are turned into a set of
 * states for each record and feature, in one table a kind.
 */
#include "study/features.h"

#include <string.h>

enum part { PART_CHARACTER, PART_FRONT, PART_CARDBACK, PART_BLISTER,
	PART_VARIANT, PARTS };

static const struct {
	const char *kind;
	enum field_name scores;
	enum field_name inapplicable;
} part_fields[] = {
	[PART_CHARACTER] = {"character", NAME(CHARACTER_SCORES),
		NAME(CHARACTER_INAPPLICABLE)},
	[PART_FRONT] = {"front", NAME(FRONT_SCORES),
		NAME(FRONT_INAPPLICABLE)},
	[PART_CARDBACK] = {"cardback", NAME(CARDBACK_SCORES),
		NAME(CARDBACK_INAPPLICABLE)},
	[PART_BLISTER] = {"blister", NAME(BLISTER_SCORES),
		NAME(BLISTER_INAPPLICABLE)},
	[PART_VARIANT] = {"variant", NAME(VARIANT_SCORES),
		NAME(VARIANT_INAPPLICABLE)},
};

/* What one record says of one feature. */
struct score {
	state_set states;
	bool known;
};

struct features {
	struct feature *items;
	unsigned count;
	struct score *scores[PARTS];	/* by record, then feature */
};

static state_set
all_states(const struct feature *feature)
{
	return feature->states >= MOST_STATES ? ~(state_set)0 :
		((state_set)1 << feature->states) - 1;
}

static void
gather_features(struct features *features, const struct model *model,
	struct arena *arena)
{
	struct record_list list = model_records_of(model, "feature");
	unsigned i;

	features->count = list.count;
	features->items = arena_array(arena, struct feature, list.count);
	for (i = 0; i < list.count; i++) {
		struct feature *feature = &features->items[i];
		struct value *const *values = list.items[i]->values;
		const struct value *cost, *reliability;

		cost = model_get(model, values, NAME(FEATURE_COST));
		reliability = model_get(model, values,
			NAME(FEATURE_RELIABILITY));
		feature->record = list.items[i];
		feature->states = MIN(value_count(model_get(model, values,
			NAME(FEATURE_STATES))), (unsigned)MOST_STATES);
		feature->ask = model_text(model, values, NAME(FEATURE_ASK));
		if (cost != NULL)
			feature->cost = (int)cost->word->index;
		if (reliability != NULL)
			feature->reliability = (int)reliability->word->index;
	}
}

/* The place of a state within its feature; MOST_STATES if it has none. */
static unsigned
state_place(const struct model *model, const struct reference *reference)
{
	const struct value *states = model_get(model,
		reference->record->values, NAME(FEATURE_STATES));
	unsigned i;

	for (i = 0; i < value_count(states) && i < MOST_STATES; i++)
		if (value_item(states, i) == reference->item)
			return i;
	return MOST_STATES;
}

static void
score_record(struct features *features, const struct model *model,
	enum part part, const struct record *record)
{
	struct score *scores = features->scores[part] +
		(size_t)record->index * features->count;
	const struct value *list;
	unsigned i, place;

	list = model_get(model, record->values, part_fields[part].scores);
	for (i = 0; i < value_count(list); i++) {
		const struct reference *state =
			&value_item(list, i)->reference;

		place = state_place(model, state);
		if (place == MOST_STATES)
			continue;
		scores[state->record->index].known = true;
		scores[state->record->index].states |= (state_set)1 << place;
	}
	list = model_get(model, record->values,
		part_fields[part].inapplicable);
	for (i = 0; i < value_count(list); i++)
		scores[value_item(list, i)->reference.record->index].known =
			true;
}

struct features *
features_gather(const struct model *model, struct arena *arena)
{
	struct features *features = arena_one(arena, struct features);
	struct record_list list;
	unsigned i, j;

	gather_features(features, model, arena);
	for (i = 0; i < PARTS; i++) {
		list = model_records_of(model, part_fields[i].kind);
		features->scores[i] = arena_array(arena, struct score,
			(size_t)list.count * features->count);
		for (j = 0; j < list.count; j++)
			score_record(features, model, (enum part)i,
				list.items[j]);
	}
	return features;
}

unsigned
features_count(const struct features *features)
{
	return features->count;
}

const struct feature *
features_get(const struct features *features, unsigned i)
{
	return &features->items[i];
}

/* What all parts of a situation say of a feature together. */
static struct score
score_of(const struct features *features, unsigned i,
	const struct situation *situation)
{
	const struct record *const parts[] = {
		[PART_CHARACTER] = situation->character,
		[PART_FRONT] = situation->front,
		[PART_CARDBACK] = situation->cardback,
		[PART_BLISTER] = situation->blister,
		[PART_VARIANT] = situation->variant,
	};
	struct score score = {all_states(&features->items[i]), false};
	unsigned j;

	for (j = 0; j < PARTS; j++) {
		const struct score *part;

		if (parts[j] == NULL)
			continue;
		part = &features->scores[j][(size_t)parts[j]->index *
			features->count + i];
		if (!part->known)
			continue;
		score.known = true;
		score.states &= part->states;
	}
	return score;
}

state_set
features_states(const struct features *features, unsigned i,
	const struct situation *situation)
{
	return score_of(features, i, situation).states;
}

bool
features_divide(const struct features *features, unsigned i,
	const struct situation *a, const struct situation *b)
{
	struct score left = score_of(features, i, a);
	struct score right = score_of(features, i, b);

	return left.known && right.known &&
		(left.states & right.states) == 0 &&
		(left.states | right.states) != 0;
}
