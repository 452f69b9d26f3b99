/*
 * Reading guide_relation and guide_column.
 */
#include "command/describing.h"

#include <string.h>

static const char *
keep(struct arena *arena, const struct query *query, int column)
{
	const char *text = query_text(query, column);

	return arena_text(arena, text, strlen(text));
}

static bool
read_columns(struct arena *arena,
	struct described_table *table, struct query *query, GError **error)
{
	struct described_column *column;
	int step;

	query_begin(query);
	query_bind_text(query, 1, table->name);
	for (step = query_step(query, error); step == 1;
		step = query_step(query, error)) {
		if (table->columns == NULL)
			table->columns = arena_array(arena,
				struct described_column,
				query_whole(query, 10));
		column = &table->columns[table->count++];
		column->name = keep(arena, query, 0);
		column->title = keep(arena, query, 1);
		column->part = keep(arena, query, 2);
		column->field = keep(arena, query, 3);
		column->type = keep(arena, query, 4);
		column->target = keep(arena, query, 5);
		column->unit = keep(arena, query, 6);
		column->vocabulary = keep(arena, query, 7);
		column->place = query_whole(query, 8);
		column->shown = query_whole(query, 9) != 0;
	}
	return step == 0;
}

static bool
read_tables(struct store *store, struct arena *arena, GArray *tables,
	GError **error)
{
	struct query *query = store_prepare(store, "SELECT relation, "
		"r.title, r.kind, owner, field, place, keys, shown "
		"FROM guide_relation AS r LEFT JOIN guide_kind AS k "
		"ON k.kind = r.kind ORDER BY k.kind IS NULL, k.chapter, "
		"relation", error);
	int step = -1;

	if (query != NULL)
		step = query_step(query, error);
	for (; step == 1; step = query_step(query, error)) {
		struct described_table table = {
			.name = keep(arena, query, 0),
			.title = keep(arena, query, 1),
			.kind = keep(arena, query, 2),
			.owner = keep(arena, query, 3),
			.field = keep(arena, query, 4),
			.place = query_whole(query, 5),
			.keys = (unsigned)query_whole(query, 6),
			.shown = query_whole(query, 7) != 0,
		};

		g_array_append_val(tables, table);
	}
	query_free(query);
	return step == 0;
}

bool
describing_read(struct store *store, struct arena *arena,
	struct description *description, GError **error)
{
	GArray *tables = g_array_new(FALSE, TRUE,
		sizeof(struct described_table));
	struct query *query = NULL;
	bool done = read_tables(store, arena, tables, error);
	guint i;

	if (done)
		query = store_prepare(store, "SELECT \"column\", title, part, "
			"field, type, target, unit, vocabulary, place, shown, "
			"(SELECT count(*) FROM guide_column AS every "
			"WHERE every.relation = guide_column.relation) "
			"FROM guide_column WHERE relation = ? "
			"ORDER BY position", error);
	done = query != NULL;
	for (i = 0; done && i < tables->len; i++)
		done = read_columns(arena, &g_array_index(tables,
			struct described_table, i), query, error);
	query_free(query);
	description->count = tables->len;
	description->tables = arena_array(arena, struct described_table,
		tables->len);
	if (tables->len > 0)
		memcpy(description->tables, tables->data,
			sizeof(*description->tables) * tables->len);
	g_array_free(tables, TRUE);
	return done;
}

const struct described_table *
describing_find(const struct description *description, const char *name)
{
	unsigned i;

	for (i = 0; i < description->count; i++)
		if (strcmp(description->tables[i].name, name) == 0)
			return &description->tables[i];
	return NULL;
}

int
describing_column(const struct described_table *table, const char *field,
	int64_t place, const char *part)
{
	unsigned i;

	for (i = 0; i < table->count; i++)
		if (table->columns[i].place == place &&
			strcmp(table->columns[i].field, field) == 0 &&
			strcmp(table->columns[i].part, part) == 0)
			return (int)i;
	return -1;
}

bool
describing_is_candidates(const struct described_table *table)
{
	bool identity = false, state = false;
	unsigned i;

	for (i = table->keys; i < table->count; i++) {
		identity = identity ||
			strcmp(table->columns[i].type, "identity") == 0;
		state = state ||
			strcmp(table->columns[i].part, "state") == 0;
	}
	return identity && !state && table->count <= table->keys + 3;
}
