/*
 * Grades: each must be a step of its service's scale. That an overall grade
 * lies within the range of its subgrades is common practice.
 */
#include "sense/sensing.h"

#include <string.h>

#include "shape/nearest.h"

/* The steps of each scale by its place among scales; made when asked for. */
struct scales {
	struct sensing *sensing;
	GHashTable **steps;	/* text → place from 1, the best first */
	unsigned count;
};

/* Where a kind keeps grades: a group, or a list of them. */
struct graded {
	const char *kind;
	enum field_name group;
	enum field_name service;
	enum field_name grade;
	enum field_name subgrades;
	enum field_name subgrade;
	enum field_name scale;		/* if it is not the service's, or
					   FIELD_NAME_COUNT */
};

static const struct graded graded_kinds[] = {
	{"specimen", NAME(SPECIMEN_CERTIFICATES),
		NAME(SPECIMEN_CERTIFICATE_SERVICE),
		NAME(SPECIMEN_CERTIFICATE_GRADE),
		NAME(SPECIMEN_CERTIFICATE_SUBGRADES),
		NAME(SPECIMEN_SUBGRADE_GRADE), FIELD_NAME_COUNT},
	{"sighting", NAME(SIGHTING_GRADING), NAME(SIGHTING_GRADING_SERVICE),
		NAME(SIGHTING_GRADING_GRADE), NAME(SIGHTING_GRADING_SUBGRADES),
		NAME(SIGHTING_SUBGRADE_GRADE), FIELD_NAME_COUNT},
	{"holding", NAME(HOLDING_CERTIFICATES),
		NAME(HOLDING_CERTIFICATE_SERVICE),
		NAME(HOLDING_CERTIFICATE_GRADE),
		NAME(HOLDING_CERTIFICATE_SUBGRADES),
		NAME(HOLDING_SUBGRADE_GRADE), NAME(HOLDING_CERTIFICATE_SCALE)},
};

static const struct value *
steps_of(const struct scales *scales, const struct record *scale)
{
	return model_get(scales->sensing->model, scale->values,
		NAME(SCALE_STEPS));
}

static unsigned
step_place(struct scales *scales, const struct record *scale,
	const char *grade)
{
	GHashTable **table = &scales->steps[scale->index];
	const struct value *steps = steps_of(scales, scale);
	unsigned i;

	if (*table == NULL) {
		*table = g_hash_table_new(g_str_hash, g_str_equal);
		for (i = 0; i < value_count(steps); i++)
			g_hash_table_insert(*table, (gpointer)(uintptr_t)
				value_item(steps, i)->text,
				GUINT_TO_POINTER(i + 1));
	}
	return GPOINTER_TO_UINT(g_hash_table_lookup(*table, grade));
}

static void
report_grade(struct scales *scales, const struct record *scale,
	const struct value *grade)
{
	const struct value *steps = steps_of(scales, scale);
	struct nearest nearest = nearest_to(grade->text);
	struct diag *diag;
	unsigned i;

	for (i = 0; i < value_count(steps); i++)
		nearest_offer(&nearest, value_item(steps, i)->text);
	diag = diag_report(scales->sensing->diags, DIAG_GRADE_NOT_ON_SCALE,
		grade->span, "\"%s\" is not a step of \"%s\"", grade->text,
		scale->name);
	if (steps != NULL)
		diag_note(diag, steps->span, "the steps are here");
	if (!nearest_suggest(&nearest, diag, grade->span, ""))
		diag_help(diag, "write the step as the scale has it; what "
			"follows a grade belongs under \"qualifiers\"");
}

/* The grade's place on its scale from 1; 0 after reporting that it has none. */
static unsigned
check_grade(struct scales *scales, const struct record *scale,
	const struct value *grade)
{
	unsigned place = step_place(scales, scale, grade->text);

	if (place == 0)
		report_grade(scales, scale, grade);
	return place;
}

static const struct record *
scale_of(const struct scales *scales, struct value *const *values,
	enum field_name service)
{
	const struct record *found;

	found = model_record(scales->sensing->model, values, service);
	if (found == NULL)
		return NULL;
	return model_record(scales->sensing->model, found->values,
		NAME(SERVICE_SCALE));
}

/* The range that subgrades span; a bad one, or a single one, gives none. */
struct range {
	const struct value *best;
	const struct value *worst;
	unsigned from;
	unsigned to;
	unsigned count;
	bool bad;
};

static struct range
check_subgrades(struct scales *scales, const struct graded *graded,
	const struct record *scale, const struct value *list)
{
	struct range range = {.from = G_MAXUINT};
	const struct value *grade;
	unsigned i, place;

	for (i = 0; i < value_count(list); i++) {
		grade = model_get(scales->sensing->model,
			value_item(list, i)->group, graded->subgrade);
		if (grade == NULL)
			continue;
		place = check_grade(scales, scale, grade);
		range.count++;
		range.bad |= place == 0;
		if (place < range.from) {
			range.from = place;
			range.best = grade;
		}
		if (place > range.to) {
			range.to = place;
			range.worst = grade;
		}
	}
	return range;
}

static void
check_overall(struct scales *scales, const struct record *record,
	const struct value *overall, unsigned place, struct range range)
{
	struct sensing *sensing = scales->sensing;
	struct diag *diag;

	if (range.bad || range.count < 2 || place == 0 ||
		(place >= range.from && place <= range.to) ||
		sense_excused(sensing, record,
			DIAG_OVERALL_OUTSIDE_SUBGRADES))
		return;
	diag = diag_report(sensing->diags, DIAG_OVERALL_OUTSIDE_SUBGRADES,
		overall->span, "the overall grade \"%s\" is %s than every "
		"subgrade", overall->text,
		place < range.from ? "better" : "worse");
	diag_note(diag, range.best->span, "the best subgrade is \"%s\"",
		range.best->text);
	diag_note(diag, range.worst->span, "the worst subgrade is \"%s\"",
		range.worst->text);
	sense_help(diag, record, "compare the grades with the label");
}

