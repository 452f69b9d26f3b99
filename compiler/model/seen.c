/*
 * Gathers specimens by pairing and anomaly, and sightings by specimen. A
 * specimen whose card back is open is offered to each pairing of its character
 * that it may be; one whose character is open too is offered to none.
 */
#include "model/seen.h"

#include <glib.h>
#include <stdlib.h>
#include <string.h>

struct pair {
	const struct record *character;
	const struct record *cardback;
};

struct seen {
	const struct model *model;
	GHashTable *pairings;		/* struct pair → pairing */
	struct seen_list *of_pairing;
	struct seen_list *of_anomaly;
	struct record_list *sightings;	/* by specimen */
	const struct record **pairing;	/* by specimen */
};

static guint
hash_pair(gconstpointer key)
{
	const struct pair *pair = key;

	return pair->character->index * 65599u + pair->cardback->index;
}

static gboolean
equal_pair(gconstpointer a, gconstpointer b)
{
	const struct pair *left = a, *right = b;

	return left->character == right->character &&
		left->cardback == right->cardback;
}

const struct record *
seen_find_pairing(const struct seen *seen, const struct record *character,
	const struct record *cardback)
{
	struct pair pair = {character, cardback};

	if (character == NULL || cardback == NULL)
		return NULL;
	return g_hash_table_lookup(seen->pairings, &pair);
}

static void
enter_pairings(struct seen *seen, struct arena *arena)
{
	struct record_list list = model_records_of(seen->model, "pairing");
	unsigned i;

	for (i = 0; i < list.count; i++) {
		struct pair *pair = arena_one(arena, struct pair);
		struct value *const *values = list.items[i]->values;

		pair->character = model_record(seen->model, values,
			NAME(PAIRING_CHARACTER));
		pair->cardback = model_record(seen->model, values,
			NAME(PAIRING_CARDBACK));
		if (pair->character != NULL && pair->cardback != NULL)
			g_hash_table_insert(seen->pairings, pair,
				(gpointer)(uintptr_t)list.items[i]);
	}
}

static const struct record *
known_record(const struct value *identity)
{
	if (identity == NULL || identity->identity.kind != IDENTITY_KNOWN)
		return NULL;
	return identity->identity.items[0].record;
}

/* Lists while they grow, one for each record of a kind. */
static GArray **
new_lists(unsigned count)
{
	GArray **lists = g_new(GArray *, count + 1);
	unsigned i;

	for (i = 0; i < count; i++)
		lists[i] = g_array_new(FALSE, FALSE,
			sizeof(struct seen_specimen));
	return lists;
}

static struct seen_list *
settle_lists(GArray **lists, unsigned count, struct arena *arena)
{
	struct seen_list *settled = arena_array(arena, struct seen_list,
		count);
	struct seen_specimen *items;
	unsigned i;

	for (i = 0; i < count; i++) {
		items = arena_array(arena, struct seen_specimen,
			lists[i]->len);
		if (lists[i]->len > 0)
			memcpy(items, lists[i]->data,
				sizeof(*items) * lists[i]->len);
		settled[i] = (struct seen_list){items, lists[i]->len};
		g_array_free(lists[i], TRUE);
	}
	g_free(lists);
	return settled;
}

/* Offers a specimen of unsettled card back to what it may be. */
static void
add_possible(const struct seen *seen, GArray **lists,
	struct seen_specimen entry, const struct record *character,
	const struct value *cardback)
{
	struct pointer_list pointing = model_pointing(seen->model, character);
	const struct record *other;
	size_t i;

	entry.certain = false;
	for (i = 0; i < pointing.count; i++) {
		const struct pointer *pointer = &pointing.items[i];

		if (pointer->field != model_field(seen->model,
			NAME(PAIRING_CHARACTER)))
			continue;
		other = model_record(seen->model, pointer->from->values,
			NAME(PAIRING_CARDBACK));
		if (other != NULL &&
			identity_allows(cardback, other) != ALLOWS_NOT)
			g_array_append_val(lists[pointer->from->index], entry);
	}
}

/* A specimen is withdrawn when it turns out to be one already recorded. */
static bool
is_retired(const struct seen *seen, const struct record *specimen)
{
	return model_get_every(seen->model, specimen, NAME(EVERY_RETIRED)) !=
		NULL;
}

static void
gather_pairings(struct seen *seen, struct record_list specimens,
	struct arena *arena)
{
	unsigned count = model_records_of(seen->model, "pairing").count, i;
	GArray **lists = new_lists(count);

	seen->pairing = arena_array(arena, const struct record *,
		specimens.count);
	for (i = 0; i < specimens.count; i++) {
		struct value *const *values = specimens.items[i]->values;
		const struct value *cardback = model_get(seen->model, values,
			NAME(SPECIMEN_CARDBACK));
		const struct record *character = known_record(model_get(
			seen->model, values, NAME(SPECIMEN_CHARACTER)));
		struct seen_specimen entry = {specimens.items[i], true,
			model_get(seen->model, values,
				NAME(SPECIMEN_DOUBTED)) != NULL};
		const struct record *pairing;

		if (character == NULL || is_retired(seen, specimens.items[i]))
			continue;
		pairing = seen_find_pairing(seen, character,
			known_record(cardback));
		if (pairing != NULL) {
			seen->pairing[i] = pairing;
			g_array_append_val(lists[pairing->index], entry);
		} else if (known_record(cardback) == NULL)
			add_possible(seen, lists, entry, character, cardback);
	}
	seen->of_pairing = settle_lists(lists, count, arena);
}

