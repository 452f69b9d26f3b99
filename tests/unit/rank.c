/*
 * Rank in a population report, worked by hand. The line of the keeper has 1
 * certificate at Rung 4, 3 at Rung 3 and 2 at Rung 1, so by common practice
 * (with k at a step and h higher, rank h + 1 to h + k) Rung 4 is rank 1, Rung 3
 * is 2 to 4, and Rung 1 is 5 to 6, of 6.
 */
#include "study/rank.h"

#include <string.h>

#include "world.h"

static const char corpus[] =
"market:\n"
"- {id: home, name: Home}\n"
"character:\n"
"- {id: keeper, names: {en: Keeper}}\n"
"- {id: queen, names: {en: Queen}}\n"
"cardback:\n"
"- {id: one, market: home, number: 1}\n"
"- {id: two, market: home, number: 2}\n"
"blister:\n"
"- {id: round, name: Round}\n"
"- {id: square, name: Square}\n"
"pairing:\n"
"- {id: keeper-one, character: keeper, cardback: one}\n"
"- {id: keeper-two, character: keeper, cardback: two}\n"
"- id: queen-one\n"
"  character: queen\n"
"  cardback: one\n"
"  combinations:\n"
"  - {key: a, blister: round}\n"
"  - {key: b, blister: square}\n"
"  - {key: c, concluded: never-issued}\n"
"source:\n"
"- {id: book, name: A book}\n"
"scale:\n"
"- id: rungs\n"
"  name: Rungs\n"
"  steps: [Rung 4, Rung 3, Rung 2, Rung 1]\n"
"  answers:\n"
"  - {step: Rung 3, scale: hours, other: Noon, source: book}\n"
"  - {step: Rung 3, scale: hours, other: Dusk, source: book}\n"
"- {id: hours, name: Hours, steps: [Noon, Dusk]}\n"
"service:\n"
"- {id: coil, name: Coil, scale: rungs}\n"
"- {id: bell, name: Bell, scale: hours}\n"
"census:\n"
"- id: coil-2001\n"
"  service: coil\n"
"  date: 2001-06-30\n"
"  categories:\n"
"  - wording: KEEPER\n"
"    pairings: [keeper-one]\n"
"    match: exact\n"
"    counts:\n"
"    - {step: Rung 3, count: 1}\n"
"    - {step: Rung 2, count: 1}\n"
"  - wording: ALL KEEPERS\n"
"    pairings: [keeper-one, keeper-two, queen-one]\n"
"    match: exact\n"
"- id: coil-2005\n"
"  service: coil\n"
"  date: 2005\n"
"  categories:\n"
"  - wording: QUEEN, ROUND\n"
"    pairings: [queen-one.a]\n"
"    match: exact\n"
"    counts: [{step: Rung 2, count: 3}]\n"
"  - wording: KEEPER\n"
"    pairings: [keeper-one]\n"
"    match: exact\n"
"    counts:\n"
"    - {step: Rung 1, count: 2}\n"
"    - {step: Rung 4, count: 1}\n"
"    - {step: Rung 2, count: 0}\n"
"    - {step: Rung 3, count: 3}\n"
"  - wording: ALL\n"
"    pairings: [keeper-two, queen-one.b]\n"
"    match: broader\n"
"    counts: [{step: Rung 4, count: 9223372036854775807},\n"
"      {step: Rung 1, count: 2}]\n"
"  - wording: EMPTY\n"
"    pairings: [keeper-two]\n"
"    match: narrower\n"
"- id: bell-2004\n"
"  service: bell\n"
"  date: 2004-05\n"
"  categories:\n"
"  - wording: Keepers\n"
"    pairings: [keeper-one, keeper-two]\n"
"    match: unclear\n"
"    counts: [{step: Dusk, count: 1}]\n"
"- id: coil-gone\n"
"  service: coil\n"
"  date: 2009\n"
"  retired: {reason: Copied wrong.}\n"
"specimen:\n"
"- id: a\n"
"  name: A\n"
"  form: carded-cased\n"
"  character: keeper\n"
"  cardback: one\n"
"  certificates:\n"
"  - {service: coil, date: 2001-05, grade: Rung 3}\n"
"  - {service: coil, date: 2003, grade: Rung 4}\n"
"  - {service: bell, date: 2004-04, grade: Dusk}\n"
"- id: b\n"
"  name: B\n"
"  form: carded-cased\n"
"  character: keeper\n"
"  cardback: one\n"
"  certificates:\n"
"  - {service: coil, date: 2004-12, grade: Rung 1}\n"
"  - {service: coil, date: 2005-02, grade: Rung 1}\n"
"  - {service: bell, date: 2006, grade: Dusk}\n"
"- id: c\n"
"  name: C\n"
"  form: carded-cased\n"
"  character: queen\n"
"  cardback: one\n"
"  blister: round\n"
"  certificates: [{service: coil, date: 2002, grade: Rung 2}]\n"
"- id: d\n"
"  name: D\n"
"  form: carded-cased\n"
"  character: queen\n"
"  cardback: one\n"
"  certificates: [{service: coil, date: 2002, grade: Rung 2}]\n";

