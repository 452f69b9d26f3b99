/*
 * Gaps for programs: a row a slot as CSV, and all of it as one JSON object.
 */
#include <stdio.h>
#include <string.h>

#include "base/csv.h"
#include "base/json.h"
#include "command/gapping.h"

/* What is on record of the slot itself; empty where nothing is. */
static void
print_numbers(const struct gapping *gapping, const struct slot *slot,
	char numbers[3][16])
{
	struct rarity rarity = rarity_of(gapping->rarities, slot->record,
		slot->item);

	memset(numbers, 0, 3 * 16);
	if (!rarity.recorded)
		return;
	g_snprintf(numbers[0], 16, "%u", rarity.known);
	g_snprintf(numbers[1], 16, "%u", rarity.sightings);
	if (rarity.last > 0)
		g_snprintf(numbers[2], 16, "%d", rarity.last);
}

void
gaps_print_csv(const struct gapping *gapping)
{
	static const char *const heads[] = {"run", "slot", "name", "state",
		"pieces", "ids", "look_at", "lacking", "coming", "doubt",
		"known", "sightings", "last_seen", NULL};
	GString *lists[4];
	char numbers[3][16];
	unsigned i, j;
	size_t k;

	for (k = 0; k < G_N_ELEMENTS(lists); k++)
		lists[k] = g_string_new(NULL);
	csv_print_row(heads, stdout);
	for (i = 0; i < gapping->count; i++) {
		const struct filling *filling = gapping->fillings[i];

		for (j = 0; j < filling->count; j++) {
			const struct filled_slot *slot = &filling->items[j];
			const char *look_at = gaps_look_at(gapping, filling,
				slot);
			const char *doubt = slot_doubt_words(slot->slot);

			print_numbers(gapping, slot->slot, numbers);
			gaps_pieces(gapping, slot, CLAIM_POSSIBLE, CLAIM_SURE,
				false, lists[0]);
			gaps_pieces(gapping, slot, CLAIM_LACKS, CLAIM_LACKS,
				false, lists[1]);
			gaps_pieces(gapping, slot, CLAIM_COMING, CLAIM_COMING,
				false, lists[2]);
			gaps_pieces(gapping, slot, CLAIM_POSSIBLE, CLAIM_SURE,
				true, lists[3]);
			csv_print_row((const char *[]){filling->aim->id,
				slot->slot->code, slot->slot->name,
				gaps_state(slot), lists[0]->str,
				lists[3]->str, look_at == NULL ? "" : look_at,
				lists[1]->str, lists[2]->str,
				doubt == NULL ? "" : doubt, numbers[0],
				numbers[1], numbers[2], NULL}, stdout);
		}
	}
	for (k = 0; k < G_N_ELEMENTS(lists); k++)
		g_string_free(lists[k], TRUE);
}

static void
print_member(const char *name, const char *text)
{
	if (text == NULL)
		return;
	printf(",\"%s\":", name);
	json_print(text, stdout);
}

static void
print_claims(const struct gapping *gapping, const struct filling *filling,
	const struct filled_slot *slot)
{
	static const char *const kinds[] = {
		[CLAIM_LACKS] = "lacks",
		[CLAIM_COMING] = "coming",
		[CLAIM_POSSIBLE] = "possible",
		[CLAIM_SURE] = "sure",
	};
	unsigned i;

	fputs(",\"pieces\":[", stdout);
	for (i = 0; i < slot->count; i++) {
		const struct claim *claim = &slot->claims[i];
		const char *words = study_look_at(gapping->pieces, filling,
			slot, claim, gapping->run->arena);

		fputs(i == 0 ? "{\"id\":" : ",{\"id\":", stdout);
		json_print(gapping->pieces->items[claim->piece].record->id,
			stdout);
		print_member("claim", kinds[claim->kind]);
		print_member(claim->kind == CLAIM_LACKS ? "lacks" : "look_at",
			words);
		fputc('}', stdout);
	}
	fputc(']', stdout);
}

