/*
 * The full-text index: one row a record, in the order of the table "record".
 * The weights are kept in it, so that ORDER BY rank uses them in any shell.
 */
#include "write/database/inside.h"

#include "search/entry.h"
#include "search/tokens.h"

static bool
create(struct store *store, GError **error)
{
	GString *sql = g_string_new("CREATE VIRTUAL TABLE search USING fts5("
		"kind UNINDEXED, id UNINDEXED");
	bool done;
	size_t i;

	for (i = 0; i < SEARCH_COLUMN_COUNT; i++)
		g_string_append_printf(sql, ", %s", search_columns[i].name);
	g_string_append(sql, ", tokenize = '" SEARCH_TOKENIZER "', "
		"prefix = '2 3');"
		"INSERT INTO search (search, rank) "
		"VALUES ('rank', 'bm25(0, 0");
	for (i = 0; i < SEARCH_COLUMN_COUNT; i++)
		g_string_append_printf(sql, ", %d", search_columns[i].weight);
	g_string_append(sql, ")');");
	done = database_run(store, sql, error);
	g_string_free(sql, TRUE);
	return done;
}

static bool
add_entry(struct query *query, const struct record *record,
	const struct search_entry *entry, GError **error)
{
	int i;

	query_bind_text(query, 1, record->kind->name);
	query_bind_text(query, 2, record->id);
	for (i = 0; i < SEARCH_COLUMN_COUNT; i++)
		query_bind_text(query, i + 3, entry->texts[i]->str);
	return query_run(query, error);
}

static bool
add_entries(struct query *query, const struct model *model, GError **error)
{
	const struct schema *schema = model_schema(model);
	struct search_entry entry;
	bool done = true;
	unsigned i, j;

	search_entry_init(&entry);
	for (i = 0; i < schema->count; i++) {
		struct record_list list = model_records(model,
			&schema->kinds[i]);

		for (j = 0; done && j < list.count; j++) {
			search_describe(model, list.items[j], &entry);
			done = add_entry(query, list.items[j], &entry, error);
		}
	}
	search_entry_release(&entry);
	return done;
}

bool
database_search(struct store *store, const struct model *model,
	GError **error)
{
	struct query *query;
	bool done;

	if (!create(store, error))
		return false;
	query = store_prepare(store, "INSERT INTO search (kind, id, name, "
		"label, words) VALUES (?, ?, ?, ?, ?)", error);
	done = query != NULL && add_entries(query, model, error);
	query_free(query);
	return done && store_run(store, "INSERT INTO search (search) "
		"VALUES ('optimize');", error);
}
