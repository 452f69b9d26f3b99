/*
 * Postings against FTS5 itself: over the same records its vocabulary says
 * which term is where and how often, and the score worked out from postings by
 * the formula of BM25 (as the documentation of SQLite FTS5 defines bm25()) is
 * the one that it gives. Then the rule for misspellings.
 */
#include "search/postings.h"

#include <math.h>
#include <string.h>

#include "search/tokens.h"
#include "search/typo.h"
#include "store/store.h"
#include "world.h"

static const char corpus[] =
	"character:\n"
	"- id: amber-gull\n  names: {en: Amber Gull, el: Ο Γλάρος}\n"
	"  abbreviations: [AG, Gull]\n  text: Amber is not the colour.\n"
	"- id: gull\n  names: {en: Gull}\n  tags: [amber]\n"
	"- id: straw-man\n  names: {de: Straßenmann, da: Ærø}\n"
	"- id: quill\n  names: {en: Quill of the Gull}\n";

static struct world world;
static struct postings *postings;
static struct store *store;

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
fill(void)
{
	struct query *query = prepare("INSERT INTO search VALUES (?, ?, ?)");
	struct search_entry entry;
	unsigned i;
	int j;

	search_entry_init(&entry);
	for (i = 0; i < postings->count; i++) {
		search_describe(world.model, postings->documents[i].record,
			&entry);
		for (j = 0; j < SEARCH_COLUMN_COUNT; j++)
			query_bind_text(query, j + 1, entry.texts[j]->str);
		ck_assert(query_run(query, NULL));
	}
	search_entry_release(&entry);
	query_free(query);
}

static void
set_up(void)
{
	world = world_new(corpus);
	postings = postings_make(world.model);
	store = store_create(":memory:", NULL);
	ck_assert_ptr_nonnull(store);
	ck_assert(store_run(store, "CREATE VIRTUAL TABLE search USING fts5("
		"name, label, words, tokenize = '" SEARCH_TOKENIZER "');"
		"INSERT INTO search (search, rank) VALUES ('rank', "
		"'bm25(10, 8, 1)');"
		"CREATE VIRTUAL TABLE temp.place USING "
		"fts5vocab(main, search, instance);"
		"CREATE VIRTUAL TABLE temp.held USING "
		"fts5vocab(main, search, row);", NULL));
	fill();
}

static void
tear_down(void)
{
	store_close(store);
	postings_free(postings);
	world_free(&world);
}

static const struct posting *
find_posting(const char *text, unsigned document)
{
	const struct term *term = postings_find(postings, text);
	guint i;

	for (i = 0; term != NULL && i < term->postings->len; i++) {
		const struct posting *posting = &g_array_index(term->postings,
			struct posting, i);

		if (posting->document == document)
			return posting;
	}
	return NULL;
}

START_TEST(counts)
{
	struct query *query = prepare("SELECT term, doc, count(*), "
		"sum(col = 'name'), sum(col = 'label') FROM temp.place "
		"GROUP BY term, doc");
	int64_t words = 0;

	while (query_step(query, NULL) == 1) {
		const struct posting *posting = find_posting(
			query_text(query, 0),
			(unsigned)query_whole(query, 1) - 1);

		ck_assert_msg(posting != NULL, "%s", query_text(query, 0));
		ck_assert_int_eq(posting->hits[SEARCH_COLUMN_NAME],
			query_whole(query, 3));
		ck_assert_int_eq(posting->hits[SEARCH_COLUMN_LABEL],
			query_whole(query, 4));
		ck_assert_int_eq(posting->hits[SEARCH_COLUMN_WORDS],
			query_whole(query, 2) - query_whole(query, 3) -
			query_whole(query, 4));
		words += query_whole(query, 2);
	}
	query_free(query);
	ck_assert_int_eq((int64_t)postings->words, words);
	query = prepare("SELECT term, doc FROM temp.held");
	while (query_step(query, NULL) == 1)
		ck_assert_int_eq(term_records(postings_find(postings,
			query_text(query, 0))), query_whole(query, 1));
	query_free(query);
}
END_TEST

