/*
 * Ids are permanent: what an earlier edition named must still be found, and
 * must not have come to mean something else.
 */
#include "link/link.h"

#include <string.h>

#include "link/names.h"

struct holding {
	const struct names *names;
	const char *edition;
	struct diags *diags;
};

static void
report_vanished(const struct holding *holding, const struct kind *kind,
	const struct past_id *past)
{
	struct diag *diag;

	diag = diag_report(holding->diags, DIAG_VANISHED_ID, past->span,
		"the %s \"%s\" of edition %s is gone", kind->title, past->id,
		holding->edition);
	diag_help(diag, "ids are permanent: put it under \"formerly\" of the "
		"record that took its place, or bring the record back with "
		"\"retired\" and the reason");
}

static void
report_reused(const struct holding *holding, const struct record *record,
	const struct past_id *past)
{
	struct diag *diag;

	diag = diag_report(holding->diags, DIAG_REUSED_ID, record->id_span,
		"the id \"%s\" belonged to another %s in edition %s",
		record->id, record->kind->title, holding->edition);
	diag_note(diag, past->span, past->later == NULL ?
		"it was withdrawn here" : "it was a former id here");
	diag_help(diag, "ids are never used again: give this record another");
}

/*
 * A former id that is current again is right where the record went back to
 * the name it once had.
 */
static bool
is_reused(const struct holding *holding, const struct record *record,
	const struct past_id *past)
{
	if (strcmp(record->id, past->id) != 0)
		return false;
	if (past->later != NULL)
		return names_find(holding->names, record->kind,
			past->later) != record;
	return past->retired && !names_is_retired(record);
}

void
link_check_past(const struct past *past, const struct schema *schema,
	const struct names *names, struct diags *diags)
{
	struct holding holding = {names, past->edition, diags};
	size_t i;

	for (i = 0; i < past->count; i++) {
		const struct past_id *id = &past->ids[i];
		const struct kind *kind = schema_kind(schema, id->kind);
		const struct record *record;

		if (kind == NULL)
			continue;
		record = names_find(names, kind, id->id);
		if (record == NULL)
			report_vanished(&holding, kind, id);
		else if (is_reused(&holding, record, id))
			report_reused(&holding, record, id);
	}
}
