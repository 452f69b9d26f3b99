/*
 * A heading is a way: a field, behind a dot one of its own fields, and behind
 * the name of a list the number of one item. `certificates.2.subgrades.1.grade`
 * is the grade of the first subgrade of the second certificate.
 */
#include "shape/columns.h"

#include <glib.h>
#include <string.h>

#include "shape/nearest.h"

struct finding {
	const struct kind *kind;
	const struct csv_cell *heading;
	struct column *column;
	struct arena *arena;
	struct diags *diags;	/* or NULL: find quietly */
};

static void
report_field(struct finding *finding, const struct fields *fields,
	const char *text, const char *what)
{
	struct nearest nearest = nearest_to(text);
	struct span span = finding->heading->span;
	struct diag *diag;
	unsigned i;

	finding->column->bad = true;
	if (finding->diags == NULL)
		return;
	for (i = 0; i < fields->count; i++) {
		nearest_offer(&nearest, fields->items[i].name);
		if (fields->items[i].title != NULL)
			nearest_offer_title(&nearest, fields->items[i].title,
				fields->items[i].name);
	}
	diag = diag_report(finding->diags, DIAG_UNKNOWN_FIELD, span,
		"\"%s\" has no field \"%s\"", what, text);
	if (!nearest_suggest(&nearest, diag, span, ""))
		diag_help(diag, "name the column after a field, or take it "
			"out; the fields of \"%s\" are listed in schema/",
			what);
}

static void
report(struct finding *finding, const char *what, const char *help)
{
	finding->column->bad = true;
	if (finding->diags != NULL)
		diag_help(diag_report(finding->diags, DIAG_BAD_TABLE,
			finding->heading->span, "%s", what), "%s", help);
}

/* The field of that name, or else the only one with such a title. */
static const struct field *
field_meant(const struct fields *fields, const char *text)
{
	const struct field *found = fields_find(fields, text);
	unsigned i, count = 0;

	for (i = 0; found == NULL && i < fields->count; i++)
		if (nearest_alike(fields->items[i].name, text))
			found = &fields->items[i];
	if (found != NULL)
		return found;
	for (i = 0; i < fields->count; i++)
		if (fields->items[i].title != NULL &&
			nearest_alike(fields->items[i].title, text)) {
			found = &fields->items[i];
			count++;
		}
	return count == 1 ? found : NULL;
}

/* The number of an item, if that is what the text is; or 0. */
static unsigned
number_in(const char *text)
{
	size_t digits = strspn(text, "0123456789");
	unsigned number = 0;

	if (digits == 0 || digits > 3 || text[digits] != '\0')
		return 0;
	for (; *text != '\0'; text++)
		number = number * 10 + (unsigned)g_ascii_digit_value(*text);
	return number;
}

/* One part of a heading, behind those before it. */
static void
take_part(struct finding *finding, const char *text)
{
	struct column *column = finding->column;
	struct step *last = column->count == 0 ? NULL :
		&column->steps[column->count - 1];
	const struct fields *fields = last == NULL ? &finding->kind->fields :
		&last->field->fields;
	const struct field *field;

	if (last != NULL && last->field->many && last->number == 0 &&
		number_in(text) > 0) {
		last->number = number_in(text);
		return;
	}
	if (last != NULL && last->field->type == TYPE_TRANSLATION &&
		column->tag == NULL) {
		column->tag = text;
		return;
	}
	if (last != NULL && last->field->type != TYPE_GROUP) {
		report(finding, "this field has no parts",
			"leave out the dot and what follows it");
		return;
	}
	field = field_meant(fields, text);
	if (field == NULL)
		report_field(finding, fields, text, last == NULL ?
			finding->kind->name : last->field->name);
	else if (column->count == MOST_STEPS)
		report(finding, "this lies too deep for a spreadsheet",
			"take the column out, and write it into the records "
			"afterwards");
	else {
		column->by_title |= strcmp(field->name, text) != 0;
		column->steps[column->count++] = (struct step){field, 0};
	}
}

/*
 * Values of a list of groups stand in one cell, or each item has columns of
 * its own; below that, and of lists within lists, each must.
 */
