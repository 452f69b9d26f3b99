/*
 * Records as the rows of a spreadsheet. A column is a way to a value: the names
 * of fields, and the number of an item where a list has several. It is made for
 * all records at once: `nodes` holds what each of them has at the end of that
 * way, or NULL.
 */
#include "write/pieces/pieces.h"

#include <string.h>

#include "base/csv.h"

struct sheet {
	size_t count;			/* of records */
	GPtrArray *headings;		/* char * */
	GHashTable *columns;	/* heading -> GPtrArray of text by record */
};

static void
put_cell(struct sheet *sheet, const char *heading, size_t row, char *text)
{
	GPtrArray *cells = g_hash_table_lookup(sheet->columns, heading);
	char *key;

	if (cells == NULL) {
		key = g_strdup(heading);
		cells = g_ptr_array_new_with_free_func(g_free);
		g_ptr_array_set_size(cells, (gint)sheet->count);
		g_hash_table_insert(sheet->columns, key, cells);
		g_ptr_array_add(sheet->headings, key);
	}
	g_free(cells->pdata[row]);
	cells->pdata[row] = text;
}

static char *
join(const struct node *list, bool open)
{
	GString *text = g_string_new(NULL);
	uint32_t i;

	for (i = 0; i < list->count; i++)
		g_string_append_printf(text, "%s%s", i == 0 ? "" : "; ",
			list->items[i]->text);
	if (open && list->count == 1)
		g_string_append_c(text, ';');
	return g_string_free(text, FALSE);
}

/* An identity as one writes it in a cell. */
static char *
identity_cell(const struct node *node)
{
	const struct node *list = node_get(node, "one_of");
	char *text, *cell;

	if (node->kind == NODE_SCALAR)
		return g_strdup(node->text);
	if (list != NULL)
		return list->kind == NODE_LIST ? join(list, true) :
			g_strdup_printf("%s;", list->text);
	list = node_get(node, "not");
	if (list->kind != NODE_LIST)
		return g_strdup_printf("not %s", list->text);
	text = join(list, false);
	cell = g_strdup_printf("not %s", text);
	g_free(text);
	return cell;
}

static void
put_singles(struct sheet *sheet, const struct field *field,
	const struct node *const *nodes, const char *heading)
{
	size_t i;

	for (i = 0; i < sheet->count; i++)
		if (nodes[i] != NULL)
			put_cell(sheet, heading, i,
				field->type == TYPE_IDENTITY ?
				identity_cell(nodes[i]) :
				g_strdup(nodes[i]->text));
}

/* A column for each language, in the order in which they first appear. */
static void
put_translations(struct sheet *sheet, const struct node *const *nodes,
	const char *heading)
{
	size_t i;
	uint32_t j;

	for (i = 0; i < sheet->count; i++)
		for (j = 0; nodes[i] != NULL && j < nodes[i]->count; j++) {
			char *way = g_strdup_printf("%s.%s", heading,
				nodes[i]->entries[j].key);

			put_cell(sheet, way, i, g_strdup(
				nodes[i]->entries[j].value->text));
			g_free(way);
		}
}

/* Whether lists of single values read back from one cell each. */
static bool
can_join(const struct sheet *sheet, const struct field *field,
	const struct node *const *nodes)
{
	size_t i;
	uint32_t j;

	if (field->type == TYPE_GROUP || field->type == TYPE_TRANSLATION ||
		field->type == TYPE_IDENTITY)
		return false;
	for (i = 0; i < sheet->count; i++)
		for (j = 0; nodes[i] != NULL && j < nodes[i]->count; j++) {
			const char *text = nodes[i]->items[j]->text;
			size_t size = strlen(text);

			if (size == 0 || strchr(text, ';') != NULL ||
				text[0] == ' ' || text[size - 1] == ' ')
				return false;
		}
	return true;
}

static void
put_fields(struct sheet *sheet, const struct fields *fields,
	const struct node *const *nodes, const char *before);

static void
put_one(struct sheet *sheet, const struct field *field,
	const struct node *const *nodes, const char *heading)
{
	if (field->type == TYPE_GROUP)
		put_fields(sheet, &field->fields, nodes, heading);
	else if (field->type == TYPE_TRANSLATION)
		put_translations(sheet, nodes, heading);
	else
		put_singles(sheet, field, nodes, heading);
}

static void
put_items(struct sheet *sheet, const struct field *field,
	const struct node *const *nodes, const char *heading)
{
	const struct node **items = g_new0(const struct node *,
		sheet->count + 1);
	uint32_t most = 0, j;
	char *way;
	size_t i;

	for (i = 0; i < sheet->count; i++)
		if (nodes[i] != NULL)
			most = MAX(most, nodes[i]->count);
	for (j = 0; j < most; j++) {
		for (i = 0; i < sheet->count; i++)
			items[i] = nodes[i] != NULL && j < nodes[i]->count ?
				nodes[i]->items[j] : NULL;
		way = g_strdup_printf("%s.%u", heading, j + 1);
		put_one(sheet, field, items, way);
		g_free(way);
	}
	g_free(items);
}

