/*
 * Quoted estimates against what has been seen. Pieces that are doubted do not
 * count, nor those of which it is not settled what they are.
 */
#include "sense/sensing.h"

#include <inttypes.h>
#include <string.h>

#include "model/seen.h"

/* The same fields of the two kinds that carry estimates. */
struct quoted {
	enum field_name list;
	enum field_name of;
	enum field_name form;
	enum field_name number;
	enum field_name high;
	enum field_name date;
	bool by_pairing;	/* may be for one pairing only */
};

static const struct quoted of_pairings = {
	NAME(PAIRING_ESTIMATES), NAME(PAIRING_ESTIMATE_OF),
	NAME(PAIRING_ESTIMATE_FORM), NAME(PAIRING_ESTIMATE_NUMBER),
	NAME(PAIRING_ESTIMATE_HIGH), NAME(PAIRING_ESTIMATE_DATE), false,
};
static const struct quoted of_anomalies = {
	NAME(ANOMALY_ESTIMATES), NAME(ANOMALY_ESTIMATE_OF),
	NAME(ANOMALY_ESTIMATE_FORM), NAME(ANOMALY_ESTIMATE_NUMBER),
	NAME(ANOMALY_ESTIMATE_HIGH), NAME(ANOMALY_ESTIMATE_DATE), true,
};

struct estimating {
	struct sensing *sensing;
	struct seen *seen;
	day_number *surely_seen;	/* by specimen: first day, or NEVER */
};

enum { NEVER = G_MAXINT32 };

static bool
is_word(const char *word, const char *const *words)
{
	for (; *words != NULL; words++)
		if (strcmp(word, *words) == 0)
			return true;
	return false;
}

/*
 * Whether a piece is of the form that an estimate is for. A piece in a case
 * is still carded or loose; without a form, a card alone may or may not be
 * meant, and does not count.
 */
static bool
has_form(const char *form, const char *asked)
{
	static const char *const carded[] = {"carded", "carded-cased", NULL};
	static const char *const loose[] = {"loose", "loose-cased", NULL};

	if (form == NULL)
		return false;
	if (asked == NULL)
		return strcmp(form, "card-only") != 0;
	if (strcmp(asked, "carded") == 0)
		return is_word(form, carded);
	if (strcmp(asked, "loose") == 0)
		return is_word(form, loose);
	return strcmp(form, asked) == 0;
}

static void
note_first_days(struct estimating *estimating)
{
	const struct model *model = estimating->sensing->model;
	struct record_list specimens = model_records_of(model, "specimen");
	struct record_list sightings;
	const struct date *date;
	day_number *day;
	unsigned i, j;

	estimating->surely_seen = arena_array(estimating->sensing->arena,
		day_number, specimens.count);
	for (i = 0; i < specimens.count; i++) {
		day = &estimating->surely_seen[i];
		*day = NEVER;
		sightings = seen_sightings(estimating->seen,
			specimens.items[i]);
		for (j = 0; j < sightings.count; j++) {
			date = model_date(model, sightings.items[j]->values,
				NAME(SIGHTING_DATE));
			*day = MIN(*day, date->last);
		}
	}
}

/* Distinct pieces that an estimate is of, surely seen by the day `until`. */
static unsigned
count_seen(const struct estimating *estimating, struct seen_list list,
	const struct record *pairing, const char *form, day_number until)
{
	unsigned count = 0, i;

	for (i = 0; i < list.count; i++) {
		const struct seen_specimen *entry = &list.items[i];
		const struct record *specimen = entry->specimen;

		if (entry->certain && !entry->doubted &&
			estimating->surely_seen[specimen->index] <= until &&
			(pairing == NULL || seen_pairing(estimating->seen,
				specimen) == pairing) &&
			has_form(model_word(estimating->sensing->model,
				specimen->values, NAME(SPECIMEN_FORM)), form))
			count++;
	}
	return count;
}

