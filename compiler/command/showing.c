/*
 * Reading a record: the rows of its tables, in the order of its fields, and
 * then how many others point at it.
 */
#include "command/showing.h"

#include <string.h>

#include "command/describing.h"
#include "command/pointing.h"

struct reading {
	struct store *store;
	struct arena *arena;
	struct description description;
	struct query *called;	/* of kind and id */
	struct query *word;	/* title of vocabulary and word */
	const char *kind;
	const char *id;
	GError **error;
};

static const char *
keep(const struct reading *reading, const char *text)
{
	return arena_text(reading->arena, text, strlen(text));
}

static struct shown *
new_shown(const struct reading *reading, enum shown_form form,
	const char *field, const char *title)
{
	struct shown *shown = arena_one(reading->arena, struct shown);

	shown->form = form;
	shown->field = field;
	shown->title = title;
	if (form != SHOWN_VALUE)
		shown->parts = g_ptr_array_new();
	return shown;
}

static void
release_shown(struct shown *shown)
{
	guint i;

	if (shown == NULL || shown->parts == NULL)
		return;
	for (i = 0; i < shown->parts->len; i++)
		release_shown(g_ptr_array_index(shown->parts, i));
	g_ptr_array_free(shown->parts, TRUE);
}

/* The first cell that a query gives for two texts; or `absent`. */
static const char *
look_up(const struct reading *reading, struct query *query, const char *one,
	const char *two, const char *absent)
{
	const char *found = absent;

	query_bind_text(query, 1, one);
	query_bind_text(query, 2, two);
	if (query_step(query, NULL) == 1)
		found = keep(reading, query_text(query, 0));
	query_begin(query);
	return found;
}

static const char *
value_text(const struct reading *reading,
	const struct described_column *column, const struct query *query,
	int cell)
{
	const char *text = query_text(query, cell);
	char number[G_ASCII_DTOSTR_BUF_SIZE];

	if (strcmp(column->type, "word") == 0)
		return look_up(reading, reading->word, column->vocabulary,
			keep(reading, text), keep(reading, text));
	if (strcmp(column->type, "yesno") == 0)
		return query_whole(query, cell) != 0 ? "yes" : "no";
	if (strcmp(column->type, "quantity") != 0)
		return keep(reading, text);
	g_ascii_formatd(number, sizeof(number), "%.15g",
		query_real(query, cell));
	return arena_print(reading->arena, "%s %s", number, column->unit);
}

/* A reference's column without the "_id" that stands where kinds differ. */
static const char *
target_name(const struct reading *reading,
	const struct described_column *column)
{
	size_t size = strlen(column->name);

	if (strcmp(column->target, "record") != 0 || size < 3)
		return column->name;
	return arena_text(reading->arena, column->name, size - 3);
}

/* A reference: by name, with its address. */
static struct shown *
read_target(const struct reading *reading,
	const struct described_table *table, unsigned place,
	const struct query *query)
{
	const struct described_column *column = &table->columns[place];
	struct shown *shown = new_shown(reading, SHOWN_VALUE,
		target_name(reading, column), column->title);
	int of_kind = describing_column(table, column->field, column->place,
		"target_kind");
	int of_key = describing_column(table, column->field, column->place,
		"target_key");
	const char *key = of_key < 0 ? "" : query_text(query, of_key);
	const char *id = keep(reading, query_text(query, (int)place));

	shown->kind = of_kind < 0 ? column->target :
		keep(reading, query_text(query, of_kind));
	shown->type = column->type;
	shown->text = look_up(reading, reading->called, shown->kind, id, id);
	shown->code = arena_print(reading->arena, "%s/%s%s%s", shown->kind,
		id, *key == '\0' ? "" : ".", key);
	return shown;
}

static bool
has_part(const struct described_column *column, const char *part)
{
	return strcmp(column->part, part) == 0;
}

static struct shown *
read_list(const struct reading *reading, const struct described_table *table,
	GPtrArray *keys);

