/*
 * Each heading is led to a field once; then each row is put together column by
 * column. Cells keep their spans, so that whatever is wrong with a value is
 * said of its cell.
 */
#include "shape/rows.h"

#include <glib.h>
#include <string.h>

#include "shape/making.h"

static void
report_table(struct making *making, struct span span, const char *what,
	const char *help)
{
	diag_help(diag_report(making->diags, DIAG_BAD_TABLE, span, "%s", what),
		"%s", help);
}

static struct node *
new_node(struct making *making, enum node_kind kind, struct span span)
{
	struct node *node = arena_one(making->arena, struct node);

	node->kind = kind;
	node->style = SCALAR_RAW;
	node->span = span;
	return node;
}

static struct node *
text_node(struct making *making, const char *text, size_t size,
	struct span span)
{
	struct node *node = new_node(making, NODE_SCALAR, span);

	node->text = arena_text(making->arena, text, size);
	node->count = (uint32_t)size;
	return node;
}

static void
add_entry(struct making *making, struct node *map, const char *key,
	struct node *value)
{
	struct node_entry *entries = arena_array(making->arena,
		struct node_entry, map->count + 1);

	if (map->count > 0)
		memcpy(entries, map->entries, sizeof(*entries) * map->count);
	entries[map->count++] = (struct node_entry){key, value->span, value};
	map->entries = entries;
}

/*
 * The parts of a cell, between semicolons, as a list; an empty one at the end
 * is none. Quotes doubled in a cell put what follows them off by one: then
 * parts have the span of their cell.
 */
static struct node *
split_cell(struct making *making, const struct csv_cell *cell)
{
	struct node *list = new_node(making, NODE_LIST, cell->span);
	bool exact = strlen(cell->text) == cell->span.to - cell->span.from;
	const char *at = cell->text, *end;
	GPtrArray *items = g_ptr_array_new();
	struct span span = cell->span;
	size_t size;

	do {
		end = strchr(at, ';');
		size = end == NULL ? strlen(at) : (size_t)(end - at);
		while (size > 0 && *at == ' ') {
			at++;
			size--;
		}
		while (size > 0 && at[size - 1] == ' ')
			size--;
		if (exact) {
			span.from = cell->span.from +
				(uint32_t)(at - cell->text);
			span.to = span.from + (uint32_t)size;
		}
		if (size > 0 || end != NULL || items->len == 0)
			g_ptr_array_add(items, text_node(making, at, size,
				span));
		at = end == NULL ? NULL : end + 1;
	} while (at != NULL);
	list->count = items->len;
	list->items = arena_array(making->arena, struct node *, items->len);
	memcpy(list->items, items->pdata, sizeof(*list->items) * items->len);
	g_ptr_array_free(items, TRUE);
	return list;
}

/* An identity: several are alternatives, unless they begin with "not". */
static struct node *
identity_node(struct making *making, const struct csv_cell *cell)
{
	bool negated = g_str_has_prefix(cell->text, "not ");
	struct csv_cell rest = *cell;
	struct node *map;

	if (!negated && strchr(cell->text, ';') == NULL)
		return text_node(making, cell->text, strlen(cell->text),
			cell->span);
	if (negated) {
		rest.text += strlen("not ");
		rest.span.from += (uint32_t)strlen("not ");
	}
	map = new_node(making, NODE_MAP, cell->span);
	add_entry(making, map, negated ? "not" : "one_of",
		split_cell(making, &rest));
	return map;
}

/* The value of a field by one cell. */
static struct node *
cell_node(struct making *making, const struct field *field,
	const struct csv_cell *cell)
{
	if (field->many)
		return split_cell(making, cell);
	if (field->type == TYPE_IDENTITY)
		return identity_node(making, cell);
	return text_node(making, cell->text, strlen(cell->text), cell->span);
}

static struct node *
find_entry(const struct node *map, const char *key)
{
	uint32_t i;

	for (i = 0; i < map->count; i++)
		if (strcmp(map->entries[i].key, key) == 0)
			return map->entries[i].value;
	return NULL;
}

