/*
 * Gaps for people: the answer, the runs in a table, what is next; or one run
 * with its slots.
 */
#include <stdarg.h>
#include <stdio.h>

#include "command/gapping.h"
#include "command/guide.h"
#include "study/again.h"

/* How much of a list is printed before the rest is only counted. */
enum { MOST_NEXT = 5, MOST_LOOK = 5 };

/* Prints a line of several words, broken where it is too long. */
static void __attribute__((format(printf, 2, 3)))
line(int indent, const char *format, ...)
{
	va_list args;
	char *text;

	va_start(args, format);
	text = g_strdup_vprintf(format, args);
	va_end(args);
	printf("%*s", indent, "");
	guide_wrap(text, indent, indent + 2);
	g_free(text);
}

static const char *
s(unsigned count)
{
	return count == 1 ? "" : "s";
}

/* How hard the gap is; where only pieces say, by the one seen most. */
static void
print_rarity(const struct gapping *gapping, unsigned slot)
{
	const struct target *target = next_target(gapping->next, 0, slot);
	const struct look_for *look;
	const char *words;

	if (target == NULL)
		return;
	words = gaps_rarity(gapping, &target->rarity);
	if (words != NULL) {
		line(4, "%s", words);
		return;
	}
	if (target->easiest == gapping->next->piece_count)
		return;
	look = &gapping->next->pieces[target->easiest];
	words = gaps_rarity(gapping, &look->rarity);
	if (words != NULL)
		line(4, "seen most as %s: %s", look->name, words);
}

/* Slots of one state and standing, under a heading. */
static void
print_slots(const struct gapping *gapping, const struct filling *filling,
	enum slot_state state, enum slot_standing standing,
	const char *heading)
{
	GString *names = g_string_new(NULL);
	bool any = false;
	unsigned i;

	for (i = 0; i < filling->count; i++) {
		const struct filled_slot *slot = &filling->items[i];
		const char *look_at;

		if (slot->state != state || slot->slot->standing != standing)
			continue;
		if (!any)
			printf("\n%s\n", heading);
		any = true;
		if (standing == SLOT_UNSURE)
			line(2, "%s (%s)", slot->slot->name,
				slot_doubt_words(slot->slot));
		else
			line(2, "%s", slot->slot->name);
		if (state == SLOT_MISSING && standing == SLOT_SURE)
			print_rarity(gapping, i);
		gaps_pieces(gapping, slot, CLAIM_POSSIBLE, CLAIM_POSSIBLE,
			false, names);
		look_at = gaps_look_at(gapping, filling, slot);
		if (look_at != NULL)
			line(4, "perhaps %s: look at %s", names->str, look_at);
		gaps_pieces(gapping, slot, CLAIM_COMING, CLAIM_COMING, false,
			names);
		if (names->len > 0 && state != SLOT_HELD)
			line(4, "on its way: %s", names->str);
	}
	g_string_free(names, TRUE);
}

/* Pieces that are the thing but not as the run asks. */
static void
print_upgrades(const struct gapping *gapping, const struct filling *filling)
{
	bool any = false;
	unsigned i, j;

	for (i = 0; i < filling->count; i++) {
		const struct filled_slot *slot = &filling->items[i];

		for (j = 0; slot->state == SLOT_MISSING && j < slot->count;
			j++) {
			const struct claim *claim = &slot->claims[j];
			const char *words = study_look_at(gapping->pieces,
				filling, slot, claim, gapping->run->arena);

			if (claim->kind != CLAIM_LACKS)
				continue;
			if (!any)
				printf("\nto upgrade: yours, but not as the "
					"run asks\n");
			any = true;
			line(2, "%s: \"%s\" is %s", slot->slot->name,
				gapping->pieces->items[claim->piece].record
				->name, words == NULL ? "short of it" : words);
		}
	}
}

static void
print_doubles(const struct gapping *gapping, const struct filling *filling)
{
	GString *names = g_string_new(NULL);
	bool any = false;
	unsigned i;

	for (i = 0; i < filling->count; i++) {
		const struct filled_slot *slot = &filling->items[i];

		if (slot->sure < 2)
			continue;
		if (!any)
			printf("\ndoubles\n");
		any = true;
		gaps_pieces(gapping, slot, CLAIM_SURE, CLAIM_SURE, false,
			names);
		line(2, "%s: %u (%s)", slot->slot->name, slot->sure,
			names->str);
	}
	g_string_free(names, TRUE);
}

