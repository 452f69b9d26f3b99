/*
 * Fields of a record in the schema's order: facts, sections and tables.
 */
#include "write/site/show.h"

#include <string.h>

/* A list of more references than this is a section, not a fact. */
enum { LONG_LIST = 14 };

bool
is_name_field(const struct field *field)
{
	const char *called = field->kind == NULL ? NULL : field->kind->called;
	char *template = g_strdup_printf("{%s}", field->name);
	bool same = field->parent == NULL && field->type != TYPE_TRANSLATION &&
		strcmp(called == NULL ? "{name}" : called, template) == 0;

	g_free(template);
	return same;
}

bool
is_large(const struct value *value)
{
	if (value->field->type == TYPE_PROSE)
		return true;
	if (value->form == VALUE_ONE)
		return false;
	if (value->field->type == TYPE_GROUP)
		return value->field->fields.count > 2 || value->many.count > 6;
	return value->many.count > LONG_LIST;
}

static bool
is_shown(const struct field *field)
{
	return field->show != SHOW_NO && field->exported;
}

static bool
is_told(const struct page *page, const struct field *field)
{
	return field->parent == NULL && page->told != NULL &&
		page->told[field->index];
}

void
show_facts(struct page *page, const struct record *record, enum show show)
{
	const struct fields *fields = &record->kind->fields;
	bool begun = false;
	unsigned i;

	for (i = 0; i < fields->count; i++) {
		const struct field *field = &fields->items[i];
		const struct value *value = record->values[i];

		if (value == NULL || !is_shown(field) || field->show != show ||
			is_told(page, field) || is_large(value) ||
			is_name_field(field))
			continue;
		if (!begun)
			g_string_append(page->out, "<dl class=\"facts\">\n");
		begun = true;
		html_put(page->out, "<div><dt");
		if (field->says != NULL)
			html_put(page->out, " title=\"%s\"", field->says);
		html_put(page->out, ">%s</dt><dd>", field->title);
		show_definition(page, value);
		g_string_append(page->out, "</dd></div>\n");
	}
	if (begun)
		g_string_append(page->out, "</dl>\n");
}

/* A required text is what the record is for, and needs no heading. */
static bool
is_body(const struct field *field)
{
	return field->type == TYPE_PROSE && field->required &&
		field->parent == NULL;
}

void
show_section(struct page *page, const struct value *value)
{
	const struct field *field = value->field;

	g_string_append(page->out, is_body(field) ? "<div>\n" :
		"<section>\n");
	if (!is_body(field))
		page_heading(page, field->name, field->title);
	if (field->type == TYPE_PROSE && value->form == VALUE_ONE) {
		g_string_append(page->out, "<div class=\"prose\">\n");
		show_prose(page, value->prose.tree, is_body(field) ? 0 : 2);
		g_string_append(page->out, "</div>\n");
	} else if (field->type == TYPE_GROUP)
		show_table(page, value);
	else {
		g_string_append(page->out, "<div class=\"run-on\">");
		show_cell(page, value);
		g_string_append(page->out, "</div>\n");
	}
	g_string_append(page->out, is_body(field) ? "</div>\n" :
		"</section>\n");
}

void
show_sections(struct page *page, const struct record *record,
	enum sections which)
{
	const struct fields *fields = &record->kind->fields;
	unsigned i;

	for (i = 0; i < fields->count; i++)
		if (record->values[i] != NULL && is_shown(&fields->items[i]) &&
			!is_told(page, &fields->items[i]) &&
			is_large(record->values[i]) &&
			(fields->items[i].type == TYPE_PROSE) ==
			(which == SECTIONS_PROSE))
			show_section(page, record->values[i]);
}

void
table_begin(struct page *page, const char *caption, const char *class)
{
	html_put(page->out, "<div class=\"scroll\" tabindex=\"0\" "
		"role=\"group\" aria-label=\"%s\">\n<table class=\"%s\">\n",
		caption, class);
}

void
table_end(struct page *page)
{
	g_string_append(page->out, "</tbody>\n</table>\n</div>\n");
}

void
show_heads(struct page *page, const struct columns *columns)
{
	unsigned i;

	for (i = 0; i < columns->count; i++)
		html_put(page->out, "<th scope=\"col\">%s</th>",
			columns->fields[i]->title);
}

void
show_cells(struct page *page, const struct columns *columns,
	struct value *const *values)
{
	const struct value *value;
	unsigned i;

	for (i = 0; i < columns->count; i++) {
		g_string_append(page->out, "<td>");
		value = values[columns->fields[i]->index];
		if (value != NULL)
			show_cell(page, value);
		g_string_append(page->out, "</td>");
	}
}

/* The shown fields that any of the groups has. */
static void
find_columns(const struct value *groups, struct columns *columns,
	struct arena *arena)
{
	const struct fields *fields = &groups->field->fields;
	unsigned i, j;

	columns->fields = arena_array(arena, const struct field *,
		fields->count);
	columns->count = 0;
	for (i = 0; i < fields->count; i++) {
		if (!is_shown(&fields->items[i]))
			continue;
		for (j = 0; j < groups->many.count; j++)
			if (groups->many.items[j]->group[i] != NULL)
				break;
		if (j < groups->many.count)
			columns->fields[columns->count++] = &fields->items[i];
	}
}

void
show_table(struct page *page, const struct value *groups)
{
	struct arena *arena = arena_new();
	bool keyed = field_is_keyed(groups->field);
	struct columns columns;
	unsigned i;

	find_columns(groups, &columns, arena);
	table_begin(page, groups->field->title, "rows");
	g_string_append(page->out, "<thead><tr>");
	show_heads(page, &columns);
	g_string_append(page->out, "</tr></thead>\n<tbody>\n");
	for (i = 0; i < groups->many.count; i++) {
		const struct value *group = groups->many.items[i];

		g_string_append(page->out, "<tr");
		if (keyed && group->group[0] != NULL) {
			g_string_append(page->out, " id=\"");
			html_place(page->out, group->group[0]->text);
			g_string_append_c(page->out, '"');
		}
		g_string_append_c(page->out, '>');
		show_cells(page, &columns, group->group);
		g_string_append(page->out, "</tr>\n");
	}
	table_end(page);
	arena_free(arena);
}