static struct node *
new_map(struct making *making, struct span span)
{
	struct node *map = new_node(making, NODE_MAP, span);

	map->partial = making->partial;
	return map;
}

/* The value under a key, which is made if there is none yet. */
static struct node *
entry_made(struct making *making, struct node *map, const char *key,
	enum node_kind kind, struct span span)
{
	struct node *node = find_entry(map, key);

	if (node == NULL) {
		node = kind == NODE_MAP ? new_map(making, span) :
			new_node(making, kind, span);
		add_entry(making, map, key, node);
	}
	return node;
}

/* The place of an item in a list, which grows to hold it. */
static struct node **
item_place(struct making *making, struct node *list, unsigned number)
{
	struct node **items;

	if (number > list->count) {
		items = arena_array(making->arena, struct node *, number);
		if (list->count > 0)
			memcpy(items, list->items,
				sizeof(*items) * list->count);
		list->items = items;
		list->count = number;
	}
	return &list->items[number - 1];
}

/* Whether a cell ends with a semicolon: the last of its group has nothing. */
static bool
ends_open(const struct csv_cell *cell)
{
	size_t size = strlen(cell->text);

	return size > 0 && cell->text[size - 1] == ';';
}

/* Puts the parts of a cell into the groups of a list, one into each. */
static void
deal_cell(struct making *making, struct node *record,
	const struct column *column, const struct csv_cell *cell)
{
	const struct field *part = column->steps[1].field;
	const char *key = column->steps[0].field->name;
	struct node *parts = split_cell(making, cell);
	struct node *list = entry_made(making, record, key, NODE_LIST,
		cell->span);
	uint32_t i;

	if (list->count == 0)
		for (i = 0; i < parts->count; i++)
			*item_place(making, list, i + 1) = new_map(making,
				parts->items[i]->span);
	if (list->count != parts->count && !(ends_open(cell) &&
		list->count == parts->count + 1)) {
		report_table(making, cell->span, "this cell has more or fewer "
			"values than the others of its group", "write one for "
			"each, with \";\" between them; nothing between two "
			"\";\" leaves one out");
		return;
	}
	for (i = 0; i < parts->count; i++) {
		struct csv_cell piece = {.text = parts->items[i]->text,
			.span = parts->items[i]->span};

		if (piece.text[0] == '\0')
			continue;
		if (list->items[i] == NULL)
			list->items[i] = new_map(making, piece.span);
		add_entry(making, list->items[i], part->name, cell_node(
			making, part, &piece));
	}
}

/* A single value, or one item of a list of them. */
static void
put_cell(struct making *making, struct node *map, const struct step *step,
	const char *tag, const struct csv_cell *cell)
{
	const char *key = step->field->name;
	struct field one = *step->field;
	struct node *list;

	if (tag != NULL) {
		map = entry_made(making, map, key, NODE_MAP, cell->span);
		add_entry(making, map, tag, text_node(making, cell->text,
			strlen(cell->text), cell->span));
	} else if (step->number > 0) {
		one.many = false;
		list = entry_made(making, map, key, NODE_LIST, cell->span);
		*item_place(making, list, step->number) = cell_node(making,
			&one, cell);
	} else
		add_entry(making, map, key, cell_node(making, step->field,
			cell));
}

static void
take_cell(struct making *making, struct node *record,
	const struct column *column, const struct csv_cell *cell)
{
	const struct step *steps = column->steps;
	struct node *map = record, *list, **place;
	unsigned i;

	if (column->id) {
		add_entry(making, record, "id", text_node(making, cell->text,
			strlen(cell->text), cell->span));
		return;
	}
	if (column->count == 2 && steps[0].field->many &&
		steps[0].number == 0) {
		deal_cell(making, record, column, cell);
		return;
	}
	for (i = 0; i + 1 < column->count; i++) {
		const char *key = steps[i].field->name;

		if (!steps[i].field->many) {
			map = entry_made(making, map, key, NODE_MAP,
				cell->span);
			continue;
		}
		list = entry_made(making, map, key, NODE_LIST, cell->span);
		place = item_place(making, list, steps[i].number);
		if (*place == NULL)
			*place = new_map(making, cell->span);
		map = *place;
	}
	put_cell(making, map, &steps[i], column->tag, cell);
}

