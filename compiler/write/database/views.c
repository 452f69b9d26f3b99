/*
 * Views: joins that people ask for often. They name fields, each of which the
 * compiler knows from model/fields.h; a view whose columns a schema does not
 * export is left out.
 */
#include "write/database/inside.h"

static const struct {
	const char *name;
	const char *select;
} views[] = {
	{"cardbacks_of_character",
		"SELECT p.character, a.called AS character_called, "
		"p.cardback, c.called AS cardback_called, c.market, "
		"c.number, p.id AS pairing, p.seen, p.concluded\n"
		"FROM pairing AS p\n"
		"JOIN character AS a ON a.id = p.character\n"
		"JOIN cardback AS c ON c.id = p.cardback"},
	{"sightings_of_pairing",
		"SELECT p.id AS pairing, s.id AS specimen, s.doubted, "
		"g.id AS sighting, g.date, g.source\n"
		"FROM pairing AS p\n"
		"JOIN specimen AS s ON s.character = p.character "
		"AND s.cardback = p.cardback\n"
		"JOIN sighting AS g ON g.specimen = s.id"},
};

static bool
add_view(struct store *store, const char *name, const char *select,
	GError **error)
{
	GString *sql = g_string_new(NULL);
	struct query *query;
	bool done = true;

	query = store_prepare(store, select, NULL);
	if (query != NULL) {
		g_string_printf(sql, "CREATE VIEW %s AS\n%s;", name, select);
		done = database_run(store, sql, error);
	}
	query_free(query);
	g_string_free(sql, TRUE);
	return done;
}

/* The translations of every kind under one roof. */
static bool
add_translations(struct store *store, const struct relations *relations,
	GError **error)
{
	GString *select = g_string_new(NULL);
	bool done = true;
	unsigned i;

	for (i = 0; i < relations->count; i++) {
		const struct relation *relation = relations->items[i];

		if (relation->form != RELATION_TRANSLATIONS ||
			relation->kind == NULL)
			continue;
		if (select->len > 0)
			g_string_append(select, "\nUNION ALL\n");
		g_string_append(select, "SELECT ");
		store_append_text(select, relation->kind->name);
		g_string_append(select, " AS kind, ");
		store_append_name(select, relation->columns[0].name);
		g_string_append(select, " AS id, ");
		store_append_text(select, relation->field->name);
		g_string_append(select, " AS field, language, text FROM ");
		store_append_name(select, relation->name);
	}
	if (select->len > 0)
		done = add_view(store, "translation", select->str, error);
	g_string_free(select, TRUE);
	return done;
}

bool
database_views(struct store *store, const struct relations *relations,
	GError **error)
{
	bool done = true;
	size_t i;

	for (i = 0; done && i < G_N_ELEMENTS(views); i++)
		done = add_view(store, views[i].name, views[i].select, error);
	return done && add_translations(store, relations, error);
}
