/*
 * Tables and their rows. Foreign keys are declared, and kept by the model:
 * they are not checked row by row, since kinds refer to each other in circles.
 */
#include "write/database/inside.h"

#include <string.h>

static const char *const forms[] = {
	[CELL_NULL] = "",
	[CELL_TEXT] = "TEXT",
	[CELL_WHOLE] = "INTEGER",
	[CELL_REAL] = "REAL",
};

static void
append_columns(GString *sql, const struct relation *relation, unsigned from,
	unsigned count)
{
	unsigned i;

	for (i = 0; i < count; i++) {
		if (i > 0)
			g_string_append(sql, ", ");
		store_append_name(sql, relation->columns[from + i].name);
	}
}

static void
append_column(GString *sql, const struct column *column)
{
	store_append_name(sql, column->name);
	g_string_append_printf(sql, " %s", forms[column->form]);
	if (column->required)
		g_string_append(sql, " NOT NULL");
	if (column->part == PART_VALUE && column->field->type == TYPE_YESNO) {
		g_string_append(sql, " CHECK (");
		store_append_name(sql, column->name);
		g_string_append(sql, " IN (0, 1))");
	}
}

static void
append_link(GString *sql, const struct relation *relation,
	const struct relation_link *link)
{
	unsigned i;

	g_string_append(sql, ",\n\tFOREIGN KEY (");
	append_columns(sql, relation, link->from, link->count);
	g_string_append(sql, ") REFERENCES ");
	store_append_name(sql, link->to->name);
	g_string_append(sql, " (");
	for (i = 0; i < link->count; i++) {
		if (i > 0)
			g_string_append(sql, ", ");
		store_append_name(sql,
			link->to->columns[link->columns[i]].name);
	}
	g_string_append_c(sql, ')');
}

bool
database_create(struct store *store, const struct relation *relation,
	GError **error)
{
	GString *sql = g_string_new("CREATE TABLE ");
	bool done;
	unsigned i;

	store_append_name(sql, relation->name);
	g_string_append(sql, " (\n\t");
	for (i = 0; i < relation->count; i++) {
		append_column(sql, &relation->columns[i]);
		g_string_append(sql, ",\n\t");
	}
	g_string_append(sql, "PRIMARY KEY (");
	append_columns(sql, relation, 0, relation->key_count);
	g_string_append_c(sql, ')');
	if (relation->key_column != 0) {
		g_string_append(sql, ",\n\tUNIQUE (");
		append_columns(sql, relation, 0, 1);
		g_string_append(sql, ", ");
		append_columns(sql, relation, relation->key_column, 1);
		g_string_append_c(sql, ')');
	}
	for (i = 0; i < relation->link_count; i++)
		append_link(sql, relation, &relation->links[i]);
	/* Lists lie in the order of their key; records in reading order. */
	g_string_append(sql, relation->form == RELATION_RECORDS ? "\n);" :
		"\n) WITHOUT ROWID;");
	done = database_run(store, sql, error);
	g_string_free(sql, TRUE);
	return done;
}

struct filling {
	struct query *query;
	unsigned count;
};

static bool
add_row(void *data, const struct cell *cells, GError **error)
{
	const struct filling *filling = data;
	unsigned i;

	for (i = 0; i < filling->count; i++) {
		int place = (int)i + 1;

		switch (cells[i].form) {
		case CELL_NULL:
			query_bind_null(filling->query, place);
			break;
		case CELL_TEXT:
			query_bind_text(filling->query, place, cells[i].text);
			break;
		case CELL_WHOLE:
			query_bind_whole(filling->query, place,
				cells[i].whole);
			break;
		case CELL_REAL:
			query_bind_real(filling->query, place, cells[i].real);
			break;
		}
	}
	return query_run(filling->query, error);
}

bool
database_fill(struct store *store, const struct relations *relations,
	const struct relation *relation, GError **error)
{
	GString *sql = g_string_new("INSERT INTO ");
	struct filling filling = {NULL, relation->count};
	bool done = false;
	unsigned i;

	store_append_name(sql, relation->name);
	for (i = 0; i < relation->count; i++)
		g_string_append(sql, i == 0 ? " VALUES (?" : ", ?");
	g_string_append_c(sql, ')');
	filling.query = store_prepare(store, sql->str, error);
	if (filling.query != NULL)
		done = relation_rows(relations, relation, add_row, &filling,
			error);
	query_free(filling.query);
	g_string_free(sql, TRUE);
	return done;
}

static bool
add_index(struct store *store, const struct relation *relation,
	const struct relation_link *link, GString *sql, GError **error)
{
	char *name = g_strdup_printf("by_%s_%s", relation->name,
		relation->columns[link->from + link->count - 1].name);

	g_string_append(sql, "CREATE INDEX ");
	store_append_name(sql, name);
	g_string_append(sql, " ON ");
	store_append_name(sql, relation->name);
	g_string_append(sql, " (");
	append_columns(sql, relation, link->from, link->count);
	g_string_append(sql, ");");
	g_free(name);
	return database_run(store, sql, error);
}

/* The key is an index already, and serves links that begin it. */
static bool
needs_index(const struct relation *relation, unsigned place)
{
	const struct relation_link *link = &relation->links[place];
	unsigned i;

	if (link->from == 0)
		return false;
	/* A longer link from the same column serves the shorter one too. */
	for (i = 0; i < relation->link_count; i++)
		if (relation->links[i].from == link->from &&
			relation->links[i].count > link->count)
			return false;
	return true;
}

bool
database_index(struct store *store, const struct relations *relations,
	GError **error)
{
	GString *sql = g_string_new(NULL);
	bool done = true;
	unsigned i, j;

	for (i = 0; done && i < relations->count; i++)
		for (j = 0; done && j < relations->items[i]->link_count; j++)
			if (needs_index(relations->items[i], j))
				done = add_index(store, relations->items[i],
					&relations->items[i]->links[j], sql,
					error);
	g_string_free(sql, TRUE);
	return done;
}
