/*
 * Things that cannot be told apart: card backs of one market, fronts of one
 * character in one market, blister types, variants of one character. Only what
 * scores features at all is held against the rest of its group.
 */
#include <string.h>

#include "base/sort.h"
#include "sense/alike.h"
#include "sense/sensing.h"

static const struct {
	const char *kind;
	unsigned within_count;
	enum field_name within[2];
	bool has_concluded;
	enum field_name concluded;
} groups[] = {
	{"cardback", 1, {NAME(CARDBACK_MARKET)}, true,
		NAME(CARDBACK_CONCLUDED)},
	{"front", 2, {NAME(FRONT_CHARACTER), NAME(FRONT_MARKET)}, true,
		NAME(FRONT_CONCLUDED)},
	{"blister", 0, {0}, false, 0},
	{"variant", 1, {NAME(VARIANT_CHARACTER)}, true,
		NAME(VARIANT_CONCLUDED)},
};

static int
compare_indexes(const struct record *left, const struct record *right)
{
	if (left == NULL || right == NULL)
		return (left == NULL) - (right == NULL);
	return (left->index > right->index) - (left->index < right->index);
}

static int
compare_groups(const struct alike *left, const struct alike *right)
{
	int order = compare_indexes(left->within[0], right->within[0]);

	return order != 0 ? order : compare_indexes(left->within[1],
		right->within[1]);
}

/* By group; in it, what scores most first. */
static int
compare_alike(const void *a, const void *b)
{
	const struct alike *left = a, *right = b;
	int order = compare_groups(left, right);

	if (order == 0)
		order = (left->scores.count < right->scores.count) -
			(left->scores.count > right->scores.count);
	return order != 0 ? order : compare_indexes(left->record,
		right->record);
}

/* Whether there is such a thing: not given up, and not shown to be none. */
static bool
is_thing(const struct sensing *sensing, size_t group,
	const struct record *record)
{
	const char *concluded = NULL;

	if (groups[group].has_concluded)
		concluded = model_word(sensing->model, record->values,
			groups[group].concluded);
	return model_get_every(sensing->model, record, NAME(EVERY_RETIRED)) ==
		NULL && model_may_exist(concluded);
}

/* Appends what of one kind is to be told apart. */
static void
gather(const struct sensing *sensing, size_t group,
	const struct scores *scores, GArray *out)
{
	struct record_list list = sense_records(sensing, groups[group].kind);
	unsigned i, j;

	for (i = 0; i < list.count; i++) {
		struct alike one = {.record = list.items[i]};

		one.scores = scores_of(scores, one.record);
		if (one.scores.count == 0 ||
			!is_thing(sensing, group, one.record))
			continue;
		for (j = 0; j < groups[group].within_count; j++)
			one.within[j] = model_record(sensing->model,
				one.record->values, groups[group].within[j]);
		g_array_append_val(out, one);
	}
}

static void
report(struct sensing *sensing, const struct scores *scores,
	const struct alike *group, unsigned count, const struct alike *item)
{
	const struct record *record = item->record;
	GString *names;
	struct diag *diag;
	unsigned i;

	if (sense_excused(sensing, record, DIAG_NOT_TOLD_APART))
		return;
	names = g_string_new(NULL);
	for (i = 0; i < item->count; i++)
		g_string_append_printf(names, "%s\"%s\"", i == 0 ? "" :
			i + 1 < item->count || item->more ? ", " : " or ",
			item->others[i]->record->name);
	diag = diag_report(sensing->diags, DIAG_NOT_TOLD_APART,
		record->id_span, "no recorded feature tells \"%s\" from %s%s",
		record->name, names->str, item->more ? " and others" : "");
	for (i = 0; i < item->count; i++)
		diag_note(diag, item->others[i]->record->id_span,
			"%s/%s is here", record->kind->name,
			item->others[i]->record->id);
	sense_help(diag, record, alike_advice(scores, group, count, item,
		sensing->arena));
	g_string_free(names, TRUE);
}

static void
check_group(struct sensing *sensing, const struct scores *scores,
	struct alike *items, unsigned count)
{
	unsigned i;

	alike_find(items, count, scores_features(scores));
	for (i = 0; i < count; i++)
		if (items[i].count > 0)
			report(sensing, scores, items, count, &items[i]);
}

void
sense_alike(struct sensing *sensing)
{
	const struct scores *scores = scores_gather(sensing->model,
		sensing->arena);
	GArray *all = g_array_new(FALSE, FALSE, sizeof(struct alike));
	size_t i;
	guint from, to;

	for (i = 0; i < G_N_ELEMENTS(groups); i++) {
		struct alike *items;

		g_array_set_size(all, 0);
		gather(sensing, i, scores, all);
		items = (struct alike *)(void *)all->data;
		sort_items(items, all->len, sizeof(*items), compare_alike);
		for (from = 0; from < all->len; from = to) {
			for (to = from + 1; to < all->len && compare_groups(
				&items[from], &items[to]) == 0; to++)
				continue;
			check_group(sensing, scores, items + from, to - from);
		}
	}
	g_array_free(all, TRUE);
}
