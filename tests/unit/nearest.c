/*
 * Nearest names. The distance is that of optimal string alignment: "kitten"
 * and "sitting" are 3 apart, "CA" and "ABC" 3 (2 where letters between swapped
 * ones may change), as the literature on edit distance has them.
 */
#include "shape/nearest.h"

#include <string.h>

#include "suite.h"

START_TEST(distances)
{
	static const struct {
		const char *a, *b;
		int distance;
	} cases[] = {
		{"", "", 0}, {"", "abc", 3}, {"kitten", "sitting", 3},
		{"saturday", "sunday", 3}, {"CA", "ABC", 3}, {"ab", "ba", 1},
		{"flaw", "lawn", 2}, {"abcdef", "abdcef", 1},
		{"name", "naem", 1}, {"same", "same", 0},
		{"blister", "blistre", 1}, {"xabx", "xbax", 1},
	};
	size_t i;
	int limit;

	for (i = 0; i < G_N_ELEMENTS(cases); i++)
		for (limit = 0; limit < 8; limit++) {
			int wanted = MIN(cases[i].distance, limit + 1);

			ck_assert_int_eq(nearest_distance(cases[i].a,
				cases[i].b, limit), wanted);
			ck_assert_int_eq(nearest_distance(cases[i].b,
				cases[i].a, limit), wanted);
		}
}
END_TEST

/* The textbook's table, whole, without a limit. */
static int
plainly(const char *a, const char *b)
{
	int table[16][16], i, j;

	for (i = 0; i <= (int)strlen(a); i++)
		for (j = 0; j <= (int)strlen(b); j++) {
			if (i == 0 || j == 0) {
				table[i][j] = i + j;
				continue;
			}
			table[i][j] = MIN(MIN(table[i - 1][j],
				table[i][j - 1]) + 1, table[i - 1][j - 1] +
				(a[i - 1] != b[j - 1]));
			if (i > 1 && j > 1 && a[i - 1] == b[j - 2] &&
				a[i - 2] == b[j - 1])
				table[i][j] = MIN(table[i][j],
					table[i - 2][j - 2] + 1);
		}
	return table[strlen(a)][strlen(b)];
}

static void
fill(GRand *rand, char *text)
{
	int size = g_rand_int_range(rand, 0, 12), i;

	for (i = 0; i < size; i++)
		text[i] = (char)g_rand_int_range(rand, 'a', 'd');
	text[size] = '\0';
}

START_TEST(random_distances)
{
	GRand *rand = g_rand_new_with_seed(7);
	char a[16], b[16];
	int i, limit, distance;

	for (i = 0; i < 20000; i++) {
		fill(rand, a);
		fill(rand, b);
		limit = g_rand_int_range(rand, 0, 6);
		distance = plainly(a, b);
		ck_assert_msg(nearest_distance(a, b, limit) ==
			MIN(distance, limit + 1), "%s %s %d", a, b, limit);
	}
	g_rand_free(rand);
}
END_TEST

START_TEST(long_names)
{
	char *one = g_strnfill(5000, 'a'), *other = g_strnfill(5000, 'a');

	ck_assert_int_eq(nearest_distance(one, other, 2), 0);
	other[4999] = 'b';
	ck_assert_int_eq(nearest_distance(one, other, 2), 3);
	g_free(other);
	g_free(one);
}
END_TEST

static const char *
find(const char *wanted, const char *const *names, enum confidence *sure)
{
	static struct nearest nearest;

	for (nearest = nearest_to(wanted); *names != NULL; names++)
		nearest_offer(&nearest, *names);
	return nearest_found(&nearest, sure);
}

START_TEST(found)
{
	static const char *const names[] = {"amber", "arch", "round", "square",
		"known_from", "hang-tab", NULL};
	static const struct {
		const char *wanted, *found;
		enum confidence sure;
	} cases[] = {
		{"ambre", "amber", MEND_PROBABLE},
		{"rond", "round", MEND_PROBABLE},
		{"Amber", "amber", MEND_SAFE},
		{"known from", "known_from", MEND_SAFE},
		{"hang_tab", "hang-tab", MEND_SAFE},
		{"tetrahedron", NULL, MEND_BLANK},
		{"xy", NULL, MEND_BLANK},
		{"", NULL, MEND_BLANK},
	};
	enum confidence sure;
	const char *name;
	size_t i;

	for (i = 0; i < G_N_ELEMENTS(cases); i++) {
		name = find(cases[i].wanted, names, &sure);
		ck_assert_pstr_eq(name, cases[i].found);
		if (name != NULL)
			ck_assert_msg(sure == cases[i].sure, "%s",
				cases[i].wanted);
	}
}
END_TEST

/* Of two names as near, neither is to be taken for the one meant. */
START_TEST(ties)
{
	static const char *const names[] = {"card-a", "card-b", NULL};
	static const char *const turned[] = {"card-b", "card-a", NULL};
	enum confidence one, other;

	ck_assert_str_eq(find("card-c", names, &one),
		find("card-c", turned, &other));
	ck_assert(one == MEND_BLANK && other == MEND_BLANK);
}
END_TEST

int
main(void)
{
	Suite *suite = suite_create("nearest");
	TCase *all = tcase_create("all");

	tcase_add_test(all, distances);
	tcase_add_test(all, random_distances);
	tcase_add_test(all, long_names);
	tcase_add_test(all, found);
	tcase_add_test(all, ties);
	suite_add_tcase(suite, all);
	return suite_run(suite);
}
