/*
 * Tables of records.
 */
#include "write/site/rows.h"

#include <string.h>

#include "write/site/show.h"

/* Whether records of the kind are named by the field, among others. */
static bool
is_in_name(const struct kind *kind, const struct field *field)
{
	char *whole, *begin;
	bool found;

	if (kind->called == NULL)
		return is_name_field(field);
	whole = g_strdup_printf("{%s}", field->name);
	begin = g_strdup_printf("{%s.", field->name);
	found = strstr(kind->called, whole) != NULL ||
		strstr(kind->called, begin) != NULL;
	g_free(whole);
	g_free(begin);
	return found;
}

static bool
is_column(const struct rows *rows, const struct field *field)
{
	unsigned i;

	if (!field->exported || field->show == SHOW_NO || field == rows->skip)
		return false;
	if (!rows->full && field->show != SHOW_FIRST)
		return false;
	if (rows->kind->page && (field->type == TYPE_PROSE ||
		is_in_name(rows->kind, field)) &&
		field->type != TYPE_TRANSLATION && !field->many)
		return false;
	for (i = 0; i < rows->count; i++)
		if (rows->items[i]->values[field->index] != NULL)
			return true;
	return false;
}

void
rows_show(struct page *page, const struct rows *rows, unsigned from,
	unsigned to)
{
	const struct fields *fields = &rows->kind->fields;
	struct columns columns = {
		g_new0(const struct field *, fields->count), 0,
	};
	unsigned i;

	for (i = 0; i < fields->count; i++)
		if (is_column(rows, &fields->items[i]))
			columns.fields[columns.count++] = &fields->items[i];
	table_begin(page, rows->kind->titles, "rows");
	g_string_append(page->out, "<thead><tr>");
	if (rows->kind->page)
		html_put(page->out, "<th scope=\"col\">%s</th>",
			rows->kind->title);
	show_heads(page, &columns);
	g_string_append(page->out, "</tr></thead>\n<tbody>\n");
	for (i = from; i < to; i++) {
		g_string_append(page->out, "<tr>");
		if (rows->kind->page) {
			g_string_append(page->out, "<th scope=\"row\">");
			page_link(page, rows->items[i]);
			g_string_append(page->out, "</th>");
		}
		show_cells(page, &columns, rows->items[i]->values);
		g_string_append(page->out, "</tr>\n");
	}
	table_end(page);
	g_free(columns.fields);
}

struct record_list
rows_pointing(const struct page *page, const struct record *record,
	enum field_name name, struct arena *arena)
{
	const struct field *field = model_field(page->site->model, name);
	struct pointer_list pointing = model_pointing(page->site->model,
		record);
	struct record_list list = {
		arena_array(arena, const struct record *, pointing.count), 0,
	};
	size_t i;

	for (i = 0; i < pointing.count; i++)
		if (pointing.items[i].field == field && (list.count == 0 ||
			list.items[list.count - 1] != pointing.items[i].from))
			list.items[list.count++] = pointing.items[i].from;
	return list;
}

void
rows_section(struct page *page, const char *place, const char *heading,
	struct record_list list, const struct field *skip)
{
	if (list.count == 0)
		return;
	struct rows rows = {
		.kind = list.items[0]->kind,
		.items = list.items,
		.count = list.count,
		.skip = skip,
	};

	g_string_append(page->out, "<section>\n");
	page_heading(page, place, heading);
	rows_show(page, &rows, 0, list.count);
	g_string_append(page->out, "</section>\n");
}
