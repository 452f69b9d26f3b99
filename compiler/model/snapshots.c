/*
 * Snapshots are sorted by service and date; each line is then led to its
 * namesake in the snapshot before. A wording that a report has twice is
 * matched first to first and second to second.
 */
#include "model/snapshots.h"

#include <glib.h>
#include <string.h>

#include "base/sort.h"

struct gathering {
	const struct model *model;
	struct arena *arena;
	GHashTable **places;	/* by scale: step → place from 1 */
};

unsigned
snapshot_place(const struct value *steps, const char *step)
{
	unsigned i;

	for (i = 0; i < value_count(steps); i++)
		if (strcmp(value_item(steps, i)->text, step) == 0)
			break;
	return i;
}

static int64_t
add(int64_t a, int64_t b)
{
	int64_t sum;

	return __builtin_add_overflow(a, b, &sum) ? INT64_MAX : sum;
}

static int
compare_counts(const void *a, const void *b)
{
	const struct snapshot_count *left = a, *right = b;

	return left->place < right->place ? -1 : left->place > right->place;
}

/* Puts counts in order; those of one step become one. */
static unsigned
settle_counts(struct snapshot_count *counts, unsigned count)
{
	unsigned i, kept = 0;

	sort_items(counts, count, sizeof(*counts), compare_counts);
	for (i = 0; i < count; i++) {
		if (kept > 0 && counts[kept - 1].place == counts[i].place)
			counts[kept - 1].count = add(counts[kept - 1].count,
				counts[i].count);
		else
			counts[kept++] = counts[i];
	}
	return kept;
}

static void
read_line(const struct gathering *gathering, GHashTable *places,
	struct snapshot_line *line)
{
	const struct model *model = gathering->model;
	const struct value *list = model_get(model, line->category->group,
		NAME(CENSUS_CATEGORY_COUNTS));
	struct snapshot_count *counts = arena_array(gathering->arena,
		struct snapshot_count, value_count(list));
	unsigned i, count = 0, place;

	line->wording = model_text(model, line->category->group,
		NAME(CENSUS_CATEGORY_WORDING));
	if (line->wording == NULL)
		line->wording = "";
	for (i = 0; i < value_count(list); i++) {
		struct value *const *group = value_item(list, i)->group;
		const char *step = model_text(model, group,
			NAME(CENSUS_COUNT_STEP));
		const struct value *value = model_get(model, group,
			NAME(CENSUS_COUNT_COUNT));

		place = step == NULL ? 0 : GPOINTER_TO_UINT(
			g_hash_table_lookup(places, step));
		if (place == 0 || value == NULL || value->whole <= 0)
			continue;
		counts[count++] = (struct snapshot_count){place - 1,
			value->whole, value};
		line->total = add(line->total, value->whole);
	}
	line->count = settle_counts(counts, count);
	line->counts = counts;
}

static GHashTable *
places_of(const struct gathering *gathering, const struct record *scale)
{
	GHashTable **table = &gathering->places[scale->index];
	const struct value *steps = model_get(gathering->model, scale->values,
		NAME(SCALE_STEPS));
	unsigned i;

	if (*table != NULL)
		return *table;
	*table = g_hash_table_new(g_str_hash, g_str_equal);
	/* Backwards, so that of equal steps the best is kept. */
	for (i = value_count(steps); i > 0; i--)
		g_hash_table_insert(*table, (gpointer)(uintptr_t)
			value_item(steps, i - 1)->text, GUINT_TO_POINTER(i));
	return *table;
}

static void
read_snapshot(const struct gathering *gathering, const struct record *scale,
	struct snapshot *snapshot)
{
	const struct value *list = model_get(gathering->model,
		snapshot->census->values, NAME(CENSUS_CATEGORIES));
	GHashTable *places = places_of(gathering, scale);
	struct snapshot_line *lines = arena_array(gathering->arena,
		struct snapshot_line, value_count(list));
	unsigned i;

	snapshot->steps = model_get(gathering->model, scale->values,
		NAME(SCALE_STEPS));
	snapshot->count = value_count(list);
	snapshot->lines = lines;
	for (i = 0; i < snapshot->count; i++) {
		lines[i].snapshot = snapshot;
		lines[i].category = value_item(list, i);
		lines[i].position = i;
		read_line(gathering, places, &lines[i]);
	}
}

