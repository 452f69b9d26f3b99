/*
 * What is known of how many there are, on a corpus small enough to count by
 * hand.
 */
#include "study/evidence.h"

#include <string.h>

#include "study/certified.h"
#include "world.h"

static const char corpus[] =
"market:\n"
"- {id: home, name: Home}\n"
"character:\n"
"- {id: keeper, names: {en: Keeper}}\n"
"cardback:\n"
"- {id: one, market: home, number: 1}\n"
"- {id: two, market: home, number: 2}\n"
"blister:\n"
"- {id: round, name: Round}\n"
"- {id: square, name: Square}\n"
"accessory:\n"
"- {id: lamp, name: Lamp}\n"
"pairing:\n"
"- id: keeper-one\n"
"  character: keeper\n"
"  cardback: one\n"
"  combinations:\n"
"  - {key: r, blister: round}\n"
"  - {key: s, blister: square}\n"
"  - {key: b, anomaly: bare}\n"
"- {id: keeper-two, character: keeper, cardback: two}\n"
"source:\n"
"- {id: list, name: A list}\n"
"- {id: other, name: B list}\n"
"- {id: third, name: C list}\n"
"scale:\n"
"- {id: steps, name: Steps, steps: [high, low]}\n"
"service:\n"
"- {id: lens, name: Lens, scale: steps}\n"
"- {id: eye, name: Eye, scale: steps}\n"
"census:\n"
"- id: lens-2010\n"
"  service: lens\n"
"  date: 2010\n"
"  categories:\n"
"  - wording: Keeper 1\n"
"    pairings: [keeper-one]\n"
"    match: exact\n"
"    counts: [{step: high, count: 3}, {step: low, count: 2}]\n"
"  - wording: Keeper\n"
"    pairings: [keeper-one, keeper-two]\n"
"    match: broader\n"
"    counts: [{step: high, count: 4}]\n"
"anomaly:\n"
"- {id: bare, name: Bare, standing: neutral, pairings: [keeper-one]}\n"
"specimen:\n"
"- {id: a, name: A, form: carded, character: keeper, cardback: one,\n"
"   blister: round, certificates: [{service: lens, date: 2001},\n"
"   {service: lens, date: 2004}, {service: lens, date: 2011},\n"
"   {service: eye, date: 2002}]}\n"
"- {id: b, name: B, form: carded-cased, character: keeper, cardback: one,\n"
"   blister: {one_of: [round, square]}, identity: likely}\n"
"- {id: c, name: C, form: carded, character: keeper, cardback: one,\n"
"   anomaly: bare}\n"
"- {id: d, name: D, form: carded, character: keeper,\n"
"   cardback: {one_of: [one, two]}}\n"
"- {id: e, name: E, form: loose, character: keeper, cardback: one}\n"
"- {id: f, name: F, form: carded, character: keeper, cardback: one,\n"
"   doubted: not right}\n"
"- {id: g, name: G, form: carded, character: keeper, cardback: one,\n"
"   alterations: [{what: pressed, certainty: known}]}\n"
"- {id: h, name: H, form: carded, character: keeper, cardback: one,\n"
"   alterations: [{what: pressed, certainty: suspected}]}\n"
"- {id: i, name: I, form: carded, character: keeper, cardback: one,\n"
"   accessories: [{accessory: lamp, original: imitation}]}\n"
"- {id: j, name: J, form: carded, character: keeper, cardback: one,\n"
"   retired: {reason: the same as a}}\n"
"sighting:\n"
"- {id: s1, specimen: a, date: 1999, source: list}\n"
"- {id: s2, specimen: a, date: 1999-05, source: list}\n"
"- {id: s3, specimen: a, date: 2001-05-02, source: other, place: lot 3}\n"
"- {id: s4, specimen: a, date: 2001-05-02, source: third, place: lot 3}\n"
"- {id: s5, specimen: b, date: 2001-05, source: third,\n"
"   also_listed: [other]}\n"
"- {id: s6, specimen: b, date: 2001-05-09, source: other}\n"
"- {id: s7, specimen: b, date: 1999, source: other}\n"
"- {id: s8, specimen: c, date: 1999, source: list}\n"
"- {id: s9, specimen: d, date: 2003, source: list}\n"
"- {id: s10, specimen: g, date: 2003, source: list}\n"
"- {id: s11, specimen: g, date: 2003, source: list}\n"
"- {id: s12, character: keeper, cardback: one, date: 2003, source: list}\n";

static struct world world;
static struct seen *seen;
static struct evidences *all;

static void
set_up(void)
{
	world = world_new(corpus);
	seen = seen_gather(world.model, world.arena);
	all = evidences_gather(world.model, seen, world.arena);
}

static void
tear_down(void)
{
	seen_free(seen);
	world_free(&world);
}

/* The evidence of the subject with that address. */
static const struct evidence *
look(const char *address)
{
	unsigned count, i;
	const struct subject *subjects = evidences_subjects(all, &count);

	for (i = 0; i < count; i++)
		if (strcmp(subject_address(&subjects[i], world.arena),
			address) == 0)
			return evidence_of(all, subjects[i], world.arena);
	ck_abort_msg("no subject %s", address);
}

START_TEST(subjects)
{
	static const char *const expected[] = {"pairing/keeper-one",
		"pairing/keeper-one.r", "pairing/keeper-one.s",
		"pairing/keeper-one.b", "pairing/keeper-two", "anomaly/bare",
		"anomaly/bare on pairing/keeper-one", "cardback/one",
		"cardback/two"};
	unsigned count, i;
	const struct subject *list = evidences_subjects(all, &count);

	ck_assert_uint_eq(count, G_N_ELEMENTS(expected));
	for (i = 0; i < count; i++)
		ck_assert_str_eq(subject_address(&list[i], world.arena),
			expected[i]);
}
END_TEST

