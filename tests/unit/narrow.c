/*
 * Narrowing over the demonstration corpus: every record reaches itself by its
 * own recorded states in any order, also with one wrong answer when one is
 * tolerated, and by what is said to be the most useful each time. What looking
 * on costs is held against every way there is.
 */
#include <stdio.h>

#include "study/narrow.h"
#include "study/rest.h"
#include "world.h"

enum { WALKS = 500, GUIDED = 24, ANSWERS = 20 };

struct corpus {
	struct arena *arena;
	struct sources *sources;
	struct diags *diags;
	struct names *names;
	struct model *model;
	struct seen *seen;
	struct features *features;
};

static uint32_t
next(uint32_t *seed)
{
	*seed ^= *seed << 13;
	*seed ^= *seed >> 17;
	*seed ^= *seed << 5;
	return *seed;
}

static struct corpus
corpus_open(void)
{
	struct corpus corpus = {
		.arena = arena_new(),
		.sources = sources_new(),
	};
	struct schema *schema;
	struct raw_corpus *raw;
	struct records *records;

	corpus.diags = diags_new(corpus.sources);
	schema = schema_load("schema", corpus.sources, corpus.arena,
		corpus.diags);
	raw = read_corpus("corpus", corpus.sources, corpus.arena,
		corpus.diags);
	records = shape_corpus(raw, schema, false, corpus.sources,
		corpus.arena, corpus.diags);
	corpus.names = link_records(records, schema, NULL, corpus.sources,
		corpus.arena, corpus.diags);
	corpus.model = model_make(records, raw, schema, corpus.names,
		corpus.sources, corpus.arena, corpus.diags);
	ck_assert_uint_eq(diags_count(corpus.diags, SEVERITY_ERROR), 0);
	corpus.seen = seen_gather(corpus.model, corpus.arena);
	corpus.features = features_gather(corpus.model, corpus.arena);
	return corpus;
}

static void
corpus_close(struct corpus *corpus)
{
	seen_free(corpus->seen);
	model_free(corpus->model);
	names_free(corpus->names);
	diags_free(corpus->diags);
	sources_free(corpus->sources);
	arena_free(corpus->arena);
}

static GArray *
hold(const struct corpus *corpus, const GArray *seen, const char *of)
{
	return narrow_hold(corpus->model, corpus->seen, corpus->features,
		(const struct observation *)(const void *)seen->data,
		seen->len, of, corpus->arena);
}

static const struct candidate *
candidate(const GArray *all, guint i)
{
	return &g_array_index(all, struct candidate, i);
}

/* One of the states that are recorded, or one of the others. */
static void
answer(const struct feature *feature, state_set states, bool right,
	GArray *seen, uint32_t *seed)
{
	struct observation one = {.feature = feature};
	unsigned tries, place;

	one.inapplicable = (states == 0) == right;
	for (tries = 0; tries < 1000 && (states != 0 || !right); tries++) {
		place = next(seed) % feature->states;
		if (((states >> place & 1) != 0) != right)
			continue;
		one.states = (state_set)1 << place;
		one.inapplicable = false;
		break;
	}
	g_array_append_val(seen, one);
}

/* Much that it knows, in a random order; the answer at `wrong` is false. */
static void
answer_many(const struct corpus *corpus, const struct candidate *one,
	guint wrong, GArray *seen, uint32_t *seed)
{
	unsigned count = features_count(corpus->features), i, j, swap;
	unsigned *order = g_new(unsigned, count + 1);
	state_set states;

	for (i = 0; i < count; i++)
		order[i] = i;
	for (i = count; i > 1; i--) {
		j = next(seed) % i;
		swap = order[j];
		order[j] = order[i - 1];
		order[i - 1] = swap;
	}
	for (i = 0; i < count && seen->len < ANSWERS; i++)
		if (narrow_shows(corpus->features, order[i], one, &states))
			answer(features_get(corpus->features, order[i]),
				states, seen->len != wrong, seen, seed);
	g_free(order);
}

