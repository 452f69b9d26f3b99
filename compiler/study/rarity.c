/*
 * Evidence and reports, boiled down to what a searcher asks.
 */
#include "study/rarity.h"

#include <math.h>
#include <string.h>

#include "study/estimate/choose.h"

struct rarities {
	const struct model *model;
	struct arena *arena;
	struct evidences *evidences;
	struct certificates *certificates;
	GHashTable *known;	/* record or item → struct rarity */
	int first, last;
};

static void
find_years(struct rarities *rarities)
{
	struct record_list list = model_records_of(rarities->model,
		"sighting");
	unsigned i;

	for (i = 0; i < list.count; i++) {
		const struct date *date = model_date(rarities->model,
			list.items[i]->values, NAME(SIGHTING_DATE));

		if (date == NULL)
			continue;
		if (rarities->first == 0 || date->year < rarities->first)
			rarities->first = date->year;
		if (date->year > rarities->last)
			rarities->last = date->year;
	}
}

struct rarities *
rarities_gather(const struct model *model, const struct seen *seen,
	struct arena *arena)
{
	struct rarities *rarities = arena_one(arena, struct rarities);

	rarities->model = model;
	rarities->arena = arena;
	rarities->evidences = evidences_gather(model, seen, arena);
	rarities->certificates = certificates_gather(model, seen, arena);
	rarities->known = g_hash_table_new(NULL, NULL);
	find_years(rarities);
	return rarities;
}

void
rarities_free(struct rarities *rarities)
{
	if (rarities == NULL)
		return;
	g_hash_table_destroy(rarities->known);
}

void
rarity_years(const struct rarities *rarities, int *first, int *last)
{
	*first = rarities->first;
	*last = rarities->last;
}

static bool
has_subject(const struct record *record, const struct value *item,
	struct subject *subject)
{
	static const struct {
		const char *kind;
		enum subject_form form;
	} forms[] = {
		{"pairing", SUBJECT_PAIRING},
		{"anomaly", SUBJECT_ANOMALY},
		{"cardback", SUBJECT_CARDBACK},
	};
	size_t i;

	for (i = 0; i < G_N_ELEMENTS(forms); i++)
		if (strcmp(record->kind->name, forms[i].kind) == 0) {
			*subject = (struct subject){item != NULL ?
				SUBJECT_COMBINATION : forms[i].form, record,
				item, NULL};
			return true;
		}
	return false;
}

/* Services are never added up: the one that certified most speaks. */
static void
add_reports(struct rarities *rarities, const struct subject *subject,
	struct rarity *rarity)
{
	struct certified_list list = certified_of(rarities->certificates,
		rarities->evidences, subject, rarities->arena);
	unsigned i;

	for (i = 0; i < list.count; i++) {
		const struct certified *one = &list.items[i];
		int64_t all = one->certificates + one->shared;

		if (rarity->service != NULL && all <= rarity->certificates)
			continue;
		rarity->service = one->snapshot->service;
		rarity->certificates = all;
		rarity->shared = one->shared > 0;
	}
}

static void
add_quoted(const struct rarities *rarities, const struct record *pairing,
	struct rarity *rarity)
{
	const struct value *list = model_get(rarities->model, pairing->values,
		NAME(PAIRING_ESTIMATES));
	const struct date *latest = NULL, *date;
	unsigned i;

	for (i = 0; i < value_count(list); i++) {
		date = model_date(rarities->model, value_item(list, i)->group,
			NAME(PAIRING_ESTIMATE_DATE));
		if (rarity->quoted != NULL && (date == NULL ||
			(latest != NULL && date->last <= latest->last)))
			continue;
		rarity->quoted = value_item(list, i);
		latest = date;
	}
}

static struct rarity
work_out(struct rarities *rarities, const struct subject *subject)
{
	struct rarity rarity = {.recorded = true};
	struct evidence *evidence = evidence_of(rarities->evidences, *subject,
		rarities->arena);
	unsigned i;

	rarity.known = evidence->known;
	rarity.sightings = evidence->sightings;
	for (i = 0; i < evidence->history.occasions; i++)
		rarity.last = MAX(rarity.last, evidence->listings[i].year);
	if (rarities->last > 0)
		rarity.a_year = rarity.sightings / (double)(rarities->last -
			rarities->first + 1);
	rarity.history = &evidence->history;
	if (subject->form == SUBJECT_PAIRING ||
		subject->form == SUBJECT_COMBINATION)
		add_reports(rarities, subject, &rarity);
	if (subject->form == SUBJECT_PAIRING)
		add_quoted(rarities, subject->record, &rarity);
	return rarity;
}

