/*
 * hangtab new --from: records of the rows of a spreadsheet. Rows that do not
 * fit are refused, each with the cell that is wrong; the others are written.
 * A refused row may be named by another, so that one is then looked at again.
 */
#include <stdio.h>
#include <string.h>

#include "base/slug.h"
#include "command/new.h"
#include "sense/sense.h"
#include "shape/rows.h"
#include "write/draft.h"

struct entrant {
	struct row row;
	bool refused;
	bool blank;	/* a required field is missing somewhere in it */
};

struct entering {
	const struct newcomer *new;
	struct arena *arena;
	struct diags *diags;
	uint32_t file;
	struct entrant *items;
	size_t count;
	bool stray;		/* an error that is no row's */
	bool unread;		/* there is no telling what the rows are */
	size_t refused;
};

/* Whether a required field is missing in a mapping or in what is in it. */
static bool
has_blank(const struct node *node, const struct fields *fields)
{
	const struct field *field;
	uint32_t i;

	if (node->kind == NODE_LIST)
		for (i = 0; i < node->count; i++)
			if (has_blank(node->items[i], fields))
				return true;
	if (node->kind != NODE_MAP)
		return false;
	for (i = 0; i < fields->count; i++)
		if (fields->items[i].required &&
			node_get(node, fields->items[i].name) == NULL)
			return true;
	for (i = 0; i < node->count; i++) {
		field = fields_find(fields, node->entries[i].key);
		if (field != NULL && field->type == TYPE_GROUP &&
			has_blank(node->entries[i].value, &field->fields))
			return true;
	}
	return false;
}

static void
put_id(struct entering *entering, struct entrant *entrant, const char *id)
{
	struct node *map = entrant->row.node;
	struct node *node = arena_one(entering->arena, struct node);
	struct node_entry *entries = arena_array(entering->arena,
		struct node_entry, map->count + 1);

	node->kind = NODE_SCALAR;
	node->style = SCALAR_RAW;
	node->span = entrant->row.span;
	node->text = id;
	node->count = (uint32_t)strlen(id);
	entries[0] = (struct node_entry){"id", node->span, node};
	if (map->count > 0)
		memcpy(entries + 1, map->entries,
			sizeof(*entries) * map->count);
	map->entries = entries;
	map->count++;
}

/* An id that is in use now is seen by link/; here, one that ever was. */
static void
check_given(struct entering *entering, const struct node *id)
{
	const struct newcomer *new = entering->new;
	const struct record *record = new->run->names == NULL ? NULL :
		names_find(new->run->names, new->kind, id->text);

	if (new_is_free(new, id->text) ||
		(record != NULL && strcmp(record->id, id->text) == 0))
		return;
	diag_help(diag_report(entering->diags, DIAG_REUSED_ID, id->span,
		"there was a %s \"%s\"", new->kind->title, id->text),
		"give the row another id, or leave the cell empty to have "
		"one made");
}

/* Ids that are given first, then those that are made around them. */
static void
give_ids(struct entering *entering)
{
	GHashTable *taken = g_hash_table_new(g_str_hash, g_str_equal);
	const char *base, *id;
	unsigned number;
	size_t i;

	for (i = 0; i < entering->count; i++) {
		const struct node *given = node_get(
			entering->items[i].row.node, "id");

		if (given == NULL)
			continue;
		check_given(entering, given);
		g_hash_table_add(taken, (gpointer)(uintptr_t)given->text);
	}
	for (i = 0; i < entering->count; i++) {
		struct entrant *entrant = &entering->items[i];

		if (node_get(entrant->row.node, "id") != NULL)
			continue;
		base = entrant->row.name == NULL ? NULL :
			slug_of(entrant->row.name, entering->arena);
		if (base == NULL)
			base = arena_print(entering->arena, "new-%s",
				entering->new->kind->name);
		id = base;
		for (number = 2; !new_is_free(entering->new, id) ||
			g_hash_table_contains(taken, id); number++)
			id = arena_print(entering->arena, "%s-%u", base,
				number);
		g_hash_table_add(taken, (gpointer)(uintptr_t)id);
		put_id(entering, entrant, id);
	}
	g_hash_table_destroy(taken);
}

/* Refuses the row in which an error stands. */
static void
refuse(struct span span, void *data)
{
	struct entering *entering = data;
	size_t low = 0, high = entering->count;

	while (low < high) {
		size_t middle = low + (high - low) / 2;

		if (entering->items[middle].row.span.from <= span.from)
			low = middle + 1;
		else
			high = middle;
	}
	if (low == 0) {
		entering->stray = true;
		return;
	}
	entering->refused += !entering->items[low - 1].refused;
	entering->items[low - 1].refused = true;
}

/* The corpus's own records, and behind them the rows not yet refused. */
static struct raw_corpus
gather(const struct entering *entering, bool whole)
{
	const struct raw_corpus *corpus = entering->new->run->raw;
	struct raw_corpus all = *corpus;
	size_t i;

	all.count = whole ? corpus->count : 0;
	all.lost_count = whole ? corpus->lost_count : 0;
	all.records = arena_array(entering->arena, struct raw_record,
		all.count + entering->count);
	if (all.count > 0)
		memcpy(all.records, corpus->records,
			sizeof(*all.records) * all.count);
	for (i = 0; i < entering->count; i++)
		if (!entering->items[i].refused)
			all.records[all.count++] = (struct raw_record){
				.kind = entering->new->kind->name,
				.file = entering->file,
				.node = entering->items[i].row.node,
			};
	return all;
}

/* The rules of the trade, for rows that have all they need. */
static void
ask_sense(struct entering *entering, struct raw_corpus *all,
	struct records *records, struct names *names, bool own)
{
	const struct run *run = entering->new->run;
	struct model *model;