struct dated {
	const struct record *census;
	const struct record *service;
	const struct date *date;
};

static int
compare_dated(const void *a, const void *b)
{
	const struct dated *left = a, *right = b;

	if (left->service != right->service)
		return left->service->index < right->service->index ? -1 : 1;
	if (left->date->last != right->date->last)
		return left->date->last < right->date->last ? -1 : 1;
	if (left->date->first != right->date->first)
		return left->date->first < right->date->first ? -1 : 1;
	return strcmp(left->census->id, right->census->id);
}

/* The censuses that count, in order; their number in *count. */
static struct dated *
sort_censuses(const struct gathering *gathering, struct record_list list,
	unsigned *count)
{
	const struct model *model = gathering->model;
	struct dated *dated = arena_array(gathering->arena, struct dated,
		list.count);
	unsigned i;

	*count = 0;
	for (i = 0; i < list.count; i++) {
		struct value *const *values = list.items[i]->values;
		struct dated one = {list.items[i], model_record(model, values,
			NAME(CENSUS_SERVICE)), model_date(model, values,
			NAME(CENSUS_DATE))};

		if (one.service != NULL && one.date != NULL &&
			model_record(model, one.service->values,
				NAME(SERVICE_SCALE)) != NULL &&
			model_get_every(model, one.census,
				NAME(EVERY_RETIRED)) == NULL)
			dated[(*count)++] = one;
	}
	sort_items(dated, *count, sizeof(*dated), compare_dated);
	return dated;
}

/* Leads each line to that of the same wording in the snapshot before. */
static void
join_lines(const struct gathering *gathering, struct snapshot *snapshot)
{
	struct snapshot_line *lines = (struct snapshot_line *)(uintptr_t)
		snapshot->lines;
	const struct snapshot *before = snapshot->before;
	GHashTable *heads = g_hash_table_new(g_str_hash, g_str_equal);
	const struct snapshot_line **next = arena_array(gathering->arena,
		const struct snapshot_line *, before->count);
	unsigned i;

	/* Backwards, so that the first of a wording is met first. */
	for (i = before->count; i > 0; i--) {
		const struct snapshot_line *line = &before->lines[i - 1];

		next[i - 1] = g_hash_table_lookup(heads, line->wording);
		g_hash_table_insert(heads, (gpointer)(uintptr_t)line->wording,
			(gpointer)(uintptr_t)line);
	}
	for (i = 0; i < snapshot->count; i++) {
		lines[i].before = g_hash_table_lookup(heads, lines[i].wording);
		if (lines[i].before != NULL)
			g_hash_table_insert(heads, (gpointer)(uintptr_t)
				lines[i].wording, (gpointer)(uintptr_t)
				next[lines[i].before->position]);
	}
	g_hash_table_destroy(heads);
}

/* The nearest earlier one of the service, by every reading of the dates. */
static const struct snapshot *
find_before(const struct dated *dated, const struct snapshot *items,
	unsigned i)
{
	unsigned j;

	for (j = i; j > 0 && dated[j - 1].service == dated[i].service; j--)
		if (dated[j - 1].date->last < dated[i].date->first)
			return &items[j - 1];
	return NULL;
}

struct snapshots *
snapshots_gather(const struct model *model, struct record_list list,
	struct arena *arena)
{
	unsigned scales = model_records_of(model, "scale").count, i;
	struct gathering gathering = {model, arena, arena_array(arena,
		GHashTable *, scales)};
	struct snapshots *snapshots = arena_one(arena, struct snapshots);
	struct dated *dated = sort_censuses(&gathering, list,
		&snapshots->count);
	struct snapshot *items = arena_array(arena, struct snapshot,
		snapshots->count);

	snapshots->items = items;
	for (i = 0; i < snapshots->count; i++) {
		items[i].census = dated[i].census;
		items[i].service = dated[i].service;
		items[i].latest = i + 1 == snapshots->count ||
			dated[i + 1].service != dated[i].service;
		read_snapshot(&gathering, model_record(model,
			dated[i].service->values, NAME(SERVICE_SCALE)),
			&items[i]);
		items[i].before = find_before(dated, items, i);
		if (items[i].before != NULL)
			join_lines(&gathering, &items[i]);
	}
	for (i = 0; i < scales; i++)
		if (gathering.places[i] != NULL)
			g_hash_table_destroy(gathering.places[i]);
	return snapshots;
}
