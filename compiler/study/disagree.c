/*
 * Looks at every quoted estimate. The rule that chooses a method takes time, so
 * it is asked only where a quick look leaves room for doubt.
 */
#include "study/disagree.h"

#include <inttypes.h>
#include <math.h>
#include <string.h>

#include "sense/sense.h"
#include "study/estimate/chain.h"

static bool
is_carded(const struct word *form)
{
	return form == NULL || strcmp(form->word, "carded") == 0;
}

static bool
is_of(const struct quoted *quoted, const char *word)
{
	return quoted->of != NULL && strcmp(quoted->of->word, word) == 0;
}

/* Whether it can be held against what is computed at all. */
static bool
is_comparable(const struct quoted *quoted)
{
	return is_carded(quoted->form) && (is_of(quoted, "surviving") ||
		is_of(quoted, "made") || is_of(quoted, "known"));
}

enum agreement
study_agreement(const struct quoted *quoted, const struct evidence *evidence,
	const struct choice *choice)
{
	bool bound = reckon_is_bound(choice->method);
	double most = choice->figure.high + evidence->out[STANDING_ALTERED];
	int64_t low, high;

	if (!is_comparable(quoted) || choice->figure.state != FIGURE_GIVEN)
		return AGREEMENT_NONE;
	quoted_range(quoted, &low, &high);
	if (!is_of(quoted, "made") && !bound && (double)low > ceil(most))
		return AGREEMENT_MORE;
	if (is_of(quoted, "known") ||
		(double)high >= floor(choice->figure.low))
		return AGREEMENT_AGREES;
	return high < evidence->known ? AGREEMENT_OVERTAKEN :
		AGREEMENT_FEWER;
}

/* What was overtaken is reported by the rules of the trade. */
static bool
is_surprise(enum agreement agreement)
{
	return agreement == AGREEMENT_MORE || agreement == AGREEMENT_FEWER;
}

struct checking {
	const struct model *model;
	struct diags *diags;
	struct evidences *evidences;
};

/* What the quick looks need of the data. */
struct quick {
	struct history_sums sums;
	unsigned *caught;
	unsigned count;
	struct choice bound;	/* Chao's, which has no limits to seek */
};

static struct quick
quick_new(const struct evidence *evidence)
{
	const struct history *history = &evidence->history;
	struct quick quick = {
		.sums = history_sum(history),
		.caught = g_new(unsigned, history->occasions + 1),
		.count = history->occasions,
		.bound = {.method = METHOD_CHAO},
	};
	struct occasion *occasions = g_new(struct occasion,
		history->occasions + 1);
	unsigned i;

	history_occasions(history, occasions);
	for (i = 0; i < history->occasions; i++)
		quick.caught[i] = occasions[i].caught;
	reckon_by(evidence, METHOD_CHAO, &quick.bound.figure);
	g_free(occasions);
	return quick;
}

/*
 * Whether the exact limits leave out all that is quoted: two tails at most,
 * where to seek the limits takes many. A little more than a tail is let in.
 */
static bool
is_outside(const struct quick *quick, int64_t low, int64_t high)
{
	const double tail = 0.026;
	unsigned seen = quick->sums.distinct;

	if (low > seen && chain_at_most(quick->caught, quick->count, seen,
		(double)low) < tail)
		return true;
	return high >= seen && high < INT64_MAX && 1 - chain_at_most(
		quick->caught, quick->count, seen - 1, (double)high) < tail;
}

static bool
may_disagree(const struct quoted_list *list, const struct evidence *evidence)
{
	struct quick quick = quick_new(evidence);
	bool may = quick.sums.repeated > 1 &&
		quick.sums.sightings > CHAIN_MOST_SIGHTINGS;
	int64_t low, high;
	unsigned i;

	for (i = 0; !may && quick.sums.repeated > 1 && i < list->count; i++) {
		if (!is_comparable(&list->items[i]))
			continue;
		quoted_range(&list->items[i], &low, &high);
		if (is_of(&list->items[i], "made"))
			low = 0;
		may = is_surprise(study_agreement(&list->items[i], evidence,
			&quick.bound)) || is_outside(&quick, low, high);
	}
	g_free(quick.caught);
	return may;
}

