/*
 * Queries of the full-text index, pass by pass from the narrowest to the
 * widest; within a pass by BM25 with the weights kept in the index, rounded to
 * 1e-9, then by row. A record counts where it is found first. Those found by
 * name are put in order once more: the fewer words of the name were not asked
 * for, the better, then the more there is in the guide that refers to it. Of
 * labels the one that a record goes by stands before that of another scheme; a
 * label or an id that was asked for whole counts as a name. The site's own
 * search (site/search.js) does the same; tests/browser holds one against the
 * other.
 */
#include "command/finding.h"

#include <string.h>

#include "search/entry.h"
#include "search/label.h"
#include "search/tokens.h"

/* A pass: which column it looks into (-1: all), whether beginnings count. */
struct pass {
	enum matched matched;
	int column;
	bool begun;
};

static const struct pass passes[] = {
	{MATCHED_NAME, SEARCH_COLUMN_NAME, false},
	{MATCHED_LABEL, SEARCH_COLUMN_LABEL, false},
	{MATCHED_BEGUN, SEARCH_COLUMN_NAME, true},
	{MATCHED_WORDS, -1, false},
	{MATCHED_WORDS_BEGUN, -1, true},
};

const char *
finding_place(enum matched matched)
{
	static const char *const places[] = {
		[MATCHED_NAME] = "name",
		[MATCHED_LABEL] = "label",
		[MATCHED_BEGUN] = "name",
		[MATCHED_WORDS] = "words",
		[MATCHED_WORDS_BEGUN] = "words",
	};

	return places[matched];
}

static void
add_once(GPtrArray *tokens, const char *token)
{
	if (!g_ptr_array_find_with_equal_func(tokens, token, g_str_equal,
		NULL))
		g_ptr_array_add(tokens, g_strdup(token));
}

static void
add_token(void *data, const char *token)
{
	GString *plain = g_string_new(NULL);
	char **parts;
	size_t i;

	search_append_folded(plain, token);
	parts = search_split_label(plain->str);
	if (parts == NULL && plain->len > 0)
		add_once(data, plain->str);
	for (i = 0; parts != NULL && parts[i] != NULL; i++)
		add_once(data, parts[i]);
	g_strfreev(parts);
	g_string_free(plain, TRUE);
}

/*
 * The query in the index's own language. Tokens hold letters and digits alone,
 * so that quotes are enough. One letter begins too many words to be of use.
 */
static char *
make_match(const GPtrArray *tokens, const struct pass *pass)
{
	GString *match = g_string_new(NULL);
	guint i;

	if (pass->column >= 0)
		g_string_append_printf(match, "{%s} : ",
			search_columns[pass->column].name);
	g_string_append_c(match, '(');
	for (i = 0; i < tokens->len; i++) {
		const char *token = g_ptr_array_index(tokens, i);

		g_string_append_printf(match, "%s\"%s\"%s",
			i == 0 ? "" : " AND ", token, pass->begun &&
			g_utf8_strlen(token, -1) > 1 ? " *" : "");
	}
	g_string_append_c(match, ')');
	return g_string_free(match, FALSE);
}

/* A search while it runs. */
struct search {
	struct found *found;
	GHashTable *rows;	/* those that were found */
	struct arena *arena;
	enum matched matched;	/* of the pass at hand */
};

/*
 * How many words the shortest name has that fits as the pass demands; much
 * where none has all that was asked for.
 */
static unsigned
count_spare(const GPtrArray *tokens, const char *names, bool begun)
{
	char **pieces = g_strsplit(names, "; ", 0);
	unsigned least = G_MAXUINT;
	size_t i, j;

	for (i = 0; pieces[i] != NULL; i++) {
		char *joined = search_joined(pieces[i]);
		unsigned count = 0;

		for (j = 1; joined[j] != '\0'; j++)
			count += joined[j] == ' ';
		for (j = 0; j < tokens->len; j++) {
			const char *token = g_ptr_array_index(tokens, j);
			char *wanted = g_strdup_printf(" %s%s", token,
				begun && g_utf8_strlen(token, -1) > 1 ? "" :
				" ");

			if (strstr(joined, wanted) == NULL)
				count = G_MAXUINT / 2;
			g_free(wanted);
		}
		least = MIN(least, count);
		g_free(joined);
	}
	g_strfreev(pieces);
	return least;
}

/* How many of the words asked for are in the text, as whole words. */
static unsigned
count_whole(const GPtrArray *tokens, const char *joined)
{
	unsigned count = 0;
	guint i;

	for (i = 0; i < tokens->len; i++) {
		char *wanted = g_strdup_printf(" %s ",
			(char *)g_ptr_array_index(tokens, i));

		count += strstr(joined, wanted) != NULL;
		g_free(wanted);
	}
	return count;
}

/* Whether a text has all the words; `exact` is set where it has no others. */
static bool
has_all(const GPtrArray *tokens, const char *text, bool *exact)
{
	char *joined = search_joined(text);
	bool all = count_whole(tokens, joined) == tokens->len;
	unsigned words = 0;
	size_t i;

	for (i = 1; joined[i] != '\0'; i++)
		words += joined[i] == ' ';
	*exact = all && words == tokens->len;
	g_free(joined);
	return all;
}

/* Which label has all the words, from 0: the first is the record's own. */
static unsigned
place_label(const GPtrArray *tokens, const char *labels, bool *exact)
{
	char **pieces = g_strsplit(labels, "; ", 0);
	unsigned i;

	for (i = 0; pieces[i] != NULL; i++)
		if (has_all(tokens, pieces[i], exact))
			break;
	g_strfreev(pieces);
	return i;
}