/* The table that lists what an identity may be. */
static const struct described_table *
candidates_of(const struct reading *reading,
	const struct described_table *table,
	const struct described_column *column)
{
	unsigned i;

	for (i = 0; i < reading->description.count; i++) {
		const struct described_table *other =
			&reading->description.tables[i];

		if (strcmp(other->owner, table->name) == 0 &&
			other->place == column->place &&
			describing_is_candidates(other))
			return other;
	}
	return NULL;
}

/* What is known of an identity that is not settled. */
static struct shown *
read_unsettled(const struct reading *reading,
	const struct described_table *table,
	const struct described_column *column, const char *state,
	GPtrArray *keys)
{
	const struct described_table *candidates = candidates_of(reading,
		table, column);
	struct shown *shown;

	if (strcmp(state, "unknown") == 0 || candidates == NULL) {
		shown = new_shown(reading, SHOWN_VALUE,
			target_name(reading, column), column->title);
		shown->text = shown->code = keep(reading, state);
		return shown;
	}
	shown = read_list(reading, candidates, keys);
	if (shown != NULL) {
		shown->field = target_name(reading, column);
		shown->title = column->title;
		shown->text = strcmp(state, "not") == 0 ? "not" : "one of";
		shown->code = keep(reading, state);
	}
	return shown;
}

/* One column of a row, or NULL where there is nothing to show. */
static struct shown *
read_column(const struct reading *reading,
	const struct described_table *table, unsigned place,
	const struct query *query, GPtrArray *keys)
{
	const struct described_column *column = &table->columns[place];
	int cell = (int)place, state;
	struct shown *shown;

	if (has_part(column, "target")) {
		if (!query_is_null(query, cell))
			return read_target(reading, table, place, query);
		state = describing_column(table, column->field, column->place,
			"state");
		if (state < 0 || query_is_null(query, state))
			return NULL;
		return read_unsettled(reading, table, column,
			query_text(query, state), keys);
	}
	if (query_is_null(query, cell))
		return NULL;
	shown = new_shown(reading, SHOWN_VALUE, column->name, column->title);
	shown->type = column->type;
	shown->code = keep(reading, query_text(query, cell));
	shown->text = value_text(reading, column, query, cell);
	return shown;
}

/* What is shown of a row: columns and lists, by their place. */
struct entry {
	int64_t place;
	unsigned column;
	const struct described_table *list;
};

static int
compare_entries(const void *a, const void *b)
{
	const struct entry *left = a, *right = b;

	if (left->place != right->place)
		return left->place < right->place ? -1 : 1;
	return left->column < right->column ? -1 :
		left->column > right->column;
}

static GArray *
list_entries(const struct reading *reading,
	const struct described_table *table)
{
	GArray *entries = g_array_new(FALSE, FALSE, sizeof(struct entry));
	unsigned i;

	for (i = table->keys; i < table->count; i++) {
		const struct described_column *column = &table->columns[i];
		struct entry entry = {column->place, i, NULL};

		if (column->shown && (has_part(column, "value") ||
			has_part(column, "target") || has_part(column, "text")
			|| has_part(column, "computed")))
			g_array_append_val(entries, entry);
	}
	for (i = 0; i < reading->description.count; i++) {
		const struct described_table *list =
			&reading->description.tables[i];
		struct entry entry = {list->place, 0, list};

		if (list->shown && strcmp(list->owner, table->name) == 0 &&
			!describing_is_candidates(list))
			g_array_append_val(entries, entry);
	}
	g_array_sort(entries, compare_entries);
	return entries;
}

/* A row as a group; `keys` are those of the table. */
static struct shown *
read_row(const struct reading *reading, const struct described_table *table,
	const struct query *query, GPtrArray *keys)
{
	struct shown *group = new_shown(reading, SHOWN_GROUP, table->field,
		table->title);
	GArray *entries = list_entries(reading, table);
	guint i;

	for (i = 0; i < entries->len; i++) {
		struct entry entry = g_array_index(entries, struct entry, i);
		struct shown *part = entry.list != NULL ?
			read_list(reading, entry.list, keys) :
			read_column(reading, table, entry.column, query, keys);

		if (part != NULL)
			g_ptr_array_add(group->parts, part);
	}
	g_array_free(entries, TRUE);
	return group;
}

