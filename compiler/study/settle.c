/*
 * A feature is tried on both sides: what this may show, and what each of the
 * others may. An other is ruled out by it if the two share no state.
 */
#include "study/settle.h"

enum { NAMED = 3 };	/* states; more are not worth reading */

struct trial {
	const struct feature *feature;
	state_set this;
	state_set others;	/* of those that it rules out */
	unsigned ruled_out;
	bool whole;		/* all are known in it, and all are ruled out */
};

static bool
try_feature(const struct features *features, unsigned i,
	const struct ways *ways, struct trial *trial)
{
	state_set states;
	unsigned j;

	*trial = (struct trial){.feature = features_get(features, i)};
	for (j = 0; j < ways->this_count; j++) {
		if (!features_show(features, i, ways->this[j], &states) ||
			states == 0)
			return false;
		trial->this |= states;
	}
	for (j = 0; j < ways->other_count; j++) {
		if (!features_show(features, i, ways->others[j], &states) ||
			(states & trial->this) != 0)
			continue;
		trial->others |= states;
		trial->ruled_out++;
	}
	trial->whole = trial->ruled_out == ways->other_count;
	return trial->ruled_out > 0;
}

static bool
is_better(const struct trial *one, const struct trial *other)
{
	if (other->feature == NULL || one->whole != other->whole)
		return other->feature == NULL || one->whole;
	return one->ruled_out * features_cost(other->feature) >
		other->ruled_out * features_cost(one->feature);
}

static bool
is_there(const struct model *model, const struct feature *feature, bool loose)
{
	const char *side = model_word(model, feature->record->values,
		NAME(FEATURE_SIDE));

	return !loose || g_strcmp0(side, "figure") == 0;
}

/* "HEAD: red or blue" after `before`; nothing where there are too many. */
static void
append_states(const struct model *model, const struct trial *trial,
	state_set states, const char *before, const char *head, GString *out)
{
	const struct value *list = model_get(model, trial->feature->record->
		values, NAME(FEATURE_STATES));
	int left = __builtin_popcountll(states);
	unsigned i;

	if (left == 0 || left > NAMED)
		return;
	g_string_append_printf(out, "%s%s: ", before, head);
	for (i = 0; i < trial->feature->states; i++) {
		if ((states >> i & 1) == 0)
			continue;
		left--;
		g_string_append_printf(out, "%s%s", model_text(model,
			value_item(list, i)->group, NAME(FEATURE_STATE_NAME)),
			left > 1 ? ", " : left == 1 ? " or " : "");
	}
}

static const char *
say(const struct model *model, const struct trial *trial, struct arena *arena)
{
	GString *text = g_string_new(NULL);
	const char *done;
	gsize before;

	g_string_append_printf(text, "\"%s\"", trial->feature->record->name);
	before = text->len;
	append_states(model, trial, trial->this, " (", "this", text);
	append_states(model, trial, trial->others, text->len == before ?
		" (" : "; ", "not this", text);
	if (text->len > before)
		g_string_append_c(text, ')');
	done = arena_text(arena, text->str, text->len);
	g_string_free(text, TRUE);
	return done;
}

const char *
settle_words(const struct model *model, const struct features *features,
	const struct ways *ways, struct arena *arena)
{
	struct trial best = {0}, trial;
	unsigned i;

	if (ways->this_count == 0 || ways->other_count == 0)
		return NULL;
	for (i = 0; i < features_count(features); i++)
		if (is_there(model, features_get(features, i), ways->loose) &&
			try_feature(features, i, ways, &trial) &&
			is_better(&trial, &best))
			best = trial;
	return best.feature == NULL ? NULL : say(model, &best, arena);
}