START_TEST(own_states_in_any_order)
{
	static const char *const of[] = {NULL, "variant", "accessory"};
	struct corpus corpus = corpus_open();
	GArray *seen = g_array_new(FALSE, TRUE, sizeof(struct observation));
	GArray *every[G_N_ELEMENTS(of)];
	uint32_t seed = 20265;
	unsigned walk;

	for (walk = 0; walk < G_N_ELEMENTS(of); walk++)
		every[walk] = hold(&corpus, seen, of[walk]);
	for (walk = 0; walk < WALKS; walk++) {
		const char *kind = of[walk % G_N_ELEMENTS(of)];
		GArray *all = every[walk % G_N_ELEMENTS(of)], *held;
		guint place;

		g_array_set_size(seen, 0);
		place = next(&seed) % all->len;
		answer_many(&corpus, candidate(all, place), G_MAXUINT, seen,
			&seed);
		/* Against none of them, so it remains after each as well. */
		held = hold(&corpus, seen, kind);
		ck_assert_uint_eq(narrow_wrong(candidate(held, place)), 0);
		ck_assert_uint_eq(narrow_shown(candidate(held, place)),
			seen->len);
		g_array_free(held, TRUE);
		if (seen->len > 0) {
			guint wrong = next(&seed) % seen->len;

			g_array_set_size(seen, 0);
			answer_many(&corpus, candidate(all, place), wrong, seen,
				&seed);
			held = hold(&corpus, seen, kind);
			ck_assert_uint_le(narrow_wrong(candidate(held,
				place)), 1);
			g_array_free(held, TRUE);
		}
	}
	for (walk = 0; walk < G_N_ELEMENTS(of); walk++)
		g_array_free(every[walk], TRUE);
	g_array_free(seen, TRUE);
	corpus_close(&corpus);
}
END_TEST

/* Until nothing more can be told, by the first of what is offered. */
START_TEST(most_useful_first)
{
	struct corpus corpus = corpus_open();
	GArray *seen = g_array_new(FALSE, TRUE, sizeof(struct observation));
	uint32_t seed = 77;
	unsigned walk, steps = 0;

	for (walk = 0; walk < GUIDED; walk++) {
		const char *kind = walk % 4 == 0 ? "variant" : NULL;
		GArray *held, *looks;
		guint place = 0;

		g_array_set_size(seen, 0);
		for (;; steps++) {
			const struct feature *feature;
			state_set states;

			held = hold(&corpus, seen, kind);
			if (seen->len == 0)
				place = next(&seed) % held->len;
			ck_assert_uint_eq(narrow_wrong(candidate(held,
				place)), 0);
			looks = narrow_looks(corpus.model, corpus.features,
				held, 0, (const struct observation *)
				(const void *)seen->data, seen->len, kind !=
				NULL ? kind : narrow_target(held, 0), NULL);
			if (looks->len == 0)
				break;
			feature = g_array_index(looks, struct look, 0).feature;
			if (!narrow_shows(corpus.features,
				feature->record->index, candidate(held, place),
				&states))
				states = 1;
			answer(feature, states, true, seen, &seed);
			g_array_free(looks, TRUE);
			g_array_free(held, TRUE);
		}
		g_array_free(looks, TRUE);
		g_array_free(held, TRUE);
	}
	/* More would mean that useless things are offered. */
	printf("%u looks on %u walks\n", steps, GUIDED);
	ck_assert_uint_lt(steps, GUIDED * 10);
	g_array_free(seen, TRUE);
	corpus_close(&corpus);
}
END_TEST

/*
 * Four things, as common: the first feature parts them two and two and costs
 * 1, the second tells all apart and costs 2.5, the third parts each pair and
 * costs 1. One look at each of the cheap ones is best.
 */
START_TEST(rest_by_hand)
{
	const uint64_t sets[] = {
		1, 1, 2, 2,
		1, 2, 4, 8,
		1, 2, 1, 2,
		1, 1, 1, 1,
	};
	const double common[] = {1, 1, 1, 1}, costs[] = {1, 2.5, 1, 1};
	const uint64_t varying[] = {1, 3, 6, 1, 2, 4};
	struct rest_table table = {4, 4, sets, common, costs};
	double left[4];

	rest_cost(&table, left);
	ck_assert_double_eq_tol(left[0], 1, 1e-12);
	ck_assert_double_eq_tol(left[1], 0, 1e-12);
	ck_assert_double_eq_tol(left[2], 1, 1e-12);
	ck_assert_double_lt(left[3], 0);
	/*
	 * Three, the last twice as common. Under the first state of a feature
	 * 1.5 of 4, under the second 1.5, and two things in each; under the
	 * third the last thing alone. The other feature tells all apart.
	 */
	table = (struct rest_table){3, 2, varying, (const double[]){1, 1, 2},
		costs};
	rest_cost(&table, left);
	ck_assert_double_eq_tol(left[0], 0.75 * 2.5, 1e-12);
	ck_assert_double_eq_tol(left[1], 0, 1e-12);
}
END_TEST

int
main(void)
{
	Suite *suite = suite_create("narrow");
	TCase *tests = tcase_create("walks");

	tcase_set_timeout(tests, 240);
	tcase_add_test(tests, own_states_in_any_order);
	tcase_add_test(tests, most_useful_first);
	tcase_add_test(tests, rest_by_hand);
	suite_add_tcase(suite, tests);
	return suite_run(suite);
}