static void
report_below(const struct estimating *estimating, const struct value *most,
	const struct value *date, unsigned seen)
{
	struct diag *diag;

	diag = diag_report(estimating->sensing->diags,
		DIAG_ESTIMATE_BELOW_SEEN, most->span, "an estimate of at most "
		"%" PRId64 ", but %u distinct pieces had been seen before %s",
		most->whole, seen, date->date.text);
	diag_note(diag, date->span, "the estimate's date is here");
	diag_help(diag, "look again at number, date and form; pieces that are "
		"not certain are marked \"doubted\" in their specimens");
}

static void
report_overtaken(const struct estimating *estimating,
	const struct record *record, const struct value *most,
	const struct value *date, unsigned seen)
{
	struct diag *diag;

	if (sense_excused(estimating->sensing, record,
		DIAG_ESTIMATE_OVERTAKEN))
		return;
	diag = diag_report(estimating->sensing->diags,
		DIAG_ESTIMATE_OVERTAKEN, most->span, "an estimate of at most "
		"%" PRId64 " in %s, but %u distinct pieces have been seen by "
		"now", most->whole, date->date.text, seen);
	sense_help(diag, record, "look again at number and form");
}

/* The highest value that the estimate allows; a lower end alone has none. */
static const struct value *
highest(const struct model *model, const struct quoted *quoted,
	struct value *const *values)
{
	const struct value *number = model_get(model, values, quoted->number);
	const struct value *high = model_get(model, values, quoted->high);

	if (number == NULL || high == NULL)
		return number == NULL ? high : number;
	return number->whole > high->whole ? number : high;
}

/*
 * How many are known is right for its day, whatever is seen later; how many
 * were made or survive is not. Certificates are counted by their service.
 */
static void
check_estimate(const struct estimating *estimating,
	const struct quoted *quoted, const struct record *record,
	struct seen_list list, struct value *const *values)
{
	static const char *const bounded[] = {"made", "surviving", "known",
		NULL};
	const struct model *model = estimating->sensing->model;
	const struct value *most = highest(model, quoted, values);
	const struct value *date = model_get(model, values, quoted->date);
	const char *of = model_word(model, values, quoted->of);
	const char *form = model_word(model, values, quoted->form);
	const struct record *pairing = quoted->by_pairing ?
		model_record(model, values, NAME(ANOMALY_ESTIMATE_PAIRING)) :
		NULL;
	unsigned seen;

	if (most == NULL || date == NULL || of == NULL ||
		!is_word(of, bounded))
		return;
	seen = count_seen(estimating, list, pairing, form, date->date.first);
	if (most->whole < (int64_t)seen) {
		report_below(estimating, most, date, seen);
		return;
	}
	seen = count_seen(estimating, list, pairing, form, NEVER - 1);
	if (most->whole < (int64_t)seen && strcmp(of, "known") != 0)
		report_overtaken(estimating, record, most, date, seen);
}

static void
check_record(const struct estimating *estimating, const struct quoted *quoted,
	const struct record *record, struct seen_list list)
{
	const struct value *estimates = model_get(estimating->sensing->model,
		record->values, quoted->list);
	unsigned i;

	for (i = 0; i < value_count(estimates); i++)
		check_estimate(estimating, quoted, record, list,
			value_item(estimates, i)->group);
}

void
sense_estimates(struct sensing *sensing)
{
	struct record_list pairings = sense_records(sensing, "pairing");
	struct record_list anomalies = sense_records(sensing, "anomaly");
	struct estimating estimating = {.sensing = sensing};
	unsigned i;

	if (pairings.count == 0 && anomalies.count == 0)
		return;
	estimating.seen = seen_gather(sensing->model, sensing->arena);
	note_first_days(&estimating);
	for (i = 0; i < pairings.count; i++)
		check_record(&estimating, &of_pairings, pairings.items[i],
			seen_of_pairing(estimating.seen, pairings.items[i]));
	for (i = 0; i < anomalies.count; i++)
		check_record(&estimating, &of_anomalies, anomalies.items[i],
			seen_of_anomaly(estimating.seen, anomalies.items[i]));
	seen_free(estimating.seen);
}
