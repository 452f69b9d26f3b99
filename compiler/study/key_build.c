/*
 * A key grows lead by lead, those nearest to the start first: where little is
 * recorded of many items and each stands under most leads, there is an end to
 * how large it may become, and no lead is then favoured. Steps are numbered
 * when it is grown.
 */
#include "study/key_build.h"

#include <glib.h>

#include "base/arena.h"
#include "study/key_place.h"

enum {
	GROWTH = 64,		/* the items of all leads, for each item */
	MOST_ALSO = 2,
	ALSO_COST = 2,		/* times what the step's own feature costs */
	ALSO_STATES = 2,	/* of a lead: more would confirm little */
};

/* A lead that is to be divided. */
struct pending {
	struct key_lead *lead;
	struct key_place place;
	unsigned depth;		/* looks before it */
};

struct growing {
	const struct key_table *table;
	struct arena *arena;
	struct key *key;
	GArray *pending;	/* struct pending */
	bool *used;		/* by feature */
	uint64_t places;	/* items of all leads so far */
	double pieces;		/* of all items */
};

/* Whether two features part the items of a place in the same way. */
static bool
divide_alike(const struct key_table *table, const struct key_place *place,
	unsigned a, uint64_t a_states, unsigned b, uint64_t b_states)
{
	unsigned i;

	for (i = 0; i < place->count; i++)
		if (((key_shown(table, a, place->items[i]) & a_states) != 0) !=
			((key_shown(table, b, place->items[i]) & b_states) !=
			0))
			return false;
	return true;
}

/* Few states, none of them that there is nothing to look at. */
static bool
confirms(uint64_t states)
{
	return (states & KEY_INAPPLICABLE) == 0 &&
		__builtin_popcountll(states) <= ALSO_STATES;
}

/* For each lead of a step the states that confirm it, or NULL. */
static const uint64_t *
match_leads(const struct growing *growing, const struct key_place *place,
	const struct key_step *step, unsigned feature,
	const struct key_split *split)
{
	uint64_t *states = arena_array(growing->arena, uint64_t, step->count);
	unsigned i, j;

	for (i = 0; i < step->count; i++) {
		for (j = 0; j < split->count && states[i] == 0; j++)
			if (divide_alike(growing->table, place, step->feature,
				step->leads[i].states, feature,
				split->leads[j]))
				states[i] = split->leads[j];
		if (states[i] == 0 || !confirms(states[i]))
			return NULL;
	}
	return states;
}

static void
add_also(struct key_also *list, struct key_step *step,
	const struct key_table *table, struct key_also also)
{
	unsigned i;

	if (step->also_count == MOST_ALSO && table->costs[also.feature] >=
		table->costs[list[MOST_ALSO - 1].feature])
		return;
	if (step->also_count < MOST_ALSO)
		step->also_count++;
	for (i = step->also_count - 1; i > 0 && table->costs[also.feature] <
		table->costs[list[i - 1].feature]; i--)
		list[i] = list[i - 1];
	list[i] = also;
}

static void
confirm(const struct growing *growing, const struct key_place *place,
	struct key_step *step, uint64_t mark)
{
	const struct key_table *table = growing->table;
	struct key_also *list = arena_array(growing->arena, struct key_also,
		MOST_ALSO);
	struct key_split split;
	unsigned i;

	for (i = 0; i < table->features; i++) {
		struct key_also also = {.feature = i};

		if (i == step->feature || table->costs[i] > ALSO_COST *
			table->costs[step->feature])
			continue;
		key_divide(table, i, place, &split);
		if (split.mark != mark || split.count != step->count)
			continue;
		also.states = match_leads(growing, place, step, i, &split);
		if (also.states != NULL)
			add_also(list, step, table, also);
	}
	step->also = list;
}

/* What all who come to a step have to look at. */
static void
count_step(struct growing *growing, const struct key_place *place,
	const struct key_step *step, unsigned depth)
{
	const struct key_table *table = growing->table;
	struct key_report *report = &growing->key->report;
	unsigned i;

	for (i = 0; i < place->count; i++)
		report->mean += place->parts[i] / table->items;
	report->cost += key_place_pieces(table, place) *
		table->costs[step->feature] / growing->pieces;
	report->leads += step->count;
	report->longest = MAX(report->longest, depth + 1);
	report->features += !growing->used[step->feature];
	growing->used[step->feature] = true;
	growing->key->count++;
}