/* A query of the rows of a table that belong to `keys`, in order. */
static struct query *
query_rows(const struct reading *reading,
	const struct described_table *table, GPtrArray *keys)
{
	GString *sql = g_string_new("SELECT * FROM ");
	struct query *query;
	guint i;

	store_append_name(sql, table->name);
	for (i = 0; i < keys->len; i++) {
		g_string_append(sql, i == 0 ? " WHERE " : " AND ");
		store_append_name(sql, table->columns[i].name);
		g_string_append(sql, " = ?");
	}
	if (table->keys > keys->len) {
		g_string_append(sql, " ORDER BY ");
		store_append_name(sql, table->columns[keys->len].name);
	}
	query = store_prepare(reading->store, sql->str, reading->error);
	for (i = 0; query != NULL && i < keys->len; i++)
		query_bind_text(query, (int)i + 1,
			g_ptr_array_index(keys, i));
	g_string_free(sql, TRUE);
	return query;
}

/* Whether the rows of a list are single values, not groups. */
static bool
is_of_values(const struct described_table *table)
{
	unsigned i;

	for (i = table->keys; i < table->count; i++)
		if (table->columns[i].place != table->place &&
			!has_part(&table->columns[i], "language") &&
			!has_part(&table->columns[i], "text"))
			return false;
	return true;
}

/* One of a list: a group, or the one value that it has. */
static struct shown *
read_item(const struct reading *reading, const struct described_table *table,
	const struct query *query, GPtrArray *keys)
{
	const char *position = query_text(query, (int)table->keys - 1);
	struct shown *item, *only;
	int language = -1;
	unsigned i;

	g_ptr_array_add(keys, (gpointer)(uintptr_t)keep(reading, position));
	item = read_row(reading, table, query, keys);
	g_ptr_array_set_size(keys, (int)keys->len - 1);
	for (i = table->keys; i < table->count; i++)
		if (has_part(&table->columns[i], "language"))
			language = (int)i;
	if (item->parts->len != 1 || !is_of_values(table))
		return item;
	only = g_ptr_array_index(item->parts, 0);
	g_ptr_array_free(item->parts, TRUE);
	if (language >= 0)
		only->text = arena_print(reading->arena, "%s (%s)",
			only->text, query_text(query, language));
	return only;
}

static struct shown *
read_list(const struct reading *reading, const struct described_table *table,
	GPtrArray *keys)
{
	struct shown *list = new_shown(reading, SHOWN_LIST, table->name +
		strlen(table->owner) + 1, table->title);
	struct query *query = query_rows(reading, table, keys);

	while (query != NULL && query_step(query, reading->error) == 1)
		g_ptr_array_add(list->parts, read_item(reading, table, query,
			keys));
	query_free(query);
	if (list->parts->len > 0)
		return list;
	release_shown(list);
	return NULL;
}

/* Adds the parts of the row of a table to what is shown of the record. */
static void
add_row(const struct reading *reading, const struct described_table *table,
	GPtrArray *keys, GPtrArray *parts)
{
	struct query *query = query_rows(reading, table, keys);
	struct shown *group;
	guint i;

	if (query != NULL && query_step(query, reading->error) == 1) {
		group = read_row(reading, table, query, keys);
		for (i = 0; i < group->parts->len; i++)
			g_ptr_array_add(parts, g_ptr_array_index(group->parts,
				i));
		g_ptr_array_free(group->parts, TRUE);
	}
	query_free(query);
}

/* What was worked out of the record: tables with nothing but it as key. */
static void
add_computed(const struct reading *reading, GPtrArray *keys, GPtrArray *parts)
{
	unsigned i;

	for (i = 0; i < reading->description.count; i++) {
		const struct described_table *table =
			&reading->description.tables[i];
		struct shown *group;

		if (table->keys != 1 || table->count == 0 ||
			!has_part(&table->columns[0], "computed") ||
			strcmp(table->columns[0].target, reading->kind) != 0)
			continue;
		group = new_shown(reading, SHOWN_GROUP, table->name,
			table->title);
		add_row(reading, table, keys, group->parts);
		g_ptr_array_add(parts, group);
	}
}

