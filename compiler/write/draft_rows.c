/*
 * Records that are trees already, written down in any way that reads back the
 * same, and then laid out by tidy, which knows the rest.
 */
#include "write/draft.h"

#include <string.h>

#include "read/yaml.h"
#include "write/tidy/scalar.h"
#include "write/tidy/tidy.h"

static void
append_value(const struct node *node, const struct field *field, int indent,
	GString *out);

/* A line for each field that must be there and is not. */
static void
append_blanks(const struct node *map, const struct fields *fields, int indent,
	bool begun, GString *out)
{
	unsigned i;

	for (i = 0; i < fields->count; i++) {
		const struct field *field = &fields->items[i];

		if (!field->required || node_get(map, field->name) != NULL)
			continue;
		g_string_append_printf(out, "%*s%s:  # to fill in: ",
			begun ? 0 : indent, "", field->name);
		draft_hint(field, out);
		g_string_append_c(out, '\n');
		begun = false;
	}
}

/* Entries at `indent`; the first line has begun already. */
static void
append_map(const struct node *map, const struct fields *fields, int indent,
	GString *out)
{
	uint32_t i;

	for (i = 0; i < map->count; i++) {
		const struct node_entry *entry = &map->entries[i];

		g_string_append_printf(out, "%*s", i == 0 ? 0 : indent, "");
		tidy_append_line(out, entry->key, TIDY_BLOCK);
		g_string_append_c(out, ':');
		append_value(entry->value, fields == NULL ? NULL :
			fields_find(fields, entry->key), indent, out);
	}
	if (fields != NULL)
		append_blanks(map, fields, indent, map->count == 0, out);
}

static void
append_value(const struct node *node, const struct field *field, int indent,
	GString *out)
{
	const struct fields *fields = field != NULL &&
		field->type == TYPE_GROUP ? &field->fields : NULL;
	uint32_t i;

	if (node->kind == NODE_SCALAR) {
		g_string_append_c(out, ' ');
		tidy_append_line(out, node->text, TIDY_BLOCK);
		g_string_append_c(out, '\n');
		return;
	}
	g_string_append_c(out, '\n');
	indent += TIDY_INDENT;
	if (node->kind == NODE_MAP) {
		g_string_append_printf(out, "%*s", indent, "");
		append_map(node, fields, indent, out);
		return;
	}
	for (i = 0; i < node->count; i++) {
		g_string_append_printf(out, "%*s-", indent, "");
		if (node->items[i]->kind != NODE_MAP) {
			append_value(node->items[i], field, indent, out);
			continue;
		}
		g_string_append_c(out, ' ');
		append_map(node->items[i], fields, indent + TIDY_INDENT, out);
	}
}

/* The same text, laid out. */
static GString *
lay_out(const GString *text, const struct corpus_file *file,
	const struct schema *schema)
{
	struct sources *sources = sources_new();
	struct diags *diags = diags_new(sources);
	struct arena *arena = arena_new();
	uint32_t number = sources_add(sources, file->path,
		g_strndup(text->str, text->len), (uint32_t)text->len);
	struct node *root = read_yaml(sources, number, arena, diags);
	GString *tidy = NULL;
	const char *why;

	if (root != NULL && diags_count(diags, SEVERITY_ERROR) == 0)
		tidy = tidy_layout(file, root, sources, schema, &why);
	arena_free(arena);
	diags_free(diags);
	sources_free(sources);
	return tidy == NULL ? g_string_new_len(text->str, (gssize)text->len) :
		tidy;
}

void
draft_rows(const struct node *const *records, size_t count,
	const struct kind *kind, const struct schema *schema, bool headed,
	GString *out)
{
	struct corpus_file file = {"new.yaml", headed ? NULL : kind->name};
	GString *text = g_string_new(NULL), *tidy;
	int indent = headed ? TIDY_INDENT : 0;
	size_t i;

	if (count == 0) {
		g_string_free(text, TRUE);
		return;
	}
	if (headed)
		g_string_append_printf(text, "%s:\n", kind->name);
	for (i = 0; i < count; i++) {
		g_string_append_printf(text, "%*s- ", indent, "");
		append_map(records[i], &kind->fields, indent + TIDY_INDENT,
			text);
	}
	tidy = lay_out(text, &file, schema);
	g_string_append_len(out, tidy->str, (gssize)tidy->len);
	g_string_free(tidy, TRUE);
	g_string_free(text, TRUE);
}
