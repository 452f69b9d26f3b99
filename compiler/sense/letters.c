/*
 * Holes in a scheme's letters: of the card backs of one market that picture
 * one number of figures, the letters should go on from A without a gap, and
 * so should the sub-letters of one letter.
 */
#include <stdlib.h>
#include <string.h>

#include "sense/sensing.h"

struct lettered {
	const struct record *scheme;
	const struct record *market;
	struct label label;
	const struct value *value;
};

static int
compare_numbers(unsigned left, unsigned right)
{
	return left < right ? -1 : left > right;
}

/* By series, that is scheme, market and number; then by letter. */
static int
compare_series(const struct lettered *left, const struct lettered *right)
{
	int order = strcmp(left->scheme->id, right->scheme->id);

	if (order == 0)
		order = strcmp(left->market->id, right->market->id);
	if (order == 0)
		order = compare_numbers(left->label.number,
			right->label.number);
	return order;
}

static int
compare_lettered(gconstpointer a, gconstpointer b)
{
	const struct lettered *left = a, *right = b;
	int order = compare_series(left, right);

	if (order == 0)
		order = compare_numbers(left->label.letter,
			right->label.letter);
	if (order == 0)
		order = compare_numbers(left->label.sub, right->label.sub);
	return order;
}

static void
gather_card(const struct sensing *sensing, const struct record *cardback,
	GArray *all)
{
	const struct model *model = sensing->model;
	const struct value *list = model_get(model, cardback->values,
		NAME(CARDBACK_LABELS));
	struct lettered one;
	unsigned i;

	one.market = model_record(model, cardback->values,
		NAME(CARDBACK_MARKET));
	for (i = 0; i < value_count(list); i++) {
		struct value *const *values = value_item(list, i)->group;

		one.scheme = model_record(model, values,
			NAME(CARDBACK_LABELS_SCHEME));
		one.value = model_get(model, values,
			NAME(CARDBACK_LABELS_LABEL));
		if (one.market != NULL && one.scheme != NULL &&
			one.value != NULL &&
			label_read(one.value->text, &one.label) &&
			one.label.letter > 0)
			g_array_append_val(all, one);
	}
}

/* Reports that the labels from `first` to `last` are skipped before `at`. */
static void
report_hole(struct sensing *sensing, const struct lettered *before,
	const struct lettered *at, struct label first, struct label last)
{
	const char *from = label_text(sensing->arena, first);
	const char *to = label_text(sensing->arena, last);
	struct diag *diag;

	if (sense_excused(sensing, at->scheme, DIAG_LETTERS_HOLE))
		return;
	if (strcmp(from, to) == 0)
		diag = diag_report(sensing->diags, DIAG_LETTERS_HOLE,
			at->value->span, "\"%s\" goes on to %s, but there is "
			"no %s", at->scheme->name, at->value->text, from);
	else
		diag = diag_report(sensing->diags, DIAG_LETTERS_HOLE,
			at->value->span, "\"%s\" goes on to %s, but there are "
			"no %s to %s", at->scheme->name, at->value->text,
			from, to);
	if (before != NULL)
		diag_note(diag, before->value->span, "the one before is %s",
			before->value->text);
	sense_help(diag, at->scheme, "add the card back that is missing, or "
		"mend the label");
}

/* One label against the one before it in its series, which may be NULL. */
static void
check_step(struct sensing *sensing, const struct lettered *before,
	const struct lettered *at)
{
	struct label first = at->label, last = at->label;
	bool same = before != NULL &&
		before->label.letter == at->label.letter;

	first.letter = before == NULL ? 1 : before->label.letter + 1;
	first.sub = last.sub = 0;
	last.letter--;
	if (!same && first.letter <= last.letter)
		report_hole(sensing, before, at, first, last);
	if (at->label.sub == 0)
		return;
	first = last = at->label;
	first.sub = same ? before->label.sub + 1 : 1;
	last.sub--;
	if (first.sub <= last.sub)
		report_hole(sensing, before, at, first, last);
}

void
sense_letters(struct sensing *sensing)
{
	struct record_list list = sense_records(sensing, "cardback");
	GArray *all = g_array_new(FALSE, FALSE, sizeof(struct lettered));
	guint i;

	for (i = 0; i < list.count; i++)
		gather_card(sensing, list.items[i], all);
	g_array_sort(all, compare_lettered);
	for (i = 0; i < all->len; i++) {
		const struct lettered *at = &g_array_index(all,
			struct lettered, i);
		const struct lettered *before = i == 0 ||
			compare_series(at - 1, at) != 0 ? NULL : at - 1;

		check_step(sensing, before, at);
	}
	g_array_free(all, TRUE);
}