/* What population reports say of the record, a sentence each. */
static void
add_reports(const struct reading *reading, GPtrArray *parts)
{
	struct shown *list = new_shown(reading, SHOWN_LIST,
		"population_reports", "population reports"), *one;
	struct query *query = describing_find(&reading->description,
		"census_words") == NULL ? NULL : store_prepare(reading->store,
		"SELECT sentence FROM census_words WHERE kind = ? AND id = ? "
		"ORDER BY position", reading->error);

	if (query != NULL) {
		query_bind_text(query, 1, reading->kind);
		query_bind_text(query, 2, reading->id);
	}
	while (query != NULL && query_step(query, reading->error) == 1) {
		one = new_shown(reading, SHOWN_VALUE, "sentence", "sentence");
		one->type = "sentence";
		one->code = one->text = keep(reading, query_text(query, 0));
		g_ptr_array_add(list->parts, one);
	}
	query_free(query);
	if (list->parts->len > 0)
		g_ptr_array_add(parts, list);
	else
		release_shown(list);
}

static void
read_fields(const struct reading *reading, struct showing *showing)
{
	const struct described_table *own = describing_find(
		&reading->description, reading->kind);
	const struct described_table *record = describing_find(
		&reading->description, "record");
	GPtrArray *keys = g_ptr_array_new();

	showing->fields = new_shown(reading, SHOWN_GROUP, "", "");
	g_ptr_array_add(keys, (gpointer)(uintptr_t)reading->id);
	if (own != NULL)
		add_row(reading, own, keys, showing->fields->parts);
	add_computed(reading, keys, showing->fields->parts);
	add_reports(reading, showing->fields->parts);
	g_ptr_array_insert(keys, 0, (gpointer)(uintptr_t)reading->kind);
	if (record != NULL)
		add_row(reading, record, keys, showing->fields->parts);
	g_ptr_array_free(keys, TRUE);
}

static void
read_heading(const struct reading *reading, struct showing *showing)
{
	struct query *query = store_prepare(reading->store, "SELECT title "
		"FROM guide_kind WHERE kind = ?", reading->error);

	showing->kind = reading->kind;
	showing->id = reading->id;
	showing->kind_title = reading->kind;
	showing->called = look_up(reading, reading->called, reading->kind,
		reading->id, reading->id);
	if (query != NULL) {
		query_bind_text(query, 1, reading->kind);
		if (query_step(query, reading->error) == 1)
			showing->kind_title = keep(reading, query_text(query,
				0));
	}
	query_free(query);
}

bool
showing_read(struct store *store, const char *kind, const char *id,
	struct arena *arena, struct showing *showing, GError **error)
{
	GError *trouble = NULL;
	struct reading reading = {.store = store, .arena = arena,
		.kind = kind, .id = id, .error = &trouble};

	showing->pointing = g_array_new(FALSE, FALSE, sizeof(struct pointing));
	reading.called = store_prepare(store, "SELECT called FROM record "
		"WHERE kind = ? AND id = ?", &trouble);
	if (trouble == NULL)
		reading.word = store_prepare(store, "SELECT title "
			"FROM guide_word WHERE vocabulary = ? AND word = ?",
			&trouble);
	if (trouble == NULL && describing_read(store, arena,
		&reading.description, &trouble)) {
		read_heading(&reading, showing);
		read_fields(&reading, showing);
	}
	if (trouble == NULL)
		pointing_count(store, &reading.description, kind, id,
			arena, showing->pointing, &trouble);
	query_free(reading.called);
	query_free(reading.word);
	if (trouble != NULL)
		g_propagate_error(error, trouble);
	return trouble == NULL;
}

void
showing_release(struct showing *showing)
{
	release_shown(showing->fields);
	g_array_free(showing->pointing, TRUE);
}