static double
score(const struct term *term, const struct posting *posting)
{
	double n = term_records(term), all = postings->count, hits = 0;
	double share = postings->documents[posting->document].words * all /
		(double)postings->words;
	double idf = log((all - n + .5) / (n + .5));
	unsigned i;

	for (i = 0; i < SEARCH_COLUMN_COUNT; i++)
		hits += posting->hits[i] * search_columns[i].weight;
	return -fmax(idf, 1e-6) * hits * 2.2 / (hits + 1.2 * (.25 + .75 *
		share));
}

START_TEST(scores)
{
	struct query *query = prepare("SELECT rowid, rank FROM search "
		"WHERE search MATCH ?");
	unsigned i, found = 0;

	for (i = 0; i < postings->term_count; i++) {
		const struct term *term = postings->terms[i];
		char *match = g_strdup_printf("\"%s\"", term->text);

		query_bind_text(query, 1, match);
		while (query_step(query, NULL) == 1) {
			const struct posting *posting = find_posting(
				term->text,
				(unsigned)query_whole(query, 0) - 1);

			found++;
			ck_assert_ptr_nonnull(posting);
			ck_assert_double_le(fabs(query_real(query, 1) -
				score(term, posting)), 1e-12);
		}
		query_begin(query);
		g_free(match);
	}
	ck_assert_uint_gt(found, 30);
	query_free(query);
}
END_TEST

/* Of "Amber Gull; Ο Γλάρος" and the plain forms after it. */
START_TEST(pieces)
{
	const struct term *term = postings_find(postings, "glaros");
	const struct posting_piece *first, *second;

	ck_assert_ptr_nonnull(term);
	ck_assert_uint_eq(term->pieces->len, 3);
	first = &g_array_index(term->pieces, struct posting_piece, 0);
	second = &g_array_index(term->pieces, struct posting_piece, 1);
	ck_assert_int_eq(first->column, SEARCH_COLUMN_NAME);
	ck_assert_uint_eq(first->place, 1);
	ck_assert_uint_eq(first->words, 4);
	ck_assert_uint_eq(second->place, 2);
	ck_assert(find_posting("gull", 1)->called);
	ck_assert(find_posting("gull", 1)->in_id);
	ck_assert(!find_posting("gull", 2)->in_id);
	ck_assert_ptr_nonnull(find_posting("aero", 3));
	ck_assert_ptr_null(postings_find(postings, "colors"));
}
END_TEST

static void
ck_typo(const char *token, const char *expected)
{
	static const struct {
		const char *term;
		int64_t records;
	} terms[] = {
		{"24b", 9}, {"amber", 2}, {"ember", 7}, {"umber", 7},
		{"straße", 1}, {"strasse", 1}, {"winder", 3},
	};
	struct typo typo = search_typo_begin(token);
	size_t i;

	for (i = 0; i < G_N_ELEMENTS(terms); i++)
		search_typo_offer(&typo, terms[i].term, terms[i].records);
	ck_assert_pstr_eq(typo.best, expected);
}

START_TEST(typos)
{
	ck_typo("omber", "ember");	/* most records, then the alphabet */
	ck_typo("ambr", "amber");
	ck_typo("abmer", "amber");
	ck_typo("ambxx", NULL);
	ck_typo("kinder", "winder");	/* the first letter */
	ck_typo("windrre", "winder");
	ck_typo("strase", "strasse");
	ck_typo("24c", NULL);
	ck_typo("am", NULL);
}
END_TEST

int
main(void)
{
	Suite *suite = suite_create("postings");
	TCase *index = tcase_create("index");
	TCase *rule = tcase_create("rule");

	tcase_add_checked_fixture(index, set_up, tear_down);
	tcase_add_test(index, counts);
	tcase_add_test(index, scores);
	tcase_add_test(index, pieces);
	suite_add_tcase(suite, index);
	tcase_add_test(rule, typos);
	suite_add_tcase(suite, rule);
	return suite_run(suite);
}
