/*
 * Each part of a piece scores for itself; what they say is met here. What is
 * imitated is known by what the genuine one does not show.
 */
#include "study/features.h"

#include <math.h>

/* What a look costs grows so much with each step dearer or less sure. */
static const double step = 1.4;

struct features {
	const struct model *model;
	struct scores *scores;
};

struct features *
features_gather(const struct model *model, struct arena *arena)
{
	struct features *features = arena_one(arena, struct features);

	features->model = model;
	features->scores = scores_gather(model, arena);
	return features;
}

unsigned
features_count(const struct features *features)
{
	return scores_features(features->scores);
}

const struct feature *
features_get(const struct features *features, unsigned i)
{
	return scores_feature(features->scores, i);
}

static state_set
all_states(const struct feature *feature)
{
	return feature->states >= MOST_STATES ? ~(state_set)0 :
		((state_set)1 << feature->states) - 1;
}

double
features_cost(const struct feature *feature)
{
	enum { SUREST = 3 };

	return pow(step, 2 * feature->cost + SUREST - feature->reliability);
}

const char *
features_kind(unsigned i)
{
	return scores_kind(i);
}

bool
features_score(const struct features *features, unsigned i,
	const struct record *record, state_set *states)
{
	const struct score *score = scores_on(features->scores, record, i);

	*states = score == NULL ? all_states(features_get(features, i)) :
		score->states;
	return score != NULL;
}

/* Whether a tell of an imitation is that it differs in the feature. */
static bool
gives_away(const struct features *features, unsigned i,
	const struct record *imitation)
{
	const struct value *tells;
	unsigned j;

	if (imitation == NULL)
		return false;
	tells = model_get(features->model, imitation->values,
		NAME(IMITATION_TELLS));
	for (j = 0; j < value_count(tells); j++)
		if (model_record(features->model, value_item(tells, j)->group,
			NAME(IMITATION_TELL_FEATURE)) ==
			features_get(features, i)->record)
			return true;
	return false;
}

bool
features_show(const struct features *features, unsigned i,
	const struct situation *situation, state_set *states)
{
	const struct record *const parts[] = {situation->character,
		situation->front, situation->cardback, situation->blister,
		situation->variant, situation->accessory};
	bool known = false;
	size_t j;

	*states = all_states(features_get(features, i));
	for (j = 0; j < G_N_ELEMENTS(parts); j++) {
		const struct score *score = scores_on(features->scores,
			parts[j], i);

		if (score == NULL)
			continue;
		known = true;
		*states &= score->states;
	}
	if (known && gives_away(features, i, situation->imitation))
		*states = all_states(features_get(features, i)) & ~*states;
	return known;
}

state_set
features_states(const struct features *features, unsigned i,
	const struct situation *situation)
{
	state_set states;

	features_show(features, i, situation, &states);
	return states;
}

bool
features_divide(const struct features *features, unsigned i,
	const struct situation *a, const struct situation *b)
{
	state_set left, right;

	return features_show(features, i, a, &left) &&
		features_show(features, i, b, &right) && (left & right) == 0 &&
		(left | right) != 0;
}
