/*
 * The database's description of itself, read: which tables there are, and
 * what their columns hold.
 */
#ifndef COMMAND_DESCRIBING_H
#define COMMAND_DESCRIBING_H

#include "base/arena.h"
#include "store/store.h"

/* A column, as the table guide_column has it; texts are "" for NULL. */
struct described_column {
	const char *name;
	const char *title;
	const char *part;
	const char *field;
	const char *type;
	const char *target;
	const char *unit;
	const char *vocabulary;
	int64_t place;
	bool shown;
};

struct described_table {
	const char *name;
	const char *title;
	const char *kind;
	const char *owner;
	const char *field;
	int64_t place;
	unsigned keys;		/* the first columns are its key */
	bool shown;
	struct described_column *columns;
	unsigned count;
};

struct description {
	struct described_table *tables;	/* by the chapter of their kind */
	unsigned count;
};

/* In `arena`. False with an error where the database fails. */
bool
describing_read(struct store *store, struct arena *arena,
	struct description *description, GError **error);

/* The table of that name, or NULL. */
const struct described_table *
describing_find(const struct description *description, const char *name);

/* The column with that part that belongs to a field, or -1. */
int
describing_column(const struct described_table *table, const char *field,
	int64_t place, const char *part);

/* Whether the table lists what an identity of its owner may be. */
bool
describing_is_candidates(const struct described_table *table);

#endif
