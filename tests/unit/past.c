/*
 * The ids of an earlier edition: the quick look at lines must find what YAML
 * finds, however a file is written.
 */
#include "read/past.h"

#include <string.h>

#include "read/corpus.h"
#include "suite.h"

static struct arena *arena;
static struct sources *sources;
static struct diags *diags;

static void
set_up(void)
{
	arena = arena_new();
	sources = sources_new();
	diags = diags_new(sources);
}

static void
tear_down(void)
{
	diags_free(diags);
	sources_free(sources);
	arena_free(arena);
}

static void
add(GPtrArray *lines, const char *kind, const char *id, const char *later,
	bool retired)
{
	g_ptr_array_add(lines, arena_print(arena, "%s %s %s%s", kind, id,
		later == NULL ? "now" : later, retired ? " retired" : ""));
}

static int
compare(gconstpointer a, gconstpointer b)
{
	return strcmp(*(const char *const *)a, *(const char *const *)b);
}

/* What read_past() finds, a line an id, sorted. */
static GPtrArray *
past_lines(const char *folder)
{
	struct past past = read_past(folder, sources, arena, diags);
	GPtrArray *lines = g_ptr_array_new();
	size_t i;

	for (i = 0; i < past.count; i++) {
		const struct past_id *id = &past.ids[i];
		const struct source *source = sources_get(sources,
			id->span.file);

		add(lines, id->kind, id->id, id->later, id->retired);
		if (source != NULL)
			ck_assert_ptr_nonnull(g_strstr_len(source->bytes +
				id->span.from, id->span.to - id->span.from,
				id->id));
	}
	g_ptr_array_sort(lines, compare);
	return lines;
}

static void
add_record(GPtrArray *lines, const struct raw_record *raw)
{
	const struct node *id = node_get(raw->node, "id");
	const struct node *former = node_get(raw->node, "formerly");
	uint32_t i;

	if (raw->essay_id != NULL) {
		add(lines, raw->kind, raw->essay_id, NULL, false);
		return;
	}
	ck_assert_ptr_nonnull(id);
	add(lines, raw->kind, id->text, NULL,
		node_get(raw->node, "retired") != NULL);
	for (i = 0; former != NULL && i < former->count; i++)
		add(lines, raw->kind, former->items[i]->text, id->text, false);
}

/* The same by reading all of the edition. */
static GPtrArray *
whole_lines(const char *folder)
{
	struct raw_corpus *raw = read_corpus(folder, sources, arena, diags);
	GPtrArray *lines = g_ptr_array_new();
	size_t i;

	for (i = 0; i < raw->count; i++)
		add_record(lines, &raw->records[i]);
	g_ptr_array_sort(lines, compare);
	return lines;
}

static void
hold(const char *corpus, const char *edition, guint least)
{
	GPtrArray *quick = past_lines(corpus), *whole = whole_lines(edition);
	guint i;

	ck_assert_uint_eq(quick->len, whole->len);
	ck_assert_uint_ge(quick->len, least);
	for (i = 0; i < quick->len; i++)
		ck_assert_str_eq(g_ptr_array_index(quick, i),
			g_ptr_array_index(whole, i));
	g_ptr_array_free(quick, TRUE);
	g_ptr_array_free(whole, TRUE);
}

START_TEST(demo)
{
	hold("corpus", "corpus/past/2025", 3000);
}
END_TEST

static const char *const files[] = {
	"id: one\nname: x\n",
	"# c\n\nname: x\nid: two # c\nformerly: [old-two, older]\n"
	"retired:\n  reason: x\n",
	"- id: three\n  name: x\n- name: x\n  id: four\n  nested:\n"
	"    id: no\n    formerly: [no]\n  formerly: [a]\n",
	"- {id: five, name: x}\n- {id: six,\n   name: y}\n",
	"- {name: x, id: seven}\n- {id: eight, formerly: [b]}\n",
	"-   id: nine\n    name: >-\n      id: no\n    text: |\n      - id: no\n"
	"  # c\n-\n  id: ten\n",
	"\xEF\xBB\xBFid: \"eleven\"\r\nname: x\r\n",
	"id: twelve\r\nname: x\r\nformerly:\r\n  - c\r\n  - 'd'\r\n",
	"{id: thirteen, retired: {reason: x}}\n",
	"---\n- id: fourteen\n...\n",
	"'id': fifteen\n",
	"- id: sixteen\n  formerly: []\n  retired: {reason: x}\n",
	"name:\n  id: no\nid: seventeen",
	"- id: eighteen\n  formerly: [e, 'f']\n",
	"- id: nineteen\n  marks: [a, b,\n  formerly, c]\n",
};

START_TEST(spellings)
{
	char *folder = scratch_new();
	size_t i;

	ck_assert_int_eq(g_mkdir_with_parents("c/past/2024/term", 0777), 0);
	ck_assert_int_eq(g_mkdir_with_parents("c/past/999/term", 0777), 0);
	for (i = 0; i < G_N_ELEMENTS(files); i++) {
		char *path = g_strdup_printf("c/past/2024/term/%zu.yaml", i);

		ck_assert(g_file_set_contents(path, files[i], -1, NULL));
		g_free(path);
	}
	ck_assert(g_file_set_contents("c/past/2024/mixed.yaml",
		"term:\n  - id: mixed\n", -1, NULL));
	hold("c", "c/past/2024", 20);
	ck_assert_str_eq(read_past("c", sources, arena, diags).edition, "2024");
	ck_assert_uint_eq(diags_count(diags, SEVERITY_ERROR), 0);
	scratch_free(folder);
}
END_TEST

int
main(void)
{
	Suite *suite = suite_create("past");
	TCase *tests = tcase_create("past");

	tcase_add_checked_fixture(tests, set_up, tear_down);
	tcase_add_test(tests, demo);
	tcase_add_test(tests, spellings);
	suite_add_tcase(suite, tests);
	return suite_run(suite);
}
