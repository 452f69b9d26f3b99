/*
 * Computed estimates as a relation: a row for each subject of which a piece is
 * known, or may be.
 */
#include "write/relations/estimate.h"

#include <math.h>

#include "write/relations/inside.h"
#include "write/working.h"

const struct computed_column estimate_columns[] = {
	{"subject", "what the number is of", CELL_TEXT, true, NULL},
	{"kind", "kind", CELL_TEXT, true, NULL},
	{"id", "pairing, anomaly or card back", CELL_TEXT, true, "record"},
	{"item", "key of the combination", CELL_TEXT, false, NULL},
	{"pairing", "pairing that the anomaly is on", CELL_TEXT, false,
		"pairing"},
	{"state", "given, least (too few to estimate) or none", CELL_TEXT,
		true, NULL},
	{"answer", "the answer in words", CELL_TEXT, true, NULL},
	{"method", "method", CELL_TEXT, false, NULL},
	{"seen", "pieces known", CELL_WHOLE, true, NULL},
	{"point", "estimate of surviving pieces, carded and unaltered",
		CELL_REAL, false, NULL},
	{"low", "lower 95 % limit", CELL_REAL, false, NULL},
	{"high", "upper 95 % limit; empty where open", CELL_REAL, false, NULL},
	{"raw_point", "estimate before it was raised to what is known",
		CELL_REAL, false, NULL},
	{"raw_low", "lower limit before that", CELL_REAL, false, NULL},
	{"raw_high", "upper limit before that", CELL_REAL, false, NULL},
	{"sightings", "sightings of them", CELL_WHOLE, true, NULL},
	{"occasions", "lists in years that saw any", CELL_WHOLE, true, NULL},
	{"possible", "pieces that may belong too", CELL_WHOLE, true, NULL},
	{"with_possible", "the answer with all of these", CELL_TEXT, false,
		NULL},
	{"doubted", "doubted pieces, not counted", CELL_WHOLE, true, NULL},
	{"imitated", "pieces with an imitation, not counted", CELL_WHOLE, true,
		NULL},
	{"altered", "altered pieces, not counted", CELL_WHOLE, true, NULL},
	{"affected", "of an anomaly: pieces that are it", CELL_WHOLE, false,
		NULL},
	{"out_of", "among so many of the pairings it is known on", CELL_WHOLE,
		false, NULL},
	{"share_low", "lower 95 % limit of the share", CELL_REAL, false, NULL},
	{"share_high", "upper 95 % limit of the share", CELL_REAL, false,
		NULL},
	{"caveats", "what to be careful about", CELL_TEXT, false, NULL},
	{"assumes", "what the method takes for granted", CELL_TEXT, false,
		NULL},
	{0},
};

G_STATIC_ASSERT(G_N_ELEMENTS(estimate_columns) == ESTIMATE_CELLS + 1);

const char *
estimate_column(unsigned column)
{
	return estimate_columns[column].name;
}

/* Four decimals: more is not meant, and would differ between machines. */
static struct cell
real(double number)
{
	return isfinite(number) ? cell_real(round(number * 1e4) / 1e4) :
		cell_null();
}

static const char *
name_caveats(const struct choice *choice, struct arena *arena)
{
	const char *joined = NULL;
	unsigned i;

	for (i = 0; i < choice->caveat_count; i++)
		joined = joined == NULL ? caveat_words(choice->caveats[i]) :
			arena_print(arena, "%s; %s", joined, caveat_words(
				choice->caveats[i]));
	return joined;
}

static void
figure_cells(const struct figure *figure, struct cell *cells)
{
	bool given = figure->state == FIGURE_GIVEN;

	cells[0] = given ? real(figure->point) : cell_null();
	cells[1] = given ? real(figure->low) : cell_null();
	cells[2] = given ? real(figure->high) : cell_null();
	given = given && figure->raised;
	cells[3] = given ? real(figure->raw_point) : cell_null();
	cells[4] = given ? real(figure->raw_low) : cell_null();
	cells[5] = given ? real(figure->raw_high) : cell_null();
}

static void
share_cells(const struct risk_share *share, struct cell *cells)
{
	bool given = share->all > 0;

	cells[0] = given ? cell_whole(share->affected) : cell_null();
	cells[1] = given ? cell_whole(share->all) : cell_null();
	cells[2] = given ? real(share->wilson.low) : cell_null();
	cells[3] = given ? real(share->wilson.high) : cell_null();
}

void
estimate_cells(const struct reckoning *reckoning, struct cell *cells,
	struct arena *arena)
{
	static const char *const states[] = {
		[FIGURE_NONE] = "none",
		[FIGURE_LEAST] = "least",
		[FIGURE_GIVEN] = "given",
	};
	const struct subject *subject = &reckoning->subject;
	const struct evidence *evidence = reckoning->evidence;
	const struct choice *choice = &reckoning->choice;
	bool given = choice->figure.state == FIGURE_GIVEN;

	cells[0] = cell_text(subject_address(subject, arena));
	cells[1] = cell_text(subject->record->kind->name);
	cells[2] = cell_text(subject->record->id);
	cells[3] = cell_text(subject->item == NULL ? NULL :
		subject->item->group[0]->text);
	cells[4] = cell_text(subject->pairing == NULL ? NULL :
		subject->pairing->id);
	cells[5] = cell_text(states[choice->figure.state]);
	cells[6] = cell_text(working_answer(choice, arena));
	cells[7] = cell_text(given ? method_words(choice->method)->name : NULL);
	cells[8] = cell_whole(evidence->known);
	figure_cells(&choice->figure, cells + 9);
	cells[15] = cell_whole(evidence->sightings);
	cells[16] = cell_whole(evidence->history.occasions);
	cells[17] = cell_whole(evidence->possible);
	cells[18] = cell_text(evidence->possible == 0 ? NULL :
		working_answer(&reckoning->widest, arena));
	cells[19] = cell_whole(evidence->out[STANDING_DOUBTED]);
	cells[20] = cell_whole(evidence->out[STANDING_IMITATED]);
	cells[21] = cell_whole(evidence->out[STANDING_ALTERED]);
	share_cells(&reckoning->share, cells + 22);
	cells[26] = cell_text(name_caveats(choice, arena));
	cells[27] = cell_text(given ? method_words(choice->method)->assumes : NULL);
}

bool
compute_estimates(const struct relations *relations, relation_row *row,
	void *data, GError **error)
{
	unsigned count, i;
	const struct subject *subjects = reckonings_subjects(
		relations->reckonings, &count);
	struct cell cells[ESTIMATE_CELLS];
	bool given = true;

	for (i = 0; given && i < count; i++) {
		struct arena *arena = arena_new();
		struct reckoning *one = reckon(relations->reckonings,
			subjects[i], arena);

		if (one->evidence->known + one->evidence->possible > 0) {
			estimate_cells(one, cells, arena);
			given = row(data, cells, error);
		}
		arena_free(arena);
	}
	return given;
}