static void
push(struct growing *growing, struct key_lead *lead, struct key_place place,
	unsigned depth)
{
	struct pending pending = {lead, place, depth};

	lead->items = place.items;
	lead->count = place.count;
	growing->places += place.count;
	if (place.count > 1)
		g_array_append_val(growing->pending, pending);
}

static void
grow(struct growing *growing, struct pending pending)
{
	const struct key_table *table = growing->table;
	struct key_lead *lead = pending.lead;
	struct key_step *step;
	struct key_split split;
	unsigned i;
	int feature;

	if (growing->places > GROWTH * ((uint64_t)table->items + KEY_SMALL)) {
		lead->given_up = true;
		return;
	}
	feature = key_choose(table, &pending.place, growing->used,
		&lead->given_up);
	if (feature < 0)
		return;
	key_divide(table, (unsigned)feature, &pending.place, &split);
	step = arena_one(growing->arena, struct key_step);
	step->feature = (unsigned)feature;
	step->count = split.count;
	step->leads = arena_array(growing->arena, struct key_lead,
		split.count);
	for (i = 0; i < split.count; i++)
		step->leads[i].states = split.leads[i];
	confirm(growing, &pending.place, step, split.mark);
	count_step(growing, &pending.place, step, pending.depth);
	lead->step = step;
	for (i = 0; i < split.count; i++)
		push(growing, &step->leads[i], key_follow(table, step->feature,
			&pending.place, split.leads[i], growing->arena),
			pending.depth + 1);
}

/* Numbers steps: each before all that it leads to. */
static void
number_steps(struct key *key, struct arena *arena)
{
	GPtrArray *stack = g_ptr_array_new();
	struct key_step *step;
	unsigned count = 0, i;

	key->steps = arena_array(arena, struct key_step *, key->count);
	if (key->start.step != NULL)
		g_ptr_array_add(stack, key->start.step);
	while (stack->len > 0) {
		step = g_ptr_array_remove_index(stack, stack->len - 1);
		key->steps[count++] = step;
		step->number = count;
		for (i = step->count; i > 0; i--) {
			if (step->leads[i - 1].step == NULL)
				continue;
			step->leads[i - 1].step->from = count;
			g_ptr_array_add(stack, step->leads[i - 1].step);
		}
	}
	g_ptr_array_free(stack, TRUE);
}

static void
note_together(const struct key_lead *lead, bool *together)
{
	unsigned i;

	if (lead->step == NULL && lead->count > 1)
		for (i = 0; i < lead->count; i++)
			together[lead->items[i]] = true;
}

static void
count_together(struct key *key, unsigned items)
{
	bool *together = g_new0(bool, (gsize)items + 1);
	unsigned i, j;

	note_together(&key->start, together);
	for (i = 0; i < key->count; i++)
		for (j = 0; j < key->steps[i]->count; j++)
			note_together(&key->steps[i]->leads[j], together);
	for (i = 0; i < items; i++)
		key->report.together += together[i];
	g_free(together);
}

struct key *
key_build(const struct key_table *table, struct arena *arena)
{
	struct growing growing = {
		.table = table,
		.arena = arena,
		.key = arena_one(arena, struct key),
		.pending = g_array_new(FALSE, FALSE, sizeof(struct pending)),
		.used = g_new0(bool, (gsize)table->features + 1),
	};
	struct key_place all = key_place_all(table, arena);
	guint i;

	growing.pieces = key_place_pieces(table, &all);
	growing.key->start.states = UINT64_MAX;
	push(&growing, &growing.key->start, all, 0);
	for (i = 0; i < growing.pending->len; i++)
		grow(&growing, g_array_index(growing.pending, struct pending,
			i));
	g_array_free(growing.pending, TRUE);
	g_free(growing.used);
	number_steps(growing.key, arena);
	count_together(growing.key, table->items);
	return growing.key;
}