/* One piece to look for, and why. */
static void
print_look(const struct gapping *gapping, const struct look_for *look,
	unsigned gains)
{
	const char *words = rarity_brief(&look->rarity, gapping->run->arena);
	unsigned runs = gaps_runs_of(gapping, look);

	line(2, "%s", look->name);
	if (runs > 1 && gains == look->count)
		line(4, "closes %u gap%s in %u runs%s%s", gains, s(gains),
			runs, words == NULL ? "" : "; ", words == NULL ? "" :
			words);
	else
		line(4, "closes %u gap%s%s%s", gains, s(gains), words == NULL ?
			"" : "; ", words == NULL ? "" : words);
}

static void
print_bound(const struct next *next)
{
	const struct cover *cover = next->cover;

	if (cover->count == next->fewest)
		line(0, "%u piece%s close%s all %u gaps; no fewer can.",
			cover->count, s(cover->count), cover->count == 1 ?
			"s" : "", cover->covered);
	else if (cover->exact)
		line(0, "%u pieces close all %u gaps; %u could, but one never "
			"seen counts as two here.", cover->count,
			cover->covered, next->fewest);
	else
		line(0, "%u pieces close all %u gaps; no fewer than %u can. "
			"(Chosen greedily: at most %.1f times the least; one "
			"never seen counts as two.)", cover->count,
			cover->covered, next->fewest, cover->factor);
}

static void
print_next(const struct gapping *gapping)
{
	const struct next *next = gapping->next;
	unsigned i;

	if (next->count == 0)
		return;
	printf("\nWhat to look for next\n");
	for (i = 0; i < next->cover->count && i < MOST_NEXT; i++)
		print_look(gapping, &next->pieces[next->cover->sets[i]],
			next->cover->gains[i]);
	print_bound(next);
}

/* One's own pieces come first: to look at them again costs nothing. */
static void
print_look_again(const struct gapping *gapping)
{
	struct again_list again = study_again(gapping->pieces,
		gapping->fillings, gapping->count, MOST_LOOK,
		gapping->run->arena);
	unsigned i;

	if (again.count > 0)
		printf("\nLook again at your own\n");
	for (i = 0; i < again.count && i < MOST_LOOK; i++) {
		const struct again *one = &again.items[i];

		line(2, "%s: %s", gapping->pieces->items[one->piece].record
			->name, one->look_at);
		line(4, "may close %u gap%s", one->gaps, s(one->gaps));
	}
	if (again.others > 0)
		printf("  and %u more: --run RUN names them\n", again.others);
}

static void
print_within(const struct gapping *gapping)
{
	const struct next *next = gapping->next;
	const struct cover *within = gapping->within;
	unsigned unpriced = 0, i;

	if (within == NULL)
		return;
	for (i = 0; i < next->want_count; i++)
		unpriced += next->wants[i].price < 0 ||
			g_strcmp0(next->wants[i].currency,
			gapping->currency) != 0;
	printf("\nFor %.2f %s, at the prices that you stated\n",
		(double)gapping->budget / AMOUNT_ONE, gapping->currency);
	for (i = 0; i < within->count; i++) {
		const struct look_for *want = &next->wants[within->sets[i]];

		line(2, "%s: %.2f %s, closes %u gap%s", want->name,
			(double)want->price / AMOUNT_ONE, want->currency,
			within->gains[i], s(within->gains[i]));
	}
	line(2, "%u piece%s for %.2f %s close%s %u gap%s%s", within->count,
		s(within->count), (double)within->weight / AMOUNT_ONE,
		gapping->currency, within->count == 1 ? "s" : "",
		within->covered, s(within->covered), within->exact ?
		"; none closes more" : " (chosen greedily: at least 31 % of "
		"the most)");
	if (unpriced > 0)
		line(2, "%u more want%s no price in %s, and %s left out; "
			"nothing is converted or guessed", unpriced,
			unpriced == 1 ? " has" : "s have", gapping->currency,
			unpriced == 1 ? "is" : "are");
}

static void
print_suggestions(const struct gapping *gapping)
{
	unsigned i;

	if (gapping->suggestions == NULL)
		return;
	if (gapping->suggestions->count == 0) {
		printf("\nNo run is half complete and not done.\n");
		return;
	}
	printf("\nNearly complete already\n%5s %9s %5s  run\n", "held",
		"possible", "of");
	for (i = 0; i < gapping->suggestions->count; i++) {
		const struct filling *filling =
			gapping->suggestions->items[i];
		unsigned j, left = 0;

		printf("%5u %9u %5u  ", filling->held, filling->possible,
			gaps_of(filling));
		guide_wrap(filling->aim->name, 23, 23);
		for (j = 0; filling->missing + filling->possible <= 3 &&
			j < filling->count; j++)
			if (filling->items[j].state != SLOT_HELD &&
				filling->items[j].slot->standing ==
				SLOT_SURE)
				line(23, "%s%s", left++ == 0 ? "lacks " :
					"and ", filling->items[j].slot->name);
	}
}

