/*
 * Where each graded piece stands in the latest population report of its
 * service. A piece of which not all is known may be of several lines: then each
 * is said with what it takes.
 */
#include "write/pieces/pieces.h"

#include <inttypes.h>
#include <string.h>

#include "model/text.h"
#include "study/pieces.h"
#include "write/pieces/paper.h"
#include "write/pieces/words.h"
#include "write/ranking.h"

struct placing {
	const struct model *model;
	const struct ranks *ranks;
	const struct pieces *pieces;
	struct arena *arena;
	struct paper *paper;
	unsigned graded;
	unsigned placed;
};

/* Lines and the pairings by which a piece may be in them. */
struct candidate {
	const struct rank_line *line;
	const struct record *pairing;
	unsigned pairings;
};

/* The lines of a service that a pairing is in, each once. */
static void
add_lines(const struct placing *placing, const struct record *pairing,
	const struct record *service, GArray *out)
{
	struct rank_lines lines = rank_of_pairing(placing->ranks, pairing);
	unsigned i;
	guint j;

	for (i = 0; i < lines.count; i++) {
		struct candidate new = {lines.items[i], pairing, 1};
		struct candidate *old = NULL;

		if (lines.items[i]->line->snapshot->service != service)
			continue;
		for (j = 0; old == NULL && j < out->len; j++)
			if (g_array_index(out, struct candidate, j).line ==
				new.line)
				old = &g_array_index(out, struct candidate, j);
		if (old == NULL)
			g_array_append_val(out, new);
		else if (old->pairing != pairing)
			old->pairings++;
	}
}

static GArray *
lines_of(const struct placing *placing, const struct piece *piece,
	const struct record *service)
{
	GArray *out = g_array_new(FALSE, FALSE, sizeof(struct candidate));
	const struct record *last = NULL, *pairing;
	unsigned i, j;

	for (i = 0; i < piece->reading_count; i++)
		for (j = 0; j < piece->readings[i].count; j++) {
			pairing = placing->pieces->situations[
				piece->readings[i].items[j]].pairing;
			if (pairing != NULL && pairing != last)
				add_lines(placing, pairing, service, out);
			last = pairing;
		}
	return out;
}

static const char *
place_words(const struct placing *placing, const struct rank *rank)
{
	const char *range = rank->from == rank->to ? arena_print(
		placing->arena, "%" PRId64, rank->from) : arena_print(
		placing->arena, "%" PRId64 " to %" PRId64, rank->from,
		rank->to);

	return arena_print(placing->arena, "%s of %" PRId64 "%s. The report "
		"counts %" PRId64 " at this step and %" PRId64 " higher.%s",
		range, rank->total + (rank->counted == COUNTED_NO),
		rank->counted == COUNTED_NO ? ", with this piece, which the "
		"report does not count yet" : rank->counted == COUNTED_PERHAPS
		? ", or of one more if the report does not count this piece"
		: "", rank->count, rank->higher, rank->unsure ?
		" It does not tell qualified grades apart." : "");
}

/* What the line counted at the piece's step in the report before. */
static const char *
change_words(const struct placing *placing, const struct rank_line *line,
	const char *grade)
{
	const struct snapshot *before = line->line->snapshot->before;
	unsigned i;

	if (before == NULL)
		return NULL;
	for (i = 0; line->compared && i < line->count; i++)
		if (strcmp(line->steps[i].step, grade) == 0)
			return arena_print(placing->arena, "%s at this step "
				"since %s.", ranking_change(line,
					&line->steps[i], placing->arena),
				date_words(model_date(placing->model,
					before->census->values,
					NAME(CENSUS_DATE)), placing->arena));
	return line->compared ? NULL :
		"The report before has no such line.";
}