	if (own) {
		model_name_records(records, entering->arena);
		sense_check_private(run->model, records, entering->diags);
		return;
	}
	model = model_make(records, all, run->schema, names, run->sources,
		entering->arena, entering->diags);
	sense_check(model, entering->diags);
	model_free(model);
}

/*
 * What the stages say of the rows. The rules of the trade are asked only where
 * nothing is missing, since they take it for granted that it is there.
 */
static void
examine(struct entering *entering)
{
	const struct run *run = entering->new->run;
	bool own = entering->new->kind->chapter == CHAPTER_PRIVATE;
	struct raw_corpus all = gather(entering, !own);
	size_t before = diags_count(entering->diags, SEVERITY_ERROR), i;
	bool complete = run->model != NULL;
	struct records *records;
	struct names *names;

	for (i = 0; i < entering->count; i++)
		if (!entering->items[i].refused && entering->items[i].blank)
			complete = false;
	records = shape_corpus(&all, run->schema, own, run->sources,
		entering->arena, entering->diags);
	names = link_records(records, run->schema, own ? run->names : NULL,
		run->sources, entering->arena, entering->diags);
	if (complete && diags_count(entering->diags, SEVERITY_ERROR) == before)
		ask_sense(entering, &all, records, names, own);
	names_free(names);
	diags_keep(entering->diags, entering->file);
}

static void
sift(struct entering *entering)
{
	size_t before;

	do {
		before = entering->refused;
		examine(entering);
		diags_each_error(entering->diags, refuse, entering);
	} while (entering->refused > before);
}

static void
enter(struct entering *entering, const struct rows *rows)
{
	const struct fields *fields = &entering->new->kind->fields;
	size_t i;

	entering->count = rows->count;
	entering->items = arena_array(entering->arena, struct entrant,
		rows->count);
	if (!rows->sound) {
		entering->refused = rows->count;
		return;
	}
	for (i = 0; i < rows->count; i++)
		entering->items[i] = (struct entrant){rows->items[i], false,
			has_blank(rows->items[i].node, fields)};
	give_ids(entering);
	sift(entering);
}

static void
print_findings(const struct entering *entering)
{
	const struct options *options = entering->new->options;
	size_t written = entering->count - entering->refused, blanks = 0, i;

	diags_sort(entering->diags);
	if (options->format == FORMAT_JSON)
		diags_print_json(entering->diags, stdout);
	else if (diags_last(entering->diags) != NULL)
		diags_print_text(entering->diags, (struct diag_style){
			options->colour, (size_t)options->most_errors},
			stderr);
	if (entering->unread)
		return;
	for (i = 0; i < entering->count; i++)
		blanks += !entering->items[i].refused &&
			entering->items[i].blank && written > 0;
	fprintf(stderr, "%zu row%s: %zu record%s", entering->count,
		entering->count == 1 ? "" : "s", written,
		written == 1 ? "" : "s");
	if (blanks > 0)
		fprintf(stderr, " (%zu with blanks to fill in)", blanks);
	fprintf(stderr, ", %zu refused\n", entering->refused);
}

/* Writes what was not refused: a list in a file named after the table. */
static int
write_rows(const struct entering *entering, const char *path)
{
	const struct newcomer *new = entering->new;
	const struct node **nodes = g_new0(const struct node *,
		entering->count + 1);
	char *base = g_path_get_basename(path), *dot = strrchr(base, '.');
	GString *text = g_string_new(NULL);
	size_t count = 0, i;
	const char *name;
	int status = EXIT_DONE;

	for (i = 0; i < entering->count; i++)
		if (!entering->items[i].refused)
			nodes[count++] = entering->items[i].row.node;
	draft_rows(nodes, count, new->kind, new->run->schema,
		new->kind->chapter == CHAPTER_PRIVATE, text);
	if (dot != NULL)
		*dot = '\0';
	name = slug_of(base, entering->arena);
	if (count > 0 && (new->into_corpus ||
		new->options->format != FORMAT_JSON))
		status = new_put(new, name == NULL ? "rows" : name, text);
	g_string_free(text, TRUE);
	g_free(base);
	g_free(nodes);
	return status;
}

static int
enter_table(struct entering *entering, const char *path)
{
	struct csv_table *table;
	struct rows rows;
	int status;

	table = read_csv(entering->new->run->sources, entering->file,
		entering->arena, entering->diags);
	entering->unread = table == NULL;
	rows = table == NULL ? (struct rows){NULL, 0, false} :
		rows_of(table, entering->new->kind, entering->arena,
		entering->diags);
	enter(entering, &rows);
	if (entering->stray)
		entering->refused = entering->count;
	print_findings(entering);
	if (entering->unread || entering->refused == entering->count)
		return entering->unread || entering->refused > 0 ?
			EXIT_FINDINGS : EXIT_DONE;
	status = write_rows(entering, path);
	return status == EXIT_DONE && entering->refused > 0 ? EXIT_FINDINGS :
		status;
}

int
new_rows(const struct newcomer *new, const char *path)
{
	struct entering entering = {.new = new, .arena = arena_new()};
	char *why = NULL;
	int status;

	entering.file = sources_read(new->run->sources, path, path, &why);
	if (entering.file == 0) {
		fprintf(stderr, "hangtab: \"%s\" cannot be read: %s\n", path,
			why);
		g_free(why);
		arena_free(entering.arena);
		return EXIT_FINDINGS;
	}
	entering.diags = diags_new(new->run->sources);
	status = enter_table(&entering, path);
	diags_free(entering.diags);
	arena_free(entering.arena);
	return status;
}
