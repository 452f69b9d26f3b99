/*
 * Groups are found by what the schema demands of a kind: references that every
 * record has to have, one of each.
 */
#include "study/key_group.h"

#include <string.h>

#include "base/sort.h"
#include "study/narrow.h"
#include "study/slots.h"

enum { MOST_OF = 4 };

/* The kinds of which it can be concluded that one does not exist. */
static const struct {
	const char *kind;
	enum field_name concluded;
} doubtful[] = {
	{"cardback", NAME(CARDBACK_CONCLUDED)},
	{"front", NAME(FRONT_CONCLUDED)},
	{"variant", NAME(VARIANT_CONCLUDED)},
};

/* A record with what it belongs to, in the order of the kind's fields. */
struct member {
	const struct record *record;
	const struct record *of[MOST_OF];
};

struct gathering {
	const struct model *model;
	struct arena *arena;
	GArray *groups;		/* struct key_group */
};

static bool
may_exist(const struct model *model, const struct record *record)
{
	size_t i;

	if (model_get_every(model, record, NAME(EVERY_RETIRED)) != NULL)
		return false;
	for (i = 0; i < G_N_ELEMENTS(doubtful); i++)
		if (strcmp(doubtful[i].kind, record->kind->name) == 0)
			return study_may_exist(model_word(model,
				record->values, doubtful[i].concluded));
	return true;
}

static bool
is_demanded(const struct field *field)
{
	return field->type == TYPE_REFERENCE && field->required && !field->many;
}

/* By what they belong to, then in reading order. */
static int
compare_members(const void *a, const void *b)
{
	const struct member *left = a, *right = b;
	unsigned i;

	for (i = 0; i < MOST_OF; i++) {
		if (left->of[i] == right->of[i])
			continue;
		return left->of[i]->index < right->of[i]->index ? -1 : 1;
	}
	return (left->record->index > right->record->index) -
		(left->record->index < right->record->index);
}

static struct member
make_member(const struct record *record)
{
	struct member member = {.record = record};
	const struct fields *fields = &record->kind->fields;
	unsigned i, count = 0;

	for (i = 0; i < record->kind->own_count && count < MOST_OF; i++)
		if (is_demanded(&fields->items[i]))
			member.of[count++] = record->values[i]->
				reference.record;
	return member;
}

static void
add_group(struct gathering *gathering, const struct member *members,
	unsigned count)
{
	struct arena *arena = gathering->arena;
	struct key_group group = {.kind = members->record->kind};
	const char *path = group.kind->name, *name = group.kind->titles;
	unsigned i;

	if (count < 2 || count > KEY_MOST_ITEMS)
		return;
	group.of = arena_array(arena, const struct record *, MOST_OF);
	for (i = 0; i < MOST_OF && members->of[i] != NULL; i++) {
		group.of[group.of_count++] = members->of[i];
		path = arena_print(arena, "%s/%s", path, members->of[i]->id);
		name = arena_print(arena, "%s, %s", name,
			members->of[i]->name);
	}
	group.path = path;
	group.name = name;
	group.count = count;
	group.items = arena_array(arena, const struct record *, count);
	for (i = 0; i < count; i++)
		group.items[i] = members[i].record;
	g_array_append_val(gathering->groups, group);
}

static bool
same_group(const struct member *a, const struct member *b)
{
	return memcmp(a->of, b->of, sizeof(a->of)) == 0;
}

static void
gather_kind(struct gathering *gathering, const char *kind)
{
	struct record_list list = model_records_of(gathering->model, kind);
	struct member *members = g_new(struct member, (gsize)list.count + 1);
	unsigned i, count = 0, first = 0;

	for (i = 0; i < list.count; i++)
		if (may_exist(gathering->model, list.items[i]))
			members[count++] = make_member(list.items[i]);
	sort_items(members, count, sizeof(*members), compare_members);
	for (i = 1; i <= count; i++) {
		if (i < count && same_group(&members[first], &members[i]))
			continue;
		add_group(gathering, &members[first], i - first);
		first = i;
	}
	g_free(members);
}

struct key_groups *
key_groups_gather(const struct model *model, struct arena *arena)
{
	struct key_groups *groups = arena_one(arena, struct key_groups);
	struct gathering gathering = {model, arena,
		g_array_new(FALSE, FALSE, sizeof(struct key_group))};
	unsigned i;

	for (i = 0; features_kind(i) != NULL; i++)
		gather_kind(&gathering, features_kind(i));
	groups->count = gathering.groups->len;
	groups->items = arena_array(arena, struct key_group, groups->count);
	if (groups->count > 0)
		memcpy(groups->items, gathering.groups->data,
			sizeof(struct key_group) * groups->count);
	g_array_free(gathering.groups, TRUE);
	return groups;
}

const struct key_group *
key_groups_find(const struct key_groups *groups, const char *path)
{
	unsigned i;

	for (i = 0; i < groups->count; i++)
		if (strcmp(groups->items[i].path, path) == 0)
			return &groups->items[i];
	return NULL;
}

/* Pieces by record, for each kind that scores features. */
struct commons {
	const char **kinds;
	double **pieces;
	unsigned count;
};

