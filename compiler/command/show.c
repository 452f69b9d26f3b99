/*
 * hangtab show: one record, readably, from the finished guide.
 */
#include <inttypes.h>
#include <stdio.h>
#include <string.h>

#include "base/csv.h"
#include "base/json.h"
#include "command/guide.h"
#include "command/show.h"
#include "command/showing.h"
#include "shape/nearest.h"

static gboolean buyer;

const GOptionEntry show_entries[] = {
	{"buyer", 0, 0, G_OPTION_ARG_NONE, &buyer,
		"what to know and to ask before buying it", NULL},
	{0},
};

/* Ids that were asked for and found: one, or several of different kinds. */
struct asked {
	char *kind;		/* as written, or NULL */
	char *id;
	char *key;		/* or NULL */
	GPtrArray *kinds;	/* of the records found, and their ids */
	GPtrArray *ids;
	char *note;		/* what became of the id, or NULL */
};

static void
split(const char *word, struct asked *asked)
{
	const char *slash = strchr(word, '/');
	const char *id = slash == NULL ? word : slash + 1;
	const char *dot = strchr(id, '.');

	asked->kind = slash == NULL ? NULL :
		g_strndup(word, (gsize)(slash - word));
	asked->id = dot == NULL ? g_strdup(id) :
		g_strndup(id, (gsize)(dot - id));
	asked->key = dot == NULL ? NULL : g_strdup(dot + 1);
	asked->kinds = g_ptr_array_new();
	asked->ids = g_ptr_array_new();
}

static void
release_asked(struct asked *asked)
{
	g_ptr_array_free(asked->kinds, TRUE);
	g_ptr_array_free(asked->ids, TRUE);
	g_free(asked->kind);
	g_free(asked->id);
	g_free(asked->key);
	g_free(asked->note);
}

static gpointer
keep(struct arena *arena, const char *text)
{
	return arena_text(arena, text, strlen(text));
}

/* Adds what the query finds for the id and, if one is given, the kind. */
static bool
look_for(struct store *store, struct asked *asked, const char *sql,
	struct arena *arena, GError **error)
{
	struct query *query = store_prepare(store, sql, error);
	int step = -1;

	if (query != NULL) {
		query_bind_text(query, 1, asked->id);
		query_bind_text(query, 2, asked->kind);
		for (step = query_step(query, error); step == 1;
			step = query_step(query, error)) {
			g_ptr_array_add(asked->kinds, keep(arena,
				query_text(query, 0)));
			g_ptr_array_add(asked->ids, keep(arena,
				query_text(query, 1)));
		}
	}
	query_free(query);
	return step == 0;
}

/* What the guide says of an id that is no longer used as it was. */
static void
note_redirect(struct store *store, struct asked *asked)
{
	const char *kind = g_ptr_array_index(asked->kinds, 0);
	struct query *query = store_prepare(store, "SELECT why, reason, "
		"to_kind, to_id FROM redirect WHERE kind = ?1 AND was = ?2",
		NULL);

	if (query == NULL)
		return;
	query_bind_text(query, 1, kind);
	query_bind_text(query, 2, asked->id);
	if (query_step(query, NULL) == 1) {
		GString *note = g_string_new(NULL);

		g_string_printf(note, "%s/%s was %s", kind, asked->id,
			query_text(query, 0));
		if (!query_is_null(query, 3))
			g_string_append_printf(note, "; read %s/%s",
				query_text(query, 2), query_text(query, 3));
		if (!query_is_null(query, 1))
			g_string_append_printf(note, ": %s", query_text(query,
				1));
		asked->note = g_string_free(note, FALSE);
	}
	query_free(query);
}

/* A current id, or else a former one. */
static bool
resolve(struct store *store, struct asked *asked, struct arena *arena,
	GError **error)
{
	bool done = look_for(store, asked, "SELECT kind, id FROM record "
		"WHERE id = ?1 AND (?2 IS NULL OR kind = ?2) ORDER BY kind",
		arena, error);

	if (done && asked->ids->len == 0)
		done = look_for(store, asked, "SELECT to_kind, to_id "
			"FROM redirect WHERE was = ?1 AND (?2 IS NULL OR "
			"kind = ?2) AND to_id IS NOT NULL ORDER BY kind",
			arena, error);
	if (done && asked->ids->len == 1)
		note_redirect(store, asked);
	return done;
}

/* Offers all that one column of a query gives; the best, or NULL. */
static const char *
find_nearest(struct store *store, const char *sql, const char *wanted,
	const char *kind, struct arena *arena)
{
	struct nearest nearest = nearest_to(wanted);
	struct query *query = store_prepare(store, sql, NULL);

	if (query != NULL)
		query_bind_text(query, 1, kind);
	while (query != NULL && query_step(query, NULL) == 1)
		nearest_offer(&nearest, keep(arena, query_text(query, 0)));
	query_free(query);
	return nearest.alike != NULL ? nearest.alike : nearest.best;
}

static int
say_missing(struct store *store, const struct asked *asked,
	struct arena *arena)
{
	const char *near;

