/*
 * Each heading is led to a field once; then each row is put together column by
 * column. Cells keep their spans, so that whatever is wrong with a value is
 * said of its cell.
 */
#include "shape/rows.h"

#include <glib.h>
#include <string.h>

#include "shape/nearest.h"

struct column {
	const struct field *field;	/* NULL: the id, or nothing */
	const struct field *part;	/* of a group, or NULL */
	const char *tag;		/* of a translation, or NULL */
	bool id;
	const struct csv_cell *heading;
};

struct making {
	const struct kind *kind;
	struct arena *arena;
	struct diags *diags;
	struct column *columns;
	uint32_t count;
	bool sound;
};

static void
report_heading(struct making *making, const struct csv_cell *heading,
	const struct fields *fields, const char *what)
{
	struct nearest nearest = nearest_to(heading->text);
	struct diag *diag;
	unsigned i;

	making->sound = false;
	for (i = 0; i < fields->count; i++) {
		nearest_offer(&nearest, fields->items[i].name);
		if (fields->items[i].title != NULL)
			nearest_offer_title(&nearest, fields->items[i].title,
				fields->items[i].name);
	}
	diag = diag_report(making->diags, DIAG_UNKNOWN_FIELD, heading->span,
		"\"%s\" has no field \"%s\"", what, heading->text);
	if (!nearest_suggest(&nearest, diag, heading->span, ""))
		diag_help(diag, "name the column after a field, or take it "
			"out; the fields of \"%s\" are listed in schema/",
			what);
}

