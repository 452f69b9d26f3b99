/*
 * An inventory for an insurer: what is the owner's, with certificates, costs
 * and the latest valuation. Not where anything is kept.
 */
#include "write/pieces/pieces.h"

#include <string.h>

#include "base/csv.h"
#include "model/text.h"
#include "write/pieces/money.h"
#include "write/pieces/paper.h"
#include "write/pieces/words.h"

static const char figures[] = "Owner's figures, no appraisal.";

struct counting {
	const struct model *model;
	struct arena *arena;
	struct money costs;
	struct money values;
	unsigned pieces;
	unsigned unvalued;
};

/* What is said of one piece. */
struct listed {
	const char *piece;
	const char *form;
	const char *grade;
	const char *certificate;
	const char *service;
	const char *cost;
	const char *value;
	const char *valued;	/* when, by whom, on what basis */
	const char *photographs;
};

/* Whether it is the owner's now, wherever it is. */
static bool
is_owned(const struct model *model, const struct record *piece)
{
	static const char *const words[] = {"held", "away", "paid",
		"in-transit", NULL};
	const char *status = model_word(model, piece->values,
		NAME(HOLDING_STATUS));

	return status == NULL || g_strv_contains(words, status);
}

static const char *
add_costs(struct counting *counting, const struct record *piece)
{
	const struct value *list = model_get(counting->model, piece->values,
		NAME(HOLDING_COSTS));
	struct money sum = money_new();
	const char *words;
	unsigned i;

	for (i = 0; i < value_count(list); i++) {
		struct value *const *group = value_item(list, i)->group;

		money_add_group(&sum, counting->model, group,
			NAME(HOLDING_COST_AMOUNT), NAME(HOLDING_COST_CURRENCY)
			);
		money_add_group(&counting->costs, counting->model, group,
			NAME(HOLDING_COST_AMOUNT), NAME(HOLDING_COST_CURRENCY)
			);
	}
	words = money_words(&sum, counting->arena);
	money_free(&sum);
	return words;
}

/* The latest valuation; of several on one day the last that was written. */
static const struct value *
latest(const struct counting *counting, const struct record *piece)
{
	const struct value *list = model_get(counting->model, piece->values,
		NAME(HOLDING_VALUATIONS)), *found = NULL;
	const struct date *date, *best = NULL;
	unsigned i;

	for (i = 0; i < value_count(list); i++) {
		date = model_date(counting->model, value_item(list, i)->group,
			NAME(HOLDING_VALUATION_DATE));
		if (date == NULL || (best != NULL && date->last < best->last))
			continue;
		best = date;
		found = value_item(list, i);
	}
	return found;
}

static void
add_value(struct counting *counting, const struct record *piece,
	struct listed *listed)
{
	const struct model *model = counting->model;
	const struct value *value = latest(counting, piece);
	struct money sum = money_new();
	const char *by, *basis;

	if (value == NULL) {
		counting->unvalued++;
		money_free(&sum);
		return;
	}
	money_add_group(&sum, model, value->group,
		NAME(HOLDING_VALUATION_AMOUNT),
		NAME(HOLDING_VALUATION_CURRENCY));
	money_add_group(&counting->values, model, value->group,
		NAME(HOLDING_VALUATION_AMOUNT),
		NAME(HOLDING_VALUATION_CURRENCY));
	listed->value = money_words(&sum, counting->arena);
	money_free(&sum);
	by = model_text(model, value->group, NAME(HOLDING_VALUATION_BY));
	basis = words_value(model_get(model, value->group,
		NAME(HOLDING_VALUATION_BASIS)), counting->arena);
	listed->valued = arena_print(counting->arena, "%s%s%s%s%s",
		date_words(model_date(model, value->group,
			NAME(HOLDING_VALUATION_DATE)), counting->arena),
		by == NULL ? "" : ", ", by == NULL ? "" : by,
		basis == NULL ? "" : ", ", basis == NULL ? "" : basis);
}

