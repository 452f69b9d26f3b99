/*
 * What is still unseen in each market, and what lists showed first year by
 * year, as relations.
 */
#include <math.h>

#include "study/reckon.h"
#include "study/unseen.h"
#include "write/relations/inside.h"

static struct unseen_list
study(const struct relations *relations, struct arena *arena)
{
	return unseen_study(relations->model, relations->seen,
		reckonings_evidences(relations->reckonings), arena);
}

/* Rounded to tenths, as in every other output; NULL for an open end. */
static struct cell
tenths(const struct figure *figure, double value)
{
	if (figure->state != FIGURE_GIVEN || !isfinite(value))
		return cell_null();
	return cell_real(rint(value * 10) / 10);
}

static const char *
all_words(const struct unseen *unseen, struct arena *arena)
{
	struct unseen_words words = unseen_say(unseen, arena);
	const char *text = words.items[0];
	unsigned i;

	for (i = 1; i < words.count; i++)
		text = arena_print(arena, "%s %s", text, words.items[i]);
	return text;
}

bool
compute_unseen(const struct relations *relations, relation_row *row,
	void *data, GError **error)
{
	struct arena *arena = arena_new();
	struct unseen_list list = study(relations, arena);
	bool given = true;
	unsigned i;

	for (i = 0; given && i < list.count; i++) {
		const struct unseen *one = &list.items[i];
		const struct figure *total = &one->total, *more = &one->more;

		given = row(data, (struct cell[]){cell_text(one->market->id),
			cell_whole(one->recorded), cell_whole(one->listed),
			cell_whole(one->lists),
			cell_whole((int64_t)frequencies_at(
				&one->frequencies, 1)),
			cell_whole((int64_t)frequencies_at(
				&one->frequencies, 2)),
			tenths(total, total->point), tenths(total, total->low),
			tenths(total, total->high), tenths(more, more->point),
			tenths(more, more->low), tenths(more, more->high),
			one->coverage.given ? cell_real(rint(
				one->coverage.value * 1e4) / 1e4) :
				cell_null(),
			cell_text(all_words(one, arena))}, error);
	}
	arena_free(arena);
	return given;
}

const struct computed_column unseen_columns[] = {
	{"market", "market", CELL_TEXT, true, "market"},
	{"recorded", "pairings recorded", CELL_WHOLE, true, NULL},
	{"listed", "of these, on any list", CELL_WHOLE, true, NULL},
	{"lists", "lists, each year one", CELL_WHOLE, true, NULL},
	{"once", "pairings on one list alone", CELL_WHOLE, true, NULL},
	{"twice", "pairings on two", CELL_WHOLE, true, NULL},
	{"total", "pairings that lists can show, at least (Chao2)", CELL_REAL,
		false, NULL},
	{"total_low", "lower limit of that, 95 %", CELL_REAL, false, NULL},
	{"total_high", "upper limit of that, 95 %", CELL_REAL, false, NULL},
	{"more", "by how much that exceeds those recorded", CELL_REAL, false,
		NULL},
	{"more_low", "lower limit of that", CELL_REAL, false, NULL},
	{"more_high", "upper limit of that", CELL_REAL, false, NULL},
	{"coverage", "share of what a further list shows that some list has "
		"shown", CELL_REAL, false, NULL},
	{"words", "the same in sentences", CELL_TEXT, true, NULL},
	{0},
};

bool
compute_discovery(const struct relations *relations, relation_row *row,
	void *data, GError **error)
{
	struct arena *arena = arena_new();
	struct unseen_list list = study(relations, arena);
	bool given = true;
	unsigned i, j;

	for (i = 0; i < list.count; i++)
		for (j = 0; given && j < list.items[i].year_count; j++) {
			const struct unseen *one = &list.items[i];

			given = row(data, (struct cell[]){
				cell_text(one->market->id),
				cell_whole(one->years[j].year),
				cell_whole(one->years[j].lists),
				cell_whole(one->years[j].fresh),
				cell_whole(one->years[j].known)}, error);
		}
	arena_free(arena);
	return given;
}

const struct computed_column discovery_columns[] = {
	{"market", "market", CELL_TEXT, true, "market"},
	{"year", "year", CELL_WHOLE, true, NULL},
	{"lists", "lists of that year", CELL_WHOLE, true, NULL},
	{"fresh", "pairings on a list for the first time", CELL_WHOLE, true,
		NULL},
	{"known", "pairings on any list so far", CELL_WHOLE, true, NULL},
	{0},
};