static void
gather_anomalies(struct seen *seen, struct record_list specimens,
	struct arena *arena)
{
	unsigned count = model_records_of(seen->model, "anomaly").count, i, j;
	GArray **lists = new_lists(count);

	for (i = 0; i < specimens.count; i++) {
		struct value *const *values = specimens.items[i]->values;
		const struct value *anomaly = model_get(seen->model, values,
			NAME(SPECIMEN_ANOMALY));
		struct seen_specimen entry = {specimens.items[i], false,
			model_get(seen->model, values,
				NAME(SPECIMEN_DOUBTED)) != NULL};

		/* What is merely not excluded is no evidence of an anomaly. */
		if (anomaly == NULL ||
			is_retired(seen, specimens.items[i]) ||
			anomaly->identity.kind == IDENTITY_UNKNOWN ||
			anomaly->identity.kind == IDENTITY_NOT)
			continue;
		entry.certain = anomaly->identity.kind == IDENTITY_KNOWN;
		for (j = 0; j < anomaly->identity.count; j++)
			g_array_append_val(lists[anomaly->identity.items[j]
				.record->index], entry);
	}
	seen->of_anomaly = settle_lists(lists, count, arena);
}

struct dated {
	const struct record *sighting;
	const struct date *date;
};

static int
compare_dated(const void *a, const void *b)
{
	const struct dated *left = a, *right = b;

	if (left->date->first != right->date->first)
		return left->date->first < right->date->first ? -1 : 1;
	return strcmp(left->sighting->id, right->sighting->id);
}

static void
gather_sightings(struct seen *seen, struct record_list specimens,
	struct arena *arena)
{
	GArray *dated = g_array_new(FALSE, FALSE, sizeof(struct dated));
	unsigned i, j;
	size_t k;

	seen->sightings = arena_array(arena, struct record_list,
		specimens.count);
	for (i = 0; i < specimens.count; i++) {
		struct pointer_list pointing = model_pointing(seen->model,
			specimens.items[i]);
		struct record_list *list = &seen->sightings[i];

		g_array_set_size(dated, 0);
		for (k = 0; k < pointing.count; k++) {
			struct dated one = {pointing.items[k].from, NULL};

			if (pointing.items[k].field != model_field(seen->model,
				NAME(SIGHTING_SPECIMEN)))
				continue;
			one.date = model_date(seen->model,
				one.sighting->values, NAME(SIGHTING_DATE));
			if (one.date != NULL)
				g_array_append_val(dated, one);
		}
		g_array_sort(dated, compare_dated);
		list->count = dated->len;
		list->items = arena_array(arena, const struct record *,
			list->count);
		for (j = 0; j < list->count; j++)
			list->items[j] = g_array_index(dated, struct dated,
				j).sighting;
	}
	g_array_free(dated, TRUE);
}

struct seen *
seen_gather(const struct model *model, struct arena *arena)
{
	struct seen *seen = arena_one(arena, struct seen);
	struct record_list specimens = model_records_of(model, "specimen");

	seen->model = model;
	seen->pairings = g_hash_table_new(hash_pair, equal_pair);
	enter_pairings(seen, arena);
	gather_pairings(seen, specimens, arena);
	gather_anomalies(seen, specimens, arena);
	gather_sightings(seen, specimens, arena);
	return seen;
}

void
seen_free(struct seen *seen)
{
	if (seen != NULL)
		g_hash_table_destroy(seen->pairings);
}

struct seen_list
seen_of_pairing(const struct seen *seen, const struct record *pairing)
{
	return seen->of_pairing[pairing->index];
}

struct seen_list
seen_of_anomaly(const struct seen *seen, const struct record *anomaly)
{
	return seen->of_anomaly[anomaly->index];
}

const struct record *
seen_pairing(const struct seen *seen, const struct record *specimen)
{
	return seen->pairing[specimen->index];
}

struct record_list
seen_sightings(const struct seen *seen, const struct record *specimen)
{
	return seen->sightings[specimen->index];
}

/* Adds the sightings of one specimen; returns how many counted. */
static unsigned
count_sightings(const struct seen *seen, const struct record *specimen,
	const struct date *until, GHashTable *lists, struct seen_count *count)
{
	struct record_list sightings = seen_sightings(seen, specimen);
	unsigned i, counted = 0;

	for (i = 0; i < sightings.count; i++) {
		struct value *const *values = sightings.items[i]->values;
		const struct date *date = model_date(seen->model, values,
			NAME(SIGHTING_DATE));
		const struct record *source = model_record(seen->model, values,
			NAME(SIGHTING_SOURCE));

		if (until != NULL && date->last > until->first)
			continue;
		counted++;
		if (source != NULL)
			g_hash_table_add(lists, (gpointer)(uintptr_t)source);
		if (count->last == NULL || date->last > count->last->last)
			count->last = date;
	}
	count->sightings += counted;
	return counted;
}

struct seen_count
seen_count(const struct seen *seen, struct seen_list list,
	const struct record *pairing, const struct date *until)
{
	struct seen_count count = {0};
	GHashTable *lists = g_hash_table_new(NULL, NULL);
	unsigned i;

	for (i = 0; i < list.count; i++) {
		const struct seen_specimen *entry = &list.items[i];

		if (entry->doubted || (pairing != NULL &&
			seen_pairing(seen, entry->specimen) != pairing))
			continue;
		if (!entry->certain) {
			count.possible++;
			continue;
		}
		if (count_sightings(seen, entry->specimen, until, lists,
			&count) > 0 || until == NULL)
			count.specimens++;
	}
	count.lists = g_hash_table_size(lists);
	g_hash_table_destroy(lists);
	return count;
}
