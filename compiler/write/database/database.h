/*
 * guide.db: the guide as an SQLite database. Its relations are those of
 * write/relations/; with them come an index for full-text search, views, and
 * a description of the whole in tables of its own (guide_kind,
 * guide_relation, guide_column, guide_word, meta).
 */
#ifndef WRITE_DATABASE_DATABASE_H
#define WRITE_DATABASE_DATABASE_H

#include "write/writer.h"

/* The number of this layout; raised when queries would have to change. */
#define DATABASE_FORMAT 1

write_function database_write;

#endif
