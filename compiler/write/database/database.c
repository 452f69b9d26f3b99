/*
 * The database, part by part, in one transaction.
 */
#include "write/database/database.h"

#include "write/database/inside.h"

bool
database_run(struct store *store, GString *sql, GError **error)
{
	bool done = store_run(store, sql->str, error);

	g_string_truncate(sql, 0);
	return done;
}

static bool
add_relations(struct store *store, const struct relations *relations,
	GError **error)
{
	unsigned i;

	for (i = 0; i < relations->count; i++)
		if (!database_create(store, relations->items[i], error))
			return false;
	for (i = 0; i < relations->count; i++)
		if (!database_fill(store, relations, relations->items[i],
			error))
			return false;
	return true;
}

/* Indexes come last, into the room that the search index gave up. */
static bool
add_all(struct store *store, const struct write_job *job,
	const struct relations *relations, GError **error)
{
	return add_relations(store, relations, error) &&
		database_describe(store, relations, error) &&
		database_search(store, job->model, error) &&
		database_index(store, relations, error) &&
		database_views(store, relations, error);
}

static bool
make_database(const char *path, const struct write_job *job,
	const struct relations *relations, GError **error)
{
	struct store *store = store_create(path, error);

	if (store == NULL)
		return false;
	if (add_all(store, job, relations, error))
		return store_finish(store, error);
	store_close(store);
	return false;
}

bool
database_write(const struct write_job *job, GError **error)
{
	static const char name[] = "guide.db";
	struct arena *arena = arena_new();
	const struct relations *relations = relations_make(job->model,
		job->seen, job->reckonings, arena, error);
	bool written = false;
	char *path;

	if (relations != NULL) {
		path = output_reserve(job->out, name, error);
		written = path != NULL &&
			make_database(path, job, relations, error) &&
			output_settle(job->out, name, error);
		g_free(path);
	}
	arena_free(arena);
	return written;
}
