/*
 * The one question whose answer divides the candidates of an open row best.
 */
#include <string.h>

#include "match/matching.h"
#include "study/narrow.h"

/* What tells a record from others of its sort: a label, or a variant's name. */
static const char *
short_name(const struct matcher *matcher, const struct record *record)
{
	const struct model *model = matcher->model;
	const char *name = NULL;
	const struct value *labels;

	if (strcmp(record->kind->name, "cardback") == 0) {
		labels = model_get(model, record->values,
			NAME(CARDBACK_LABELS));
		if (value_count(labels) > 0)
			name = model_text(model, value_item(labels, 0)->group,
				NAME(CARDBACK_LABELS_LABEL));
	} else if (strcmp(record->kind->name, "variant") == 0) {
		name = model_text(model, record->values, NAME(VARIANT_NAME));
	}
	return name == NULL ? record->name : name;
}

/* Names with commas, and "or" before the last. */
static const char *
list_names(const struct matcher *matcher, const struct matched *matched,
	const GPtrArray *records)
{
	enum { MOST = 6 };
	GString *out = g_string_new(NULL);
	const char *kept;
	guint i;

	for (i = 0; i < records->len && i < MOST; i++)
		g_string_append_printf(out, "%s%s", i == 0 ? "" :
			i + 1 == records->len ? " or " : "; ",
			short_name(matcher, records->pdata[i]));
	if (records->len > MOST)
		g_string_append_printf(out, " or %u others",
			records->len - MOST);
	kept = arena_text(matched->arena, out->str, out->len);
	g_string_free(out, TRUE);
	return kept;
}

static bool
is_kind(const struct match_candidate *candidate, const char *kind)
{
	return strcmp(candidate->record->kind->name, kind) == 0;
}

/* The candidates that come near the best. */
static GPtrArray *
near_best(const struct matched *matched)
{
	GPtrArray *near = g_ptr_array_new();
	double best = 0;
	guint i;

	for (i = 0; i < matched->candidates->len; i++) {
		const struct match_candidate *one = &g_array_index(
			matched->candidates, struct match_candidate, i);

		best = MAX(best, one->confidence);
		if (one->confidence >= best / 2)
			g_ptr_array_add(near, (gpointer)(uintptr_t)one);
	}
	return near;
}

static void
add_situations(const struct matcher *matcher, GArray *out,
	const struct match_candidate *one)
{
	struct candidate fresh = {.common = 1};
	guint i;

	if (is_kind(one, "variant")) {
		fresh.situation.variant = one->record;
		fresh.situation.character = model_record(matcher->model,
			one->record->values, NAME(VARIANT_CHARACTER));
		g_array_append_val(out, fresh);
	}
	for (i = 0; one->situations != NULL && i < one->situations->len;
		i++) {
		fresh.situation = g_array_index(one->situations,
			struct situation, i);
		fresh.common = 1.0 / one->situations->len;
		g_array_append_val(out, fresh);
	}
}

static GPtrArray *
records_of(const struct matcher *matcher, const GPtrArray *near,
	const char *of)
{
	GPtrArray *records = g_ptr_array_new();
	guint i;

	for (i = 0; i < near->len; i++) {
		const struct match_candidate *one = near->pdata[i];
		const struct record *record = strcmp(of, "cardback") == 0 ?
			model_record(matcher->model, one->record->values,
			NAME(PAIRING_CARDBACK)) : one->record;

		if (!g_ptr_array_find(records, record, NULL))
			g_ptr_array_add(records, (gpointer)(uintptr_t)record);
	}
	return records;
}

/* Whether some two of the records surely differ in a feature. */
static bool
divides(const struct matcher *matcher, const GPtrArray *records,
	const struct feature *feature)
{
	state_set left, right;
	guint i, j;

	for (i = 0; i < records->len; i++) {
		if (!features_score(matcher->features, feature->record->index,
			records->pdata[i], &left) || left == 0)
			continue;
		for (j = i + 1; j < records->len; j++)
			if (features_score(matcher->features,
				feature->record->index, records->pdata[j],
				&right) && right != 0 && (left & right) == 0)
				return true;
	}
	return false;
}

/* What to look at, for candidates of one kind. */
static const struct feature *
find_look(const struct matcher *matcher, const GPtrArray *near,
	const GPtrArray *records, const char *of)
{
	GArray *all = g_array_new(FALSE, FALSE, sizeof(struct candidate));
	const struct feature *found = NULL;
	GArray *looks;
	guint i;

	for (i = 0; i < near->len; i++)
		add_situations(matcher, all, near->pdata[i]);
	looks = narrow_looks(matcher->model, matcher->features, all, 0,
		NULL, 0, of, NULL);
	for (i = 0; i < looks->len && found == NULL; i++) {
		const struct feature *one = g_array_index(looks, struct look,
			i).feature;

		if (divides(matcher, records, one))
			found = one;
	}
	g_array_free(looks, TRUE);
	g_array_free(all, TRUE);
	return found;
}

static void
ask_which(const struct matcher *matcher, const GPtrArray *near,
	const char *of, const char *what, struct matched *matched)
{
	GPtrArray *records = records_of(matcher, near, of);
	const struct feature *look = records->len < 2 ||
		strcmp(of, "thing") == 0 ? NULL :
		find_look(matcher, near, records, of);

	matched->question = arena_print(matched->arena, "%s%s?%s%s", what,
		list_names(matcher, matched, records), look == NULL ? "" : " Look at: ",
		look == NULL ? "" : look->record->name);
	if (look != NULL) {
		matched->ask = look->ask;
		matched->feature = look->record;
	}
	g_ptr_array_free(records, TRUE);
}

static bool
all_of(const GPtrArray *near, const char *kind)
{
	guint i;

	for (i = 0; i < near->len; i++)
		if (!is_kind(near->pdata[i], kind))
			return false;
	return near->len > 0;
}

static bool
some_of(const GPtrArray *near, const char *kind)
{
	guint i;

	for (i = 0; i < near->len; i++)
		if (is_kind(near->pdata[i], kind))
			return true;
	return false;
}

/* What stands in the way before any candidate is looked at, or NULL. */
static const char *
ask_first(const struct matcher *matcher, const struct reading *reading,
	const struct matched *matched)
{
	if (reading->several)
		return "Which of its pieces? Give each a row of its own.";
	if (matched->candidates->len == 0)
		return "Which character is it, or what else?";
	if (reading->characters->len > 1)
		return arena_print(matched->arena, "Which character: %s?",
			list_names(matcher, matched, reading->characters));
	return NULL;
}

void
matched_ask(struct matcher *matcher, const struct reading *reading,
	struct matched *matched)
{
	GPtrArray *near = near_best(matched);
	const struct match_candidate *best = near->len == 0 ? NULL :
		near->pdata[0];

	matched->question = ask_first(matcher, reading, matched);
	if (matched->question != NULL)
		;
	else if (near->len == 1)
		matched->question = arena_print(matched->arena,
			"Is it %s?", best->record->name);
	else if (some_of(near, "pairing") && some_of(near, "variant") &&
		reading->form == FORM_UNSAID)
		matched->question = "Is it on its card, or loose?";
	else if (all_of(near, "pairing"))
		ask_which(matcher, near, "cardback", "Which card back: ",
			matched);
	else if (all_of(near, "variant"))
		ask_which(matcher, near, "variant", "Which make: ", matched);
	else
		ask_which(matcher, near, "thing", "Which: ", matched);
	g_ptr_array_free(near, TRUE);
}