static void
check_grading(struct scales *scales, const struct graded *graded,
	const struct record *record, struct value *const *values)
{
	const struct model *model = scales->sensing->model;
	const struct record *scale = scale_of(scales, values, graded->service);
	const struct value *overall = model_get(model, values, graded->grade);
	unsigned place = 0;
	struct range range;

	if (graded->scale != FIELD_NAME_COUNT &&
		model_record(model, values, graded->scale) != NULL)
		scale = model_record(model, values, graded->scale);
	if (scale == NULL)
		return;
	if (overall != NULL)
		place = check_grade(scales, scale, overall);
	range = check_subgrades(scales, graded, scale, model_get(model, values,
		graded->subgrades));
	check_overall(scales, record, overall, place, range);
}

static void
check_kind(struct scales *scales, const struct graded *graded)
{
	struct record_list list = sense_records(scales->sensing, graded->kind);
	unsigned i, j;

	for (i = 0; i < list.count; i++) {
		const struct record *record = list.items[i];
		const struct value *value = model_get(scales->sensing->model,
			record->values, graded->group);

		if (value == NULL)
			continue;
		if (value->form == VALUE_ONE) {
			check_grading(scales, graded, record, value->group);
			continue;
		}
		for (j = 0; j < value_count(value); j++)
			check_grading(scales, graded, record,
				value_item(value, j)->group);
	}
}

static void
check_census(struct scales *scales, const struct record *census)
{
	const struct model *model = scales->sensing->model;
	const struct record *scale = scale_of(scales, census->values,
		NAME(CENSUS_SERVICE));
	const struct value *categories = model_get(model, census->values,
		NAME(CENSUS_CATEGORIES)), *counts, *step;
	unsigned i, j;

	for (i = 0; scale != NULL && i < value_count(categories); i++) {
		counts = model_get(model, value_item(categories, i)->group,
			NAME(CENSUS_CATEGORY_COUNTS));
		for (j = 0; j < value_count(counts); j++) {
			step = model_get(model, value_item(counts, j)->group,
				NAME(CENSUS_COUNT_STEP));
			if (step != NULL)
				check_grade(scales, scale, step);
		}
	}
}

/* What was expected of a grading service, and what came back. */
static void
check_batch(struct scales *scales, const struct record *batch)
{
	static const enum field_name names[] = {NAME(BATCH_EXPECTED),
		NAME(BATCH_CAME_BACK)};
	const struct model *model = scales->sensing->model;
	const struct record *scale = scale_of(scales, batch->values,
		NAME(BATCH_SERVICE));
	const struct value *list = model_get(model, batch->values,
		NAME(BATCH_PIECES)), *grade;
	unsigned i;
	size_t j;

	for (i = 0; scale != NULL && i < value_count(list); i++)
		for (j = 0; j < G_N_ELEMENTS(names); j++) {
			grade = model_get(model, value_item(list, i)->group,
				names[j]);
			if (grade != NULL)
				check_grade(scales, scale, grade);
		}
}

/* Steps that are said to answer to each other, each on its own scale. */
static void
check_answers(struct scales *scales, const struct record *scale)
{
	const struct model *model = scales->sensing->model;
	const struct value *list = model_get(model, scale->values,
		NAME(SCALE_ANSWERS)), *step;
	const struct record *other;
	unsigned i;

	for (i = 0; i < value_count(list); i++) {
		struct value *const *group = value_item(list, i)->group;

		step = model_get(model, group, NAME(SCALE_ANSWER_STEP));
		if (step != NULL)
			check_grade(scales, scale, step);
		step = model_get(model, group, NAME(SCALE_ANSWER_OTHER));
		other = model_record(model, group, NAME(SCALE_ANSWER_SCALE));
		if (step != NULL && other != NULL)
			check_grade(scales, other, step);
	}
}

/* The least grade that a run asks for. */
static void
check_least(struct scales *scales, const struct record *run)
{
	const struct model *model = scales->sensing->model;
	const struct value *least = model_get(model, run->values,
		NAME(RUN_LEAST)), *step;
	const struct record *scale;

	if (least == NULL)
		return;
	scale = model_record(model, least->group, NAME(RUN_LEAST_SCALE));
	step = model_get(model, least->group, NAME(RUN_LEAST_STEP));
	if (scale != NULL && step != NULL)
		check_grade(scales, scale, step);
}

void
sense_grades(struct sensing *sensing)
{
	struct record_list runs = sense_records(sensing, "run");
	struct record_list censuses = sense_records(sensing, "census");
	struct record_list batches = sense_records(sensing, "batch");
	struct record_list list = sense_records(sensing, "scale");
	struct scales scales = {.sensing = sensing};
	unsigned i;
	size_t j;

	scales.count = model_records_of(sensing->model, "scale").count;
	scales.steps = arena_array(sensing->arena, GHashTable *, scales.count);
	for (j = 0; j < G_N_ELEMENTS(graded_kinds); j++)
		check_kind(&scales, &graded_kinds[j]);
	for (i = 0; i < batches.count; i++)
		check_batch(&scales, batches.items[i]);
	for (i = 0; i < censuses.count; i++)
		check_census(&scales, censuses.items[i]);
	for (i = 0; i < list.count; i++)
		check_answers(&scales, list.items[i]);
	for (i = 0; i < runs.count; i++)
		check_least(&scales, runs.items[i]);
	for (i = 0; i < scales.count; i++)
		if (scales.steps[i] != NULL)
			g_hash_table_destroy(scales.steps[i]);
}