/* Whether what a record is called and its id show all that was asked for. */
static bool
is_called(const GPtrArray *tokens, struct hit *hit)
{
	char *text = g_strdup_printf("%s %s", hit->called, hit->id);
	bool all = has_all(tokens, text, &hit->exact);

	has_all(tokens, hit->id, &hit->exact);
	g_free(text);
	return all;
}

static const char *
keep_text(struct arena *arena, const char *text)
{
	return arena_text(arena, text, strlen(text));
}

static void
add_hit(struct search *search, const struct query *query)
{
	struct hit hit = {
		.row = query_whole(query, 0),
		.pointed = query_whole(query, 4),
		.matched = search->matched,
	};
	gint64 *row;

	if (g_hash_table_contains(search->rows, &hit.row))
		return;
	hit.kind = keep_text(search->arena, query_text(query, 1));
	hit.id = keep_text(search->arena, query_text(query, 2));
	hit.called = keep_text(search->arena, query_text(query, 3));
	if (hit.matched == MATCHED_NAME || hit.matched == MATCHED_BEGUN)
		hit.spare = count_spare(search->found->tokens,
			query_text(query, 5), hit.matched == MATCHED_BEGUN);
	else if (hit.matched == MATCHED_LABEL)
		hit.spare = place_label(search->found->tokens,
			query_text(query, 6), &hit.exact);
	else
		hit.spare = !is_called(search->found->tokens, &hit);
	row = g_new(gint64, 1);
	*row = hit.row;
	g_hash_table_add(search->rows, row);
	g_array_append_val(search->found->hits, hit);
}

/* A label or an id, asked for whole, is as good as a name. */
static enum matched
rank_of(const struct hit *hit)
{
	return hit->exact ? MATCHED_NAME : hit->matched;
}

/* What refers to a record counts for names, and for labels as good as one. */
static int64_t
pointed_of(const struct hit *hit)
{
	enum matched rank = rank_of(hit);

	return hit->matched <= MATCHED_BEGUN && (rank == MATCHED_NAME ||
		rank == MATCHED_BEGUN) ? hit->pointed : 0;
}

/*
 * As is said above; where that does not tell, the order is that found, which
 * a stable sort keeps.
 */
static int
compare_hits(gconstpointer a, gconstpointer b)
{
	const struct hit *left = a, *right = b;

	if (rank_of(left) != rank_of(right))
		return rank_of(left) < rank_of(right) ? -1 : 1;
	if (left->spare != right->spare)
		return left->spare < right->spare ? -1 : 1;
	if (pointed_of(left) != pointed_of(right))
		return pointed_of(left) > pointed_of(right) ? -1 : 1;
	return 0;
}

static bool
run_pass(struct search *search, struct store *store, const struct pass *pass,
	const char *kind, GError **error)
{
	char *match = make_match(search->found->tokens, pass);
	struct query *query = store_prepare(store, "SELECT search.rowid, "
		"search.kind, search.id, record.called, record.pointed, "
		"search.name, search.label FROM search "
		"JOIN record ON record.kind = search.kind "
		"AND record.id = search.id "
		"WHERE search MATCH ?1 AND (?2 IS NULL OR search.kind = ?2) "
		"ORDER BY round(rank, 9), search.rowid", error);
	int step = -1;

	search->matched = pass->matched;
	if (query != NULL) {
		query_bind_text(query, 1, match);
		query_bind_text(query, 2, kind);
		for (step = query_step(query, error); step == 1;
			step = query_step(query, error))
			add_hit(search, query);
	}
	query_free(query);
	g_free(match);
	return step == 0;
}

static bool
run_passes(struct found *found, struct store *store, const char *kind,
	struct arena *arena, GError **error)
{
	struct search search = {.found = found, .arena = arena};
	bool done = true;
	size_t i;

	search.rows = g_hash_table_new_full(g_int64_hash, g_int64_equal,
		g_free, NULL);
	for (i = 0; done && found->tokens->len > 0 &&
		i < G_N_ELEMENTS(passes); i++) {
		/* Words begun anywhere: only where nothing else was found. */
		if (passes[i].matched == MATCHED_WORDS_BEGUN &&
			found->hits->len > 0)
			break;
		done = run_pass(&search, store, &passes[i], kind, error);
	}
	g_array_sort(found->hits, compare_hits);
	g_hash_table_destroy(search.rows);
	return done;
}

/* Once more with the words meant; what was asked for stays if that fails. */
static bool
run_instead(struct found *found, struct store *store, const char *kind,
	struct arena *arena, GError **error)
{
	GPtrArray *asked = found->tokens;
	GPtrArray *meant = finding_forgive(store, asked, arena);
	bool done;

	if (meant == NULL)
		return true;
	found->tokens = meant;
	done = run_passes(found, store, kind, arena, error);
	found->instead = done && found->hits->len > 0;
	if (!found->instead)
		found->tokens = asked;
	g_ptr_array_free(found->instead ? asked : meant, TRUE);
	return done;
}

bool
finding_run(struct store *store, char *const *words, const char *kind,
	struct arena *arena, struct found *found, GError **error)
{
	char *text = g_strjoinv(" ", (char **)(uintptr_t)words);
	char *valid = g_utf8_make_valid(text, -1);
	bool done;

	found->hits = g_array_new(FALSE, FALSE, sizeof(struct hit));
	found->tokens = g_ptr_array_new_with_free_func(g_free);
	found->instead = false;
	search_tokens(valid, add_token, found->tokens);
	done = run_passes(found, store, kind, arena, error);
	if (done && found->hits->len == 0)
		done = run_instead(found, store, kind, arena, error);
	g_free(valid);
	g_free(text);
	return done;
}

void
finding_release(struct found *found)
{
	g_array_free(found->hits, TRUE);
	g_ptr_array_free(found->tokens, TRUE);
}
