/*
 * Notes which pairing was on which list in which year, for all markets; sorts
 * the notes by market and time; and counts along them.
 */
#include "study/unseen.h"

#include <glib.h>
#include <math.h>
#include <string.h>

#include "base/sort.h"
#include "study/slots.h"

struct note {
	unsigned market;
	int year;
	unsigned source;
	unsigned pairing;
};

struct noting {
	const struct model *model;
	const struct seen *seen;
	const struct evidences *evidences;
	unsigned *market_of;	/* by pairing, from 1; 0: left out */
	GArray *notes;		/* struct note */
	struct arena *arena;
};

static const struct record *
market_of(const struct model *model, const struct record *pairing)
{
	const struct record *cardback = model_record(model, pairing->values,
		NAME(PAIRING_CARDBACK));

	return cardback == NULL ? NULL : model_record(model,
		cardback->values, NAME(CARDBACK_MARKET));
}

static void
note(struct noting *noting, const struct record *pairing, int year,
	const struct record *source)
{
	unsigned market = noting->market_of[pairing->index];
	struct note one = {market - 1, year, source->index, pairing->index};

	if (market > 0)
		g_array_append_val(noting->notes, one);
}

static void
note_pieces(struct noting *noting, const struct record *pairing)
{
	struct subject subject = {SUBJECT_PAIRING, pairing, NULL, NULL};
	const struct evidence *evidence;
	struct arena *arena;
	unsigned i;

	if (evidence_known(noting->evidences, &subject) == 0)
		return;
	arena = arena_new();
	evidence = evidence_of(noting->evidences, subject, arena);
	for (i = 0; i < evidence->history.occasions; i++)
		if (evidence->listings[i].pieces > 0)
			note(noting, pairing, evidence->listings[i].year,
				evidence->listings[i].source);
	arena_free(arena);
}

static const struct record *
known(const struct model *model, const struct record *sighting,
	enum field_name name)
{
	const struct value *identity = model_get(model, sighting->values,
		name);

	return identity != NULL &&
		identity->identity.kind == IDENTITY_KNOWN ?
		identity->identity.items[0].record : NULL;
}

/* Sightings that nobody could match to a piece. */
static void
note_unmatched(struct noting *noting)
{
	const struct model *model = noting->model;
	struct record_list list = model_records_of(model, "sighting");
	unsigned i;

	for (i = 0; i < list.count; i++) {
		struct value *const *values = list.items[i]->values;
		const struct record *source = model_record(model, values,
			NAME(SIGHTING_SOURCE));
		const struct date *date = model_date(model, values,
			NAME(SIGHTING_DATE));
		const struct record *pairing = seen_find_pairing(noting->seen,
			known(model, list.items[i], NAME(SIGHTING_CHARACTER)),
			known(model, list.items[i], NAME(SIGHTING_CARDBACK)));

		if (pairing != NULL && source != NULL && date != NULL &&
			model_record(model, values,
				NAME(SIGHTING_SPECIMEN)) == NULL)
			note(noting, pairing, date->year, source);
	}
}

static int
compare_notes(const void *a, const void *b)
{
	const struct note *left = a, *right = b;

	if (left->market != right->market)
		return left->market < right->market ? -1 : 1;
	if (left->year != right->year)
		return left->year < right->year ? -1 : 1;
	if (left->source != right->source)
		return left->source < right->source ? -1 : 1;
	return (left->pairing > right->pairing) -
		(left->pairing < right->pairing);
}

/* Counts recorded pairings, and finds the market of each. */
static void
place_pairings(struct noting *noting, struct unseen *items)
{
	struct record_list list = model_records_of(noting->model, "pairing");
	const struct record *market;
	unsigned i;

	noting->market_of = arena_array(noting->arena, unsigned, list.count);
	for (i = 0; i < list.count; i++) {
		market = market_of(noting->model, list.items[i]);
		if (market == NULL || model_get_every(noting->model,
			list.items[i], NAME(EVERY_RETIRED)) != NULL ||
			!study_may_exist(model_word(noting->model,
				list.items[i]->values,
				NAME(PAIRING_CONCLUDED))))
			continue;
		noting->market_of[i] = market->index + 1;
		items[market->index].recorded++;
	}
}

