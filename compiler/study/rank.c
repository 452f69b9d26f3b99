/*
 * Ranks the lines of all snapshots, best step first, and leads each pairing to
 * the lines of the latest ones that cover it.
 */
#include "study/rank.h"

#include <glib.h>
#include <string.h>

#include "study/rank_cover.h"

static int64_t
add(int64_t a, int64_t b)
{
	int64_t sum;

	return __builtin_add_overflow(a, b, &sum) ? INT64_MAX : sum;
}

/* Merges the steps of a line with those of the line before it. */
static void
rank_steps(const struct snapshot_line *line, struct rank_line *rank,
	struct arena *arena)
{
	const struct snapshot_line *before = line->before;
	unsigned most = line->count + (before == NULL ? 0 : before->count);
	struct rank_step *steps = arena_array(arena, struct rank_step, most);
	unsigned i = 0, j = 0, none = before == NULL ? 0 : before->count;
	int64_t higher = 0;

	while (i < line->count || j < none) {
		struct rank_step *step = &steps[rank->count++];

		step->place = j >= none || (i < line->count &&
			line->counts[i].place <= before->counts[j].place) ?
			line->counts[i].place : before->counts[j].place;
		step->step = value_item(line->snapshot->steps, step->place)
			->text;
		if (i < line->count && line->counts[i].place == step->place)
			step->count = line->counts[i++].count;
		if (j < none && before->counts[j].place == step->place)
			step->before = before->counts[j++].count;
		step->higher = higher;
		higher = add(higher, step->count);
		if (step->count == 0)
			continue;
		step->from = add(step->higher, 1);
		step->to = higher;
		step->share = (double)step->count / (double)line->total;
		if (rank->top == NULL)
			rank->top = step;
	}
	rank->steps = steps;
	rank->compared = before != NULL;
}

static enum rank_fit
fit_of(const struct model *model, const struct value *category)
{
	static const char *const words[] = {
		[FIT_EXACT] = "exact",
		[FIT_BROADER] = "broader",
		[FIT_NARROWER] = "narrower",
	};
	const char *word = model_word(model, category->group,
		NAME(CENSUS_CATEGORY_MATCH));
	size_t i;

	for (i = 0; word != NULL && i < G_N_ELEMENTS(words); i++)
		if (strcmp(words[i], word) == 0)
			return (enum rank_fit)i;
	return FIT_UNCLEAR;
}

/* Each piece has a certificate; known further ones are no further pieces. */
static void
bound_pieces(struct rank_line *rank)
{
	int64_t total = rank->line->total;

	rank->uncounted = add(rank->known, rank->again) > total;
	rank->least = MIN(MAX(rank->known, 1), total);
	rank->most = rank->uncounted ? total : total - rank->again;
}

static void
rank_report(const struct ranks *ranks, const struct snapshot *snapshot,
	struct rank_report *report, struct arena *arena)
{
	struct rank_line *lines = arena_array(arena, struct rank_line,
		snapshot->count);
	unsigned i;

	report->snapshot = snapshot;
	report->lines = lines;
	report->count = snapshot->count;
	for (i = 0; i < snapshot->count; i++) {
		lines[i].line = &snapshot->lines[i];
		lines[i].fit = fit_of(ranks->model, lines[i].line->category);
		rank_steps(&snapshot->lines[i], &lines[i], arena);
	}
	rank_cover(ranks->model, ranks->seen, lines, snapshot->count);
	for (i = 0; i < snapshot->count; i++)
		bound_pieces(&lines[i]);
}

/* Counts, and on the second round enters, the line at each of its pairings. */
static void
enter_line(struct ranks *ranks, const struct rank_line *line, bool enter)
{
	GArray *covers = covers_of(ranks->model, line->line->category);
	guint i;

	for (i = 0; i < covers->len; i++) {
		struct rank_lines *lines = &ranks->of_pairing[g_array_index(
			covers, struct cover, i).pairing->index];

		if (enter)
			lines->items[lines->count] = line;
		lines->count++;
	}
	covers_free(covers);
}

static void
enter_latest(struct ranks *ranks, bool enter)
{
	unsigned i, j;

	for (i = 0; i < ranks->count; i++)
		for (j = 0; ranks->reports[i].snapshot->latest &&
			j < ranks->reports[i].count; j++)
			enter_line(ranks, &ranks->reports[i].lines[j], enter);
}