static void
report_table(struct making *making, struct span span, const char *what,
	const char *help)
{
	diag_help(diag_report(making->diags, DIAG_BAD_TABLE, span, "%s", what),
		"%s", help);
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

/* What stands behind the dot of a heading. */
static void
find_part(struct making *making, struct column *column, const char *text)
{
	const struct field *field = column->field;

	if (field->type == TYPE_TRANSLATION) {
		column->tag = text;
		return;
	}
	column->part = field_meant(&field->fields, text);
	if (column->part == NULL)
		report_heading(making, &(struct csv_cell){text,
			column->heading->span}, &field->fields, field->name);
	else if (column->part->type == TYPE_GROUP ||
		column->part->type == TYPE_TRANSLATION) {
		making->sound = false;
		report_table(making, column->heading->span, "this lies too "
			"deep for a spreadsheet", "take the column out, and "
			"write it into the records afterwards");
	}
}

static void
check_part(struct making *making, const struct column *column, bool dotted)
{
	enum type type = column->field->type;
	bool wants = type == TYPE_GROUP || type == TYPE_TRANSLATION;

	if (wants == dotted)
		return;
	making->sound = false;
	if (!wants)
		report_table(making, column->heading->span, "this field has "
			"no parts", "leave out the dot and what follows it");
	else if (type == TYPE_TRANSLATION)
		report_table(making, column->heading->span, "in which "
			"language?", "give each language a column, such as "
			"\"names.en\"");
	else
		report_table(making, column->heading->span, "this is a group "
			"of fields", "give each of them a column, such as "
			"\"labels.scheme\"");
}

static struct column
find_column(struct making *making, const struct csv_cell *heading)
{
	const struct fields *fields = &making->kind->fields;
	struct column column = {.heading = heading};
	const char *dot = strchr(heading->text, '.');
	char *first;

	column.id = strcmp(heading->text, "id") == 0;
	if (column.id || heading->text[0] == '\0')
		return column;
	first = arena_text(making->arena, heading->text, dot == NULL ?
		strlen(heading->text) : (size_t)(dot - heading->text));
	column.field = field_meant(fields, g_strstrip(first));
	if (column.field == NULL) {
		report_heading(making, heading, fields, making->kind->name);
		return column;
	}
	check_part(making, &column, dot != NULL);
	if (dot != NULL && (column.field->type == TYPE_TRANSLATION ||
		column.field->type == TYPE_GROUP)) {
		dot += 1 + strspn(dot + 1, " ");
		find_part(making, &column, dot);
	}
	return column;
}

static bool
same_column(const struct column *left, const struct column *right)
{
	if (left->id || right->id)
		return left->id && right->id;
	return left->field != NULL && left->field == right->field &&
		left->part == right->part &&
		g_strcmp0(left->tag, right->tag) == 0;
}

static void
find_columns(struct making *making, const struct csv_row *headings)
{
	uint32_t i, j;

	making->count = headings->count;
	making->columns = arena_array(making->arena, struct column,
		headings->count);
	for (i = 0; i < headings->count; i++) {
		struct column column = find_column(making,
			&headings->cells[i]);

		for (j = 0; j < i; j++)
			if (same_column(&column, &making->columns[j])) {
				making->sound = false;
				report_table(making, headings->cells[i].span,
					"two columns have this heading",
					"put them into one, with \";\" "
					"between several values");
				break;
			}
		making->columns[i] = column;
	}
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

/* Puts the parts of a cell into the groups of a list, one into each. */
static void
deal_cell(struct making *making, struct node *record,
	const struct column *column, const struct csv_cell *cell)
{
	struct node *parts = split_cell(making, cell);
	struct node *list = find_entry(record, column->field->name);
	uint32_t i;

	if (list == NULL) {
		list = new_node(making, NODE_LIST, cell->span);
		list->count = parts->count;
		list->items = arena_array(making->arena, struct node *,
			parts->count);
		for (i = 0; i < parts->count; i++) {
			list->items[i] = new_node(making, NODE_MAP,
				parts->items[i]->span);
			list->items[i]->partial = true;
		}
		add_entry(making, record, column->field->name, list);
	}
	if (list->count != parts->count) {
		report_table(making, cell->span, "this cell has more or fewer "
			"values than the others of its group", "write one for "
			"each, with \";\" between them; nothing between two "
			"\";\" leaves one out");
		return;
	}
	for (i = 0; i < parts->count; i++) {
		struct csv_cell part = {parts->items[i]->text,
			parts->items[i]->span};

		if (part.text[0] != '\0')
			add_entry(making, list->items[i], column->part->name,
				cell_node(making, column->part, &part));
	}
}

static void
take_cell(struct making *making, struct node *record,
	const struct column *column, const struct csv_cell *cell)
{
	struct node *inner;

	if (column->id) {
		add_entry(making, record, "id", text_node(making, cell->text,
			strlen(cell->text), cell->span));
		return;
	}
	if (column->part == NULL && column->tag == NULL) {
		add_entry(making, record, column->field->name, cell_node(
			making, column->field, cell));
		return;
	}
	if (column->part != NULL && column->field->many) {
		deal_cell(making, record, column, cell);
		return;
	}
	inner = find_entry(record, column->field->name);
	if (inner == NULL) {
		inner = new_node(making, NODE_MAP, cell->span);
		inner->partial = true;
		add_entry(making, record, column->field->name, inner);
	}
	if (column->tag != NULL)
		add_entry(making, inner, column->tag, text_node(making,
			cell->text, strlen(cell->text), cell->span));
	else
		add_entry(making, inner, column->part->name, cell_node(making,
			column->part, cell));
}

/* The text of the first cell of a field that has any, or NULL. */
static const char *
text_in(const struct making *making, const struct csv_row *row,
	const char *name, size_t size)
{
	uint32_t i;

	for (i = 0; i < making->count && i < row->count; i++) {
		const struct field *field = making->columns[i].field;

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

static struct row
make_row(struct making *making, const struct csv_row *cells)
{
	struct row row = {new_node(making, NODE_MAP, cells->span),
		name_row(making, cells), cells->span};
	uint32_t i;

	row.node->partial = true;
	for (i = 0; i < cells->count; i++) {
		const struct csv_cell *cell = &cells->cells[i];
		const struct column *column = i < making->count ?
			&making->columns[i] : NULL;

		if (cell->text[0] == '\0')
			continue;
		if (column == NULL || (column->field == NULL && !column->id))
			report_table(making, cell->span, "this cell has no "
				"heading", "write a field's name into the "
				"first row above it, or empty it");
		else
			take_cell(making, row.node, column, cell);
	}
	return row;
}

struct rows
rows_of(const struct csv_table *table, const struct kind *kind,
	struct arena *arena, struct diags *diags)
{
	struct making making = {
		.kind = kind,
		.arena = arena,
		.diags = diags,
		.sound = true,
	};
	struct rows rows = {NULL, 0, true};
	size_t i;

	if (table->count == 0)
		return rows;
	find_columns(&making, &table->rows[0]);
	rows.count = table->count - 1;
	rows.sound = making.sound;
	rows.items = arena_array(arena, struct row, rows.count);
	for (i = 0; i < rows.count && making.sound; i++)
		rows.items[i] = make_row(&making, &table->rows[i + 1]);
	return rows;
}