static struct world world;
static struct seen *seen;
static const struct ranks *ranks;

static void
set_up(void)
{
	world = world_new(corpus);
	seen = seen_gather(world.model, world.arena);
	ranks = rank_gather(world.model, seen, world.arena);
}

static void
tear_down(void)
{
	seen_free(seen);
	world_free(&world);
}

static const struct rank_line *
line(const char *census, unsigned position)
{
	const struct rank_report *report = rank_of_census(ranks,
		world_record(&world, "census", census));

	ck_assert_ptr_nonnull(report);
	ck_assert_uint_lt(position, report->count);
	return &report->lines[position];
}

static void
expect(const struct rank_step *step, const char *name, int64_t count,
	int64_t higher, int64_t from, int64_t to, int64_t before)
{
	ck_assert_str_eq(step->step, name);
	ck_assert_int_eq(step->count, count);
	ck_assert_int_eq(step->higher, higher);
	ck_assert_int_eq(step->from, from);
	ck_assert_int_eq(step->to, to);
	ck_assert_int_eq(step->before, before);
}

/* Rung 2 fell from 1 to 0, and so has a line without a rank. */
START_TEST(by_hand)
{
	const struct rank_line *keeper = line("coil-2005", 1);

	ck_assert_uint_eq(keeper->count, 4);
	expect(&keeper->steps[0], "Rung 4", 1, 0, 1, 1, 0);
	expect(&keeper->steps[1], "Rung 3", 3, 1, 2, 4, 1);
	expect(&keeper->steps[2], "Rung 2", 0, 4, 0, 0, 1);
	expect(&keeper->steps[3], "Rung 1", 2, 4, 5, 6, 0);
	ck_assert_double_eq(keeper->steps[1].share, 0.5);
	ck_assert_ptr_eq(keeper->top, &keeper->steps[0]);
	ck_assert(keeper->compared);
	ck_assert(!keeper->broad);
	ck_assert_uint_eq(keeper->combinations, 1);
}
END_TEST

START_TEST(without_a_report_before)
{
	ck_assert(!line("coil-2001", 0)->compared);
	expect(&line("coil-2001", 0)->steps[0], "Rung 3", 1, 0, 1, 1, 0);
	/* The line is new; the report before has no such line. */
	ck_assert(!line("coil-2005", 0)->compared);
	ck_assert_uint_eq(line("coil-2005", 3)->count, 0);
	ck_assert_ptr_null(line("coil-2005", 3)->top);
	ck_assert_ptr_null(rank_of_census(ranks, world_record(&world,
		"census", "coil-gone")));
}
END_TEST

/*
 * Lines over several pairings; a combination that was never issued is not
 * counted, and numbers stop at the greatest there is.
 */
START_TEST(broader_and_greatest)
{
	const struct rank_line *all = line("coil-2005", 2);

	ck_assert(all->broad);
	ck_assert_uint_eq(all->pairings, 2);
	ck_assert_uint_eq(all->combinations, 2);
	ck_assert_uint_eq(line("coil-2001", 1)->pairings, 3);
	ck_assert_uint_eq(line("coil-2001", 1)->combinations, 4);
	expect(&all->steps[0], "Rung 4", INT64_MAX, 0, 1, INT64_MAX, 0);
	expect(&all->steps[1], "Rung 1", 2, INT64_MAX, INT64_MAX, INT64_MAX,
		0);
}
END_TEST

/*
 * Coil's report of 2005 is of an unknown day of that year, so what is dated
 * within it is not surely counted: A has 2 certificates by then, B has 1.
 * Of the line's 6, 1 is known to be A's second: 2 to 5 pieces.
 */
START_TEST(certificates_are_not_pieces)
{
	const struct rank_line *keeper = line("coil-2005", 1);

	ck_assert_int_eq(keeper->known, 2);
	ck_assert_int_eq(keeper->again, 1);
	ck_assert_int_eq(keeper->least, 2);
	ck_assert_int_eq(keeper->most, 5);
	ck_assert(!keeper->uncounted);
	/* Another line covers the keeper too: which counts A, is not known. */
	ck_assert_int_eq(line("coil-2001", 0)->known, 0);
	/* C is round; D may be square, which the line does not count. */
	ck_assert_int_eq(line("coil-2005", 0)->known, 1);
	/* Unclear what it covers: nothing is known of it. */
	ck_assert_int_eq(line("bell-2004", 0)->known, 0);
	ck_assert_int_eq(line("bell-2004", 0)->least, 1);
	ck_assert_int_eq(line("bell-2004", 0)->most, 1);
	ck_assert_int_eq(line("coil-2005", 3)->most, 0);
}
END_TEST

