/*
 * Words that nothing has: which word of the index was meant. The rule is that
 * of search/typo.h.
 */
#include "command/finding.h"

#include <string.h>

#include "search/typo.h"

/* How many records have what the full-text query asks for. */
static int64_t
count_match(struct store *store, const char *match)
{
	struct query *query = store_prepare(store, "SELECT count(*) FROM "
		"search WHERE search MATCH ?", NULL);
	int64_t count = 0;

	if (query != NULL) {
		query_bind_text(query, 1, match);
		if (query_step(query, NULL) == 1)
			count = query_whole(query, 0);
	}
	query_free(query);
	return count;
}

int64_t
finding_count(struct store *store, const char *token)
{
	char *match = g_strdup_printf("\"%s\"", token);
	int64_t count = count_match(store, match);

	g_free(match);
	return count;
}

/* Whether any record has the word, or one that begins so. */
static bool
is_known(struct store *store, const char *token)
{
	char *match = g_strdup_printf("\"%s\"%s", token,
		g_utf8_strlen(token, -1) > 1 ? " *" : "");
	int64_t count = count_match(store, match);

	g_free(match);
	return count > 0;
}

const char *
finding_nearest(struct store *store, const char *token, struct arena *arena)
{
	struct typo typo = search_typo_begin(token);
	struct query *query;

	if (typo.limit == 0 || !store_run(store, "CREATE VIRTUAL TABLE "
		"IF NOT EXISTS temp.search_term USING "
		"fts5vocab(main, search, row)", NULL))
		return NULL;
	query = store_prepare(store, "SELECT term, doc FROM temp.search_term",
		NULL);
	while (query != NULL && query_step(query, NULL) == 1) {
		const char *term = query_text(query, 0);

		if (search_typo_offer(&typo, term, query_whole(query, 1)))
			typo.best = arena_text(arena, term, strlen(term));
	}
	query_free(query);
	return typo.best;
}

GPtrArray *
finding_forgive(struct store *store, const GPtrArray *tokens,
	struct arena *arena)
{
	GPtrArray *others = g_ptr_array_new_with_free_func(g_free);
	bool changed = false;
	guint i;

	for (i = 0; i < tokens->len; i++) {
		const char *token = g_ptr_array_index(tokens, i);
		const char *meant = is_known(store, token) ? NULL :
			finding_nearest(store, token, arena);

		changed |= meant != NULL;
		if (meant != NULL)
			token = meant;
		if (!g_ptr_array_find_with_equal_func(others, token,
			g_str_equal, NULL))
			g_ptr_array_add(others, g_strdup(token));
	}
	if (changed)
		return others;
	g_ptr_array_free(others, TRUE);
	return NULL;
}