static void
check_numbers(struct finding *finding)
{
	const struct column *column = finding->column;
	unsigned i;

	for (i = 0; i + 1 < column->count; i++)
		if (column->steps[i].field->many &&
			column->steps[i].number == 0 &&
			(i > 0 || column->count > 2 ||
			column->steps[i + 1].number > 0))
			report(finding, "this is a list within a list",
				"give each item columns of its own, such as "
				"\"certificates.1.subgrades.2.grade\"");
}

static void
check_end(struct finding *finding)
{
	const struct column *column = finding->column;
	const struct field *field = column->steps[column->count - 1].field;

	if (field->type == TYPE_TRANSLATION && column->tag == NULL)
		report(finding, "in which language?", "give each language a "
			"column, such as \"names.en\"");
	else if (field->type == TYPE_GROUP)
		report(finding, "this is a group of fields", "give each of "
			"them a column, such as \"labels.scheme\"");
	else
		check_numbers(finding);
}

static struct column
find_column(const struct csv_cell *heading, const struct kind *kind,
	struct arena *arena, struct diags *diags)
{
	struct column column = {.count = 0};
	struct finding finding = {kind, heading, &column, arena, diags};
	size_t size = strlen(heading->text), i;
	char **parts;

	column.id = strcmp(heading->text, "id") == 0;
	column.own = size > 1 && heading->text[0] == '[' &&
		heading->text[size - 1] == ']';
	if (column.id || column.own || size == 0)
		return column;
	parts = g_strsplit(heading->text, ".", -1);
	for (i = 0; parts[i] != NULL && !column.bad; i++) {
		const char *part = g_strstrip(parts[i]);

		take_part(&finding, arena_text(arena, part, strlen(part)));
	}
	g_strfreev(parts);
	if (!column.bad)
		check_end(&finding);
	return column;
}

static bool
same_column(const struct column *left, const struct column *right)
{
	unsigned i;

	if (left->id || right->id)
		return left->id && right->id;
	if (left->count == 0 || left->count != right->count || left->bad)
		return false;
	for (i = 0; i < left->count; i++)
		if (left->steps[i].field != right->steps[i].field ||
			left->steps[i].number != right->steps[i].number)
			return false;
	return g_strcmp0(left->tag, right->tag) == 0;
}

/*
 * The column of one heading, which none before it may have as well. A title
 * gives way to a name, since among rows of several kinds it may be the name of
 * another kind's field.
 */
static struct column
find_new(const struct csv_row *headings, uint32_t which,
	struct column *before, const struct kind *kind,
	struct arena *arena, struct diags *diags)
{
	const struct csv_cell *heading = &headings->cells[which];
	struct column column = find_column(heading, kind, arena, diags);
	struct finding finding = {kind, heading, &column, arena, diags};
	uint32_t i;

	for (i = 0; i < which; i++)
		if (same_column(&column, &before[i])) {
			if (diags == NULL && before[i].by_title &&
				!column.by_title) {
				before[i].bad = true;
				continue;
			}
			report(&finding, "two columns have this heading",
				"put them into one, with \";\" between "
				"several values");
			break;
		}
	return column;
}

struct columns
columns_of(const struct csv_row *headings, const struct kind *kind,
	struct arena *arena, struct diags *diags)
{
	struct columns columns = {NULL, headings->count, true};
	uint32_t i;

	columns.items = arena_array(arena, struct column, headings->count);
	for (i = 0; i < headings->count; i++) {
		columns.items[i] = find_new(headings, i, columns.items, kind,
			arena, diags);
		columns.sound = columns.sound && !columns.items[i].bad;
	}
	return columns;
}

void
columns_report(const struct csv_row *headings, uint32_t which,
	const struct kind *kind, struct arena *arena, struct diags *diags)
{
	const struct columns columns = columns_of(headings, kind, arena, NULL);

	find_new(headings, which, columns.items, kind, arena, diags);
}

bool
columns_is_kind(const struct csv_cell *heading)
{
	return strcmp(heading->text, "kind") == 0;
}
