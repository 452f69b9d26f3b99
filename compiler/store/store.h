/*
 * SQLite, behind a few functions: the rest of the compiler knows databases and
 * queries, and not sqlite3.h. Text goes in by binding alone; names of tables
 * and columns that are built into SQL are quoted by store_append_name.
 */
#ifndef STORE_STORE_H
#define STORE_STORE_H

#include <glib.h>
#include <stdbool.h>
#include <stdint.h>

/* Errors: messages fit to be printed after "hangtab: "; the system failed. */
#define STORE_ERROR store_error_quark()
GQuark
store_error_quark(void);

struct store;
struct query;

/*
 * Makes a new database at `path`, where nothing is yet, and begins the one
 * transaction in which it is filled. Nothing in its bytes depends on when or
 * where it is made. NULL with an error; else end it with store_finish or
 * store_close.
 */
struct store *
store_create(const char *path, GError **error);

/* Ends the transaction and closes the database. False with an error. */
bool
store_finish(struct store *store, GError **error);

/* Opens a database to read it. NULL with an error; end it by store_close. */
struct store *
store_open(const char *path, GError **error);

/* Closes without keeping what was not finished. NULL is allowed. */
void
store_close(struct store *store);

/* Runs SQL that gives no rows. */
bool
store_run(struct store *store, const char *sql, GError **error);

/* Prepares one statement; NULL with an error. Free with query_free. */
struct query *
store_prepare(struct store *store, const char *sql, GError **error);

/* NULL is allowed. */
void
query_free(struct query *query);

/*
 * Bind the parameter `place`, from 1. The text must stay until the query is
 * stepped to its end or begun anew; NULL binds NULL.
 */
void
query_bind_text(struct query *query, int place, const char *text);
void
query_bind_whole(struct query *query, int place, int64_t whole);
void
query_bind_real(struct query *query, int place, double real);
void
query_bind_null(struct query *query, int place);

/* Makes the query ready to be run again, with what is bound. */
void
query_begin(struct query *query);

/* The next row: 1 if there is one, 0 at the end, -1 with an error. */
int
query_step(struct query *query, GError **error);

/* Runs a query that gives no row, and begins it anew. */
bool
query_run(struct query *query, GError **error);

/* Of the present row, columns from 0. Text stays until the next step. */
int
query_columns(const struct query *query);
const char *
query_name(const struct query *query, int column);
bool
query_is_null(const struct query *query, int column);
const char *
query_text(const struct query *query, int column);	/* "" for NULL */
int64_t
query_whole(const struct query *query, int column);
double
query_real(const struct query *query, int column);

/* Appends a name as SQL quotes it. */
void
store_append_name(GString *sql, const char *name);

/* Appends a text as SQL quotes it: for what cannot be bound. */
void
store_append_text(GString *sql, const char *text);

#endif
