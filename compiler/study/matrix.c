/*
 * The matrix of a market, from what points at the market and its card backs.
 */
#include "study/matrix.h"

#include <glib.h>
#include <stdlib.h>
#include <string.h>

struct column {
	const struct record *cardback;
	int64_t number;
	day_number first;
};

static int
compare_columns(const void *a, const void *b)
{
	const struct column *left = a, *right = b;

	if (left->number != right->number)
		return left->number < right->number ? -1 : 1;
	if (left->first != right->first)
		return left->first < right->first ? -1 : 1;
	return (left->cardback->index > right->cardback->index) -
		(left->cardback->index < right->cardback->index);
}

struct record_list
study_cardbacks(const struct model *model, const struct record *market,
	struct arena *arena)
{
	struct pointer_list pointing = model_pointing(model, market);
	GArray *columns = g_array_new(FALSE, FALSE, sizeof(struct column));
	struct record_list list;
	size_t i;

	for (i = 0; i < pointing.count; i++) {
		struct column column = {pointing.items[i].from, INT64_MAX,
			INT32_MAX};
		const struct date *from;

		if (pointing.items[i].field != model_field(model,
			NAME(CARDBACK_MARKET)))
			continue;
		column.number = model_whole(model, column.cardback->values,
			NAME(CARDBACK_NUMBER), INT64_MAX);
		from = model_date(model, column.cardback->values,
			NAME(CARDBACK_FROM));
		if (from != NULL)
			column.first = from->first;
		g_array_append_val(columns, column);
	}
	g_array_sort(columns, compare_columns);
	list.count = columns->len;
	list.items = arena_array(arena, const struct record *, list.count);
	for (i = 0; i < list.count; i++)
		list.items[i] = g_array_index(columns, struct column,
			i).cardback;
	g_array_free(columns, TRUE);
	return list;
}

/* Calls `visit` for each pairing of a card back, with its character. */
typedef void visit_pairing(void *data, unsigned column,
	const struct record *pairing, const struct record *character);

static void
visit_pairings(const struct model *model, const struct matrix *matrix,
	visit_pairing *visit, void *data)
{
	unsigned i;
	size_t j;

	for (i = 0; i < matrix->columns; i++) {
		struct pointer_list pointing = model_pointing(model,
			matrix->cardbacks[i]);

		for (j = 0; j < pointing.count; j++) {
			const struct record *pairing = pointing.items[j].from;
			const struct record *character;

			if (pointing.items[j].field != model_field(model,
				NAME(PAIRING_CARDBACK)))
				continue;
			character = model_record(model, pairing->values,
				NAME(PAIRING_CHARACTER));
			if (character != NULL)
				visit(data, i, pairing, character);
		}
	}
}

struct filling {
	struct matrix *matrix;
	unsigned *row_of;	/* by character; UINT_MAX where it has none */
};

static void
mark_character(void *data, unsigned column, const struct record *pairing,
	const struct record *character)
{
	struct filling *filling = data;

	(void)column;
	(void)pairing;
	filling->row_of[character->index] = 0;
}

static void
fill_cell(void *data, unsigned column, const struct record *pairing,
	const struct record *character)
{
	struct filling *filling = data;
	struct matrix *matrix = filling->matrix;
	size_t row = filling->row_of[character->index];

	matrix->cells[row * matrix->columns + column] = pairing;
}

struct matrix *
study_matrix(const struct model *model, const struct record *market,
	struct arena *arena)
{
	struct record_list characters = model_records_of(model, "character");
	struct record_list columns = study_cardbacks(model, market, arena);
	struct matrix *matrix = arena_one(arena, struct matrix);
	struct filling filling = {matrix, NULL};
	unsigned i;

	matrix->market = market;
	matrix->cardbacks = columns.items;
	matrix->columns = columns.count;
	filling.row_of = arena_array(arena, unsigned, characters.count);
	memset(filling.row_of, 0xFF, sizeof(unsigned) * characters.count);
	visit_pairings(model, matrix, mark_character, &filling);
	matrix->characters = arena_array(arena, const struct record *,
		characters.count);
	for (i = 0; i < characters.count; i++)
		if (filling.row_of[i] == 0) {
			filling.row_of[i] = matrix->rows;
			matrix->characters[matrix->rows++] =
				characters.items[i];
		}
	matrix->cells = arena_array(arena, const struct record *,
		(size_t)matrix->rows * matrix->columns);
	visit_pairings(model, matrix, fill_cell, &filling);
	return matrix;
}
