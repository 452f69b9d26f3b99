/*
 * Scores are references to states, "feature.state". Most records score few of
 * all features, so each has a short list, in order, that is searched by halves.
 */
#include "model/scores.h"

#include <string.h>

#include "base/sort.h"

enum { KINDS = 6 };

/* Cards first: that is the order in which they are listed. */
static const char *const kinds[KINDS] = {"cardback", "front", "blister",
	"variant", "character", "accessory"};

static const struct {
	enum field_name scores;
	enum field_name inapplicable;
} fields[KINDS] = {
	{NAME(CARDBACK_SCORES), NAME(CARDBACK_INAPPLICABLE)},
	{NAME(FRONT_SCORES), NAME(FRONT_INAPPLICABLE)},
	{NAME(BLISTER_SCORES), NAME(BLISTER_INAPPLICABLE)},
	{NAME(VARIANT_SCORES), NAME(VARIANT_INAPPLICABLE)},
	{NAME(CHARACTER_SCORES), NAME(CHARACTER_INAPPLICABLE)},
	{NAME(ACCESSORY_SCORES), NAME(ACCESSORY_INAPPLICABLE)},
};

struct scores {
	struct feature *features;
	unsigned count;
	struct score_list **lists;	/* by kind, then record; or NULL */
};

static void
gather_features(struct scores *scores, const struct model *model,
	struct arena *arena)
{
	struct record_list list = model_records_of(model, "feature");
	unsigned i;

	scores->count = list.count;
	scores->features = arena_array(arena, struct feature, list.count);
	for (i = 0; i < list.count; i++) {
		struct feature *feature = &scores->features[i];
		struct value *const *values = list.items[i]->values;
		const struct value *cost, *reliability;
		unsigned states = value_count(model_get(model, values,
			NAME(FEATURE_STATES)));

		cost = model_get(model, values, NAME(FEATURE_COST));
		reliability = model_get(model, values,
			NAME(FEATURE_RELIABILITY));
		feature->record = list.items[i];
		feature->states = states < MOST_STATES ? states : MOST_STATES;
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

static int
compare_scores(const void *a, const void *b)
{
	const struct score *left = a, *right = b;

	return (left->feature > right->feature) -
		(left->feature < right->feature);
}

/* Joins what is said of one feature; returns how many there are. */
static unsigned
join_scores(struct score *items, unsigned count)
{
	unsigned kept = 0, i;

	sort_items(items, count, sizeof(*items), compare_scores);
	for (i = 0; i < count; i++)
		if (kept > 0 && items[kept - 1].feature == items[i].feature)
			items[kept - 1].states |= items[i].states;
		else
			items[kept++] = items[i];
	return kept;
}

static struct score_list
score_record(const struct model *model, const struct record *record,
	unsigned kind, struct arena *arena)
{
	const struct value *scored, *inapplicable;
	struct score *items;
	unsigned count = 0, i;

	scored = model_get(model, record->values, fields[kind].scores);
	inapplicable = model_get(model, record->values,
		fields[kind].inapplicable);
	items = arena_array(arena, struct score, value_count(scored) +
		value_count(inapplicable));
	for (i = 0; i < value_count(scored); i++) {
		const struct reference *state =
			&value_item(scored, i)->reference;
		unsigned place = state_place(model, state);

		if (place < MOST_STATES)
			items[count++] = (struct score){state->record->index,
				(state_set)1 << place};
	}
	for (i = 0; i < value_count(inapplicable); i++)
		items[count++].feature = value_item(inapplicable, i)->
			reference.record->index;
	return (struct score_list){items, join_scores(items, count)};
}

struct scores *
scores_gather(const struct model *model, struct arena *arena)
{
	struct scores *scores = arena_one(arena, struct scores);
	unsigned i, j;

	gather_features(scores, model, arena);
	scores->lists = arena_array(arena, struct score_list *,
		model_schema(model)->count);
	for (i = 0; i < KINDS; i++) {
		struct record_list list = model_records_of(model, kinds[i]);
		struct score_list *lists = arena_array(arena,
			struct score_list, list.count);

		for (j = 0; j < list.count; j++)
			lists[j] = score_record(model, list.items[j], i,
				arena);
		scores->lists[schema_kind(model_schema(model), kinds[i])->
			index] = lists;
	}
	return scores;
}

unsigned
scores_features(const struct scores *scores)
{
	return scores->count;
}

const struct feature *
scores_feature(const struct scores *scores, unsigned i)
{
	return &scores->features[i];
}

struct score_list
scores_of(const struct scores *scores, const struct record *record)
{
	const struct score_list *lists = scores->lists[record->kind->index];

	return lists == NULL ? (struct score_list){NULL, 0} :
		lists[record->index];
}

const struct score *
score_list_on(const struct score_list *list, unsigned i)
{
	struct score wanted = {.feature = i};

	return list->count == 0 ? NULL : bsearch(&wanted, list->items,
		list->count, sizeof(*list->items), compare_scores);
}

const struct score *
scores_on(const struct scores *scores, const struct record *record,
	unsigned i)
{
	struct score_list list;

	if (record == NULL)
		return NULL;
	list = scores_of(scores, record);
	return score_list_on(&list, i);
}

const char *
scores_kind(unsigned i)
{
	return i < KINDS ? kinds[i] : NULL;
}
