/*
 * Gaps for programs: a row a slot as CSV, and all of it as one JSON object.
 */
#include <stdio.h>

#include "base/csv.h"
#include "base/json.h"
#include "command/gapping.h"

void
gaps_print_csv(const struct gapping *gapping)
{
	static const char *const heads[] = {"run", "slot", "name", "state",
		"pieces", "ids", "look_at", "lacking", "coming", "doubt",
		NULL};
	GString *lists[4];
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
				doubt == NULL ? "" : doubt, NULL}, stdout);
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

void
gaps_print_json(const struct gapping *gapping)
{
	unsigned i;

	fputs("{\"runs\":[", stdout);
	for (i = 0; i < gapping->count; i++) {
		fputs(i == 0 ? "\n" : ",\n", stdout);
		print_filling(gapping, gapping->fillings[i]);
	}
	puts("]}");
}
