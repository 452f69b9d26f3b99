/*
 * Sentences on lines of population reports: the answer first, never more than
 * the report says, and never a sum over services.
 */
#include "write/ranking.h"

#include <glib.h>
#include <inttypes.h>
#include <string.h>

#include "model/text.h"

const char ranking_caution[] = "A report counts certificates, not pieces, and "
	"only of what was submitted to the service. It does not say how many "
	"there are.";

const char ranking_apart[] = "Each service counts apart. Their numbers are "
	"never added: a piece may be in several reports.";

struct telling {
	const struct model *model;
	struct arena *arena;
	GArray *told;
};

static void
say(const struct telling *telling, const struct record *about,
	const char *text)
{
	struct told told = {text, about};

	g_array_append_val(telling->told, told);
}

static struct telling
begin(const struct model *model, struct arena *arena)
{
	return (struct telling){model, arena, g_array_new(FALSE, FALSE,
		sizeof(struct told))};
}

static struct told_list
end(struct telling *telling)
{
	struct told_list list = {NULL, telling->told->len};
	struct told *items = arena_array(telling->arena, struct told,
		list.count);

	if (list.count > 0)
		memcpy(items, telling->told->data,
			sizeof(*items) * list.count);
	list.items = items;
	g_array_free(telling->told, TRUE);
	return list;
}

static const char *
plural(int64_t count)
{
	return count == 1 ? "" : "s";
}

static const char *
day_of(const struct snapshot *snapshot, const struct model *model,
	struct arena *arena)
{
	return date_words(model_date(model, snapshot->census->values,
		NAME(CENSUS_DATE)), arena);
}

static const char *
range(int64_t from, int64_t to, struct arena *arena)
{
	return from == to ? arena_print(arena, "%" PRId64, from) :
		arena_print(arena, "%" PRId64 " to %" PRId64, from, to);
}

const char *
ranking_rank(const struct rank_step *step, struct arena *arena)
{
	return step->count == 0 ? "" : range(step->from, step->to, arena);
}

const char *
ranking_share(const struct rank_step *step, struct arena *arena)
{
	double share = step->share * 100;

	if (step->count == 0)
		return "";
	if (share < 1)
		return "under 1\u00a0%";
	if (share > 99 && share < 100)
		return "over 99\u00a0%";
	return arena_print(arena, "%d\u00a0%%", (int)(share + 0.5));
}

const char *
ranking_change(const struct rank_line *line, const struct rank_step *step,
	struct arena *arena)
{
	if (!line->compared)
		return "";
	if (step->count > step->before)
		return arena_print(arena, "+%" PRId64, step->count -
			step->before);
	return step->count == step->before ? "0" : arena_print(arena,
		"\u2212%" PRId64, step->before - step->count);
}

const char *
ranking_place(const struct rank_line *line, const struct model *model,
	struct arena *arena)
{
	const struct snapshot *snapshot = line->line->snapshot;

	return arena_print(arena, "%s, %s, \u201c%s\u201d",
		snapshot->service->name, day_of(snapshot, model, arena),
		line->line->wording);
}

/* Of what none is higher, where that is more than one kind of piece. */
static const char *
covered(const struct rank_line *line, struct arena *arena)
{
	const char *things = arena_print(arena, "%u pairing%s",
		line->pairings, plural(line->pairings));

	if (line->combinations > line->pairings)
		things = arena_print(arena, "%s in %u combinations", things,
			line->combinations);
	switch (line->fit) {
	case FIT_BROADER:
		return arena_print(arena, " in this line, which is broader: it "
			"covers %s of this guide and more besides", things);
	case FIT_NARROWER:
		return " in this line, which covers only some pieces of its "
			"kind";
	case FIT_UNCLEAR:
		return " in this line; what it covers is unclear";
	case FIT_EXACT:
		break;
	}
	return !line->broad ? "" : arena_print(arena, " in this line, which "
		"covers %s", things);
}

static void
say_top(const struct telling *telling, const struct rank_line *line)
{
	int64_t total = line->line->total;

	if (line->top == NULL) {
		say(telling, NULL, "No certificate.");
		return;
	}
	if (line->top->count == total) {
		say(telling, NULL, arena_print(telling->arena, "%" PRId64
			" certificate%s, %sat %s: rank %s; none is higher%s.",
			total, plural(total), total == 1 ? "" : "all ",
			line->top->step, ranking_rank(line->top,
			telling->arena), covered(line, telling->arena)));
		return;
	}
	say(telling, NULL, arena_print(telling->arena, "%" PRId64
		" certificate%s. The best is %s, with %" PRId64 "; none is "
		"higher%s.", total, plural(total), line->top->step,
		line->top->count, covered(line, telling->arena)));
}

