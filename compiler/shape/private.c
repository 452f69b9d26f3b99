/*
 * Spreadsheets of one's own pieces, found among the files of a corpus by their
 * headings: all of them name fields of private kinds, and of no other kind.
 */
#include <glib.h>

#include "shape/columns.h"
#include "shape/rows.h"

/* How many of the headings name a field of the kind, which *known notes. */
static unsigned
count_known(const struct csv_row *headings, const struct kind *kind,
	struct arena *arena, bool *known)
{
	const struct columns columns = columns_of(headings, kind, arena, NULL);
	unsigned count = 0;
	uint32_t i;

	for (i = 0; i < columns.count; i++) {
		known[i] = known[i] || !columns.items[i].bad;
		count += columns.items[i].count > 0 && !columns.items[i].bad;
	}
	return count;
}

static bool
all_known(const bool *known, uint32_t count)
{
	uint32_t i;

	for (i = 0; i < count; i++)
		if (!known[i])
			return false;
	return true;
}

/* The private kind that most of the headings are of; NULL if they are not. */
static const struct kind *
private_kind(const struct csv_row *headings, const struct schema *schema,
	struct arena *arena)
{
	bool *own = arena_array(arena, bool, headings->count);
	const struct kind *found = NULL;
	unsigned most = 0, count, i;

	for (i = 0; i < schema->count; i++) {
		const struct kind *kind = &schema->kinds[i];
		bool *known = arena_array(arena, bool, headings->count);
		bool is_own = kind->chapter == CHAPTER_PRIVATE;

		count = count_known(headings, kind, arena, is_own ? own :
			known);
		if (!is_own && count > 0 && all_known(known, headings->count))
			return NULL;
		if (is_own && count > most) {
			found = kind;
			most = count;
		}
	}
	return found != NULL && all_known(own, headings->count) ? found : NULL;
}

/* The headings without the one that says of which kind a row is. */
static struct csv_row
without_kind(const struct csv_row *headings, struct arena *arena)
{
	struct csv_row row = *headings;
	uint32_t i;

	row.count = 0;
	row.cells = arena_array(arena, struct csv_cell, headings->count);
	for (i = 0; i < headings->count; i++)
		if (!columns_is_kind(&headings->cells[i]))
			row.cells[row.count++] = headings->cells[i];
	return row;
}

static void
check_table(const char *path, const struct schema *schema,
	struct sources *sources, struct arena *arena, struct diags *diags)
{
	struct diags *unread = diags_new(sources);
	char *why = NULL;
	uint32_t file = sources_read(sources, path, path, &why);
	const struct csv_table *table = NULL;
	const struct kind *kind = NULL;
	struct csv_row headings;

	if (file != 0)
		table = read_csv(sources, file, arena, unread);
	g_free(why);
	if (table != NULL && table->count > 0) {
		headings = without_kind(&table->rows[0], arena);
		kind = private_kind(&headings, schema, arena);
	}
	if (kind != NULL)
		diag_help(diag_report(diags, DIAG_UNKNOWN_KIND,
			table->rows[0].span, "this is a spreadsheet of %s, "
			"which are private and cannot stand in a corpus",
			kind->titles), "keep your own pieces in a file outside "
			"the corpus, and use \"hangtab gaps\" on it");
	diags_free(unread);
}

void
shape_check_tables(const struct raw_corpus *corpus,
	const struct schema *schema, struct sources *sources,
	struct arena *arena, struct diags *diags)
{
	size_t i;

	for (i = 0; i < corpus->table_count; i++)
		check_table(corpus->tables[i], schema, sources, arena, diags);
}
