/*
 * hangtab show --buyer: before you buy, from the finished guide.
 */
#include <stdio.h>
#include <string.h>

#include "base/csv.h"
#include "base/json.h"
#include "command/guide.h"
#include "command/show.h"

enum { HEADING, SENTENCE, PART, ABOUT_KIND, ABOUT_ID };

static void
print_text(const struct query *query, char **heading)
{
	const char *head = query_text(query, HEADING);

	if (g_strcmp0(*heading, head) != 0) {
		printf("%s%s\n", *heading == NULL ? "" : "\n", head);
		g_free(*heading);
		*heading = g_strdup(head);
	}
	fputs("  - ", stdout);
	guide_wrap(query_text(query, SENTENCE), 4, 4);
}

static void
print_json(const struct query *query)
{
	char *about = query_is_null(query, ABOUT_ID) ? NULL :
		g_strdup_printf("%s/%s", query_text(query, ABOUT_KIND),
			query_text(query, ABOUT_ID));

	fputs("{\"part\":", stdout);
	json_print(query_text(query, PART), stdout);
	fputs(",\"sentence\":", stdout);
	json_print(query_text(query, SENTENCE), stdout);
	if (about != NULL) {
		fputs(",\"about\":", stdout);
		json_print(about, stdout);
	}
	g_free(about);
	puts("}");
}

static void
print_csv(const struct query *query)
{
	const char *cells[] = {query_text(query, PART),
		query_text(query, SENTENCE), NULL};

	csv_print_row(cells, stdout);
}

int
show_buyer(struct store *store, const char *kind, const char *id,
	const char *key, enum format format)
{
	static const char *const heads[] = {"part", "sentence", NULL};
	GError *error = NULL;
	struct query *query = store_prepare(store, "SELECT heading, sentence, "
		"part, about_kind, about_id FROM buyer WHERE kind = ?1 AND "
		"id = ?2 AND item IS ?3 ORDER BY position", &error);
	char *heading = NULL;
	bool any = false;
	int step;

	if (query == NULL)
		return guide_failed(error);
	query_bind_text(query, 1, kind);
	query_bind_text(query, 2, id);
	query_bind_text(query, 3, key);
	if (format == FORMAT_CSV)
		csv_print_row(heads, stdout);
	for (step = query_step(query, &error); step == 1;
		step = query_step(query, &error)) {
		any = true;
		switch (format) {
		case FORMAT_TEXT:
		case FORMAT_SARIF:
		case FORMAT_ANNOTATIONS:
			print_text(query, &heading);
			break;
		case FORMAT_JSON:
			print_json(query);
			break;
		case FORMAT_CSV:
			print_csv(query);
			break;
		}
	}
	g_free(heading);
	query_free(query);
	if (step < 0)
		return guide_failed(error);
	if (any)
		return EXIT_DONE;
	fprintf(stderr, "hangtab: there is nothing on record that a buyer of "
		"%s/%s%s%s ought to know\n", kind, id, key == NULL ? "" : ".",
		key == NULL ? "" : key);
	return EXIT_FINDINGS;
}
