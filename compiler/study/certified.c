/*
 * Lines of the latest reports by the pairings they cover, and the certificates
 * of known pieces held against them.
 */
#include "study/certified.h"

#include <glib.h>
#include <string.h>

#include "study/evidence_inside.h"

struct certificates {
	const struct model *model;
	const struct seen *seen;
	const struct snapshots *snapshots;
	struct line_list *lines;	/* by pairing */
};

struct line_list {
	const struct snapshot_line **items;
	unsigned count;
};

/* Calls of a first round count; those of a second, with room, put down. */
static void
enter_line(struct certificates *all, const struct snapshot_line *line)
{
	const struct value *list = model_get(all->model, line->category->group,
		NAME(CENSUS_CATEGORY_PAIRINGS));
	unsigned i, j;

	for (i = 0; i < value_count(list); i++) {
		const struct record *pairing = value_item(list, i)
			->reference.record;
		struct line_list *lines = &all->lines[pairing->index];

		for (j = 0; j < i; j++)
			if (value_item(list, j)->reference.record == pairing)
				break;
		if (j < i)
			continue;
		if (lines->items != NULL)
			lines->items[lines->count] = line;
		lines->count++;
	}
}

static void
enter_lines(struct certificates *all)
{
	unsigned i, j;

	for (i = 0; i < all->snapshots->count; i++) {
		const struct snapshot *snapshot = &all->snapshots->items[i];

		for (j = 0; snapshot->latest && j < snapshot->count; j++)
			enter_line(all, &snapshot->lines[j]);
	}
}

struct certificates *
certificates_gather(const struct model *model, const struct seen *seen,
	struct arena *arena)
{
	struct certificates *all = arena_one(arena, struct certificates);
	unsigned pairings = model_records_of(model, "pairing").count, i;

	all->model = model;
	all->seen = seen;
	all->snapshots = snapshots_gather(model, model_records_of(model,
		"census"), arena);
	all->lines = arena_array(arena, struct line_list, pairings);
	enter_lines(all);
	for (i = 0; i < pairings; i++) {
		all->lines[i].items = arena_array(arena,
			const struct snapshot_line *, all->lines[i].count);
		all->lines[i].count = 0;
	}
	enter_lines(all);
	return all;
}

enum cover { COVERS_NOT, COVERS_MORE, COVERS_JUST };

/* Whether a line counts the subject, and nothing but the subject. */
static enum cover
covers(const struct model *model, const struct snapshot_line *line,
	const struct subject *subject)
{
	const struct value *list = model_get(model, line->category->group,
		NAME(CENSUS_CATEGORY_PAIRINGS));
	const char *match = model_word(model, line->category->group,
		NAME(CENSUS_CATEGORY_MATCH));
	bool just = match != NULL && (strcmp(match, "exact") == 0 ||
		strcmp(match, "narrower") == 0), found = false;
	unsigned i;

	for (i = 0; i < value_count(list); i++) {
		const struct reference *reference = &value_item(list, i)
			->reference;
		bool same = reference->record == subject->record;

		/* The whole pairing is more than one combination of it. */
		if (same && subject->item != NULL &&
			reference->item != subject->item) {
			found = found || reference->item == NULL;
			just = false;
			continue;
		}
		found = found || same;
		just = just && same;
	}
	return !found ? COVERS_NOT : just ? COVERS_JUST : COVERS_MORE;
}

static int64_t
add(int64_t a, int64_t b)
{
	int64_t sum;

	return __builtin_add_overflow(a, b, &sum) ? INT64_MAX : sum;
}

/* Certificates of one piece from the service, and from others. */
static void
count_certificates(const struct certificates *all,
	const struct record *specimen, struct certified *certified)
{
	const struct value *list = model_get(all->model, specimen->values,
		NAME(SPECIMEN_CERTIFICATES));
	const struct date *until = model_date(all->model,
		certified->snapshot->census->values, NAME(CENSUS_DATE));
	unsigned own = 0, others = 0, i;

	for (i = 0; i < value_count(list); i++) {
		struct value *const *group = value_item(list, i)->group;
		const struct date *date = model_date(all->model, group,
			NAME(SPECIMEN_CERTIFICATE_DATE));

		if (date != NULL && until != NULL &&
			date->first > until->last)
			continue;
		if (model_record(all->model, group,
			NAME(SPECIMEN_CERTIFICATE_SERVICE)) ==
			certified->snapshot->service)
			own++;
		else
			others++;
	}
	if (own == 0)
		return;
	certified->known++;
	certified->repeats += own - 1;
	certified->crossed += others > 0;
}

static void
bound(struct certified *certified)
{
	certified->least = certified->known;
	if (certified->least == 0 && certified->certificates > 0)
		certified->least = 1;
	certified->most = add(certified->certificates, certified->shared) -
		certified->repeats;
	if (certified->most < certified->least)
		certified->most = certified->least;
}

static bool
count_lines(const struct certificates *all, const struct subject *subject,
	struct certified *certified)
{
	const struct line_list *lines = &all->lines[subject->record->index];
	bool any = false;
	unsigned i;

	for (i = 0; i < lines->count; i++) {
		const struct snapshot_line *line = lines->items[i];

		if (line->snapshot != certified->snapshot)
			continue;
		switch (covers(all->model, line, subject)) {
		case COVERS_NOT:
			continue;
		case COVERS_MORE:
			certified->shared = add(certified->shared,
				line->total);
			break;
		case COVERS_JUST:
			certified->certificates = add(certified->certificates,
				line->total);
			break;
		}
		any = true;
	}
	return any;
}

struct certified_list
certified_of(const struct certificates *all,
	const struct evidences *evidences, const struct subject *subject,
	struct arena *arena)
{
	struct certified *items;
	struct certified_list list = {NULL, 0};
	GPtrArray *pieces;
	unsigned i;
	guint j;

	if (subject->form != SUBJECT_PAIRING &&
		subject->form != SUBJECT_COMBINATION)
		return list;
	if (all->lines[subject->record->index].count == 0)
		return list;
	items = arena_array(arena, struct certified, all->snapshots->count);
	pieces = evidence_pieces(evidences, subject);
	for (i = 0; i < all->snapshots->count; i++) {
		struct certified *one = &items[list.count];

		*one = (struct certified){
			.snapshot = &all->snapshots->items[i],
		};
		if (!one->snapshot->latest || !count_lines(all, subject, one))
			continue;
		for (j = 0; j < pieces->len; j++)
			count_certificates(all, pieces->pdata[j], one);
		bound(one);
		list.count++;
	}
	list.items = items;
	g_ptr_array_free(pieces, TRUE);
	return list;
}