static void
index_pairings(struct ranks *ranks, struct arena *arena)
{
	unsigned pairings = model_records_of(ranks->model, "pairing").count;
	unsigned i;

	ranks->of_pairing = arena_array(arena, struct rank_lines, pairings);
	enter_latest(ranks, false);
	for (i = 0; i < pairings; i++) {
		ranks->of_pairing[i].items = arena_array(arena,
			const struct rank_line *, ranks->of_pairing[i].count);
		ranks->of_pairing[i].count = 0;
	}
	enter_latest(ranks, true);
}

const struct ranks *
rank_gather(const struct model *model, const struct seen *seen,
	struct arena *arena)
{
	struct record_list list = model_records_of(model, "census");
	struct snapshots *snapshots = snapshots_gather(model, list, arena);
	struct ranks *ranks = arena_one(arena, struct ranks);
	struct rank_report *reports = arena_array(arena, struct rank_report,
		snapshots->count);
	unsigned i;

	ranks->model = model;
	ranks->seen = seen;
	ranks->reports = reports;
	ranks->count = snapshots->count;
	ranks->of_census = arena_array(arena, const struct rank_report *,
		list.count);
	for (i = 0; i < snapshots->count; i++) {
		rank_report(ranks, &snapshots->items[i], &reports[i], arena);
		ranks->of_census[snapshots->items[i].census->index] =
			&reports[i];
	}
	index_pairings(ranks, arena);
	return ranks;
}

const struct rank_report *
rank_of_census(const struct ranks *ranks, const struct record *census)
{
	return ranks->of_census[census->index];
}

struct rank_lines
rank_of_pairing(const struct ranks *ranks, const struct record *pairing)
{
	return ranks->of_pairing[pairing->index];
}

unsigned
rank_in_both(const struct ranks *ranks, const struct record *pairing,
	const struct snapshot *one, const struct snapshot *other)
{
	struct seen_list list = seen_of_pairing(ranks->seen, pairing);
	unsigned i, count = 0;

	for (i = 0; i < list.count; i++)
		if (list.items[i].certain && rank_certificates(ranks->model,
			list.items[i].specimen, one) > 0 && rank_certificates(
			ranks->model, list.items[i].specimen, other) > 0)
			count++;
	return count;
}

static enum rank_counted
counted(const struct date *certificate, const struct date *report,
	int64_t at_step)
{
	if (at_step == 0)
		return COUNTED_NO;
	if (certificate == NULL)
		return COUNTED_PERHAPS;
	if (certificate->last <= report->first)
		return COUNTED_YES;
	return certificate->first > report->last ? COUNTED_NO :
		COUNTED_PERHAPS;
}

bool
rank_of_piece(const struct rank_line *line, const struct model *model,
	const struct graded *piece, struct rank *rank)
{
	const struct snapshot *snapshot = line->line->snapshot;
	unsigned place, i;

	if (piece->service != snapshot->service || piece->grade == NULL)
		return false;
	place = snapshot_place(snapshot->steps, piece->grade);
	if (place == value_count(snapshot->steps))
		return false;
	*rank = (struct rank){.total = line->line->total, .broad = line->broad,
		.unsure = piece->qualified};
	for (i = 0; i < line->count && line->steps[i].place <= place; i++) {
		if (line->steps[i].place == place)
			rank->count = line->steps[i].count;
		else
			rank->higher = add(rank->higher,
				line->steps[i].count);
	}
	rank->counted = counted(piece->date, model_date(model,
		snapshot->census->values, NAME(CENSUS_DATE)), rank->count);
	rank->top = rank->higher == 0;
	rank->from = add(rank->higher, 1);
	rank->to = add(rank->higher, rank->count);
	if (rank->counted != COUNTED_YES)
		rank->to = add(rank->to, 1);
	return true;
}

const struct rank_answer *
rank_answers(const struct model *model, const struct record *scale,
	const char *step, struct arena *arena, unsigned *count)
{
	const struct value *list = model_get(model, scale->values,
		NAME(SCALE_ANSWERS));
	struct rank_answer *answers = arena_array(arena, struct rank_answer,
		value_count(list));
	unsigned i;

	*count = 0;
	for (i = 0; i < value_count(list); i++) {
		struct value *const *group = value_item(list, i)->group;

		if (strcmp(model_text(model, group, NAME(SCALE_ANSWER_STEP)),
			step) == 0)
			answers[(*count)++] = (struct rank_answer){
				model_record(model, group,
					NAME(SCALE_ANSWER_SCALE)),
				model_text(model, group,
					NAME(SCALE_ANSWER_OTHER)),
				model_record(model, group,
					NAME(SCALE_ANSWER_SOURCE))};
	}
	return answers;
}
