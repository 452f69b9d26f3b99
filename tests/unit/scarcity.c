/*
 * What never makes a piece seem rare or common: an imitation or a doubted
 * specimen is in no count, not even in that of an anomaly; an anomaly is
 * counted among the pieces of its pairing and as a risk, never as a pairing of
 * its own. (That neither fills a slot of a run is in whole/gaps.)
 */
#include "study/buyer.h"

#include "world.h"

static const char corpus[] =
"market:\n"
"- {id: home, name: Home}\n"
"character:\n"
"- {id: keeper, names: {en: Keeper}}\n"
"cardback:\n"
"- {id: one, market: home, number: 1}\n"
"- {id: two, market: home, number: 2}\n"
"pairing:\n"
"- {id: keeper-one, character: keeper, cardback: one}\n"
"- {id: keeper-two, character: keeper, cardback: two}\n"
"anomaly:\n"
"- {id: bare, name: Bare, standing: neutral, pairings: [keeper-one]}\n"
"specimen:\n"
"- {id: a, name: A, form: carded, character: keeper, cardback: one}\n"
"- {id: b, name: B, form: carded, character: keeper, cardback: one,\n"
"   anomaly: bare}\n"
"- {id: c, name: C, form: carded, character: keeper, cardback: one,\n"
"   doubted: an imitation}\n"
"- {id: d, name: D, form: carded, character: keeper, cardback: one,\n"
"   anomaly: bare, doubted: resealed by somebody}\n"
"- {id: e, name: E, form: carded, character: keeper, cardback: two,\n"
"   doubted: an imitation}\n";

static struct buyer *
view_of(struct world *world, const char *pairing)
{
	struct seen *seen = seen_gather(world->model, world->arena);
	struct buyer *buyer = study_buyer(buying_gather(world->model, seen,
		world->arena), world_record(world, "pairing", pairing), NULL,
		world->arena);

	seen_free(seen);
	return buyer;
}

START_TEST(doubted_pieces_are_in_no_count)
{
	struct world world = world_new(corpus);

	ck_assert_uint_eq(view_of(&world, "keeper-one")->seen.specimens, 2);
	ck_assert_uint_eq(view_of(&world, "keeper-two")->seen.specimens, 0);
	ck_assert_uint_eq(view_of(&world, "keeper-two")->seen.possible, 0);
	world_free(&world);
}
END_TEST

START_TEST(an_anomaly_is_a_risk)
{
	struct world world = world_new(corpus);
	struct buyer *buyer = view_of(&world, "keeper-one");

	ck_assert_uint_eq(buyer->risk_count, 1);
	ck_assert_uint_eq(buyer->risks[0].affected, 1);
	ck_assert_uint_eq(buyer->risks[0].seen, 2);
	ck_assert_uint_eq(view_of(&world, "keeper-two")->risk_count, 0);
	world_free(&world);
}
END_TEST

int
main(void)
{
	Suite *suite = suite_create("scarcity");
	TCase *tests = tcase_create("scarcity");

	tcase_add_test(tests, doubted_pieces_are_in_no_count);
	tcase_add_test(tests, an_anomaly_is_a_risk);
	suite_add_tcase(suite, tests);
	return suite_run(suite);
}
