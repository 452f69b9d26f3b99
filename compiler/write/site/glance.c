/*
 * What is worked out once, before the first page: ranks of characters and card
 * backs, and each pairing at a glance.
 */
#include <stdlib.h>
#include <string.h>

#include "study/matrix.h"
#include "base/sort.h"
#include "write/site/page.h"

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
	struct released *released = g_new0(struct released, list.count + 1);
	const struct date *date;
	unsigned i;

	for (i = 0; i < list.count; i++) {
		date = model_date(site->model, list.items[i]->values,
			NAME(CHARACTER_RELEASED));
		released[i].character = list.items[i];
		released[i].day = date == NULL ? INT32_MAX : date->first;
	}
	sort_items(released, list.count, sizeof(*released), compare_released);
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

/* A pairing by its character and the rank of its card back. */
struct ranked {
	const struct record *pairing;
	const struct record *character;
	unsigned rank;
};

static int
compare_ranked(const void *a, const void *b)
{
	const struct ranked *left = a, *right = b;

	if (left->character->index != right->character->index)
		return left->character->index < right->character->index ?
			-1 : 1;
	if (left->rank != right->rank)
		return left->rank < right->rank ? -1 : 1;
	return (left->pairing->index > right->pairing->index) -
		(left->pairing->index < right->pairing->index);
}

/* Leads each pairing to those of the same character before and after it. */
static void
link_pairings(struct site *site)
{
	struct record_list list = model_records_of(site->model, "pairing");
	struct ranked *ranked = g_new0(struct ranked, list.count + 1);
	unsigned count = 0, i;

	for (i = 0; i < list.count; i++) {
		struct value *const *values = list.items[i]->values;
		const struct record *cardback = model_record(site->model,
			values, NAME(PAIRING_CARDBACK));

		ranked[count].pairing = list.items[i];
		ranked[count].character = model_record(site->model, values,
			NAME(PAIRING_CHARACTER));
		ranked[count].rank = cardback == NULL ? G_MAXUINT :
			site->cardback_rank[cardback->index];
		count += ranked[count].character != NULL;
	}
	sort_items(ranked, count, sizeof(*ranked), compare_ranked);
	for (i = 1; i < count; i++) {
		if (ranked[i].character != ranked[i - 1].character)
			continue;
		site->glances[ranked[i].pairing->index].before =
			ranked[i - 1].pairing;
		site->glances[ranked[i - 1].pairing->index].after =
			ranked[i].pairing;
	}
	g_free(ranked);
}

void
site_study(struct site *site)
{
	find_edition(site);
	rank_cardbacks(site);
	rank_characters(site);
	glance_at_pairings(site);
	link_pairings(site);
}
