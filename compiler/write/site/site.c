/*
 * All pages of the site as one list of tasks, worked off by threads. What a
 * page says never depends on which thread made it or when.
 */
#include "write/site/site.h"

#include <stdlib.h>
#include <string.h>

#include "study/matrix.h"
#include "write/site/parts.h"
#include "write/site/points.h"
#include "write/site/record.h"

struct working {
	struct site *site;
	GMutex mutex;
	GError *error;		/* the first */
	gint failed;
};

static void
find_edition(struct site *site)
{
	struct record_list list = model_records_of(site->model, "edition");
	int64_t year, latest = INT64_MIN;
	unsigned i;

	for (i = 0; i < list.count; i++) {
		year = model_whole(site->model, list.items[i]->values,
			NAME(EDITION_YEAR), 0);
		if (site->edition == NULL || year > latest) {
			site->edition = list.items[i];
			latest = year;
		}
	}
}

/* Card backs market by market, each market's as in its matrix. */
static void
rank_cardbacks(struct site *site)
{
	struct record_list markets = model_records_of(site->model, "market");
	unsigned count = model_records_of(site->model, "cardback").count;
	unsigned next = 0, i, j;

	site->cardback_rank = arena_array(site->arena, unsigned, count);
	memset(site->cardback_rank, 0xFF, sizeof(unsigned) * count);
	site->cardbacks = arena_array(site->arena, struct record_list,
		markets.count);
	for (i = 0; i < markets.count; i++) {
		struct record_list list = study_cardbacks(site->model,
			markets.items[i], site->arena);

		site->cardbacks[i] = list;
		for (j = 0; j < list.count; j++)
			site->cardback_rank[list.items[j]->index] = next++;
	}
}

struct released {
	const struct record *character;
	day_number day;
};

static int
compare_released(const void *a, const void *b)
{
	const struct released *left = a, *right = b;

	if (left->day != right->day)
		return left->day < right->day ? -1 : 1;
	return (left->character->index > right->character->index) -
		(left->character->index < right->character->index);
}

static void
rank_characters(struct site *site)
{
	struct record_list list = model_records_of(site->model, "character");
	struct released *released = g_new0(struct released, list.count);
	const struct date *date;
	unsigned i;

	for (i = 0; i < list.count; i++) {
		date = model_date(site->model, list.items[i]->values,
			NAME(CHARACTER_RELEASED));
		released[i].character = list.items[i];
		released[i].day = date == NULL ? INT32_MAX : date->first;
	}
	qsort(released, list.count, sizeof(*released), compare_released);
	site->character_rank = arena_array(site->arena, unsigned, list.count);
	for (i = 0; i < list.count; i++)
		site->character_rank[released[i].character->index] = i;
	g_free(released);
}

static bool
has_anomaly(const struct site *site, const struct record *pairing)
{
	const struct value *list = model_get(site->model, pairing->values,
		NAME(PAIRING_COMBINATIONS));
	struct pointer_list pointing = model_pointing(site->model, pairing);
	unsigned i;
	size_t j;

	for (i = 0; i < value_count(list); i++)
		if (model_get(site->model, value_item(list, i)->group,
			NAME(COMBINATION_ANOMALY)) != NULL)
			return true;
	for (j = 0; j < pointing.count; j++)
		if (pointing.items[j].field == model_field(site->model,
			NAME(ANOMALY_PAIRINGS)))
			return true;
	return false;
}

static void
glance_at_pairings(struct site *site)
{
	struct record_list list = model_records_of(site->model, "pairing");
	unsigned i;

	site->glances = arena_array(site->arena, struct glance, list.count);
	for (i = 0; i < list.count; i++) {
		struct glance *glance = &site->glances[i];

		glance->seen = seen_count(site->seen, seen_of_pairing(
			site->seen, list.items[i]), NULL, NULL);
		glance->combinations = value_count(model_get(site->model,
			list.items[i]->values, NAME(PAIRING_COMBINATIONS)));
		glance->anomalous = has_anomaly(site, list.items[i]);
	}
}

static void
work(gpointer data, gpointer user_data)
{
	const struct record *record = data;
	struct working *working = user_data;
	GError *error = NULL;

	if (g_atomic_int_get(&working->failed) ||
		record_write(working->site, record, &error))
		return;
	g_atomic_int_set(&working->failed, 1);
	g_mutex_lock(&working->mutex);
	if (working->error == NULL)
		working->error = g_steal_pointer(&error);
	g_mutex_unlock(&working->mutex);
	g_clear_error(&error);
}

static bool
write_records(struct site *site, GError **error)
{
	const struct schema *schema = model_schema(site->model);
	struct working working = {.site = site};
	GThreadPool *pool;
	struct record_list list;
	unsigned i, j;

	g_mutex_init(&working.mutex);
	pool = g_thread_pool_new(work, &working, site->job->jobs, TRUE, NULL);
	for (i = 0; i < schema->count; i++) {
		list = model_records(site->model, &schema->kinds[i]);
		for (j = 0; schema->kinds[i].page && j < list.count; j++)
			g_thread_pool_push(pool,
				(gpointer)(uintptr_t)list.items[j], NULL);
	}
	g_thread_pool_free(pool, FALSE, TRUE);
	g_mutex_clear(&working.mutex);
	if (working.error != NULL)
		g_propagate_error(error, working.error);
	return !working.failed;
}

/* The style sheet, scripts and pictures, as they are. */
static bool
copy_assets(const struct write_job *job, GError **error)
{
	static const char *const names[] = {"hangtab.css", "tab.svg"};
	bool done = true;
	size_t i, size;

	for (i = 0; done && i < G_N_ELEMENTS(names); i++) {
		char *from = g_build_filename(job->assets, names[i], NULL);
		char *to = g_strconcat("look/", names[i], NULL);
		char *bytes = NULL;

		done = g_file_get_contents(from, &bytes, &size, error) &&
			output_add(job->out, to, bytes, size, error);
		g_free(bytes);
		g_free(to);
		g_free(from);
	}
	return done;
}

static bool
write_parts(const struct site *site, GError **error)
{
	static part_function *const parts[] = {
		home_write, lists_write, everything_write, names_write,
		glossary_write, words_write, fields_write, cautions_write,
		about_write, queries_write, redirects_write,
	};
	size_t i;

	for (i = 0; i < G_N_ELEMENTS(parts); i++)
		if (!parts[i](site, error))
			return false;
	return true;
}

bool
site_write(const struct write_job *job, GError **error)
{
	struct code_names *codes = code_names_new();
	struct arena *arena = arena_new();
	struct site site = {
		.job = job,
		.model = job->model,
		.seen = job->seen,
		.codes = codes,
		.arena = arena,
	};
	bool done;

	find_edition(&site);
	rank_cardbacks(&site);
	rank_characters(&site);
	glance_at_pairings(&site);
	mentions_gather(&site);
	done = copy_assets(job, error) && write_records(&site, error) &&
		write_parts(&site, error);
	arena_free(arena);
	code_names_free(codes);
	return done;
}