static void
say_steps(const struct telling *telling, const struct rank_line *line)
{
	GString *text;
	unsigned i;

	/* All at one step has been said. */
	if (line->top == NULL || line->top->count == line->line->total)
		return;
	text = g_string_new(NULL);
	for (i = 0; i < line->count; i++) {
		const struct rank_step *step = &line->steps[i];

		if (step->count == 0)
			continue;
		g_string_append_printf(text, "%s%s: %" PRId64 ", rank %s, %s",
			text->len == 0 ? "" : "; ", step->step, step->count,
			ranking_rank(step, telling->arena),
			ranking_share(step, telling->arena));
	}
	say(telling, NULL, arena_print(telling->arena, "%s.", text->str));
	g_string_free(text, TRUE);
}

static void
say_change(const struct telling *telling, const struct rank_line *line)
{
	const struct snapshot *before = line->line->snapshot->before;
	GString *text;
	const char *day, *fell;
	unsigned i;

	if (before == NULL)
		return;
	day = day_of(before, telling->model, telling->arena);
	if (!line->compared) {
		say(telling, before->census, arena_print(telling->arena,
			"Not in the report of %s.", day));
		return;
	}
	text = g_string_new(NULL);
	for (i = 0; i < line->count; i++)
		if (line->steps[i].count != line->steps[i].before)
			g_string_append_printf(text, "%s%s %s", text->len == 0
				? "" : ", ", line->steps[i].step,
				ranking_change(line, &line->steps[i],
					telling->arena));
	say(telling, before->census, text->len == 0 ? arena_print(
		telling->arena, "The same as on %s.", day) : arena_print(
		telling->arena, "Since %s: %s.", day, text->str));
	g_string_free(text, TRUE);
	fell = model_text(telling->model, line->line->category->group,
		NAME(CENSUS_CATEGORY_FELL));
	if (fell != NULL)
		say(telling, NULL, arena_print(telling->arena, "Why counts "
			"fell: %s", fell));
}

static void
say_pieces(const struct telling *telling, const struct rank_line *line)
{
	struct arena *arena = telling->arena;
	const char *pieces = arena_print(arena, "%s piece%s",
		range(line->least, line->most, arena),
		line->most == 1 ? "" : "s");

	if (line->uncounted) {
		say(telling, NULL, arena_print(arena, "This guide knows %"
			PRId64 " certificates for such pieces by then: the "
			"report leaves some out, or has them on another line.",
			line->known + line->again));
		return;
	}
	if (line->line->total < 2)
		return;
	if (line->again > 0)
		say(telling, NULL, arena_print(arena, "%" PRId64 " of the "
			"certificates %s known to be of a piece that had one "
			"already, so these are of %s.", line->again,
			line->again == 1 ? "is" : "are", pieces));
	else
		say(telling, NULL, arena_print(arena, "These certificates are "
			"of %s.", pieces));
}

static void
tell_line(const struct telling *telling, const struct rank_line *line,
	bool steps)
{
	say_top(telling, line);
	if (steps)
		say_steps(telling, line);
	say_change(telling, line);
	say_pieces(telling, line);
}

struct told_list
ranking_line(const struct rank_line *line, const struct model *model,
	bool steps, struct arena *arena)
{
	struct telling telling = begin(model, arena);

	tell_line(&telling, line, steps);
	return end(&telling);
}

/* A line's place and its sentences, as one. */
static void
say_line(const struct telling *telling, const struct rank_line *line,
	const char *place)
{
	struct told_list list = ranking_line(line, telling->model, true,
		telling->arena);
	GString *text = g_string_new(place);
	unsigned i;

	for (i = 0; i < list.count; i++)
		g_string_append_printf(text, "%s %s", i == 0 ? ":" : "",
			list.items[i].text);
	say(telling, line->line->snapshot->census, arena_text(telling->arena,
		text->str, text->len));
	g_string_free(text, TRUE);
}

static void
say_both(const struct telling *telling, const struct ranks *ranks,
	const struct record *pairing, const struct rank_line *one,
	const struct rank_line *other)
{
	const struct snapshot *left = one->line->snapshot;
	const struct snapshot *right = other->line->snapshot;
	unsigned both = rank_in_both(ranks, pairing, left, right);

	if (both > 0)
		say(telling, NULL, arena_print(telling->arena, "%u piece%s of "
			"this pairing %s known to have been certified by both "
			"%s and %s.", both, plural(both), both == 1 ? "is" :
			"are", left->service->name, right->service->name));
}