static void
print_filling(const struct gapping *gapping, const struct filling *filling)
{
	unsigned i;

	fputs("{\"run\":", stdout);
	json_print(filling->aim->id, stdout);
	print_member("name", filling->aim->name);
	printf(",\"held\":%u,\"possible\":%u,\"missing\":%u,\"unsure\":%u",
		filling->held, filling->possible, filling->missing,
		filling->unsure);
	print_member("case_style", filling->case_style);
	fputs(",\"slots\":[", stdout);
	for (i = 0; i < filling->count; i++) {
		const struct filled_slot *slot = &filling->items[i];

		fputs(i == 0 ? "\n{\"slot\":" : ",\n{\"slot\":", stdout);
		json_print(slot->slot->code, stdout);
		print_member("name", slot->slot->name);
		print_member("state", gaps_state(slot));
		print_member("doubt", slot_doubt_words(slot->slot));
		print_claims(gapping, filling, slot);
		fputc('}', stdout);
	}
	fputs("]}", stdout);
}

static void
print_rarity(const struct gapping *gapping, const struct rarity *rarity)
{
	if (!rarity->recorded)
		return;
	printf(",\"known\":%u,\"sightings\":%u", rarity->known,
		rarity->sightings);
	if (rarity->last > 0)
		printf(",\"last_seen\":%d", rarity->last);
	print_member("rarity", gaps_rarity(gapping, rarity));
}

static void
print_look(const struct gapping *gapping, const struct look_for *look,
	unsigned gains)
{
	const struct next *next = gapping->next;
	unsigned i;

	fputs("\n{\"name\":", stdout);
	json_print(look->name, stdout);
	if (look->want != NULL)
		print_member("holding", look->want->id);
	print_rarity(gapping, &look->rarity);
	printf(",\"gains\":%u,\"closes\":[", gains);
	for (i = 0; i < look->count; i++) {
		const struct target *target = &next->targets[
			look->targets[i]];
		const struct filling *filling = gapping->fillings[
			target->filling];

		fputs(i == 0 ? "{\"run\":" : ",{\"run\":", stdout);
		json_print(filling->aim->id, stdout);
		print_member("slot", filling->items[target->slot].slot->code);
		fputc('}', stdout);
	}
	fputs("]}", stdout);
}

static void
print_cover(const struct gapping *gapping, const struct cover *cover,
	const struct look_for *looks)
{
	unsigned i;

	printf(",\"exact\":%s,\"closes\":%u,\"pieces\":[", cover->exact ?
		"true" : "false", cover->covered);
	for (i = 0; i < cover->count; i++) {
		fputs(i == 0 ? "" : ",", stdout);
		print_look(gapping, &looks[cover->sets[i]], cover->gains[i]);
	}
	fputs("]}", stdout);
}

static void
print_suggestions(const struct suggestions *suggestions)
{
	unsigned i;

	fputs(",\n\"suggestions\":[", stdout);
	for (i = 0; i < suggestions->count; i++) {
		const struct filling *filling = suggestions->items[i];

		fputs(i == 0 ? "\n{\"run\":" : ",\n{\"run\":", stdout);
		json_print(filling->aim->id, stdout);
		print_member("name", filling->aim->name);
		printf(",\"held\":%u,\"possible\":%u,\"missing\":%u}",
			filling->held, filling->possible, filling->missing);
	}
	fputc(']', stdout);
}

void
gaps_print_json(const struct gapping *gapping)
{
	unsigned i;

	fputs("{\"runs\":[", stdout);
	for (i = 0; i < gapping->count; i++) {
		fputs(i == 0 ? "\n" : ",\n", stdout);
		print_filling(gapping, gapping->fillings[i]);
	}
	printf("],\n\"next\":{\"gaps\":%u,\"fewest\":%u",
		gapping->next->count, gapping->next->fewest);
	print_cover(gapping, gapping->next->cover, gapping->next->pieces);
	if (gapping->within != NULL) {
		fputs(",\n\"within\":{\"currency\":", stdout);
		json_print(gapping->currency, stdout);
		printf(",\"cost\":%.4f", (double)gapping->within->weight /
			AMOUNT_ONE);
		print_cover(gapping, gapping->within, gapping->next->wants);
	}
	if (gapping->suggestions != NULL)
		print_suggestions(gapping->suggestions);
	puts("}");
}