START_TEST(a_pairing)
{
	const struct evidence *evidence = look("pairing/keeper-one");

	/* a, b, c, and h, which nobody has dated */
	ck_assert_uint_eq(evidence->known, 4);
	ck_assert_uint_eq(evidence->undated, 1);
	ck_assert_uint_eq(evidence->possible, 1);
	ck_assert_uint_eq(evidence->suspected, 1);
	ck_assert_uint_eq(evidence->unsure, 1);
	ck_assert_uint_eq(evidence->anomalous, 1);
	ck_assert_uint_eq(evidence->unrecognised, 1);
	ck_assert_uint_eq(evidence->out[STANDING_OTHER_FORM], 1);
	ck_assert_uint_eq(evidence->out[STANDING_DOUBTED], 1);
	ck_assert_uint_eq(evidence->out[STANDING_ALTERED], 1);
	ck_assert_uint_eq(evidence->out[STANDING_IMITATED], 1);
}
END_TEST

/* One lot in two lists is one occasion, that of the first list. */
START_TEST(occasions)
{
	const struct evidence *evidence = look("pairing/keeper-one");
	const struct history *history = &evidence->history;

	ck_assert_uint_eq(history->pieces, 3);
	ck_assert_uint_eq(history->occasions, 3);
	ck_assert_uint_eq(evidence->sightings, 5);
	ck_assert_uint_eq(evidence->relisted, 2);
	ck_assert_int_eq(evidence->listings[0].year, 1999);
	ck_assert_str_eq(evidence->listings[0].source->id, "list");
	ck_assert_uint_eq(evidence->listings[0].pieces, 2);
	ck_assert_str_eq(evidence->listings[1].source->id, "other");
	ck_assert_uint_eq(evidence->listings[1].pieces, 1);
	ck_assert_int_eq(evidence->listings[2].year, 2001);
	ck_assert_uint_eq(evidence->listings[2].pieces, 2);
	ck_assert_uint_eq(evidence->listings[2].again, 2);
	ck_assert(history_seen(history, 0, 0));
	ck_assert(!history_seen(history, 0, 1));
	ck_assert(history_seen(history, 1, 2));
	ck_assert_uint_eq(evidence->widest.pieces, 4);
	ck_assert_uint_eq(evidence->widest.occasions, 4);
}
END_TEST

START_TEST(combinations)
{
	const struct evidence *round = look("pairing/keeper-one.r");

	/* a alone; b, d and h may be */
	ck_assert_uint_eq(round->known, 1);
	ck_assert_uint_eq(round->possible, 3);
	ck_assert_uint_eq(look("pairing/keeper-one.s")->known, 0);
	ck_assert_uint_eq(look("pairing/keeper-one.s")->possible, 3);
	ck_assert_uint_eq(look("pairing/keeper-one.b")->known, 1);
	ck_assert_uint_eq(look("pairing/keeper-one.b")->possible, 0);
}
END_TEST

START_TEST(anomalies_and_cardbacks)
{
	ck_assert_uint_eq(look("anomaly/bare")->known, 1);
	ck_assert_uint_eq(look("anomaly/bare on pairing/keeper-one")->known,
		1);
	ck_assert_uint_eq(look("cardback/one")->known, 4);
	ck_assert_uint_eq(look("cardback/one")->possible, 1);
	ck_assert_uint_eq(look("cardback/two")->known, 0);
	ck_assert_uint_eq(look("cardback/two")->possible, 1);
	ck_assert_uint_eq(look("cardback/two")->history.pieces, 0);
}
END_TEST

START_TEST(reports)
{
	struct certificates *certificates = certificates_gather(world.model,
		seen, world.arena);
	struct certified_list list = certified_of(certificates, all,
		&look("pairing/keeper-one")->subject, world.arena);

	ck_assert_uint_eq(list.count, 1);
	ck_assert_int_eq(list.items[0].certificates, 5);
	ck_assert_int_eq(list.items[0].shared, 4);
	ck_assert_uint_eq(list.items[0].known, 1);
	ck_assert_uint_eq(list.items[0].repeats, 1);
	ck_assert_uint_eq(list.items[0].crossed, 1);
	ck_assert_int_eq(list.items[0].least, 1);
	ck_assert_int_eq(list.items[0].most, 8);
	list = certified_of(certificates, all,
		&look("pairing/keeper-one.r")->subject, world.arena);
	ck_assert_uint_eq(list.count, 1);
	ck_assert_int_eq(list.items[0].certificates, 0);
	ck_assert_int_eq(list.items[0].shared, 9);
	list = certified_of(certificates, all,
		&look("anomaly/bare")->subject, world.arena);
	ck_assert_uint_eq(list.count, 0);
}
END_TEST

int
main(void)
{
	Suite *suite = suite_create("evidence");
	TCase *cases = tcase_create("all");

	tcase_add_checked_fixture(cases, set_up, tear_down);
	tcase_add_test(cases, subjects);
	tcase_add_test(cases, a_pairing);
	tcase_add_test(cases, occasions);
	tcase_add_test(cases, combinations);
	tcase_add_test(cases, anomalies_and_cardbacks);
	tcase_add_test(cases, reports);
	suite_add_tcase(suite, cases);
	return suite_run(suite);
}