/* Whether a line of the scale has certificates at a step. */
static bool
is_in_use(const struct rank_lines *lines, const struct record *scale,
	const struct model *model, const char *step)
{
	unsigned i, j;

	for (i = 0; i < lines->count; i++) {
		if (model_record(model, lines->items[i]->line->snapshot->
			service->values, NAME(SERVICE_SCALE)) != scale)
			continue;
		if (step == NULL)
			return true;
		for (j = 0; j < lines->items[i]->count; j++)
			if (lines->items[i]->steps[j].count > 0 && strcmp(
				lines->items[i]->steps[j].step, step) == 0)
				return true;
	}
	return false;
}

/* Steps of a scale that answer to steps of another that is shown too. */
static unsigned
say_answers(const struct telling *telling, const struct rank_lines *lines,
	const struct record *scale)
{
	const struct value *steps = model_get(telling->model, scale->values,
		NAME(SCALE_STEPS));
	const struct rank_answer *answers;
	unsigned i, j, count, said = 0;

	for (i = 0; i < value_count(steps); i++) {
		const char *step = value_item(steps, i)->text;

		if (!is_in_use(lines, scale, telling->model, step))
			continue;
		answers = rank_answers(telling->model, scale, step,
			telling->arena, &count);
		for (j = 0; j < count; j++) {
			if (!is_in_use(lines, answers[j].scale,
				telling->model, NULL))
				continue;
			say(telling, answers[j].source, arena_print(
				telling->arena, "%s answers to %s, says "
				"\u201c%s\u201d.", step, answers[j].step,
				answers[j].source->name));
			said++;
		}
	}
	return said;
}

/* Scales of the services shown, each once, in the order of the lines. */
static void
say_scales(const struct telling *telling, const struct rank_lines *lines)
{
	GPtrArray *scales = g_ptr_array_new();
	unsigned i, said = 0;

	for (i = 0; i < lines->count; i++) {
		const struct record *scale = model_record(telling->model,
			lines->items[i]->line->snapshot->service->values,
			NAME(SERVICE_SCALE));

		if (!g_ptr_array_find(scales, scale, NULL))
			g_ptr_array_add(scales, (gpointer)(uintptr_t)scale);
	}
	for (i = 0; scales->len > 1 && i < scales->len; i++)
		said += say_answers(telling, lines,
			g_ptr_array_index(scales, i));
	if (scales->len > 1 && said == 0)
		say(telling, NULL, "Nothing on record says which of these "
			"steps answer to each other.");
	g_ptr_array_free(scales, TRUE);
}

static void
tell_together(const struct telling *telling, const struct ranks *ranks,
	const struct record *pairing)
{
	struct rank_lines lines = rank_of_pairing(ranks, pairing);
	GArray *firsts = g_array_new(FALSE, FALSE,
		sizeof(const struct rank_line *));
	unsigned i, j;

	for (i = 0; i < lines.count; i++)
		if (i == 0 || lines.items[i]->line->snapshot !=
			lines.items[i - 1]->line->snapshot)
			g_array_append_val(firsts, lines.items[i]);
	if (firsts->len > 1)
		say(telling, NULL, ranking_apart);
	for (i = 0; i < firsts->len; i++)
		for (j = i + 1; j < firsts->len; j++)
			say_both(telling, ranks, pairing, g_array_index(firsts,
				const struct rank_line *, i), g_array_index(
				firsts, const struct rank_line *, j));
	if (firsts->len > 1)
		say_scales(telling, &lines);
	g_array_free(firsts, TRUE);
}

struct told_list
ranking_together(const struct ranks *ranks, const struct record *pairing,
	struct arena *arena)
{
	struct telling telling = begin(ranks->model, arena);

	tell_together(&telling, ranks, pairing);
	return end(&telling);
}

struct told_list
ranking_pairing(const struct ranks *ranks, const struct record *pairing,
	struct arena *arena)
{
	struct rank_lines lines = rank_of_pairing(ranks, pairing);
	struct telling telling = begin(ranks->model, arena);
	unsigned i;

	for (i = 0; i < lines.count; i++)
		say_line(&telling, lines.items[i], ranking_place(
			lines.items[i], ranks->model, arena));
	if (lines.count > 0)
		say(&telling, NULL, ranking_caution);
	tell_together(&telling, ranks, pairing);
	return end(&telling);
}

struct told_list
ranking_census(const struct ranks *ranks, const struct record *census,
	struct arena *arena)
{
	const struct rank_report *report = rank_of_census(ranks, census);
	struct telling telling = begin(ranks->model, arena);
	unsigned i;

	if (report != NULL)
		say(&telling, NULL, ranking_caution);
	for (i = 0; report != NULL && i < report->count; i++)
		say_line(&telling, &report->lines[i], report->lines[i].line->
			wording);
	return end(&telling);
}