/* How much the line covers, since it may be more than the piece's own kind. */
static const char *
cover_words(const struct placing *placing, const struct rank_line *line)
{
	static const char *const fits[] = {
		[FIT_EXACT] = "",
		[FIT_BROADER] = ", and more besides",
		[FIT_NARROWER] = ", and only some pieces of them",
		[FIT_UNCLEAR] = "; what else is unclear",
	};

	return arena_print(placing->arena, "The line covers %u pairing%s in "
		"%u combination%s%s.", line->pairings,
		line->pairings == 1 ? "" : "s", line->combinations,
		line->combinations == 1 ? "" : "s", fits[line->fit]);
}

static void
put_line(struct placing *placing, const struct candidate *candidate,
	const struct graded *graded, bool only)
{
	const struct rank_line *line = candidate->line;
	struct rank rank;
	const char *words;

	if (!rank_of_piece(line, placing->model, graded, &rank)) {
		paper_say(placing->paper, "Its grade is no step of the "
			"scale of the report.");
		return;
	}
	words = ranking_place(line, placing->model, placing->arena);
	if (!only)
		words = arena_print(placing->arena, "%s, if it is %s%s",
			words, candidate->pairing->name,
			candidate->pairings > 1 ? " or another of the line" :
			"");
	paper_row(placing->paper, "Report", words);
	paper_row(placing->paper, "Rank", place_words(placing, &rank));
	paper_row(placing->paper, "Covers", cover_words(placing, line));
	paper_row(placing->paper, "Change", change_words(placing, line,
		graded->grade));
}

static void
place_piece(struct placing *placing, const struct piece *piece)
{
	const struct model *model = placing->model;
	const struct value *certificate = words_certificate(model,
		piece->record);
	struct graded graded;
	GArray *lines;
	guint i;

	if (certificate == NULL || piece->use != PIECE_HELD)
		return;
	graded = (struct graded){
		.service = model_record(model, certificate->group,
			NAME(HOLDING_CERTIFICATE_SERVICE)),
		.grade = model_text(model, certificate->group,
			NAME(HOLDING_CERTIFICATE_GRADE)),
		.qualified = value_count(model_get(model, certificate->group,
			NAME(HOLDING_CERTIFICATE_QUALIFIERS))) > 0,
		.date = model_date(model, certificate->group,
			NAME(HOLDING_CERTIFICATE_DATE)),
	};
	if (graded.grade == NULL || graded.service == NULL)
		return;
	placing->graded++;
	paper_thing(placing->paper, arena_print(placing->arena, "%s  %s",
		piece->record->id, piece->record->name));
	paper_row(placing->paper, "Grade", arena_print(placing->arena,
		"%s, %s", words_grade(model, certificate, placing->arena),
		graded.service->name));
	lines = lines_of(placing, piece, graded.service);
	placing->placed += lines->len > 0;
	if (lines->len == 0)
		paper_row(placing->paper, "Report", "No line of a report at "
			"hand covers it.");
	for (i = 0; i < lines->len; i++)
		put_line(placing, &g_array_index(lines, struct candidate, i),
			&graded, lines->len == 1);
	g_array_free(lines, TRUE);
}

void
pieces_ranks(const struct model *model, const struct seen *seen,
	const struct records *records, const char *look, GString *out)
{
	struct arena *arena = arena_new();
	struct paper paper = paper_begin(out, look, "Your graded pieces in "
		"the population reports");
	struct placing placing = {
		.model = model,
		.ranks = rank_gather(model, seen, arena),
		.pieces = study_pieces(model, study_situations(model, arena),
			records, arena),
		.arena = arena,
		.paper = &paper,
	};
	unsigned i;

	paper_say(&paper, ranking_caution);
	paper_heading(&paper, "Piece by piece");
	for (i = 0; i < placing.pieces->count; i++)
		place_piece(&placing, &placing.pieces->items[i]);
	paper_heading(&paper, "Altogether");
	paper_row(&paper, "Graded", arena_print(arena, "%u",
		placing.graded));
	paper_row(&paper, "In a report", arena_print(arena, "%u",
		placing.placed));
	paper_say(&paper, ranking_apart);
	paper_end(&paper);
	arena_free(arena);
}
