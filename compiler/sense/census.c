/*
 * Population reports over time: a report counts certificates that were given
 * out, so a number that is lower than in the report before is a surprise.
 * Common practice: labels are handed back, or a line is divided; then the
 * corpus says so.
 */
#include <inttypes.h>

#include "model/snapshots.h"
#include "sense/sensing.h"

/* A step at which fewer are counted than before. */
struct fall {
	unsigned place;
	const struct value *was;
	int64_t from;
	int64_t to;
};

/* The falls of a line: the first in *first, and how many there are. */
static unsigned
find_falls(const struct snapshot_line *line, struct fall *first)
{
	const struct snapshot_line *before = line->before;
	unsigned i, j = 0, count = 0;

	for (i = 0; i < before->count; i++) {
		const struct snapshot_count *was = &before->counts[i];
		int64_t now = 0;

		while (j < line->count && line->counts[j].place < was->place)
			j++;
		if (j < line->count && line->counts[j].place == was->place)
			now = line->counts[j].count;
		if (now >= was->count)
			continue;
		if (count++ == 0)
			*first = (struct fall){was->place, was->value,
				was->count, now};
	}
	return count;
}

static struct span
count_span(const struct model *model, const struct snapshot_line *line,
	unsigned place)
{
	const struct value *wording = model_get(model, line->category->group,
		NAME(CENSUS_CATEGORY_WORDING));
	unsigned i;

	for (i = 0; i < line->count; i++)
		if (line->counts[i].place == place)
			return line->counts[i].value->span;
	return wording == NULL ? line->category->span : wording->span;
}

static void
check_line(struct sensing *sensing, const struct snapshot_line *line)
{
	const struct snapshot *snapshot = line->snapshot;
	const struct model *model = sensing->model;
	struct fall fall = {0};
	struct diag *diag;
	unsigned count = find_falls(line, &fall);

	if (count == 0 || model_get(model, line->category->group,
		NAME(CENSUS_CATEGORY_FELL)) != NULL ||
		sense_excused(sensing, snapshot->census, DIAG_COUNT_FELL))
		return;
	diag = diag_report(sensing->diags, DIAG_COUNT_FELL, count_span(model,
		line, fall.place), "\"%s\" has %" PRId64 " at \"%s\", and had "
		"%" PRId64 " in the report before%s", line->wording, fall.to,
		value_item(snapshot->steps, fall.place)->text, fall.from,
		count > 1 ? "; other steps fell too" : "");
	diag_note(diag, fall.was->span, "%" PRId64 " on %s", fall.from,
		model_date(model, snapshot->before->census->values,
		NAME(CENSUS_DATE))->text);
	sense_help(diag, snapshot->census, "compare both reports, or say "
		"under \"fell\" of the line why");
}

/* Lines of the report before that this one has no more. */
static void
check_gone(struct sensing *sensing, const struct snapshot *snapshot)
{
	const struct snapshot *before = snapshot->before;
	bool *met = arena_array(sensing->arena, bool, before->count);
	struct diag *diag;
	unsigned i;

	for (i = 0; i < snapshot->count; i++)
		if (snapshot->lines[i].before != NULL)
			met[snapshot->lines[i].before->position] = true;
	for (i = 0; i < before->count; i++) {
		const struct snapshot_line *line = &before->lines[i];

		if (met[i] || line->total == 0 || sense_excused(sensing,
			snapshot->census, DIAG_COUNT_FELL))
			continue;
		diag = diag_report(sensing->diags, DIAG_COUNT_FELL,
			snapshot->census->id_span, "\"%s\" is no line of "
			"this report, and had %" PRId64 " in the one before",
			line->wording, line->total);
		diag_note(diag, line->category->span, "it is here");
		sense_help(diag, snapshot->census, "compare both reports, or "
			"write the line down without counts and say under "
			"\"fell\" why");
	}
}

void
sense_census(struct sensing *sensing)
{
	struct snapshots *snapshots = snapshots_gather(sensing->model,
		sense_records(sensing, "census"), sensing->arena);
	unsigned i, j;

	for (i = 0; i < snapshots->count; i++) {
		const struct snapshot *snapshot = &snapshots->items[i];

		if (snapshot->before == NULL)
			continue;
		for (j = 0; j < snapshot->count; j++)
			if (snapshot->lines[j].before != NULL)
				check_line(sensing, &snapshot->lines[j]);
		check_gone(sensing, snapshot);
	}
}
