/*
 * Exceptions: what excuses a surprise, and those that excuse nothing. Every
 * exception in a record to a rule excuses all that the rule finds there.
 */
#include "sense/sensing.h"

#include <string.h>

#include "shape/nearest.h"

static const struct value *
rule_of(const struct model *model, const struct value *exception)
{
	return model_get(model, exception->group, NAME(EVERY_EXCEPTION_RULE));
}

/* The next exception to the rule, from place *i on; or NULL. */
static const struct value *
next_exception(const struct model *model, const struct record *record,
	enum diag_code code, unsigned *i)
{
	const struct value *list = model_get_every(model, record,
		NAME(EVERY_EXCEPTIONS));

	while (*i < value_count(list)) {
		const struct value *exception = value_item(list, (*i)++);
		const struct value *rule = rule_of(model, exception);

		if (rule != NULL &&
			strcmp(rule->text, diag_info(code)->code) == 0)
			return exception;
	}
	return NULL;
}

bool
sense_excuses(const struct model *model, const struct record *record,
	enum diag_code code)
{
	unsigned i = 0;

	return next_exception(model, record, code, &i) != NULL;
}

bool
sense_excused(struct sensing *sensing, const struct record *record,
	enum diag_code code)
{
	const struct value *exception;
	bool excused = false;
	unsigned i = 0;

	for (;;) {
		exception = next_exception(sensing->model, record, code, &i);
		if (exception == NULL)
			return excused;
		g_hash_table_add(sensing->used,
			(gpointer)(uintptr_t)exception);
		excused = true;
	}
}

void
sense_help(struct diag *diag, const struct record *record, const char *mend)
{
	diag_help(diag, "%s; or, if it is right, say so in %s/%s under "
		"\"exceptions\", with reason and source", mend,
		record->kind->name, record->id);
}

static void
report_unknown(struct sensing *sensing, const struct value *rule)
{
	struct nearest nearest = nearest_to(rule->text);
	struct diag *diag;
	int i;

	diag = diag_report(sensing->diags, DIAG_EXCEPTION_UNUSED, rule->span,
		"there is no warning \"%s\"", rule->text);
	for (i = 0; i < DIAG_COUNT; i++)
		if (sense_is_surprise((enum diag_code)i))
			nearest_offer(&nearest,
				diag_info((enum diag_code)i)->code);
	if (!nearest_suggest(&nearest, diag, rule->span, ""))
		diag_help(diag, "write the code that the warning ends with, "
			"such as letters-hole");
}

static void
report_unused(const struct value *rule, struct diags *diags)
{
	diag_help(diag_report(diags, DIAG_EXCEPTION_UNUSED, rule->span,
		"there is nothing here that \"%s\" would warn of",
		rule->text), "take the exception out, or move it to the "
		"record that the warning names");
}

void
sense_unused(const struct model *model, const struct record *record,
	enum diag_code code, struct diags *diags)
{
	const struct value *exception;
	unsigned i = 0;

	for (;;) {
		exception = next_exception(model, record, code, &i);
		if (exception == NULL)
			return;
		report_unused(rule_of(model, exception), diags);
	}
}

static void
check_exception(struct sensing *sensing, const struct value *exception)
{
	const struct value *rule = rule_of(sensing->model, exception);
	enum diag_code code;

	if (rule == NULL || g_hash_table_contains(sensing->used, exception))
		return;
	code = diag_code_named(rule->text);
	if (code == DIAG_COUNT) {
		report_unknown(sensing, rule);
		return;
	}
	if (sense_is_later(code))
		return;
	if (sense_is_surprise(code))
		report_unused(rule, sensing->diags);
	else
		diag_help(diag_report(sensing->diags, DIAG_EXCEPTION_UNUSED,
			rule->span, "\"%s\" cannot be excused", rule->text),
			"only surprises can; take the exception out, and mend "
			"what is wrong");
}

void
sense_exceptions(struct sensing *sensing)
{
	const struct schema *schema = model_schema(sensing->model);
	unsigned i, j, k;

	for (i = 0; i < schema->count; i++)
		for (j = 0; j < sensing->lists[i].count; j++) {
			const struct value *list;

			list = model_get_every(sensing->model,
				sensing->lists[i].items[j],
				NAME(EVERY_EXCEPTIONS));
			for (k = 0; k < value_count(list); k++)
				check_exception(sensing,
					value_item(list, k));
		}
}
