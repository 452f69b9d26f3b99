/*
 * The table of rules, and the walk over values that many of them need.
 */
#include "sense/sense.h"

#include <string.h>

#include "sense/sensing.h"

struct rule {
	enum diag_code code;
	sense_rule *apply;
};

/* Some functions raise a second code, which then stands in a row of its own. */
static const struct rule rules[] = {
	{DIAG_LABEL_TWICE, sense_labels},
	{DIAG_DATES_OUT_OF_ORDER, sense_dates},
	{DIAG_UNKNOWN_COUNTRY, sense_countries},
	{DIAG_UNKNOWN_LANGUAGE, sense_languages},
	{DIAG_UNKNOWN_LANGUAGE, sense_translations},
	{DIAG_UNKNOWN_CURRENCY, sense_currencies},
	{DIAG_WITHDRAWN_CODE, NULL},
	{DIAG_GRADE_NOT_ON_SCALE, sense_grades},
	{DIAG_ESTIMATE_BELOW_SEEN, sense_estimates},
	{DIAG_LABEL_SPELLING, NULL},
	{DIAG_LETTERS_HOLE, sense_letters},
	{DIAG_PICTURES_COUNT, sense_pictures},
	{DIAG_CHECK_DIGIT, sense_check_digits},
	{DIAG_CHARACTER_AFTER_CARDBACK, sense_pairings},
	{DIAG_BLISTER_WRONG_MARKET, NULL},
	{DIAG_ESTIMATE_OVERTAKEN, NULL},
	{DIAG_OVERALL_OUTSIDE_SUBGRADES, NULL},
	{DIAG_COUNT_FELL, sense_census},
	{DIAG_STICKER_AFTER_PRINTED, sense_stickers},
	{DIAG_VARIANT_BEFORE_KNOWN, NULL},
	{DIAG_NOT_TOLD_APART, sense_alike},
	/* A stage after this one finds it: see sense_is_later. */
	{DIAG_ESTIMATE_DISAGREES, NULL},
	/* Last, when it is known which exceptions excused something. */
	{DIAG_EXCEPTION_UNUSED, sense_exceptions},
};

bool
sense_is_surprise(enum diag_code code)
{
	size_t i;

	if (diag_info(code)->severity != SEVERITY_WARNING ||
		code == DIAG_EXCEPTION_UNUSED)
		return false;
	for (i = 0; i < G_N_ELEMENTS(rules); i++)
		if (rules[i].code == code)
			return true;
	return false;
}

bool
sense_is_later(enum diag_code code)
{
	return code == DIAG_ESTIMATE_DISAGREES;
}

struct record_list
sense_records(const struct sensing *sensing, const char *kind)
{
	const struct kind *found;

	found = schema_kind(model_schema(sensing->model), kind);
	if (found == NULL)
		return (struct record_list){NULL, 0};
	return sensing->lists[found->index];
}

/* Whether values of the type may stand under the field. */
static bool
leads_to(const struct field *field, enum type type)
{
	unsigned i;

	if (field->type == type)
		return true;
	for (i = 0; i < field->fields.count; i++)
		if (leads_to(&field->fields.items[i], type))
			return true;
	return false;
}

static void
visit_value(struct sensing *sensing, const struct record *record,
	struct value *const *beside, const struct value *value,
	enum type type, sense_visit *visit)
{
	const struct fields *fields = &value->field->fields;
	unsigned i;

	if (value->form == VALUE_MANY) {
		for (i = 0; i < value->many.count; i++)
			visit_value(sensing, record, beside,
				value->many.items[i], type, visit);
		return;
	}
	if (value->field->type == type)
		visit(sensing, record, beside, value);
	if (value->field->type != TYPE_GROUP)
		return;
	for (i = 0; i < fields->count; i++)
		if (value->group[i] != NULL &&
			leads_to(&fields->items[i], type))
			visit_value(sensing, record, value->group,
				value->group[i], type, visit);
}

static void
visit_kind(struct sensing *sensing, const struct kind *kind, enum type type,
	sense_visit *visit)
{
	struct record_list list = sensing->lists[kind->index];
	unsigned i, j;

	for (i = 0; i < kind->fields.count; i++) {
		if (!leads_to(&kind->fields.items[i], type))
			continue;
		for (j = 0; j < list.count; j++) {
			struct value *const *values = list.items[j]->values;

			if (values[i] != NULL)
				visit_value(sensing, list.items[j], values,
					values[i], type, visit);
		}
	}
}

void
sense_each(struct sensing *sensing, enum type type, sense_visit *visit)
{
	const struct schema *schema = model_schema(sensing->model);
	unsigned i;

	for (i = 0; i < schema->count; i++)
		visit_kind(sensing, &schema->kinds[i], type, visit);
}

static struct sensing
begin(const struct model *model, struct diags *diags)
{
	struct sensing sensing = {
		.model = model,
		.diags = diags,
		.arena = arena_new(),
		.used = g_hash_table_new(NULL, NULL),
	};

	sensing.lists = arena_array(sensing.arena, struct record_list,
		model_schema(model)->count);
	return sensing;
}

static void
apply_rules(struct sensing *sensing)
{
	size_t i;

	for (i = 0; i < G_N_ELEMENTS(rules); i++)
		if (rules[i].apply != NULL)
			rules[i].apply(sensing);
	g_hash_table_destroy(sensing->used);
	arena_free(sensing->arena);
}

void
sense_check(const struct model *model, struct diags *diags)
{
	struct sensing sensing = begin(model, diags);
	const struct schema *schema = model_schema(model);
	unsigned i;

	for (i = 0; i < schema->count; i++)
		sensing.lists[i] = model_records(model, &schema->kinds[i]);
	apply_rules(&sensing);
}

void
sense_check_private(const struct model *model, const struct records *records,
	struct diags *diags)
{
	struct sensing sensing = begin(model, diags);
	struct record_list *list;
	size_t i;

	for (i = 0; i < records->count; i++)
		sensing.lists[records->items[i]->kind->index].count++;
	for (i = 0; i < model_schema(model)->count; i++) {
		list = &sensing.lists[i];
		list->items = arena_array(sensing.arena,
			const struct record *, list->count);
		list->count = 0;
	}
	for (i = 0; i < records->count; i++) {
		list = &sensing.lists[records->items[i]->kind->index];
		list->items[list->count++] = records->items[i];
	}
	apply_rules(&sensing);
}