static void
print_run(const struct gapping *gapping, const struct filling *filling)
{
	unsigned of = gaps_of(filling);

	printf("%s: %u of %u held", filling->aim->name, filling->held, of);
	if (filling->possible > 0)
		printf(", %u possibly", filling->possible);
	printf(", %u missing\n", filling->missing);
	if (filling->unsure > 0)
		printf("%u more set apart: %s not settled that %s\n",
			filling->unsure, "it is", filling->unsure == 1 ?
			"it exists" : "they exist");
	if (filling->case_style != NULL)
		printf("in cases of the style \"%s\"\n", filling->case_style);
	print_next(gapping);
	print_within(gapping);
	print_slots(gapping, filling, SLOT_MISSING, SLOT_SURE, "missing");
	print_slots(gapping, filling, SLOT_POSSIBLE, SLOT_SURE,
		"possibly held");
	print_upgrades(gapping, filling);
	print_doubles(gapping, filling);
	print_slots(gapping, filling, SLOT_HELD, SLOT_SURE, "held");
	print_slots(gapping, filling, SLOT_HELD, SLOT_UNSURE,
		"held, although it may not exist: tell the guide");
	print_slots(gapping, filling, SLOT_POSSIBLE, SLOT_UNSURE,
		"possibly held, although it may not exist");
	print_slots(gapping, filling, SLOT_MISSING, SLOT_UNSURE,
		"set apart: it may not exist");
}

static void
print_answer(const struct gapping *gapping)
{
	unsigned begun = 0, held = 0, possible = 0, missing = 0, i;

	for (i = 0; i < gapping->count; i++) {
		const struct filling *filling = gapping->fillings[i];

		if (!gaps_is_begun(filling))
			continue;
		begun++;
		held += filling->held;
		possible += filling->possible;
		missing += filling->missing;
	}
	if (begun == 0) {
		line(0, "None of the %u runs is begun; what follows is over "
			"all of them.", gapping->count);
		return;
	}
	printf("You have begun %u of %u runs and hold %u of their %u slots",
		begun, gapping->count, held, held + possible + missing);
	if (possible > 0)
		printf(", %u more perhaps", possible);
	printf(".\n");
}

static void
print_table(const struct gapping *gapping)
{
	bool other = false, any = false;
	GString *text;
	unsigned i;

	for (i = 0; i < gapping->count; i++)
		any = any || gaps_is_begun(gapping->fillings[i]);
	if (any)
		printf("\n%5s %9s %8s %5s  run\n", "held", "possible",
			"missing", "of");
	for (i = 0; i < gapping->count; i++) {
		const struct filling *filling = gapping->fillings[i];

		if (!gaps_is_begun(filling)) {
			other = true;
			continue;
		}
		printf("%5u %9u %8u %5u  %s\n", filling->held,
			filling->possible, filling->missing, gaps_of(filling),
			filling->aim->id);
	}
	if (!other)
		return;
	text = g_string_new(NULL);
	for (i = 0; i < gapping->count; i++)
		if (!gaps_is_begun(gapping->fillings[i]))
			g_string_append_printf(text, "%s%s",
				text->len == 0 ? "" : ", ",
				gapping->fillings[i]->aim->id);
	printf("\n");
	line(0, "Not begun: %s.", text->str);
	g_string_free(text, TRUE);
}

static void
print_unnamed(const struct gapping *gapping)
{
	unsigned count = 0, i;

	for (i = 0; i < gapping->pieces->count; i++)
		count += !gapping->pieces->items[i].named;
	if (count == 0)
		return;
	printf("\nToo little is known of %u piece%s to count %s:\n", count,
		s(count), count == 1 ? "it" : "them");
	for (i = 0; i < gapping->pieces->count; i++)
		if (!gapping->pieces->items[i].named)
			printf("  %s\n", gapping->pieces->items[i].record
				->name);
}

void
gaps_print_text(const struct gapping *gapping)
{
	if (gapping->alone) {
		print_run(gapping, gapping->fillings[0]);
		return;
	}
	print_answer(gapping);
	if (gapping->suggestions != NULL) {
		print_suggestions(gapping);
		return;
	}
	print_table(gapping);
	print_next(gapping);
	print_within(gapping);
	print_look_again(gapping);
	print_unnamed(gapping);
	printf("\n--run RUN shows the slots of one run, --suggest what is "
		"nearly complete.\n");
}
