/*
 * Tokens, spellings of labels, and the weights of the index.
 *
 * Sources: what a token is, by SQLite's FTS5 itself (tokenizer unicode61 with
 * remove_diacritics 2), over every character there is. Scores: Robertson &
 * Zaragoza 2009, The Probabilistic Relevance Framework: BM25 and Beyond, as
 * the documentation of SQLite FTS5 defines bm25(); the figures were worked out
 * from that formula by another program, to all digits of SQLite 3.40.1.
 */
#include <math.h>
#include <string.h>

#include "search/entry.h"
#include "search/label.h"
#include "search/tokens.h"
#include "store/store.h"
#include "suite.h"

static struct store *store;

static void
set_up(void)
{
	GError *error = NULL;

	store = store_create(":memory:", &error);
	ck_assert_msg(store != NULL, "%s", error == NULL ? "" :
		error->message);
}

static void
tear_down(void)
{
	store_close(store);
}

static void
run(const char *sql)
{
	GError *error = NULL;

	ck_assert_msg(store_run(store, sql, &error), "%s", error == NULL ? "" :
		error->message);
}

static struct query *
prepare(const char *sql)
{
	GError *error = NULL;
	struct query *query = store_prepare(store, sql, &error);

	ck_assert_msg(query != NULL, "%s", error == NULL ? "" :
		error->message);
	return query;
}

static void
add_token(void *data, const char *token)
{
	g_string_append_printf(data, "%s|", token);
}

static void
ck_tokens(const char *text, const char *expected)
{
	GString *found = g_string_new(NULL);

	search_tokens(text, add_token, found);
	ck_assert_str_eq(found->str, expected);
	g_string_free(found, TRUE);
}

START_TEST(tokens)
{
	ck_tokens("", "");
	ck_tokens("18-back B", "18|back|b|");
	ck_tokens("18B, 18 back b.", "18b|18|back|b|");
	ck_tokens("Ångström café naïve", "angstrom|cafe|naive|");
	ck_tokens("cafe\xCC\x81", "cafe|");
	ck_tokens("\xCC\x81 x", "x|");
	ck_tokens("Έσπερ ΟΔΟΣ οδός", "έσπερ|οδοσ|οδόσ|");
	ck_tokens("a_b\tc\nd", "a|b|c|d|");
}
END_TEST

START_TEST(plain_forms)
{
	GString *out = g_string_new("x");

	search_append_plain(out, "Έσπερ and Söder, Ærø, STRASSE, Straße");
	ck_assert_str_eq(out->str, "x εσπερ esper aero strasse");
	g_string_free(out, TRUE);
}
END_TEST

/* Every character between two letters, a thousand to a document. */
static void
add_characters(struct query *insert, uint32_t from, uint32_t to)
{
	GString *text = g_string_new(NULL);
	uint32_t c;

	for (c = from; c < to; c++) {
		if (c == 0 || (c >= 0xD800 && c < 0xE000))
			continue;
		g_string_append(text, " x");
		g_string_append_unichar(text, c);
		g_string_append_c(text, 'y');
	}
	query_bind_whole(insert, 1, (int64_t)from + 1);
	query_bind_text(insert, 2, text->str);
	ck_assert(query_run(insert, NULL));
	g_string_free(text, TRUE);
}

static char *
ours(const char *text)
{
	GString *found = g_string_new(NULL);

	search_tokens(text, add_token, found);
	return g_string_free(found, FALSE);
}

START_TEST(every_character)
{
	struct query *insert, *text, *terms;
	uint32_t c;

	run("CREATE VIRTUAL TABLE t USING fts5(a, tokenize = '"
		SEARCH_TOKENIZER "');"
		"CREATE VIRTUAL TABLE terms USING fts5vocab(t, instance);"
		"CREATE TEMP TABLE found (doc, place, term);");
	insert = prepare("INSERT INTO t (rowid, a) VALUES (?, ?)");
	for (c = 0; c < 0x110000; c += 1024)
		add_characters(insert, c, c + 1024);
	query_free(insert);
	run("INSERT INTO found SELECT doc, \"offset\", term FROM terms;");
	text = prepare("SELECT rowid, a FROM t ORDER BY rowid");
	terms = prepare("SELECT group_concat(term, '|') || '|' FROM (SELECT "
		"term FROM found WHERE doc = ? ORDER BY place)");
	run("CREATE INDEX temp.by_doc ON found (doc, place);");
	while (query_step(text, NULL) == 1) {
		char *mine = ours(query_text(text, 1));

		query_bind_whole(terms, 1, query_whole(text, 0));
		if (*mine != '\0') {
			ck_assert_int_eq(query_step(terms, NULL), 1);
			ck_assert_str_eq(mine, query_text(terms, 0));
		}
		query_begin(terms);
		g_free(mine);
	}
	query_free(text);
	query_free(terms);
}
END_TEST