static struct listed
list_piece(struct counting *counting, const struct record *piece)
{
	const struct model *model = counting->model;
	const struct value *certificate = words_certificate(model, piece);
	unsigned photographs = value_count(model_get(model, piece->values,
		NAME(HOLDING_PHOTOGRAPHS)));
	struct listed listed = {
		.piece = words_piece(model, piece, counting->arena),
		.form = words_value(model_get(model, piece->values,
			NAME(HOLDING_FORM)), counting->arena),
		.cost = add_costs(counting, piece),
	};

	counting->pieces++;
	if (certificate != NULL) {
		listed.service = words_value(model_get(model,
			certificate->group,
			NAME(HOLDING_CERTIFICATE_SERVICE)), counting->arena);
		listed.certificate = model_text(model, certificate->group,
			NAME(HOLDING_CERTIFICATE_NUMBER));
		listed.grade = words_grade(model, certificate,
			counting->arena);
	}
	if (photographs > 0)
		listed.photographs = arena_print(counting->arena, "%u",
			photographs);
	add_value(counting, piece, &listed);
	return listed;
}

static const char *
or_empty(const char *text)
{
	return text == NULL ? "" : text;
}

static void
append_row(const char *const *cells, GString *out)
{
	size_t i;

	for (i = 0; cells[i] != NULL; i++) {
		if (i > 0)
			g_string_append_c(out, ',');
		csv_append_field(out, cells[i]);
	}
	g_string_append(out, "\r\n");
}

static struct counting
begin(const struct model *model)
{
	return (struct counting){model, arena_new(), money_new(), money_new(),
		0, 0};
}

static void
end(struct counting *counting)
{
	money_free(&counting->costs);
	money_free(&counting->values);
	arena_free(counting->arena);
}

static bool
is_listed(const struct model *model, const struct record *record)
{
	return strcmp(record->kind->name, "holding") == 0 &&
		is_owned(model, record);
}

void
pieces_inventory_csv(const struct model *model, const struct records *records,
	GString *out)
{
	static const char *const heads[] = {"id", "piece", "form", "service",
		"certificate", "grade", "cost", "value", "valued",
		"photographs", "note", NULL};
	struct counting counting = begin(model);
	size_t i;

	append_row(heads, out);
	for (i = 0; i < records->count; i++) {
		struct listed listed;

		if (!is_listed(model, records->items[i]))
			continue;
		listed = list_piece(&counting, records->items[i]);
		append_row((const char *const []){records->items[i]->id,
			or_empty(listed.piece), or_empty(listed.form),
			or_empty(listed.service), or_empty(listed.certificate),
			or_empty(listed.grade), or_empty(listed.cost),
			or_empty(listed.value), or_empty(listed.valued),
			or_empty(listed.photographs), figures, NULL}, out);
	}
	end(&counting);
}

static void
put_piece(struct paper *paper, const struct record *piece,
	const struct listed *listed, struct arena *arena)
{
	paper_thing(paper, arena_print(arena, "%s  %s", piece->id,
		listed->piece));
	paper_row(paper, "Form", listed->form);
	paper_row(paper, "Graded by", listed->service);
	paper_row(paper, "Certificate", listed->certificate);
	paper_row(paper, "Grade", listed->grade);
	paper_row(paper, "Cost", listed->cost);
	paper_row(paper, "Value", listed->value);
	paper_row(paper, "Valued", listed->valued);
	paper_row(paper, "Photographs", listed->photographs);
}

void
pieces_inventory(const struct model *model, const struct records *records,
	const char *on, const char *look, GString *out)
{
	struct counting counting = begin(model);
	struct paper paper = paper_begin(out, look, "Inventory");
	size_t i;

	paper_say(&paper, figures);
	if (on != NULL)
		paper_say(&paper, arena_print(counting.arena, "As of %s.",
			on));
	paper_heading(&paper, "The pieces");
	for (i = 0; i < records->count; i++) {
		struct listed listed;

		if (!is_listed(model, records->items[i]))
			continue;
		listed = list_piece(&counting, records->items[i]);
		put_piece(&paper, records->items[i], &listed, counting.arena);
	}
	paper_heading(&paper, "Altogether");
	paper_row(&paper, "Pieces", arena_print(counting.arena, "%u",
		counting.pieces));
	paper_row(&paper, "Cost", money_words(&counting.costs,
		counting.arena));
	paper_row(&paper, "Value", money_words(&counting.values,
		counting.arena));
	if (counting.unvalued > 0)
		paper_row(&paper, "Without a value", arena_print(
			counting.arena, "%u", counting.unvalued));
	paper_say(&paper, figures);
	paper_end(&paper);
	end(&counting);
}
