/*
 * What keys say: leads by the names of their states, and the report.
 */
#include "study/key_group.h"

enum { FEW = 3 };

static void
say_states(const struct model *model, const struct feature *feature,
	uint64_t states, GString *out)
{
	const struct value *list = model_get(model, feature->record->values,
		NAME(FEATURE_STATES));
	unsigned i, left = (unsigned)__builtin_popcountll(states);

	if ((states & KEY_INAPPLICABLE) != 0) {
		g_string_append(out, "there is none");
		states &= ~KEY_INAPPLICABLE;
		left--;
		g_string_append(out, left > 1 ? ", " : left == 1 ? " or " :
			"");
	}
	for (i = 0; i < feature->states; i++) {
		if ((states >> i & 1) == 0)
			continue;
		left--;
		g_string_append_printf(out, "%s%s", model_text(model,
			value_item(list, i)->group, NAME(FEATURE_STATE_NAME)),
			left > 1 ? ", " : left == 1 ? " or " : "");
	}
}

/*
 * Whether a set of states is all that the other sets leave, and so many that
 * this is better said.
 */
static bool
is_the_rest(const struct feature *feature, uint64_t states, uint64_t others)
{
	uint64_t all = feature->states == 64 ? UINT64_MAX :
		((uint64_t)1 << feature->states) - 1;

	return __builtin_popcountll(states) > FEW && others != 0 &&
		(states & ~KEY_INAPPLICABLE) == (all & ~others);
}

void
keyed_say_lead(const struct model *model, const struct keyed *keyed,
	const struct key_step *step, unsigned lead, GString *out)
{
	const struct feature *feature = keyed->features[step->feature];
	uint64_t others = 0;
	unsigned i;

	for (i = 0; i < step->count; i++)
		if (i != lead)
			others |= step->leads[i].states;
	if (is_the_rest(feature, step->leads[lead].states, others))
		g_string_append(out, (step->leads[lead].states &
			KEY_INAPPLICABLE) == 0 ? "any other" :
			"any other, or there is none");
	else
		say_states(model, feature, step->leads[lead].states, out);
}

void
keyed_say_also(const struct model *model, const struct keyed *keyed,
	const struct key_also *also, unsigned lead, GString *out)
{
	const struct feature *feature = keyed->features[also->feature];

	g_string_append_printf(out, "%s: ", feature->record->name);
	say_states(model, feature, also->states[lead], out);
}

void
keyed_say_report(const struct keyed *keyed, GString *out)
{
	const struct key_report *report = &keyed->key->report;
	unsigned steps = keyed->key->count;

	g_string_append_printf(out, "%u %s in %u step%s and %u lines, by %u "
		"feature%s. ", keyed->group->count, keyed->group->kind->titles,
		steps, steps == 1 ? "" : "s", report->leads, report->features,
		report->features == 1 ? "" : "s");
	g_string_append_printf(out, "One looks %.1f times on average, %u at "
		"most; as common as each is, that costs %.1f, where a sure "
		"photograph of the front costs 1. ", report->mean,
		report->longest, report->cost);
	if (report->together == 0)
		g_string_append(out, "Each ends alone.");
	else
		g_string_append_printf(out, "%u end%s with others.",
			report->together, report->together == 1 ? "s" : "");
}
