/*
 * Sentences about what is still unseen, where the data are few.
 */
#include <math.h>
#include <string.h>

#include "study/unseen.h"
#include "suite.h"

/* Whether one of the sentences has these words. */
static bool
says(const struct unseen *unseen, const char *words)
{
	struct arena *arena = arena_new();
	struct unseen_words said = unseen_say(unseen, arena);
	bool found = false;
	unsigned i;

	for (i = 0; i < said.count; i++)
		found = found || strstr(said.items[i], words) != NULL;
	arena_free(arena);
	return found;
}

static struct unseen
of(const unsigned *seen, unsigned lists, unsigned recorded)
{
	struct unseen unseen = {.recorded = recorded, .lists = lists,
		.frequencies = {seen, lists, lists}};

	unseen.listed = (unsigned)frequencies_distinct(&unseen.frequencies);
	unseen.total = estimate_chao1(&unseen.frequencies, CHAO_CLASSIC);
	if (unseen.total.state == FIGURE_GIVEN &&
		unseen.total.point > recorded)
		unseen.more = (struct figure){.state = FIGURE_GIVEN,
			.point = unseen.total.point - recorded,
			.low = fmax(unseen.total.low - recorded, 0),
			.high = unseen.total.high - recorded};
	unseen.coverage = coverage_chao_jost(&unseen.frequencies);
	unseen.again = extrapolate(&unseen.frequencies, lists);
	return unseen;
}

START_TEST(enough)
{
	static const unsigned seen[] = {25, 22, 13, 5, 1, 2};
	struct unseen unseen = of(seen, 6, 70);

	/* Rcapture 1.4-4, hares of Cormack 1989: 79.84. */
	ck_assert(says(&unseen, "At least about 80 can be found"));
	ck_assert(says(&unseen, "So about 10 or more are not recorded yet"));
	unseen = of(seen, 6, 200);
	ck_assert(says(&unseen, "132 are recorded that were on no list"));
	ck_assert(!says(&unseen, "not recorded yet"));
	ck_assert(says(&unseen, "As many lists again"));
}
END_TEST

START_TEST(few)
{
	static const unsigned once[] = {5, 0}, twice[] = {0, 4}, one[] = {1};
	struct unseen unseen = of(once, 2, 5);

	ck_assert(says(&unseen, "Too few of these were on more lists"));
	ck_assert(!says(&unseen, "As many lists again"));
	unseen = of(twice, 2, 4);
	ck_assert(!says(&unseen, "not recorded yet"));
	unseen = of(one, 1, 1);
	ck_assert(says(&unseen, "1 pairing recorded, 1 of them on 1 list;"));
	ck_assert(!says(&unseen, "in 100"));
	unseen = (struct unseen){.recorded = 3};
	ck_assert(says(&unseen, "3 pairings recorded, none of them on any"));
}
END_TEST

int
main(void)
{
	Suite *suite = suite_create("unseen");
	TCase *tests = tcase_create("unseen");

	suite_add_tcase(suite, tests);
	tcase_add_test(tests, enough);
	tcase_add_test(tests, few);
	return suite_run(suite);
}
