/*
 * The parts of a database; for this folder alone. Each adds its tables to a
 * store and returns false with an error where the store failed.
 */
#ifndef WRITE_DATABASE_INSIDE_H
#define WRITE_DATABASE_INSIDE_H

#include "store/store.h"
#include "write/relations/relations.h"

/* A table for the relation. */
bool
database_create(struct store *store, const struct relation *relation,
	GError **error);

/* The relation's rows. */
bool
database_fill(struct store *store, const struct relations *relations,
	const struct relation *relation, GError **error);

/* Indexes for the columns that lead to other tables. */
bool
database_index(struct store *store, const struct relations *relations,
	GError **error);

/* What the tables and columns are: for people, and for `hangtab show`. */
bool
database_describe(struct store *store, const struct relations *relations,
	GError **error);

/* The full-text index, filled. */
bool
database_search(struct store *store, const struct model *model,
	GError **error);

bool
database_views(struct store *store, const struct relations *relations,
	GError **error);

/* Runs the statement in `sql` and empties it. */
bool
database_run(struct store *store, GString *sql, GError **error);

#endif
