/*
 * The one home of sqlite3.h. A binding that fails is kept and reported by the
 * next step, so that callers check one thing.
 */
#include "store/store.h"

#include <sqlite3.h>
#include <string.h>

struct store {
	sqlite3 *handle;
	char *path;
};

struct query {
	struct store *store;
	sqlite3_stmt *statement;
	int trouble;		/* of the bindings so far */
};

GQuark
store_error_quark(void)
{
	return g_quark_from_static_string("hangtab-store-error");
}

static void
set_error(const struct store *store, GError **error)
{
	g_set_error(error, STORE_ERROR, 0, "the database \"%s\": %s",
		store->path, sqlite3_errmsg(store->handle));
}

static struct store *
open_store(const char *path, int flags, GError **error)
{
	struct store *store = g_new0(struct store, 1);

	store->path = g_strdup(path);
	if (sqlite3_open_v2(path, &store->handle, flags, NULL) == SQLITE_OK)
		return store;
	if (store->handle == NULL)
		g_set_error(error, STORE_ERROR, 0, "the database \"%s\": out "
			"of memory", path);
	else
		set_error(store, error);
	store_close(store);
	return NULL;
}

struct store *
store_create(const char *path, GError **error)
{
	struct store *store = open_store(path, SQLITE_OPEN_READWRITE |
		SQLITE_OPEN_CREATE, error);

	/* What half a file would be good for is nobody's business: it is
	 * thrown away, so no journal is kept and nothing is waited for. */
	if (store != NULL && !store_run(store, "PRAGMA page_size = 4096;"
		"PRAGMA encoding = 'UTF-8';"
		"PRAGMA journal_mode = OFF;"
		"PRAGMA synchronous = OFF;"
		"PRAGMA locking_mode = EXCLUSIVE;"
		"PRAGMA temp_store = MEMORY;"
		"PRAGMA cache_size = -65536;"
		"PRAGMA foreign_keys = OFF;"
		"BEGIN;", error)) {
		store_close(store);
		return NULL;
	}
	return store;
}

bool
store_finish(struct store *store, GError **error)
{
	bool done = store_run(store, "COMMIT;", error);

	store_close(store);
	return done;
}

struct store *
store_open(const char *path, GError **error)
{
	struct store *store = open_store(path, SQLITE_OPEN_READONLY, error);

	if (store == NULL)
		return NULL;
	/* A file from elsewhere gets no say beyond its rows. */
	sqlite3_db_config(store->handle, SQLITE_DBCONFIG_DEFENSIVE, 1, NULL);
	if (store_run(store, "PRAGMA trusted_schema = OFF;"
		"PRAGMA temp_store = MEMORY;", error))
		return store;
	store_close(store);
	return NULL;
}

void
store_close(struct store *store)
{
	if (store == NULL)
		return;
	sqlite3_close(store->handle);
	g_free(store->path);
	g_free(store);
}

bool
store_run(struct store *store, const char *sql, GError **error)
{
	if (sqlite3_exec(store->handle, sql, NULL, NULL, NULL) == SQLITE_OK)
		return true;
	set_error(store, error);
	return false;
}

struct query *
store_prepare(struct store *store, const char *sql, GError **error)
{
	struct query *query = g_new0(struct query, 1);

	query->store = store;
	if (sqlite3_prepare_v2(store->handle, sql, -1, &query->statement,
		NULL) == SQLITE_OK)
		return query;
	set_error(store, error);
	query_free(query);
	return NULL;
}

void
query_free(struct query *query)
{
	if (query == NULL)
		return;
	sqlite3_finalize(query->statement);
	g_free(query);
}

static void
note(struct query *query, int result)
{
	if (query->trouble == SQLITE_OK)
		query->trouble = result;
}

void
query_bind_text(struct query *query, int place, const char *text)
{
	note(query, sqlite3_bind_text(query->statement, place, text, -1,
		SQLITE_STATIC));
}

void
query_bind_whole(struct query *query, int place, int64_t whole)
{
	note(query, sqlite3_bind_int64(query->statement, place, whole));
}

void
query_bind_real(struct query *query, int place, double real)
{
	note(query, sqlite3_bind_double(query->statement, place, real));
}

void
query_bind_null(struct query *query, int place)
{
	note(query, sqlite3_bind_null(query->statement, place));
}

void
query_begin(struct query *query)
{
	/* What went wrong was told by the step that failed. */
	sqlite3_reset(query->statement);
}

int
query_step(struct query *query, GError **error)
{
	int result = query->trouble;

	if (result == SQLITE_OK)
		result = sqlite3_step(query->statement);
	if (result == SQLITE_ROW)
		return 1;
	if (result == SQLITE_DONE)
		return 0;
	if (query->trouble != SQLITE_OK)
		g_set_error(error, STORE_ERROR, 0, "the database \"%s\": %s",
			query->store->path, sqlite3_errstr(result));
	else
		set_error(query->store, error);
	return -1;
}

bool
query_run(struct query *query, GError **error)
{
	bool done = query_step(query, error) == 0;

	query_begin(query);
	return done;
}

int
query_columns(const struct query *query)
{
	return sqlite3_column_count(query->statement);
}

const char *
query_name(const struct query *query, int column)
{
	return sqlite3_column_name(query->statement, column);
}

bool
query_is_null(const struct query *query, int column)
{
	return sqlite3_column_type(query->statement, column) == SQLITE_NULL;
}

const char *
query_text(const struct query *query, int column)
{
	const unsigned char *text = sqlite3_column_text(query->statement,
		column);

	return text == NULL ? "" : (const char *)text;
}

int64_t
query_whole(const struct query *query, int column)
{
	return sqlite3_column_int64(query->statement, column);
}

double
query_real(const struct query *query, int column)
{
	return sqlite3_column_double(query->statement, column);
}

static void
append_quoted(GString *sql, char quote, const char *text)
{
	g_string_append_c(sql, quote);
	for (; *text != '\0'; text++) {
		if (*text == quote)
			g_string_append_c(sql, quote);
		g_string_append_c(sql, *text);
	}
	g_string_append_c(sql, quote);
}

void
store_append_name(GString *sql, const char *name)
{
	append_quoted(sql, '"', name);
}

void
store_append_text(GString *sql, const char *text)
{
	append_quoted(sql, '\'', text);
}
