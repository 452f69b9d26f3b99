/*
 * The database's own description: what kinds, relations, columns and words of
 * vocabularies are called and mean, and what the whole was made from.
 */
#include "write/database/inside.h"

#include "write/database/database.h"

static const char *const tables =
	"CREATE TABLE guide_kind (\n\tkind TEXT NOT NULL PRIMARY KEY,\n"
	"\tchapter INTEGER NOT NULL,\n\ttitle TEXT NOT NULL,\n"
	"\ttitles TEXT NOT NULL,\n\tsays TEXT,\n"
	"\tpage INTEGER NOT NULL CHECK (page IN (0, 1))\n) WITHOUT ROWID;"
	"CREATE TABLE guide_relation (\n"
	"\trelation TEXT NOT NULL PRIMARY KEY,\n\ttitle TEXT NOT NULL,\n"
	"\tsays TEXT,\n\tkind TEXT,\n\towner TEXT,\n\tfield TEXT,\n"
	"\tplace INTEGER NOT NULL,\n\tkeys INTEGER NOT NULL,\n"
	"\tshown INTEGER NOT NULL CHECK (shown IN (0, 1)),\n"
	"\tFOREIGN KEY (kind) REFERENCES guide_kind (kind),\n"
	"\tFOREIGN KEY (owner) REFERENCES guide_relation (relation)\n"
	") WITHOUT ROWID;"
	"CREATE TABLE guide_column (\n\trelation TEXT NOT NULL,\n"
	"\tposition INTEGER NOT NULL,\n\t\"column\" TEXT NOT NULL,\n"
	"\ttitle TEXT NOT NULL,\n\tsays TEXT,\n\tpart TEXT NOT NULL,\n"
	"\tfield TEXT,\n\ttype TEXT,\n\ttarget TEXT,\n\tunit TEXT,\n"
	"\tvocabulary TEXT,\n\tplace INTEGER NOT NULL,\n"
	"\tshown INTEGER NOT NULL CHECK (shown IN (0, 1)),\n"
	"\tPRIMARY KEY (relation, position),\n"
	"\tFOREIGN KEY (relation) REFERENCES guide_relation (relation)\n"
	") WITHOUT ROWID;"
	"CREATE TABLE guide_word (\n\tvocabulary TEXT NOT NULL,\n"
	"\tword TEXT NOT NULL,\n\tplace INTEGER NOT NULL,\n"
	"\ttitle TEXT NOT NULL,\n\tsays TEXT,\n"
	"\tPRIMARY KEY (vocabulary, word)\n) WITHOUT ROWID;"
	"CREATE TABLE meta (\n\tkey TEXT NOT NULL PRIMARY KEY,\n"
	"\tvalue TEXT\n) WITHOUT ROWID;";

static const char *const types[] = {
	[TYPE_TEXT] = "text",
	[TYPE_PROSE] = "prose",
	[TYPE_WHOLE] = "whole",
	[TYPE_QUANTITY] = "quantity",
	[TYPE_DATE] = "date",
	[TYPE_YESNO] = "yesno",
	[TYPE_WORD] = "word",
	[TYPE_COUNTRY] = "country",
	[TYPE_LANGUAGE] = "language",
	[TYPE_CURRENCY] = "currency",
	[TYPE_BARCODE] = "barcode",
	[TYPE_AMOUNT] = "amount",
	[TYPE_TRANSLATION] = "translation",
	[TYPE_REFERENCE] = "reference",
	[TYPE_IDENTITY] = "identity",
	[TYPE_GROUP] = "group",
};

/* Adds one part of the description by a prepared statement. */
typedef bool describe(struct query *query, const struct relations *relations,
	GError **error);

static bool
describe_kinds(struct query *query, const struct relations *relations,
	GError **error)
{
	const struct schema *schema = model_schema(relations->model);
	bool done = true;
	unsigned i;

	for (i = 0; done && i < schema->count; i++) {
		const struct kind *kind = &schema->kinds[i];

		if (kind->chapter == CHAPTER_PRIVATE)
			continue;
		query_bind_text(query, 1, kind->name);
		query_bind_whole(query, 2, kind->chapter);
		query_bind_text(query, 3, kind->title);
		query_bind_text(query, 4, kind->titles);
		query_bind_text(query, 5, kind->says);
		query_bind_whole(query, 6, kind->page ? 1 : 0);
		done = query_run(query, error);
	}
	return done;
}

/* How many fields there are, those of groups too. */
static int64_t
count_fields(const struct field *fields, unsigned count)
{
	int64_t all = count;
	unsigned i;

	for (i = 0; i < count; i++)
		all += count_fields(fields[i].fields.items,
			fields[i].fields.count);
	return all;
}

/*
 * Where a field stands among all fields of its kind, those of groups counted
 * in: columns and lists of a record are shown in this order.
 */
static int64_t
place_of(const struct field *field)
{
	const struct fields *around;

	if (field == NULL)
		return 0;
	around = field->parent == NULL ? &field->kind->fields :
		&field->parent->fields;
	return place_of(field->parent) + 1 +
		count_fields(around->items, field->index);
}