static void
ck_label(int64_t number, const char *label, const char *expected)
{
	GString *out = g_string_new(NULL);

	search_append_label(out, number, label);
	ck_assert_str_eq(out->str, expected);
	g_string_free(out, TRUE);
}

START_TEST(labels)
{
	ck_label(18, "18B", "18B; 18-back B; 18back B");
	ck_label(18, "18-B1", "18-B1; 18B1; 18-back B1; 18back B1");
	ck_label(18, "18", "18; 18-back; 18back");
	ck_label(18, "IIc", "IIc; 18-back IIc; 18back IIc");
	ck_label(1, "18B", "18B; 1-back 18B; 1back 18B");
}
END_TEST

static void
ck_split(const char *token, const char *expected)
{
	char **parts = search_split_label(token);
	char *joined = parts == NULL ? g_strdup("whole") :
		g_strjoinv("|", parts);

	ck_assert_str_eq(joined, expected);
	g_free(joined);
	g_strfreev(parts);
}

START_TEST(split_labels)
{
	ck_split("18backb", "18|back|b");
	ck_split("18back", "18|back");
	ck_split("18backs", "18|back");
	ck_split("backb1", "back|b1");
	ck_split("back", "whole");
	ck_split("backs", "whole");
	ck_split("background", "whole");
	ck_split("18b", "whole");
	ck_split("kedge", "whole");
}
END_TEST

struct score {
	const char *query;
	int64_t document;
	double plain;		/* all columns alike */
};

static const struct score scores[] = {
	{"red", 4, -0.59616557361074},
	{"red", 1, -0.479291387417267},
	{"border", 3, -0.346986994015626},
	{"border", 1, -0.281103387556963},
	/* In three of five: the weight of the word is held at 1e-6. */
	{"card", 2, -1.48314606741573e-06},
	{"card", 1, -1.21100917431193e-06},
	{"card", 3, -1.03125e-06},
	{"red OR border", 1, -0.76039477497423},
	{"red OR border", 4, -0.59616557361074},
	{"red OR border", 3, -0.346986994015626},
};

static void
add_documents(void)
{
	run("CREATE VIRTUAL TABLE d USING fts5(title, body, tokenize = '"
		SEARCH_TOKENIZER "', prefix = '2 3');"
		"INSERT INTO d VALUES "
		"('red card', 'printed red card with red border'),"
		"('blue card', 'blue card'),"
		"('green', 'green border card back'),"
		"('red', 'red red red'),"
		"('plain', 'uncut sheet of forty cards');"
		"INSERT INTO d (d) VALUES ('optimize');");
}

START_TEST(published_scores)
{
	struct query *query;
	size_t i;

	add_documents();
	query = prepare("SELECT rank FROM d WHERE d MATCH ? AND rowid = ?");
	for (i = 0; i < G_N_ELEMENTS(scores); i++) {
		query_bind_text(query, 1, scores[i].query);
		query_bind_whole(query, 2, scores[i].document);
		ck_assert_int_eq(query_step(query, NULL), 1);
		ck_assert_double_le(fabs(query_real(query, 0) /
			scores[i].plain - 1), 1e-13);
		query_begin(query);
	}
	query_free(query);
}
END_TEST

/* Weights are kept by the index, and obeyed by ORDER BY rank. */
START_TEST(kept_weights)
{
	static const double expected[] = {-0.689005200527448,
		-0.651555040107581};
	static const int64_t rows[] = {4, 1};
	struct query *query;
	size_t i;

	add_documents();
	run("INSERT INTO d (d, rank) VALUES ('rank', 'bm25(10, 1)');");
	query = prepare("SELECT rowid, rank FROM d WHERE d MATCH 'red' "
		"ORDER BY rank, rowid");
	for (i = 0; i < G_N_ELEMENTS(rows); i++) {
		ck_assert_int_eq(query_step(query, NULL), 1);
		ck_assert_int_eq(query_whole(query, 0), rows[i]);
		ck_assert_double_le(fabs(query_real(query, 1) / expected[i] -
			1), 1e-13);
	}
	ck_assert_int_eq(query_step(query, NULL), 0);
	query_free(query);
}
END_TEST

int
main(void)
{
	Suite *suite = suite_create("search");
	TCase *words = tcase_create("words");
	TCase *stored = tcase_create("stored");

	tcase_add_test(words, tokens);
	tcase_add_test(words, plain_forms);
	tcase_add_test(words, labels);
	tcase_add_test(words, split_labels);
	suite_add_tcase(suite, words);
	tcase_set_timeout(stored, 120);
	tcase_add_checked_fixture(stored, set_up, tear_down);
	tcase_add_test(stored, every_character);
	tcase_add_test(stored, published_scores);
	tcase_add_test(stored, kept_weights);
	suite_add_tcase(suite, stored);
	return suite_run(suite);
}