struct commons *
commons_count(const struct model *model, const struct seen *seen,
	const struct features *features, struct arena *arena)
{
	struct commons *commons = arena_one(arena, struct commons);
	GArray *candidates = narrow_hold(model, seen, features, NULL, 0,
		NULL, arena);
	unsigned i;
	guint j;

	while (features_kind(commons->count) != NULL)
		commons->count++;
	commons->kinds = arena_array(arena, const char *, commons->count);
	commons->pieces = arena_array(arena, double *, commons->count);
	for (i = 0; i < commons->count; i++) {
		const char *kind = features_kind(i);

		commons->kinds[i] = kind;
		commons->pieces[i] = arena_array(arena, double,
			model_records_of(model, kind).count);
		for (j = 0; j < candidates->len; j++) {
			const struct candidate *one = &g_array_index(
				candidates, struct candidate, j);
			const struct record *part = narrow_part(
				&one->situation, kind);

			if (part != NULL)
				commons->pieces[i][part->index] += one->common;
		}
	}
	g_array_free(candidates, TRUE);
	return commons;
}

/* Never 0: what was not seen may still turn up. */
static double
how_common(const struct commons *commons, const struct record *record)
{
	unsigned i;

	for (i = 0; i < commons->count; i++)
		if (strcmp(commons->kinds[i], record->kind->name) == 0 &&
			commons->pieces[i][record->index] > 0)
			return commons->pieces[i][record->index];
	return 1;
}

/* Whether a feature may be asked: any record scores it, and its states fit. */
static bool
is_scored(const struct features *features, unsigned feature,
	const struct key_group *group)
{
	state_set states;
	unsigned i;

	if (features_get(features, feature)->states >= MOST_STATES)
		return false;
	for (i = 0; i < group->count; i++)
		if (features_score(features, feature, group->items[i],
			&states))
			return true;
	return false;
}

static void
fill_table(const struct features *features, struct keyed *keyed,
	uint64_t *sets, double *costs)
{
	const struct key_group *group = keyed->group;
	state_set states;
	unsigned i, j;

	for (i = 0; i < keyed->table.features; i++) {
		costs[i] = features_cost(keyed->features[i]);
		for (j = 0; j < group->count; j++) {
			features_score(features,
				keyed->features[i]->record->index,
				group->items[j], &states);
			sets[(size_t)i * group->count + j] = states == 0 ?
				KEY_INAPPLICABLE : states;
		}
	}
}

static void
find_first(struct keyed *keyed, const struct feature *const *first,
	unsigned count, struct arena *arena)
{
	unsigned *places = arena_array(arena, unsigned, count);
	unsigned i, j;

	for (i = 0; i < count; i++)
		for (j = 0; j < keyed->table.features; j++)
			if (keyed->features[j] == first[i])
				places[keyed->table.first_count++] = j;
	keyed->table.first = places;
}

struct keyed *
key_group_build(const struct features *features,
	const struct commons *commons, const struct key_group *group,
	const struct feature *const *first, unsigned first_count,
	struct arena *arena)
{
	struct keyed *keyed = arena_one(arena, struct keyed);
	unsigned i, all = features_count(features);
	double *common, *costs;
	uint64_t *sets;

	keyed->group = group;
	keyed->features = arena_array(arena, const struct feature *, all);
	for (i = 0; i < all; i++)
		if (is_scored(features, i, group))
			keyed->features[keyed->table.features++] =
				features_get(features, i);
	sets = arena_array(arena, uint64_t,
		(size_t)keyed->table.features * group->count);
	costs = arena_array(arena, double, keyed->table.features);
	common = arena_array(arena, double, group->count);
	for (i = 0; i < group->count; i++)
		common[i] = how_common(commons, group->items[i]);
	fill_table(features, keyed, sets, costs);
	find_first(keyed, first, first_count, arena);
	keyed->table.items = group->count;
	keyed->table.sets = sets;
	keyed->table.costs = costs;
	keyed->table.common = common;
	keyed->key = key_build(&keyed->table, arena);
	return keyed;
}

bool
keyed_helps(const struct keyed *keyed)
{
	return keyed->key->count > 0 && keyed->group->count > 2 &&
		keyed->key->report.together * 2 < keyed->group->count;
}

struct keyed *
keys_make(const struct keys *keys, const struct key_group *group,
	struct arena *arena)
{
	return key_group_build(keys->features, keys->commons, group, NULL, 0,
		arena);
}

struct keys *
keys_gather(const struct model *model, const struct seen *seen,
	struct arena *arena)
{
	struct keys *keys = arena_one(arena, struct keys);
	unsigned i, count = 0;

	keys->model = model;
	keys->features = features_gather(model, arena);
	keys->commons = commons_count(model, seen, keys->features, arena);
	keys->groups = *key_groups_gather(model, arena);
	for (i = 0; i < keys->groups.count; i++) {
		struct key_group group = keys->groups.items[i];
		struct arena *scratch;

		if (group.count <= 2)
			continue;
		scratch = arena_new();
		if (keyed_helps(keys_make(keys, &group, scratch)))
			keys->groups.items[count++] = group;
		arena_free(scratch);
	}
	keys->groups.count = count;
	return keys;
}