static bool
describe_relations(struct query *query, const struct relations *relations,
	GError **error)
{
	bool done = true;
	unsigned i;

	for (i = 0; done && i < relations->count; i++) {
		const struct relation *relation = relations->items[i];
		const struct field *field = relation->field;

		query_bind_text(query, 1, relation->name);
		query_bind_text(query, 2, relation->title);
		query_bind_text(query, 3, relation->says);
		query_bind_text(query, 4, relation->kind == NULL ? NULL :
			relation->kind->name);
		query_bind_text(query, 5, relation->owner == NULL ? NULL :
			relation->owner->name);
		query_bind_text(query, 6, field == NULL ? NULL : field->name);
		query_bind_whole(query, 7, place_of(field));
		query_bind_whole(query, 8, relation->key_count);
		query_bind_whole(query, 9, field == NULL ||
			field->show != SHOW_NO ? 1 : 0);
		done = query_run(query, error);
	}
	return done;
}

/* The table that a column leads to by itself or as the last of a few. */
static const char *
target_of(const struct relation *relation, unsigned column)
{
	unsigned i;

	for (i = 0; i < relation->link_count; i++) {
		const struct relation_link *link = &relation->links[i];

		if (link->from + link->count - 1 == column &&
			link->to != relation->owner &&
			link->to->form == RELATION_RECORDS)
			return link->to->name;
	}
	return NULL;
}

static void
bind_field(struct query *query, const struct field *field)
{
	query_bind_text(query, 7, field == NULL ? NULL : field->name);
	query_bind_text(query, 8, field == NULL ? NULL : types[field->type]);
	query_bind_text(query, 10, field == NULL || field->unit_count == 0 ?
		NULL : field->units[0]);
	query_bind_text(query, 11, field == NULL || field->vocabulary == NULL ?
		NULL : field->vocabulary->name);
	query_bind_whole(query, 12, place_of(field));
	query_bind_whole(query, 13, field == NULL ||
		field->show != SHOW_NO ? 1 : 0);
}

static bool
describe_columns(struct query *query, const struct relations *relations,
	GError **error)
{
	bool done = true;
	unsigned i, j;

	for (i = 0; i < relations->count; i++) {
		const struct relation *relation = relations->items[i];

		for (j = 0; done && j < relation->count; j++) {
			const struct column *column = &relation->columns[j];

			query_bind_text(query, 1, relation->name);
			query_bind_whole(query, 2, (int64_t)j + 1);
			query_bind_text(query, 3, column->name);
			query_bind_text(query, 4, column->title);
			query_bind_text(query, 5, column->says);
			query_bind_text(query, 6, part_name(column->part));
			bind_field(query, column->field);
			query_bind_text(query, 9, target_of(relation, j));
			done = query_run(query, error);
		}
	}
	return done;
}

static bool
describe_words(struct query *query, const struct relations *relations,
	GError **error)
{
	const struct schema *schema = model_schema(relations->model);
	bool done = true;
	unsigned i, j;

	for (i = 0; i < schema->vocabulary_count; i++) {
		const struct vocabulary *vocabulary = &schema->vocabularies[i];

		for (j = 0; done && j < vocabulary->count; j++) {
			const struct word *word = &vocabulary->words[j];

			query_bind_text(query, 1, vocabulary->name);
			query_bind_text(query, 2, word->word);
			query_bind_whole(query, 3, (int64_t)j + 1);
			query_bind_text(query, 4, word->title);
			query_bind_text(query, 5, word->says);
			done = query_run(query, error);
		}
	}
	return done;
}

/* The edition of the latest year, or NULL. */
static const struct record *
latest_edition(const struct model *model)
{
	struct record_list list = model_records_of(model, "edition");
	const struct record *latest = NULL;
	int64_t year, last = INT64_MIN;
	unsigned i;

	for (i = 0; i < list.count; i++) {
		year = model_whole(model, list.items[i]->values,
			NAME(EDITION_YEAR), INT64_MIN);
		if (latest == NULL || year > last) {
			latest = list.items[i];
			last = year;
		}
	}
	return latest;
}

static bool
describe_whole(struct query *query, const struct relations *relations,
	GError **error)
{
	const struct record *edition = latest_edition(relations->model);
	char *format = g_strdup_printf("%d", DATABASE_FORMAT);
	const char *const facts[][2] = {
		{"title", model_title(relations->model)},
		{"edition", edition == NULL ? NULL : edition->name},
		{"digest", model_digest(relations->model)},
		{"format", format},
	};
	bool done = true;
	size_t i;

	for (i = 0; done && i < G_N_ELEMENTS(facts); i++) {
		query_bind_text(query, 1, facts[i][0]);
		query_bind_text(query, 2, facts[i][1]);
		done = query_run(query, error);
	}
	g_free(format);
	return done;
}

static const struct {
	const char *insert;
	describe *function;
} descriptions[] = {
	{"INSERT INTO guide_kind VALUES (?, ?, ?, ?, ?, ?)", describe_kinds},
	{"INSERT INTO guide_relation VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?)",
		describe_relations},
	{"INSERT INTO guide_column VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, "
		"?, ?)", describe_columns},
	{"INSERT INTO guide_word VALUES (?, ?, ?, ?, ?)", describe_words},
	{"INSERT INTO meta VALUES (?, ?)", describe_whole},
};

bool
database_describe(struct store *store, const struct relations *relations,
	GError **error)
{
	bool done = store_run(store, tables, error);
	size_t i;

	for (i = 0; done && i < G_N_ELEMENTS(descriptions); i++) {
		struct query *query = store_prepare(store,
			descriptions[i].insert, error);

		done = query != NULL && descriptions[i].function(query,
			relations, error);
		query_free(query);
	}
	return done;
}