static void
report(const struct checking *checking, const struct subject *subject,
	const struct quoted *quoted, const struct evidence *evidence,
	const struct choice *choice)
{
	struct arena *arena = arena_new();
	const struct value *source = model_get(checking->model,
		quoted->item->group, strcmp(subject->record->kind->name,
			"pairing") == 0 ? NAME(PAIRING_ESTIMATE_SOURCE) :
		NAME(ANOMALY_ESTIMATE_SOURCE));
	int64_t low, high;
	struct diag *diag;

	quoted_range(quoted, &low, &high);
	diag = diag_report(checking->diags, DIAG_ESTIMATE_DISAGREES,
		quoted->item->span, "%s %" PRId64 " %s by \"%s\", but %.0f to "
		"%.0f follow from the %u sightings of %u pieces here",
		low > choice->figure.high ? "at least" : "at most",
		low > choice->figure.high ? low : high, quoted->of->title,
		quoted->source == NULL ? "somebody" : quoted->source->name,
		floor(choice->figure.low), ceil(choice->figure.high),
		evidence->sightings, evidence->known);
	if (source != NULL)
		diag_note(diag, source->span, "the other source is this; "
			"`hangtab estimate %s` shows the working",
			subject_typed(subject, arena));
	sense_help(diag, subject->record, "look again at number, form and what "
		"is counted, and for pieces taken twice for new");
	arena_free(arena);
}

/* Whether anything about the subject disagrees; it is reported unless the
   record excuses it. */
static bool
check_subject(const struct checking *checking, struct subject subject)
{
	struct arena *arena = arena_new();
	struct quoted_list list = quoted_of(checking->model, subject.record,
		subject.pairing, arena);
	struct evidence *evidence;
	struct choice choice;
	bool found = false;
	unsigned i;

	evidence = list.count == 0 ? NULL : evidence_of(checking->evidences,
		subject, arena);
	if (evidence != NULL && may_disagree(&list, evidence)) {
		choice = reckon_choose(evidence);
		for (i = 0; i < list.count; i++) {
			enum agreement agreement = study_agreement(
				&list.items[i], evidence, &choice);

			if (!is_surprise(agreement))
				continue;
			found = true;
			if (!sense_excuses(checking->model, subject.record,
				DIAG_ESTIMATE_DISAGREES))
				report(checking, &subject, &list.items[i],
					evidence, &choice);
		}
	}
	arena_free(arena);
	return found;
}

static void
check_record(const struct checking *checking, const struct subject *subjects,
	unsigned count)
{
	bool found = false;
	unsigned i;

	for (i = 0; i < count; i++)
		found |= subjects[i].form != SUBJECT_COMBINATION &&
			check_subject(checking, subjects[i]);
	if (!found)
		sense_unused(checking->model, subjects[0].record,
			DIAG_ESTIMATE_DISAGREES, checking->diags);
}

/* Records that carry no estimates have nothing to excuse. */
static void
check_others(const struct model *model, struct diags *diags)
{
	const struct schema *schema = model_schema(model);
	unsigned i, j;

	for (i = 0; i < schema->count; i++) {
		struct record_list list = model_records(model,
			&schema->kinds[i]);

		if (strcmp(schema->kinds[i].name, "pairing") == 0 ||
			strcmp(schema->kinds[i].name, "anomaly") == 0 ||
			strcmp(schema->kinds[i].name, "cardback") == 0)
			continue;
		for (j = 0; j < list.count; j++)
			sense_unused(model, list.items[j],
				DIAG_ESTIMATE_DISAGREES, diags);
	}
}

void
study_check(const struct model *model, struct diags *diags)
{
	struct arena *arena = arena_new();
	struct seen *seen = seen_gather(model, arena);
	struct checking checking = {model, diags, evidences_gather(model,
		seen, arena)};
	unsigned count, i, from;
	const struct subject *subjects = evidences_subjects(
		checking.evidences, &count);

	for (from = 0; from < count; from = i) {
		for (i = from + 1; i < count && subjects[i].record ==
			subjects[from].record; i++)
			continue;
		check_record(&checking, subjects + from, i - from);
	}
	check_others(model, diags);
	seen_free(seen);
	arena_free(arena);
}