static void
put_field(struct sheet *sheet, const struct field *field,
	const struct node *const *nodes, const char *heading)
{
	size_t i;

	if (!field->many)
		put_one(sheet, field, nodes, heading);
	else if (!can_join(sheet, field, nodes))
		put_items(sheet, field, nodes, heading);
	else
		for (i = 0; i < sheet->count; i++)
			if (nodes[i] != NULL && nodes[i]->count > 0)
				put_cell(sheet, heading, i,
					join(nodes[i], false));
}

static void
put_fields(struct sheet *sheet, const struct fields *fields,
	const struct node *const *nodes, const char *before)
{
	const struct node **inner = g_new0(const struct node *,
		sheet->count + 1);
	bool any;
	unsigned i;
	size_t j;

	for (i = 0; i < fields->count; i++) {
		char *heading = g_strdup_printf("%s%s%s", before == NULL ? "" :
			before, before == NULL ? "" : ".",
			fields->items[i].name);

		any = false;
		for (j = 0; j < sheet->count; j++) {
			inner[j] = nodes[j] == NULL ? NULL : node_get(nodes[j],
				fields->items[i].name);
			any = any || inner[j] != NULL;
		}
		if (any)
			put_field(sheet, &fields->items[i], inner, heading);
		g_free(heading);
	}
	g_free(inner);
}

/* The records of one kind; those of others have nothing in its columns. */
static void
put_kind(struct sheet *sheet, const struct records *records,
	const struct kind *kind)
{
	const struct node **nodes = g_new0(const struct node *,
		sheet->count + 1);
	size_t i;

	for (i = 0; i < sheet->count; i++)
		if (records->items[i]->kind == kind)
			nodes[i] = records->items[i]->node;
	put_fields(sheet, &kind->fields, nodes, NULL);
	g_free(nodes);
}

/* Rows are taken for holdings where nothing else is said. */
static bool
says_kind(const GPtrArray *kinds)
{
	const struct kind *first = g_ptr_array_index(kinds, 0);

	return kinds->len > 1 || strcmp(first->name, "holding") != 0;
}

static void
put_kinds(struct sheet *sheet, const struct records *records)
{
	GPtrArray *kinds = g_ptr_array_new();
	guint i;
	size_t j;

	for (j = 0; j < records->count; j++)
		if (!g_ptr_array_find(kinds, records->items[j]->kind, NULL))
			g_ptr_array_add(kinds, (gpointer)(uintptr_t)
				records->items[j]->kind);
	for (j = 0; j < records->count && says_kind(kinds); j++)
		put_cell(sheet, "kind", j, g_strdup(
			records->items[j]->kind->name));
	for (j = 0; j < records->count; j++)
		put_cell(sheet, "id", j, g_strdup(records->items[j]->id));
	for (i = 0; i < kinds->len; i++)
		put_kind(sheet, records, g_ptr_array_index(kinds, i));
	g_ptr_array_free(kinds, TRUE);
}

static void
append_row(const struct sheet *sheet, size_t row, GString *out)
{
	guint i;

	for (i = 0; i < sheet->headings->len; i++) {
		const GPtrArray *cells = g_hash_table_lookup(sheet->columns,
			g_ptr_array_index(sheet->headings, i));

		if (i > 0)
			g_string_append_c(out, ',');
		if (cells->pdata[row] != NULL)
			csv_append_field(out, cells->pdata[row]);
	}
	g_string_append(out, "\r\n");
}

static void
free_cells(gpointer cells)
{
	g_ptr_array_free(cells, TRUE);
}

void
pieces_as_csv(const struct records *records, GString *out)
{
	struct sheet sheet = {
		.count = records->count,
		.headings = g_ptr_array_new(),
	};
	guint i;
	size_t j;

	sheet.columns = g_hash_table_new_full(g_str_hash, g_str_equal, g_free,
		free_cells);
	put_kinds(&sheet, records);
	for (i = 0; i < sheet.headings->len; i++) {
		if (i > 0)
			g_string_append_c(out, ',');
		csv_append_field(out, g_ptr_array_index(sheet.headings, i));
	}
	g_string_append(out, "\r\n");
	for (j = 0; j < records->count; j++)
		append_row(&sheet, j, out);
	g_ptr_array_free(sheet.headings, TRUE);
	g_hash_table_destroy(sheet.columns);
}