/* Items of which no cell was filled are none. */
static void
close_gaps(struct node *node)
{
	uint32_t i, to = 0;

	if (node->kind == NODE_MAP)
		for (i = 0; i < node->count; i++)
			close_gaps(node->entries[i].value);
	if (node->kind != NODE_LIST)
		return;
	for (i = 0; i < node->count; i++)
		if (node->items[i] != NULL) {
			close_gaps(node->items[i]);
			node->items[to++] = node->items[i];
		}
	node->count = to;
}

/* The text of the first cell of a field that has any, or NULL. */
static const char *
text_in(const struct making *making, const struct csv_row *row,
	const char *name, size_t size)
{
	uint32_t i;

	for (i = 0; i < making->columns.count && i < row->count; i++) {
		const struct column *column = &making->columns.items[i];
		const struct field *field = column->count == 0 ? NULL :
			column->steps[0].field;

		if (field != NULL && strncmp(field->name, name, size) == 0 &&
			field->name[size] == '\0' &&
			row->cells[i].text[0] != '\0')
			return row->cells[i].text;
	}
	return NULL;
}

/* What the kind is called by, in a list: the texts of those fields. */
static const char *
name_row(const struct making *making, const struct csv_row *row)
{
	const char *at = making->kind->called, *text;
	GString *name = g_string_new(NULL);
	char *found = NULL;

	if (at == NULL)
		at = "{name}";
	for (at = strchr(at, '{'); at != NULL; at = strchr(at, '{')) {
		at++;
		text = text_in(making, row, at, strcspn(at, ".}"));
		if (text != NULL)
			g_string_append_printf(name, "%s%s", name->len > 0 ?
				" " : "", text);
	}
	if (name->len > 0)
		found = arena_text(making->arena, name->str, name->len);
	g_string_free(name, TRUE);
	return found;
}

static void
take_row(struct making *making, struct node *node, const struct csv_row *cells)
{
	uint32_t i;

	for (i = 0; i < cells->count; i++) {
		const struct csv_cell *cell = &cells->cells[i];
		const struct column *column = i < making->columns.count ?
			&making->columns.items[i] : NULL;

		if (cell->text[0] == '\0' || (column != NULL && column->own))
			continue;
		if (column == NULL || (column->count == 0 && !column->id &&
			!column->bad))
			report_table(making, cell->span, "this cell has no "
				"heading", "write a field's name into the "
				"first row above it, or empty it");
		else if (column->bad)
			report_table(making, cell->span, "this row's kind "
				"has no such field", "empty the cell, or put "
				"what it says into another column");
		else
			take_cell(making, node, column, cell);
	}
	close_gaps(node);
}

struct node *
making_record(struct making *making, const struct csv_row *cells)
{
	struct node *node = new_map(making, cells->span);

	take_row(making, node, cells);
	return node;
}

void
making_put_id(struct making *making, struct node *record, const char *id)
{
	if (find_entry(record, "id") == NULL)
		add_entry(making, record, "id", text_node(making, id,
			strlen(id), record->span));
}

struct rows
rows_of(const struct csv_table *table, const struct kind *kind,
	struct arena *arena, struct diags *diags)
{
	struct making making = {
		.kind = kind,
		.arena = arena,
		.diags = diags,
		.partial = true,
	};
	struct rows rows = {NULL, 0, true};
	size_t i;

	if (table->count == 0)
		return rows;
	making.columns = columns_of(&table->rows[0], kind, arena, diags);
	rows.count = table->count - 1;
	rows.sound = making.columns.sound;
	rows.items = arena_array(arena, struct row, rows.count);
	for (i = 0; i < rows.count && rows.sound; i++)
		rows.items[i] = (struct row){
			making_record(&making, &table->rows[i + 1]),
			name_row(&making, &table->rows[i + 1]),
			table->rows[i + 1].span};
	return rows;
}
