/*
 * Every column that may lead to the record is asked, by its index.
 */
#include "command/pointing.h"

#include <string.h>

#include "command/showing.h"

struct counting {
	struct store *store;
	const struct description *description;
	const char *kind;
	const char *id;
	struct arena *arena;
	GArray *pointing;
	GError **error;
};

/* Only rows whose identity is one of several: not those it is not. */
static void
append_candidates(GString *sql, const struct described_table *table,
	const struct described_table *owner,
	const struct described_column *column)
{
	int state = describing_column(owner, column->field, column->place,
		"state");
	unsigned i;

	if (state < 0)
		return;
	g_string_append(sql, " AND EXISTS (SELECT 1 FROM ");
	store_append_name(sql, owner->name);
	g_string_append(sql, " AS o WHERE o.");
	store_append_name(sql, owner->columns[state].name);
	g_string_append(sql, " = 'one_of'");
	for (i = 0; i < owner->keys; i++) {
		g_string_append(sql, " AND o.");
		store_append_name(sql, owner->columns[i].name);
		g_string_append(sql, " = t.");
		store_append_name(sql, table->columns[i].name);
	}
	g_string_append_c(sql, ')');
}

/* Counts records, or rows of what is computed; each record once. */
static char *
make_count(const struct counting *counting,
	const struct described_table *table, unsigned place, bool perhaps)
{
	const struct described_column *column = &table->columns[place];
	GString *sql = g_string_new("SELECT count(*) FROM (SELECT ");
	unsigned keys = *table->kind != '\0' ? 1 :
		strcmp(column->part, "computed") == 0 ? table->keys : 2;
	unsigned i;

	g_string_append(sql, "DISTINCT ");
	for (i = 0; i < keys; i++) {
		g_string_append(sql, i == 0 ? "t." : ", t.");
		store_append_name(sql, table->columns[i].name);
	}
	g_string_append(sql, " FROM ");
	store_append_name(sql, table->name);
	g_string_append(sql, " AS t WHERE t.");
	store_append_name(sql, column->name);
	g_string_append(sql, " = ?1");
	/* The column before that of any kind's ids holds the kind. */
	if (strcmp(column->target, "record") == 0) {
		g_string_append(sql, " AND t.");
		store_append_name(sql, table->columns[place - 1].name);
		g_string_append(sql, " = ?2");
	}
	if (perhaps)
		append_candidates(sql, table, describing_find(
			counting->description, table->owner), column);
	g_string_append_c(sql, ')');
	return g_string_free(sql, FALSE);
}

/* "pairings", or what the table itself is called. */
static const char *
titles_of(const struct counting *counting,
	const struct described_table *table)
{
	const struct described_table *kind;

	if (*table->kind == '\0')
		return *table->owner == '\0' ? table->title : "records";
	kind = describing_find(counting->description, table->kind);
	return kind == NULL ? table->title : kind->title;
}

static void
count_column(const struct counting *counting,
	const struct described_table *table, unsigned place)
{
	const struct described_column *column = &table->columns[place];
	struct pointing pointing = {
		.titles = titles_of(counting, table),
		.kind = table->kind,
		.by = column->title,
		.field = column->name,
		.perhaps = describing_is_candidates(table),
	};
	char *sql = make_count(counting, table, place, pointing.perhaps);
	struct query *query = store_prepare(counting->store, sql,
		counting->error);

	if (query != NULL) {
		query_bind_text(query, 1, counting->id);
		if (strcmp(column->target, "record") == 0)
			query_bind_text(query, 2, counting->kind);
		if (query_step(query, counting->error) == 1)
			pointing.count = query_whole(query, 0);
		if (pointing.count > 0)
			g_array_append_val(counting->pointing, pointing);
	}
	query_free(query);
	g_free(sql);
}

/* Whether the column is one by which others point at records of the kind. */
static bool
may_point(const struct counting *counting,
	const struct described_table *table, unsigned place)
{
	const struct described_column *column = &table->columns[place];
	bool computed = strcmp(column->part, "computed") == 0;

	if (computed && place < table->keys &&
		(table->keys == 1 || strcmp(column->target, "record") == 0))
		return false;
	if (!computed && strcmp(column->part, "target") != 0)
		return false;
	return strcmp(column->target, counting->kind) == 0 ||
		(place > 0 && strcmp(column->target, "record") == 0);
}

void
pointing_count(struct store *store, const struct description *description,
	const char *kind, const char *id, struct arena *arena,
	GArray *pointing, GError **error)
{
	struct counting counting = {store, description, kind, id, arena,
		pointing, error};
	unsigned i, j;

	for (i = 0; i < description->count; i++)
		for (j = 0; j < description->tables[i].count &&
			*error == NULL; j++)
			if (may_point(&counting, &description->tables[i], j))
				count_column(&counting,
					&description->tables[i], j);
}
