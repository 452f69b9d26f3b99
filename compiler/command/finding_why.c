/*
 * Why a record was found: the piece of its texts that has the words, where
 * its name does not show them.
 */
#include "command/finding.h"

#include <string.h>

#include "search/entry.h"
#include "search/tokens.h"

enum { LONGEST = 68 };	/* characters, so that it fits a line */

/* How many of the tokens a text in joined form has, or begins words with. */
static unsigned
count_tokens(const char *joined, const GPtrArray *tokens)
{
	unsigned count = 0;
	guint i;

	for (i = 0; i < tokens->len; i++) {
		char *wanted = g_strdup_printf(" %s",
			(char *)g_ptr_array_index(tokens, i));

		count += strstr(joined, wanted) != NULL;
		g_free(wanted);
	}
	return count;
}

static unsigned
count_in(const char *text, const GPtrArray *tokens)
{
	char *joined = search_joined(text);
	unsigned count = count_tokens(joined, tokens);

	g_free(joined);
	return count;
}

/*
 * A stretch of a long text around the first word that was asked for. The words
 * of a text are taken as they stand between blanks.
 */
static char *
cut_piece(const char *piece, const GPtrArray *tokens)
{
	char **words = g_strsplit_set(piece, " \n\t", 0);
	GString *out = g_string_new(NULL);
	size_t count = g_strv_length(words), at = 0, from;

	while (at < count && count_in(words[at], tokens) == 0)
		at++;
	from = at > 4 && at < count ? at - 4 : 0;
	if (from > 0)
		g_string_append(out, "… ");
	for (at = from; at < count; at++) {
		if (g_utf8_strlen(out->str, -1) +
			g_utf8_strlen(words[at], -1) > LONGEST)
			break;
		if (*words[at] != '\0')
			g_string_append_printf(out, "%s ", words[at]);
	}
	g_string_append(out, at < count ? "…" : "");
	g_strfreev(words);
	return g_strchomp(g_string_free(out, FALSE));
}

/* The piece of a text with most of the tokens, if these are more than *most. */
static void
choose_piece(const char *text, const GPtrArray *tokens, unsigned *most,
	char **best)
{
	char **pieces = g_strsplit(text, "; ", 0);
	size_t i;

	for (i = 0; pieces[i] != NULL; i++) {
		unsigned count = count_in(pieces[i], tokens);

		if (count <= *most)
			continue;
		*most = count;
		g_free(*best);
		*best = cut_piece(pieces[i], tokens);
	}
	g_strfreev(pieces);
}

const char *
finding_why(struct store *store, const struct found *found,
	const struct hit *hit, struct arena *arena)
{
	unsigned most = count_in(hit->called, found->tokens);
	struct query *query;
	char *best = NULL;
	const char *why = NULL;
	int i;

	if (most == found->tokens->len)
		return NULL;
	query = store_prepare(store, "SELECT name, label, words FROM search "
		"WHERE rowid = ?", NULL);
	if (query == NULL)
		return NULL;
	query_bind_whole(query, 1, hit->row);
	if (query_step(query, NULL) == 1)
		for (i = 0; i < SEARCH_COLUMN_COUNT; i++)
			choose_piece(query_text(query, i), found->tokens,
				&most, &best);
	if (best != NULL)
		why = arena_text(arena, best, strlen(best));
	query_free(query);
	g_free(best);
	return why;
}
