/*
 * The order of dates, wherever the schema says that one is not before another.
 */
#include "sense/sensing.h"

/*
 * The date that a date must not precede: the one its field names, or where
 * that is not given, the one that this must not precede, and so on. A schema
 * may name fields in a circle.
 */
enum { MOST_STEPS = 20 };

static const struct value *
earlier_date(const struct field *field, struct value *const *beside)
{
	const struct field *at = field->not_before;
	unsigned steps;

	for (steps = 0; at != NULL && steps < MOST_STEPS; steps++) {
		if (beside[at->index] != NULL)
			return beside[at->index];
		at = at->not_before;
	}
	return NULL;
}

static void
check_date(struct sensing *sensing, const struct record *record,
	struct value *const *beside, const struct value *value)
{
	const struct value *from = earlier_date(value->field, beside);
	struct diag *diag;

	(void)record;
	if (from == NULL || value->date.last >= from->date.first)
		return;
	diag = diag_report(sensing->diags, DIAG_DATES_OUT_OF_ORDER,
		value->span, "\"%s\" %s is before \"%s\" %s",
		value->field->name, value->date.text, from->field->name,
		from->date.text);
	diag_note(diag, from->span, "\"%s\" is here", from->field->name);
	diag_help(diag, "mend whichever of the two is wrong");
	if (value->field->not_before == from->field) {
		diag_mend(diag, value->span, from->date.text, MEND_PROBABLE);
		diag_mend(diag, from->span, value->date.text, MEND_PROBABLE);
	}
}

void
sense_dates(struct sensing *sensing)
{
	sense_each(sensing, TYPE_DATE, check_date);
}
