/*
 * What was seen, on a corpus small enough to count by hand: a pairing of the
 * keeper with card back one, and another with card back two.
 */
#include "model/seen.h"

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
"- {id: three, market: home, number: 3}\n"
"pairing:\n"
"- {id: keeper-one, character: keeper, cardback: one}\n"
"- {id: keeper-two, character: keeper, cardback: two}\n"
"source:\n"
"- {id: list, name: A list}\n"
"- {id: other, name: Another}\n"
"anomaly:\n"
"- {id: bare, name: Bare, standing: neutral, pairings: [keeper-one]}\n"
"specimen:\n"
"- {id: a, name: A, form: carded, character: keeper, cardback: one}\n"
"- {id: b, name: B, form: carded, character: keeper, cardback: one,\n"
"   anomaly: bare}\n"
"- {id: c, name: C, form: carded, character: keeper, cardback: one,\n"
"   doubted: resealed}\n"
"- {id: d, name: D, form: carded, character: keeper,\n"
"   cardback: {one_of: [one, two]}}\n"
"- {id: e, name: E, form: carded, character: keeper,\n"
"   cardback: {not: [one]}}\n"
"- {id: f, name: F, form: carded, character: keeper, cardback: one,\n"
"   retired: {reason: the same as a}}\n"
"- {id: g, name: G, form: loose, character: keeper}\n"
"- {id: h, name: H, form: carded, character: queen, cardback: one}\n"
"- {id: i, name: I, form: carded, cardback: one, character: unknown}\n"
"- {id: j, name: J, form: carded, character: keeper, cardback: one}\n"
"sighting:\n"
"- {id: s1, specimen: a, date: 1999, source: list}\n"
"- {id: s2, specimen: a, date: 2001-05, source: other}\n"
"- {id: s3, specimen: b, date: 2001, source: list}\n"
"- {id: s4, specimen: c, date: 1990, source: list}\n"
"- {id: s5, specimen: f, date: 1990, source: list}\n"
"- {id: s6, specimen: a, date: 1999-02, source: list}\n";

static struct world world;
static struct seen *seen;

static void
set_up(void)
{
	world = world_new(corpus);
	seen = seen_gather(world.model, world.arena);
}

static void
tear_down(void)
{
	seen_free(seen);
	world_free(&world);
}

static struct seen_count
count(const char *pairing, const char *until)
{
	struct date date;

	if (until != NULL)
		ck_assert(shape_date(until, &date));
	return seen_count(seen, seen_of_pairing(seen, world_record(&world,
		"pairing", pairing)), NULL, until == NULL ? NULL : &date);
}

START_TEST(all_of_a_pairing)
{
	struct seen_count found = count("keeper-one", NULL);

	/* a, b and j certainly; d and g possibly; c doubted, f retired. */
	ck_assert_uint_eq(found.specimens, 3);
	ck_assert_uint_eq(found.sightings, 4);
	ck_assert_uint_eq(found.lists, 2);
	ck_assert_uint_eq(found.possible, 2);
	ck_assert_str_eq(found.last->text, "2001");
	found = count("keeper-two", NULL);
	ck_assert_uint_eq(found.specimens, 0);
	ck_assert_uint_eq(found.possible, 3);
	ck_assert_ptr_null(found.last);
}
END_TEST

/* Only sightings that were surely no later count. */
START_TEST(by_a_date)
{
	ck_assert_uint_eq(count("keeper-one", "1999").specimens, 0);
	ck_assert_uint_eq(count("keeper-one", "1999-12-31").specimens, 1);
	ck_assert_uint_eq(count("keeper-one", "1999-12-31").sightings, 2);
	ck_assert_uint_eq(count("keeper-one", "1999-06").sightings, 1);
	ck_assert_uint_eq(count("keeper-one", "2001-06").sightings, 3);
	ck_assert_uint_eq(count("keeper-one", "2002").specimens, 2);
}
END_TEST

START_TEST(anomalies)
{
	struct seen_list list = seen_of_anomaly(seen, world_record(&world,
		"anomaly", "bare"));

	ck_assert_uint_eq(list.count, 1);
	ck_assert_str_eq(list.items[0].specimen->id, "b");
	ck_assert(list.items[0].certain);
	ck_assert_uint_eq(seen_count(seen, list, world_record(&world,
		"pairing", "keeper-two"), NULL).specimens, 0);
}
END_TEST

START_TEST(in_order)
{
	struct record_list list = seen_sightings(seen, world_record(&world,
		"specimen", "a"));

	ck_assert_uint_eq(list.count, 3);
	ck_assert_str_eq(list.items[0]->id, "s1");
	ck_assert_str_eq(list.items[1]->id, "s6");
	ck_assert_str_eq(list.items[2]->id, "s2");
}
END_TEST

static enum allows
allowed(const char *specimen, const char *cardback)
{
	const struct record *record = world_record(&world, "specimen",
		specimen);

	return identity_allows(model_get(world.model, record->values,
		NAME(SPECIMEN_CARDBACK)), world_record(&world, "cardback",
		cardback));
}

START_TEST(identities)
{
	ck_assert(allowed("a", "one") == ALLOWS_CERTAINLY);
	ck_assert(allowed("a", "two") == ALLOWS_NOT);
	ck_assert(allowed("d", "one") == ALLOWS_POSSIBLY);
	ck_assert(allowed("d", "two") == ALLOWS_POSSIBLY);
	ck_assert(allowed("d", "three") == ALLOWS_NOT);
	ck_assert(allowed("e", "one") == ALLOWS_NOT);
	ck_assert(allowed("e", "two") == ALLOWS_POSSIBLY);
	ck_assert(allowed("g", "three") == ALLOWS_POSSIBLY);
	ck_assert(identity_allows(model_get(world.model, world_record(&world,
		"specimen", "i")->values, NAME(SPECIMEN_CHARACTER)),
		world_record(&world, "character", "queen")) ==
		ALLOWS_POSSIBLY);
}
END_TEST

int
main(void)
{
	Suite *suite = suite_create("seen");
	TCase *all = tcase_create("all");

	tcase_add_checked_fixture(all, set_up, tear_down);
	tcase_add_test(all, all_of_a_pairing);
	tcase_add_test(all, by_a_date);
	tcase_add_test(all, anomalies);
	tcase_add_test(all, in_order);
	tcase_add_test(all, identities);
	suite_add_tcase(suite, all);
	return suite_run(suite);
}
