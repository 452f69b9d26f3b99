/*
 * What to record so that two things are told apart, the likeliest first: a
 * feature that one of them scores and the other does not; one that varies on
 * either; what their records say differently and no feature covers; and what
 * others of their group score and neither of these.
 */
#include <glib.h>
#include <string.h>

#include "model/text.h"
#include "sense/alike.h"

enum { NAMED = 2 };	/* of a sort, so that a line stays a line */

/* How a record came to be known is nothing that one can look at. */
static const char *const unseen[] = {"seen", "concluded", "sources", NULL};

/* "; or ADVICE" behind what is there; without it at the beginning. */
static void
begin_advice(GString *out)
{
	if (out->len > 0)
		g_string_append(out, "; or ");
}

static void
append_name(GString *out, unsigned place, const char *name)
{
	g_string_append_printf(out, "%s\"%s\"", place == 0 ? "" : ", ", name);
}

/* Features that `with` scores, states and all, and `without` does not. */
static void
advise_scoring(const struct scores *scores, const struct alike *with,
	const struct alike *without, GString *out)
{
	unsigned named = 0, i;

	for (i = 0; i < with->scores.count && named < NAMED; i++) {
		const struct score *score = &with->scores.items[i];

		if (score->states == 0 ||
			score_list_on(&without->scores, score->feature) != NULL)
			continue;
		if (named == 0) {
			begin_advice(out);
			g_string_append(out, "score ");
		}
		append_name(out, named++, scores_feature(scores,
			score->feature)->record->name);
	}
	if (named > 0)
		g_string_append_printf(out, " in %s/%s, as %s/%s does",
			without->record->kind->name, without->record->id,
			with->record->kind->name, with->record->id);
}

static void
advise_narrowing(const struct scores *scores, const struct alike *a,
	const struct alike *b, GString *out)
{
	unsigned named = 0, i;

	for (i = 0; i < a->scores.count && named < NAMED; i++) {
		const struct score *left = &a->scores.items[i];
		const struct score *right = score_list_on(&b->scores, left->feature);

		if (right == NULL || right->states == left->states)
			continue;
		if (named == 0) {
			begin_advice(out);
			g_string_append(out, "see how far they vary in ");
		}
		append_name(out, named++, scores_feature(scores,
			left->feature)->record->name);
	}
}

static bool
is_visible(const struct field *field)
{
	if (field->unique != NULL || g_strv_contains(unseen, field->name))
		return false;
	switch (field->type) {
	case TYPE_TEXT:
	case TYPE_WHOLE:
	case TYPE_QUANTITY:
	case TYPE_WORD:
	case TYPE_LANGUAGE:
	case TYPE_BARCODE:
	case TYPE_TRANSLATION:
		return true;
	case TYPE_REFERENCE:
		return field->show == SHOW_FIRST;
	case TYPE_PROSE:
	case TYPE_DATE:
	case TYPE_YESNO:
	case TYPE_COUNTRY:
	case TYPE_CURRENCY:
	case TYPE_AMOUNT:
	case TYPE_IDENTITY:
	case TYPE_GROUP:
		return false;
	}
	return false;
}

static bool
same_value(const struct value *a, const struct value *b)
{
	GString *left = g_string_new(NULL), *right = g_string_new(NULL);
	bool same;

	if (a != NULL)
		value_append_code(a, left);
	if (b != NULL)
		value_append_code(b, right);
	same = g_string_equal(left, right);
	g_string_free(left, TRUE);
	g_string_free(right, TRUE);
	return same;
}

static void
advise_fields(const struct record *a, const struct record *b, GString *out)
{
	unsigned named = 0, i;

	for (i = 0; i < a->kind->own_count && named < NAMED; i++) {
		const struct field *field = &a->kind->fields.items[i];

		if (!is_visible(field) || same_value(a->values[i],
			b->values[i]))
			continue;
		if (named == 0) {
			begin_advice(out);
			g_string_append(out, "make a feature of what their "
				"records say differently: ");
		}
		append_name(out, named++, field->title);
	}
}

/* What the group scores most and neither of the two scores. */
static void
advise_group(const struct scores *scores, const struct alike *group,
	unsigned count, const struct alike *a, const struct alike *b,
	GString *out)
{
	unsigned *known = g_new0(unsigned, scores_features(scores) + 1);
	unsigned named, best, i, j;

	for (i = 0; i < count; i++)
		for (j = 0; j < group[i].scores.count; j++)
			known[group[i].scores.items[j].feature]++;
	for (named = 0; named < NAMED; named++) {
		best = scores_features(scores);
		for (i = 0; i < scores_features(scores); i++)
			if (known[i] > 0 && known[i] > known[best] &&
				score_list_on(&a->scores, i) == NULL &&
				score_list_on(&b->scores, i) == NULL)
				best = i;
		if (known[best] == 0)
			break;
		if (named == 0) {
			begin_advice(out);
			g_string_append(out, "score what neither has: ");
		}
		append_name(out, named, scores_feature(scores, best)->
			record->name);
		known[best] = 0;
	}
	g_free(known);
}

const char *
alike_advice(const struct scores *scores, const struct alike *group,
	unsigned count, const struct alike *item, struct arena *arena)
{
	const struct alike *other = item->others[0];
	GString *out = g_string_new(NULL);
	const char *advice;
	bool scored, narrowed;

	advise_scoring(scores, other, item, out);
	advise_scoring(scores, item, other, out);
	scored = out->len > 0;
	if (out->len == 0)
		advise_narrowing(scores, item, other, out);
	narrowed = out->len > 0;
	if (!scored)
		advise_fields(item->record, other->record, out);
	if (!narrowed)
		advise_group(scores, group, count, item, other, out);
	if (out->len == 0)
		g_string_append(out, "look for something that differs, and "
			"make a feature of it");
	advice = arena_text(arena, out->str, out->len);
	g_string_free(out, TRUE);
	return advice;
}
