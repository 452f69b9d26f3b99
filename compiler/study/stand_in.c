/*
 * Records are found by what points at their character; each stand-in is made
 * once, however many situations ask for it.
 */
#include "study/stand_in.h"

#include <stdlib.h>

struct stand_ins {
	const struct model *model;
	const struct features *features;
	struct arena *arena;
	GHashTable *made;	/* "INDEX INDEX" → struct stand_in */
};

struct stand_ins *
stand_ins_new(const struct model *model, const struct features *features,
	struct arena *arena)
{
	struct stand_ins *stand_ins = arena_one(arena, struct stand_ins);

	stand_ins->model = model;
	stand_ins->features = features;
	stand_ins->arena = arena;
	stand_ins->made = g_hash_table_new(g_str_hash, g_str_equal);
	return stand_ins;
}

void
stand_ins_free(struct stand_ins *stand_ins)
{
	g_hash_table_destroy(stand_ins->made);
}

/* What all of them say; only what each knows, and in one way. */
static void
join_scores(struct stand_ins *stand_ins, struct stand_in *stand_in)
{
	unsigned count = features_count(stand_ins->features), i, j;
	struct score *scores = arena_array(stand_ins->arena, struct score,
		count);

	for (i = 0; i < count; i++) {
		state_set all = 0, states = 0;
		bool same = true, known = true;

		for (j = 0; j < stand_in->count && known && same; j++) {
			known = features_score(stand_ins->features, i,
				stand_in->records[j], &states);
			same = j == 0 || (all == 0) == (states == 0);
			all |= states;
		}
		if (known && same)
			scores[stand_in->score_count++] = (struct score){i,
				all};
	}
	stand_in->scores = scores;
}

static const struct stand_in *
make(struct stand_ins *stand_ins, const struct record *character,
	enum field_name by, const struct record *market)
{
	struct pointer_list list = model_pointing(stand_ins->model, character);
	struct stand_in *stand_in = arena_one(stand_ins->arena,
		struct stand_in);
	size_t i;

	stand_in->records = arena_array(stand_ins->arena,
		const struct record *, list.count);
	for (i = 0; i < list.count; i++) {
		const struct record *from = list.items[i].from;

		if (list.items[i].field != model_field(stand_ins->model, by) ||
			(market != NULL && model_record(stand_ins->model,
			from->values, NAME(FRONT_MARKET)) != market))
			continue;
		stand_in->records[stand_in->count++] = from;
	}
	if (stand_in->count > 0)
		join_scores(stand_ins, stand_in);
	return stand_in;
}

static const struct stand_in *
find(struct stand_ins *stand_ins, const struct record *character,
	enum field_name by, const struct record *market)
{
	const char *code = arena_print(stand_ins->arena, "%u %u",
		character->index, market == NULL ? 0 : market->index + 1);
	const struct stand_in *stand_in = g_hash_table_lookup(stand_ins->made,
		code);

	if (stand_in == NULL) {
		stand_in = make(stand_ins, character, by, market);
		g_hash_table_insert(stand_ins->made,
			(gpointer)(uintptr_t)code,
			(gpointer)(uintptr_t)stand_in);
	}
	return stand_in->count > 0 ? stand_in : NULL;
}

const struct stand_in *
stand_in_front(struct stand_ins *stand_ins, const struct situation *situation)
{
	if (situation->front != NULL || situation->character == NULL ||
		situation->market == NULL || situation->cardback == NULL)
		return NULL;
	return find(stand_ins, situation->character, NAME(FRONT_CHARACTER),
		situation->market);
}

const struct stand_in *
stand_in_variant(struct stand_ins *stand_ins,
	const struct situation *situation)
{
	if (situation->variant != NULL || situation->character == NULL)
		return NULL;
	return find(stand_ins, situation->character, NAME(VARIANT_CHARACTER),
		NULL);
}

static int
compare_scores(const void *a, const void *b)
{
	const struct score *left = a, *right = b;

	return (left->feature > right->feature) -
		(left->feature < right->feature);
}

const struct score *
stand_in_score(const struct stand_in *stand_in, unsigned feature)
{
	struct score wanted = {.feature = feature};

	return stand_in == NULL ? NULL : bsearch(&wanted, stand_in->scores,
		stand_in->score_count, sizeof(wanted), compare_scores);
}