static struct frequencies
count_frequencies(const unsigned *times, const struct note *notes,
	unsigned count, unsigned lists, struct arena *arena)
{
	unsigned *seen = arena_array(arena, unsigned, lists), i;
	GHashTable *told = g_hash_table_new(NULL, NULL);

	for (i = 0; i < count; i++)
		if (g_hash_table_add(told,
			GUINT_TO_POINTER(notes[i].pairing)))
			seen[times[notes[i].pairing] - 1]++;
	g_hash_table_destroy(told);
	return (struct frequencies){seen, lists, lists};
}

/* Along the notes of one market; `times` by pairing, all 0 to begin with. */
static void
count_market(struct unseen *unseen, const struct note *notes, unsigned count,
	unsigned *times, struct arena *arena)
{
	struct discovery *years = arena_array(arena, struct discovery, count);
	struct discovery *year = NULL;
	unsigned i;

	for (i = 0; i < count; i++) {
		bool first = i == 0 || notes[i].year != notes[i - 1].year;

		if (!first && compare_notes(&notes[i - 1], &notes[i]) == 0)
			continue;
		if (first) {
			year = &years[unseen->year_count++];
			year->year = notes[i].year;
		}
		if (first || notes[i].source != notes[i - 1].source) {
			year->lists++;
			unseen->lists++;
		}
		if (times[notes[i].pairing]++ == 0) {
			year->fresh++;
			unseen->listed++;
		}
		year->known = unseen->listed;
	}
	unseen->years = years;
	unseen->frequencies = count_frequencies(times, notes, count,
		unseen->lists, arena);
}

static void
estimate(struct unseen *unseen)
{
	const struct figure *total = &unseen->total;
	double recorded = unseen->recorded;

	unseen->total = estimate_chao1(&unseen->frequencies, CHAO_CLASSIC);
	if (total->state == FIGURE_GIVEN && total->point > recorded)
		unseen->more = (struct figure){
			.state = FIGURE_GIVEN,
			.point = total->point - recorded,
			.variance = total->variance,
			.low = fmax(total->low - recorded, 0),
			.high = total->high - recorded,
		};
	unseen->coverage = coverage_chao_jost(&unseen->frequencies);
	unseen->again = extrapolate(&unseen->frequencies, unseen->lists);
}

struct unseen_list
unseen_study(const struct model *model, const struct seen *seen,
	const struct evidences *evidences, struct arena *arena)
{
	struct record_list markets = model_records_of(model, "market");
	struct record_list pairings = model_records_of(model, "pairing");
	struct unseen *items = arena_array(arena, struct unseen,
		markets.count);
	struct noting noting = {model, seen, evidences, NULL,
		g_array_new(FALSE, FALSE, sizeof(struct note)), arena};
	unsigned *times = g_new0(unsigned, pairings.count + 1), i, from, to;
	const struct note *notes;

	place_pairings(&noting, items);
	for (i = 0; i < pairings.count; i++)
		if (noting.market_of[i] > 0)
			note_pieces(&noting, pairings.items[i]);
	note_unmatched(&noting);
	notes = (const struct note *)(void *)noting.notes->data;
	sort_items(noting.notes->data, noting.notes->len, sizeof(*notes),
		compare_notes);
	for (i = from = 0; i < markets.count; i++, from = to) {
		items[i].market = markets.items[i];
		for (to = from; to < noting.notes->len &&
			notes[to].market == i; to++)
			;
		count_market(&items[i], notes + from, to - from, times,
			arena);
		estimate(&items[i]);
	}
	g_array_free(noting.notes, TRUE);
	g_free(times);
	return (struct unseen_list){items, markets.count};
}