struct rarity
rarity_of(struct rarities *rarities, const struct record *record,
	const struct value *item)
{
	gconstpointer key = item == NULL ? (gconstpointer)record : item;
	struct rarity *known = g_hash_table_lookup(rarities->known, key);
	struct subject subject;

	if (known != NULL)
		return *known;
	known = arena_one(rarities->arena, struct rarity);
	if (has_subject(record, item, &subject))
		*known = work_out(rarities, &subject);
	g_hash_table_insert(rarities->known, (gpointer)(uintptr_t)key, known);
	return *known;
}

int
rarity_compare(const struct rarity *a, const struct rarity *b)
{
	if (a->recorded != b->recorded)
		return a->recorded ? -1 : 1;
	if (a->sightings != b->sightings)
		return a->sightings < b->sightings ? -1 : 1;
	if (a->known != b->known)
		return a->known < b->known ? -1 : 1;
	return a->last < b->last ? -1 : a->last > b->last;
}

static void
word_quoted(const struct model *model, const struct value *quoted,
	GString *out)
{
	struct value *const *values = quoted->group;
	int64_t number = model_whole(model, values,
		NAME(PAIRING_ESTIMATE_NUMBER), -1);
	int64_t low = model_whole(model, values, NAME(PAIRING_ESTIMATE_LOW),
		-1);
	int64_t high = model_whole(model, values, NAME(PAIRING_ESTIMATE_HIGH),
		-1);
	const char *of = model_word(model, values, NAME(PAIRING_ESTIMATE_OF));
	const struct record *source = model_record(model, values,
		NAME(PAIRING_ESTIMATE_SOURCE));

	g_string_append(out, "; quoted: ");
	if (number >= 0)
		g_string_append_printf(out, "%" G_GINT64_FORMAT, number);
	else if (low >= 0 && high >= 0)
		g_string_append_printf(out, "%" G_GINT64_FORMAT " to %"
			G_GINT64_FORMAT, low, high);
	else
		g_string_append_printf(out, "%s %" G_GINT64_FORMAT, low >= 0 ?
			"at least" : "at most", low >= 0 ? low : high);
	if (of != NULL)
		g_string_append_printf(out, " %s", of);
	if (source != NULL)
		g_string_append_printf(out, " (%s)", source->name);
}

/* Estimated only when it is said: it takes a while. */
static void
word_figure(const struct rarity *rarity, GString *out)
{
	struct choice choice = estimate_choose(rarity->history);
	const struct figure *figure = &choice.figure;

	if (figure->state != FIGURE_GIVEN)
		return;
	g_string_append_printf(out, "; computed: about %.0f, ",
		figure->point);
	if (isinf(figure->high))
		g_string_append_printf(out, "at least %.0f", figure->low);
	else
		g_string_append_printf(out, "%.0f to %.0f", figure->low,
			figure->high);
}

const char *
rarity_words(const struct rarities *rarities, const struct rarity *rarity,
	const struct model *model, struct arena *arena)
{
	GString *out;
	const char *done;

	if (!rarity->recorded)
		return NULL;
	out = g_string_new(NULL);
	if (rarity->sightings == 0)
		g_string_append(out, "never seen on record");
	else
		g_string_append_printf(out, "%u known, seen %u time%s since "
			"%d, last in %d", rarity->known, rarity->sightings,
			rarity->sightings == 1 ? "" : "s", rarities->first,
			rarity->last);
	if (rarity->service != NULL)
		g_string_append_printf(out, "; %s%" G_GINT64_FORMAT
			" certified by %s", rarity->shared ? "at most " : "",
			rarity->certificates, rarity->service->name);
	if (rarity->quoted != NULL)
		word_quoted(model, rarity->quoted, out);
	word_figure(rarity, out);
	done = arena_text(arena, out->str, out->len);
	g_string_free(out, TRUE);
	return done;
}

const char *
rarity_brief(const struct rarity *rarity, struct arena *arena)
{
	if (!rarity->recorded)
		return NULL;
	if (rarity->sightings == 0)
		return "never seen on record";
	return arena_print(arena, "%u known, last seen in %d", rarity->known,
		rarity->last);
}
