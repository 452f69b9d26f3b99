/*
 * datapackage.json, by the Frictionless specifications: Data Package, Tabular
 * Data Resource, Table Schema and CSV Dialect, version 1.
 */
#include "write/tables/package.h"

#include <string.h>

#include "base/json.h"

static void
append_member(GString *out, const char *name, const char *text)
{
	json_append(out, name);
	g_string_append_c(out, ':');
	json_append(out, text);
}

/* `indent` tabs on a new line, after a comma unless it is the first. */
static void
begin_line(GString *out, bool first, int indent)
{
	g_string_append(out, first ? "\n" : ",\n");
	while (indent-- > 0)
		g_string_append_c(out, '\t');
}

static void
append_type(GString *out, const struct column *column)
{
	bool yesno = column->part == PART_VALUE && column->field != NULL &&
		column->field->type == TYPE_YESNO;

	switch (column->form) {
	case CELL_NULL:
	case CELL_TEXT:
		append_member(out, "type", column->part == PART_FIRST ||
			column->part == PART_LAST ? "date" : "string");
		break;
	case CELL_WHOLE:
		append_member(out, "type", yesno ? "boolean" : "integer");
		if (yesno)
			g_string_append(out, ",\"trueValues\":[\"1\"],"
				"\"falseValues\":[\"0\"]");
		break;
	case CELL_REAL:
		append_member(out, "type", "number");
		break;
	}
}

static void
append_words(GString *out, const struct vocabulary *vocabulary)
{
	unsigned i;

	g_string_append(out, "\"enum\":[");
	for (i = 0; i < vocabulary->count; i++) {
		if (i > 0)
			g_string_append_c(out, ',');
		json_append(out, vocabulary->words[i].word);
	}
	g_string_append_c(out, ']');
}

static void
append_constraints(GString *out, const struct column *column)
{
	const struct vocabulary *words = column->part == PART_VALUE &&
		column->field != NULL ? column->field->vocabulary : NULL;

	if (!column->required && words == NULL)
		return;
	g_string_append(out, ",\"constraints\":{");
	if (column->required)
		g_string_append(out, "\"required\":true");
	if (column->required && words != NULL)
		g_string_append_c(out, ',');
	if (words != NULL)
		append_words(out, words);
	g_string_append_c(out, '}');
}

static void
append_column(GString *out, const struct column *column)
{
	g_string_append_c(out, '{');
	append_member(out, "name", column->name);
	g_string_append_c(out, ',');
	append_type(out, column);
	g_string_append_c(out, ',');
	append_member(out, "title", column->title);
	if (column->says != NULL) {
		g_string_append_c(out, ',');
		append_member(out, "description", column->says);
	}
	append_constraints(out, column);
	g_string_append_c(out, '}');
}

static void
append_names(GString *out, const struct relation *relation, unsigned from,
	unsigned count)
{
	unsigned i;

	g_string_append_c(out, '[');
	for (i = 0; i < count; i++) {
		if (i > 0)
			g_string_append_c(out, ',');
		json_append(out, relation->columns[from + i].name);
	}
	g_string_append_c(out, ']');
}

static void
append_link(GString *out, const struct relation *relation,
	const struct relation_link *link)
{
	unsigned i;

	g_string_append(out, "{\"fields\":");
	append_names(out, relation, link->from, link->count);
	g_string_append(out, ",\"reference\":{");
	/* A table that refers to itself is named by nothing. */
	append_member(out, "resource", link->to == relation ? "" :
		link->to->name);
	g_string_append(out, ",\"fields\":[");
	for (i = 0; i < link->count; i++) {
		if (i > 0)
			g_string_append_c(out, ',');
		json_append(out, link->to->columns[link->columns[i]].name);
	}
	g_string_append(out, "]}}");
}

static void
append_schema(GString *out, const struct relation *relation)
{
	unsigned i;

	g_string_append(out, "\"schema\":{\"fields\":[");
	for (i = 0; i < relation->count; i++) {
		begin_line(out, i == 0, 4);
		append_column(out, &relation->columns[i]);
	}
	g_string_append(out, "],");
	begin_line(out, true, 3);
	g_string_append(out, "\"primaryKey\":");
	append_names(out, relation, 0, relation->key_count);
	if (relation->link_count > 0)
		g_string_append(out, ",\"foreignKeys\":[");
	for (i = 0; i < relation->link_count; i++) {
		begin_line(out, i == 0, 4);
		append_link(out, relation, &relation->links[i]);
	}
	if (relation->link_count > 0)
		g_string_append_c(out, ']');
	g_string_append(out, ",\"missingValues\":[\"\"]}");
}

static void
append_resource(GString *out, const struct relation *relation)
{
	char *path = g_strdup_printf("%s.csv", relation->name);

	g_string_append_c(out, '{');
	append_member(out, "name", relation->name);
	g_string_append_c(out, ',');
	append_member(out, "path", path);
	g_string_append_c(out, ',');
	append_member(out, "title", relation->title);
	if (relation->says != NULL) {
		g_string_append_c(out, ',');
		append_member(out, "description", relation->says);
	}
	g_string_append(out, ",\"profile\":\"tabular-data-resource\","
		"\"format\":\"csv\",\"mediatype\":\"text/csv\","
		"\"encoding\":\"utf-8\",\"dialect\":{\"delimiter\":\",\","
		"\"lineTerminator\":\"\\r\\n\",\"quoteChar\":\"\\\"\","
		"\"doubleQuote\":true,\"header\":true},");
	begin_line(out, true, 3);
	append_schema(out, relation);
	g_string_append_c(out, '}');
	g_free(path);
}

void
package_append(const struct relations *relations, GString *out)
{
	unsigned i;

	g_string_append(out, "{\n\t\"profile\":\"tabular-data-package\",\n"
		"\t\"name\":\"guide\",\n\t");
	append_member(out, "title", model_title(relations->model));
	g_string_append(out, ",\n\t");
	append_member(out, "digest", model_digest(relations->model));
	g_string_append(out, ",\n\t");
	append_member(out, "description", "The records of the guide, a table "
		"for each kind and for each list in it. A cell that begins "
		"with = + - @, a tab, a carriage return or an apostrophe, and "
		"is no plain number, has an apostrophe put before it, so that "
		"no spreadsheet runs it: take one leading apostrophe away to "
		"have the text as it is.");
	g_string_append(out, ",\n\t\"resources\":[");
	for (i = 0; i < relations->count; i++) {
		begin_line(out, i == 0, 2);
		append_resource(out, relations->items[i]);
	}
	g_string_append(out, "\n\t]\n}\n");
}
