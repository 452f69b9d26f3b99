/*
 * Gaps for people: the answer, the runs in a table, what is next; or one run
 * with its slots.
 */
#include <stdio.h>

#include "command/gapping.h"

static const char *
s(unsigned count)
{
	return count == 1 ? "" : "s";
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
		printf("  %s", slot->slot->name);
		if (standing == SLOT_UNSURE)
			printf(" (%s)", slot_doubt_words(slot->slot));
		printf("\n");
		gaps_pieces(gapping, slot, CLAIM_POSSIBLE, CLAIM_POSSIBLE,
			false, names);
		look_at = gaps_look_at(gapping, filling, slot);
		if (look_at != NULL)
			printf("    perhaps %s: look at %s\n", names->str,
				look_at);
		gaps_pieces(gapping, slot, CLAIM_COMING, CLAIM_COMING, false,
			names);
		if (names->len > 0 && state != SLOT_HELD)
			printf("    on its way: %s\n", names->str);
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
			printf("  %s: \"%s\" is %s\n", slot->slot->name,
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
		printf("  %s: %u (%s)\n", slot->slot->name, slot->sure,
			names->str);
	}
	g_string_free(names, TRUE);
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

static bool
is_begun(const struct filling *filling)
{
	return filling->held + filling->possible > 0;
}

static void
print_answer(const struct gapping *gapping)
{
	unsigned begun = 0, held = 0, possible = 0, missing = 0, i;

	for (i = 0; i < gapping->count; i++) {
		const struct filling *filling = gapping->fillings[i];

		if (!is_begun(filling))
			continue;
		begun++;
		held += filling->held;
		possible += filling->possible;
		missing += filling->missing;
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
	bool other = false;
	unsigned i;

	printf("\n%5s %9s %8s %5s  %s\n", "held", "possible", "missing", "of",
		"run");
	for (i = 0; i < gapping->count; i++) {
		const struct filling *filling = gapping->fillings[i];

		if (!is_begun(filling)) {
			other = true;
			continue;
		}
		printf("%5u %9u %8u %5u  %s\n", filling->held,
			filling->possible, filling->missing, gaps_of(filling),
			filling->aim->id);
	}
	if (!other)
		return;
	printf("\nnot begun:\n");
	for (i = 0; i < gapping->count; i++)
		if (!is_begun(gapping->fillings[i]))
			printf("  %s (%u)\n", gapping->fillings[i]->aim->id,
				gaps_of(gapping->fillings[i]));
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
	print_table(gapping);
	print_unnamed(gapping);
	printf("\nhangtab gaps HOLDINGS --run RUN shows the slots of one.\n");
}
