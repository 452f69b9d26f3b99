/*
 * Population reports as relations: ranks by step, lines with what they cover
 * and of how many pieces they may be, and the same in sentences.
 */
#include "write/relations/inside.h"

#include "write/ranking.h"

struct giving {
	const struct ranks *ranks;
	struct arena *arena;
	relation_row *row;
	void *data;
	GError **error;
};

static struct giving
begin(const struct relations *relations, relation_row *row, void *data,
	GError **error)
{
	struct arena *arena = arena_new();

	return (struct giving){rank_gather(relations->model, relations->seen,
		arena), arena, row, data, error};
}

static const char *
census_id(const struct rank_line *line)
{
	return line->line->snapshot->census->id;
}

static bool
give_steps(const struct giving *giving, const struct rank_line *line)
{
	unsigned i;

	for (i = 0; i < line->count; i++) {
		const struct rank_step *step = &line->steps[i];
		bool counted = step->count > 0;

		if (!giving->row(giving->data, (struct cell[]){
			cell_text(census_id(line)),
			cell_whole(line->line->position + 1),
			cell_whole(step->place + 1), cell_text(step->step),
			cell_whole(step->count), cell_whole(step->higher),
			counted ? cell_whole(step->from) : cell_null(),
			counted ? cell_whole(step->to) : cell_null(),
			counted ? cell_real(step->share) : cell_null(),
			line->compared ? cell_whole(step->before) :
				cell_null(),
			line->compared ? cell_whole(step->count -
				step->before) : cell_null()}, giving->error))
			return false;
	}
	return true;
}

static bool
give_line(const struct giving *giving, const struct rank_line *line)
{
	const struct rank_step *top = line->top;
	const struct snapshot_line *before = line->line->before;

	return giving->row(giving->data, (struct cell[]){
		cell_text(census_id(line)),
		cell_whole(line->line->position + 1),
		cell_text(line->line->wording), cell_whole(line->line->total),
		top == NULL ? cell_null() : cell_text(top->step),
		top == NULL ? cell_null() : cell_whole(top->count),
		cell_whole(line->pairings), cell_whole(line->combinations),
		cell_whole(line->broad),
		line->line->snapshot->before == NULL ? cell_null() :
			cell_text(line->line->snapshot->before->census->id),
		before == NULL ? cell_null() : cell_whole(before->total),
		cell_whole(line->known), cell_whole(line->again),
		cell_whole(line->least), cell_whole(line->most)},
		giving->error);
}

typedef bool give_function(const struct giving *giving,
	const struct rank_line *line);

/* Reports in the order of the records, lines in that of the report. */
static bool
give_reports(const struct giving *giving, give_function *give)
{
	struct record_list list = model_records_of(giving->ranks->model,
		"census");
	const struct rank_report *report;
	unsigned i, j;

	for (i = 0; i < list.count; i++) {
		report = rank_of_census(giving->ranks, list.items[i]);
		for (j = 0; report != NULL && j < report->count; j++)
			if (!give(giving, &report->lines[j]))
				return false;
	}
	return true;
}

bool
compute_census_rank(const struct relations *relations, relation_row *row,
	void *data, GError **error)
{
	struct giving giving = begin(relations, row, data, error);
	bool given = give_reports(&giving, give_steps);

	arena_free(giving.arena);
	return given;
}

bool
compute_census_line(const struct relations *relations, relation_row *row,
	void *data, GError **error)
{
	struct giving giving = begin(relations, row, data, error);
	bool given = give_reports(&giving, give_line);

	arena_free(giving.arena);
	return given;
}

typedef struct told_list tell_function(const struct ranks *ranks,
	const struct record *record, struct arena *arena);

static bool
give_told(const struct giving *giving, const char *kind, tell_function *tell)
{
	struct record_list list = model_records_of(giving->ranks->model, kind);
	bool given = true;
	unsigned i, j;

	for (i = 0; given && i < list.count; i++) {
		struct arena *arena = arena_new();
		struct told_list told = tell(giving->ranks, list.items[i],
			arena);

		for (j = 0; given && j < told.count; j++) {
			const struct record *about = told.items[j].about;

			given = giving->row(giving->data, (struct cell[]){
				cell_text(kind), cell_text(list.items[i]->id),
				cell_whole(j + 1),
				cell_text(told.items[j].text),
				cell_text(about == NULL ? NULL :
					about->kind->name),
				cell_text(about == NULL ? NULL : about->id)},
				giving->error);
		}
		arena_free(arena);
	}
	return given;
}

bool
compute_census_words(const struct relations *relations, relation_row *row,
	void *data, GError **error)
{
	struct giving giving = begin(relations, row, data, error);
	bool given = give_told(&giving, "pairing", ranking_pairing) &&
		give_told(&giving, "census", ranking_census);

	arena_free(giving.arena);
	return given;
}

const struct computed_column census_rank_columns[] = {
	{"census", "census snapshot", CELL_TEXT, true, "census"},
	{"category", "place of the line in the report", CELL_WHOLE, true,
		NULL},
	{"place", "place of the step on the scale, the best is 1", CELL_WHOLE,
		true, NULL},
	{"step", "step", CELL_TEXT, true, NULL},
	{"count", "certificates at the step", CELL_WHOLE, true, NULL},
	{"higher", "certificates higher", CELL_WHOLE, true, NULL},
	{"rank_from", "first rank at the step", CELL_WHOLE, false, NULL},
	{"rank_to", "last rank at the step", CELL_WHOLE, false, NULL},
	{"share", "share of the line's certificates", CELL_REAL, false, NULL},
	{"before", "certificates in the report before", CELL_WHOLE, false,
		NULL},
	{"change", "more than in the report before", CELL_WHOLE, false, NULL},
	{0},
};

const struct computed_column census_line_columns[] = {
	{"census", "census snapshot", CELL_TEXT, true, "census"},
	{"category", "place of the line in the report", CELL_WHOLE, true,
		NULL},
	{"wording", "the line as printed", CELL_TEXT, true, NULL},
	{"certificates", "certificates", CELL_WHOLE, true, NULL},
	{"best_step", "best step with a certificate", CELL_TEXT, false, NULL},
	{"at_best", "certificates at it", CELL_WHOLE, false, NULL},
	{"pairings", "pairings of the guide that it covers", CELL_WHOLE, true,
		NULL},
	{"combinations", "combinations that it covers", CELL_WHOLE, true,
		NULL},
	{"broad", "whether it covers several, or others too", CELL_WHOLE,
		true, NULL},
	{"report_before", "the service's report before", CELL_TEXT, false,
		"census"},
	{"before", "certificates of the line in that", CELL_WHOLE, false,
		NULL},
	{"known_pieces", "pieces of the guide that it surely counts",
		CELL_WHOLE, true, NULL},
	{"known_again", "further certificates of these", CELL_WHOLE, true,
		NULL},
	{"pieces_least", "pieces it may be of, at least", CELL_WHOLE, true,
		NULL},
	{"pieces_most", "pieces it may be of, at most", CELL_WHOLE, true,
		NULL},
	{0},
};

const struct computed_column census_words_columns[] = {
	{"kind", "kind", CELL_TEXT, true, NULL},
	{"id", "pairing or report", CELL_TEXT, true, "record"},
	{"position", "place among its sentences", CELL_WHOLE, true, NULL},
	{"sentence", "the sentence", CELL_TEXT, true, NULL},
	{"about_kind", "kind of what it is about", CELL_TEXT, false, NULL},
	{"about_id", "what it is about", CELL_TEXT, false, "record"},
	{0},
};