	fprintf(stderr, "hangtab: there is no record \"%s%s%s\"\n",
		asked->kind == NULL ? "" : asked->kind,
		asked->kind == NULL ? "" : "/", asked->id);
	if (asked->kind != NULL) {
		near = find_nearest(store, "SELECT kind FROM guide_kind "
			"WHERE ?1 IS ?1", asked->kind, NULL, arena);
		if (near == NULL || strcmp(near, asked->kind) != 0) {
			fprintf(stderr, "  there is no kind \"%s\"",
				asked->kind);
			if (near != NULL)
				fprintf(stderr, "; did you mean \"%s\"?",
					near);
			fputc('\n', stderr);
			return EXIT_FINDINGS;
		}
	}
	near = find_nearest(store, asked->kind == NULL ?
		"SELECT DISTINCT id FROM record WHERE ?1 IS NULL" :
		"SELECT id FROM record WHERE kind = ?1", asked->id,
		asked->kind, arena);
	if (near != NULL)
		fprintf(stderr, "  did you mean \"%s%s%s\"?\n",
			asked->kind == NULL ? "" : asked->kind,
			asked->kind == NULL ? "" : "/", near);
	else
		fprintf(stderr, "  `hangtab find %s` looks for it in names "
			"and texts\n", asked->id);
	return EXIT_FINDINGS;
}

static int
say_several(const struct asked *asked)
{
	guint i;

	fprintf(stderr, "hangtab: several records have the id \"%s\"; name "
		"one with its kind\n", asked->id);
	for (i = 0; i < asked->ids->len; i++)
		fprintf(stderr, "  %s/%s\n",
			(char *)g_ptr_array_index(asked->kinds, i),
			(char *)g_ptr_array_index(asked->ids, i));
	return EXIT_FINDINGS;
}

/* The one item of the record that has the key, or NULL. */
static struct shown *
find_item(const struct showing *showing, const char *key)
{
	guint i, j;

	for (i = 0; i < showing->fields->parts->len; i++) {
		struct shown *list = g_ptr_array_index(showing->fields->parts,
			i);

		for (j = 0; list->form == SHOWN_LIST && j < list->parts->len;
			j++) {
			struct shown *item = g_ptr_array_index(list->parts, j);
			struct shown *first;

			if (item->form != SHOWN_GROUP || item->parts->len == 0)
				continue;
			first = g_ptr_array_index(item->parts, 0);
			if (strcmp(first->field, "key") == 0 &&
				strcmp(first->code, key) == 0)
				return item;
		}
	}
	return NULL;
}

static int
print(const struct asked *asked, struct showing *showing, enum format format)
{
	struct shown *whole = showing->fields, *item = NULL;

	if (asked->key != NULL) {
		item = find_item(showing, asked->key);
		if (item == NULL) {
			fprintf(stderr, "hangtab: %s/%s has no item \"%s\"\n",
				showing->kind, showing->id, asked->key);
			return EXIT_FINDINGS;
		}
		showing->fields = item;
		g_array_set_size(showing->pointing, 0);
	}
	switch (format) {
	case FORMAT_SARIF:
	case FORMAT_ANNOTATIONS:
	case FORMAT_TEXT:
		if (asked->note != NULL) {
			guide_wrap(asked->note, 0, 2);
			putchar('\n');
		}
		show_text(showing);
		break;
	case FORMAT_JSON:
		show_json(showing);
		break;
	case FORMAT_CSV:
		show_csv(showing);
		break;
	}
	showing->fields = whole;
	return EXIT_DONE;
}

/* Shows the one record that was found. */
static int
show_found(struct store *store, const struct asked *asked,
	enum format format, struct arena *arena)
{
	const char *kind = g_ptr_array_index(asked->kinds, 0);
	const char *id = g_ptr_array_index(asked->ids, 0);
	struct showing showing = {0};
	GError *error = NULL;
	int status;

	if (buyer)
		return show_buyer(store, kind, id, asked->key, format);
	if (showing_read(store, kind, id, arena, &showing, &error))
		status = print(asked, &showing, format);
	else
		status = guide_failed(error);
	showing_release(&showing);
	return status;
}

static int
show(struct store *store, const char *word, enum format format,
	struct arena *arena)
{
	struct asked asked = {0};
	GError *error = NULL;
	int status = EXIT_DONE;

	split(word, &asked);
	if (!resolve(store, &asked, arena, &error))
		status = guide_failed(error);
	else if (asked.ids->len == 0)
		status = say_missing(store, &asked, arena);
	else if (asked.ids->len > 1)
		status = say_several(&asked);
	else
		status = show_found(store, &asked, format, arena);
	release_asked(&asked);
	return status;
}

int
command_show(const struct options *options, char **words)
{
	struct store *store;
	struct arena *arena;
	int status = EXIT_DONE;

	if (words[0] == NULL || words[1] != NULL)
		return command_usage("show takes the id of one record, such "
			"as character/ID");
	if (!g_utf8_validate(words[0], -1, NULL))
		return command_usage("an id is lower-case letters, digits "
			"and hyphens");
	store = guide_open(options, &status);
	if (store == NULL)
		return status;
	arena = arena_new();
	status = show(store, words[0], options->format, arena);
	arena_free(arena);
	store_close(store);
	return status;
}