START_TEST(services_side_by_side)
{
	const struct record *pairing = world_record(&world, "pairing",
		"keeper-one");
	struct rank_lines lines = rank_of_pairing(ranks, pairing);

	ck_assert_uint_eq(lines.count, 2);
	/* Of Bell, then of the latest of Coil. */
	ck_assert_str_eq(lines.items[0]->line->wording, "Keepers");
	ck_assert_ptr_eq(lines.items[1], line("coil-2005", 1));
	/* A; B went to Bell only after Bell's report. */
	ck_assert_uint_eq(rank_in_both(ranks, pairing,
		lines.items[0]->line->snapshot,
		lines.items[1]->line->snapshot), 1);
	ck_assert_uint_eq(rank_of_pairing(ranks, world_record(&world,
		"pairing", "queen-one")).count, 2);
}
END_TEST

static struct rank
rank(const char *grade, const char *date, bool qualified)
{
	struct graded piece = {world_record(&world, "service", "coil"), grade,
		qualified, NULL};
	struct date day;
	struct rank found;

	if (date != NULL) {
		ck_assert(shape_date(date, &day));
		piece.date = &day;
	}
	ck_assert(rank_of_piece(line("coil-2005", 1), world.model, &piece,
		&found));
	return found;
}

START_TEST(one_piece)
{
	struct rank found = rank("Rung 3", "2003", false);

	ck_assert(found.counted == COUNTED_YES);
	ck_assert_int_eq(found.higher, 1);
	ck_assert_int_eq(found.from, 2);
	ck_assert_int_eq(found.to, 4);
	ck_assert_int_eq(found.total, 6);
	ck_assert(!found.top);
	/* Graded since: one more than the report has. */
	found = rank("Rung 3", "2006", true);
	ck_assert(found.counted == COUNTED_NO);
	ck_assert(found.unsure);
	ck_assert_int_eq(found.to, 5);
	ck_assert(rank("Rung 3", "2005-03", false).counted ==
		COUNTED_PERHAPS);
	ck_assert(rank("Rung 3", NULL, false).counted == COUNTED_PERHAPS);
	/* Nothing is at the step, so the report cannot count it. */
	found = rank("Rung 2", "2003", false);
	ck_assert(found.counted == COUNTED_NO);
	ck_assert_int_eq(found.from, 5);
	ck_assert_int_eq(found.to, 5);
	ck_assert(rank("Rung 4", NULL, false).top);
}
END_TEST

START_TEST(not_to_be_ranked)
{
	struct graded piece = {world_record(&world, "service", "bell"),
		"Rung 3", false, NULL};
	struct rank found;

	ck_assert(!rank_of_piece(line("coil-2005", 1), world.model, &piece,
		&found));
	piece.service = world_record(&world, "service", "coil");
	piece.grade = "Dusk";
	ck_assert(!rank_of_piece(line("coil-2005", 1), world.model, &piece,
		&found));
}
END_TEST

START_TEST(answers)
{
	unsigned count;
	const struct rank_answer *found = rank_answers(world.model,
		world_record(&world, "scale", "rungs"), "Rung 3",
		world.arena, &count);

	ck_assert_uint_eq(count, 2);
	ck_assert_str_eq(found[0].scale->id, "hours");
	ck_assert_str_eq(found[0].step, "Noon");
	ck_assert_str_eq(found[1].step, "Dusk");
	ck_assert_str_eq(found[1].source->id, "book");
	/* Nothing is turned round or carried on. */
	rank_answers(world.model, world_record(&world, "scale", "hours"),
		"Noon", world.arena, &count);
	ck_assert_uint_eq(count, 0);
}
END_TEST

int
main(void)
{
	Suite *suite = suite_create("rank");
	TCase *all = tcase_create("all");

	tcase_add_checked_fixture(all, set_up, tear_down);
	tcase_add_test(all, by_hand);
	tcase_add_test(all, without_a_report_before);
	tcase_add_test(all, broader_and_greatest);
	tcase_add_test(all, certificates_are_not_pieces);
	tcase_add_test(all, services_side_by_side);
	tcase_add_test(all, one_piece);
	tcase_add_test(all, not_to_be_ranked);
	tcase_add_test(all, answers);
	suite_add_tcase(suite, all);
	return suite_run(suite);
}
