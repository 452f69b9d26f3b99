/*
 * A CSV file for each relation.
 */
#include "write/tables/tables.h"

#include <inttypes.h>

#include "base/csv.h"
#include "write/relations/relations.h"
#include "write/tables/package.h"

/* The shortest decimal that reads back as the same number. */
static void
append_real(GString *out, double real)
{
	static const char *const formats[] = {"%.15g", "%.16g", "%.17g"};
	char text[G_ASCII_DTOSTR_BUF_SIZE];
	size_t i;

	for (i = 0; i < G_N_ELEMENTS(formats); i++) {
		g_ascii_formatd(text, sizeof(text), formats[i], real);
		if (memcmp(&(double){g_ascii_strtod(text, NULL)}, &real,
			sizeof(real)) == 0)
			break;
	}
	g_string_append(out, text);
}

struct table {
	GString *out;
	unsigned count;
};

static bool
add_row(void *data, const struct cell *cells, GError **error)
{
	const struct table *table = data;
	unsigned i;

	(void)error;
	for (i = 0; i < table->count; i++) {
		if (i > 0)
			g_string_append_c(table->out, ',');
		switch (cells[i].form) {
		case CELL_NULL:
			break;
		case CELL_TEXT:
			csv_append_field(table->out, cells[i].text);
			break;
		case CELL_WHOLE:
			g_string_append_printf(table->out, "%" PRId64,
				cells[i].whole);
			break;
		case CELL_REAL:
			append_real(table->out, cells[i].real);
			break;
		}
	}
	g_string_append(table->out, "\r\n");
	return true;
}

static void
add_heads(GString *out, const struct relation *relation)
{
	unsigned i;

	for (i = 0; i < relation->count; i++) {
		if (i > 0)
			g_string_append_c(out, ',');
		csv_append_field(out, relation->columns[i].name);
	}
	g_string_append(out, "\r\n");
}

static bool
write_table(const struct write_job *job, const struct relations *relations,
	const struct relation *relation, GError **error)
{
	struct table table = {g_string_new(NULL), relation->count};
	char *path = g_strdup_printf("tables/%s.csv", relation->name);
	bool done;

	add_heads(table.out, relation);
	done = relation_rows(relations, relation, add_row, &table, error) &&
		output_add(job->out, path, table.out->str, table.out->len,
			error);
	g_free(path);
	g_string_free(table.out, TRUE);
	return done;
}

static bool
write_package(const struct write_job *job, const struct relations *relations,
	GError **error)
{
	GString *out = g_string_new(NULL);
	bool done;

	package_append(relations, out);
	done = output_add(job->out, "tables/datapackage.json", out->str,
		out->len, error);
	g_string_free(out, TRUE);
	return done;
}

bool
tables_write(const struct write_job *job, GError **error)
{
	struct arena *arena = arena_new();
	const struct relations *relations = relations_make(job->model,
		job->seen, job->reckonings, arena, error);
	bool done = relations != NULL;
	unsigned i;

	for (i = 0; done && i < relations->count; i++)
		done = write_table(job, relations, relations->items[i], error);
	done = done && write_package(job, relations, error);
	arena_free(arena);
	return done;
}
