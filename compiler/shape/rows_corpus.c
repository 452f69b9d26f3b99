/*
 * A spreadsheet as a corpus: rows of several kinds under the same headings,
 * each of which names a field of at least one of them.
 */
#include "shape/making.h"
#include "shape/rows.h"

/* The kinds that rows are of, each with the columns it has of the table. */
struct sorting {
	const struct csv_table *table;
	const struct schema *schema;
	const struct kind *usual;
	struct making *kinds;		/* by the kinds' index */
	bool *present;
	uint32_t column;		/* where the kind is; or UINT32_MAX */
};

/* The cell that says of which kind a row is; NULL where it says nothing. */
static const struct csv_cell *
kind_cell(const struct sorting *sorting, const struct csv_row *row)
{
	const struct csv_cell *cell = sorting->column < row->count ?
		&row->cells[sorting->column] : NULL;

	return cell == NULL || cell->text[0] == '\0' ? NULL : cell;
}

static const struct kind *
kind_of(const struct sorting *sorting, const struct csv_row *row)
{
	const struct csv_cell *cell = kind_cell(sorting, row);

	return cell == NULL ? sorting->usual : schema_kind(sorting->schema,
		cell->text);
}

/* Leads the headings to fields of each kind; false if one names none. */
static bool
sort_columns(struct sorting *sorting, struct arena *arena, struct diags *diags)
{
	const struct csv_row *heads = &sorting->table->rows[0];
	const struct schema *schema = sorting->schema;
	bool sound = true, known;
	uint32_t i;
	unsigned j;

	for (j = 0; j < schema->count; j++) {
		struct making *making = &sorting->kinds[j];

		if (!sorting->present[j])
			continue;
		*making = (struct making){.kind = &schema->kinds[j],
			.arena = arena, .diags = diags};
		making->columns = columns_of(heads, making->kind, arena, NULL);
		if (sorting->column < heads->count)
			making->columns.items[sorting->column].own = true;
	}
	for (i = 0; i < heads->count; i++) {
		known = i == sorting->column;
		for (j = 0; !known && j < schema->count; j++)
			known = sorting->present[j] &&
				!sorting->kinds[j].columns.items[i].bad;
		if (!known)
			columns_report(heads, i, sorting->usual, arena, diags);
		sound = sound && known;
	}
	return sound;
}

static struct raw_record
sort_row(struct sorting *sorting, const struct csv_row *row, uint32_t line)
{
	const struct kind *kind = kind_of(sorting, row);
	const struct csv_cell *cell = kind_cell(sorting, row);
	struct making *making = &sorting->kinds[kind == NULL ?
		sorting->usual->index : kind->index];
	struct raw_record record = {
		.kind = cell == NULL ? sorting->usual->name : cell->text,
		.kind_span = cell == NULL ? SPAN_NOWHERE : cell->span,
		.file = row->span.file,
	};

	record.node = making_record(making, row);
	making_put_id(making, record.node, arena_print(making->arena,
		"row-%u", line));
	return record;
}

/* Which kinds there are rows of, and which column says so. */
static void
find_kinds(struct sorting *sorting)
{
	const struct csv_table *table = sorting->table;
	const struct kind *kind;
	size_t i;

	for (i = 0; i < table->rows[0].count; i++)
		if (columns_is_kind(&table->rows[0].cells[i]))
			sorting->column = (uint32_t)i;
	sorting->present[sorting->usual->index] = true;
	for (i = 1; i < table->count; i++) {
		kind = kind_of(sorting, &table->rows[i]);
		if (kind != NULL)
			sorting->present[kind->index] = true;
	}
}

struct raw_corpus *
rows_corpus(const struct csv_table *table, const struct kind *usual,
	const struct schema *schema, struct arena *arena, struct diags *diags)
{
	struct raw_corpus *corpus = arena_one(arena, struct raw_corpus);
	struct sorting sorting = {table, schema, usual, NULL, NULL,
		UINT32_MAX};
	size_t i;

	corpus->found = true;
	if (table->count == 0)
		return corpus;
	sorting.kinds = arena_array(arena, struct making, schema->count);
	sorting.present = arena_array(arena, bool, schema->count);
	find_kinds(&sorting);
	if (!sort_columns(&sorting, arena, diags))
		return corpus;
	corpus->records = arena_array(arena, struct raw_record,
		table->count - 1);
	for (i = 1; i < table->count; i++)
		corpus->records[corpus->count++] = sort_row(&sorting,
			&table->rows[i], (unsigned)i + 1);
	return corpus;
}
