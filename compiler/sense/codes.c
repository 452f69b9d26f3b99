/*
 * Codes of countries and currencies. A withdrawn one is right for the time
 * before its withdrawal: it is refused only where the record's date cannot be
 * that early. Where the record has no date, it may be.
 */
#include <string.h>

#include "sense/sensing.h"
#include "sense/tables.h"

/* The date that the schema says a code is meant at, or NULL. */
static const struct date *
date_of(struct value *const *beside, const struct value *value)
{
	const struct field *on = value->field->on;

	if (on == NULL || beside[on->index] == NULL)
		return NULL;
	return &beside[on->index]->date;
}

/* Whether a code withdrawn on `last` may have been in force on `date`. */
static bool
may_be_in_force(const char *last, const struct date *date)
{
	struct date withdrawn;

	return last == NULL || date == NULL ||
		!shape_date(last, &withdrawn) ||
		date->first <= withdrawn.last;
}

static void
report_withdrawn(struct sensing *sensing, struct value *const *beside,
	const struct value *value, const char *name, const char *last)
{
	const struct value *date = beside[value->field->on->index];
	struct diag *diag;

	diag = diag_report(sensing->diags, DIAG_WITHDRAWN_CODE, value->span,
		"\"%s\"%s%s%s was in force until %s", value->text,
		*name == '\0' ? "" : " (", name, *name == '\0' ? "" : ")",
		last);
	diag_note(diag, date->span, "here it is used for %s", date->date.text);
	diag_help(diag, "write the code that was in force then, or mend the "
		"date");
}

/* Offers `code` in place of what stands there. */
static void
offer(struct diag *diag, const struct value *value, const char *code,
	const char *name, enum confidence confidence)
{
	diag_help(diag, "did you mean \"%s\", %s?", code, name);
	diag_mend(diag, value->span, code, confidence);
}

static void
report_country(struct sensing *sensing, const struct value *value)
{
	struct diag *diag;
	size_t i;

	diag = diag_report(sensing->diags, DIAG_UNKNOWN_COUNTRY, value->span,
		"\"%s\" is not a country code of ISO 3166", value->text);
	/* The one code that people write and the standard keeps free for it. */
	if (g_ascii_strcasecmp(value->text, "UK") == 0) {
		offer(diag, value, "GB", "United Kingdom", MEND_SAFE);
		return;
	}
	for (i = 0; i < countries_count; i++) {
		const struct country *country = &countries[i];

		if (g_ascii_strcasecmp(value->text, country->code) != 0 &&
			g_ascii_strcasecmp(value->text, country->three) != 0 &&
			g_ascii_strcasecmp(value->text, country->name) != 0)
			continue;
		offer(diag, value, country->code, country->name,
			MEND_PROBABLE);
		return;
	}
	diag_help(diag, "write the two capital letters of ISO 3166-1 alpha-2, "
		"such as GB, or those in force at the time, such as YU");
}

static int
compare_country(const void *text, const void *country)
{
	return strcmp(text, ((const struct country *)country)->code);
}

static void
check_country(struct sensing *sensing, const struct record *record,
	struct value *const *beside, const struct value *value)
{
	const struct date *date = date_of(beside, value);
	const struct country *first, *at, *end = countries + countries_count;
	const struct country *latest = NULL;

	(void)record;
	first = bsearch(value->text, countries, countries_count,
		sizeof(countries[0]), compare_country);
	if (first == NULL) {
		report_country(sensing, value);
		return;
	}
	while (first > countries && strcmp(first[-1].code, value->text) == 0)
		first--;
	for (at = first; at < end && strcmp(at->code, value->text) == 0;
		at++) {
		if (may_be_in_force(at->last, date))
			return;
		latest = at;
	}
	report_withdrawn(sensing, beside, value, latest->name, latest->last);
}

void
sense_countries(struct sensing *sensing)
{
	sense_each(sensing, TYPE_COUNTRY, check_country);
}

static int
compare_currency(const void *text, const void *currency)
{
	return strcmp(text, ((const struct currency *)currency)->code);
}

static void
report_currency(struct sensing *sensing, const struct value *value)
{
	struct diag *diag;
	size_t i;

	diag = diag_report(sensing->diags, DIAG_UNKNOWN_CURRENCY, value->span,
		"\"%s\" is not a currency code of ISO 4217", value->text);
	for (i = 0; i < currencies_count; i++) {
		const struct currency *currency = &currencies[i];

		if (g_ascii_strcasecmp(value->text, currency->code) != 0 &&
			g_ascii_strcasecmp(value->text, currency->name) != 0)
			continue;
		offer(diag, value, currency->code, currency->name,
			MEND_PROBABLE);
		return;
	}
	diag_help(diag, "write the three capital letters of ISO 4217, such as "
		"GBP, or those in use at the time, such as DEM");
}

static void
check_currency(struct sensing *sensing, const struct record *record,
	struct value *const *beside, const struct value *value)
{
	const struct currency *currency;

	(void)record;
	currency = bsearch(value->text, currencies, currencies_count,
		sizeof(currencies[0]), compare_currency);
	if (currency == NULL)
		report_currency(sensing, value);
	else if (!may_be_in_force(currency->last, date_of(beside, value)))
		report_withdrawn(sensing, beside, value, currency->name,
			currency->last);
}

void
sense_currencies(struct sensing *sensing)
{
	sense_each(sensing, TYPE_CURRENCY, check_currency);
}
