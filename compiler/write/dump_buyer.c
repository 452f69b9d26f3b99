/*
 * The buyer's view, dumped: what the tests hold against a search by force.
 */
#include "write/dump.h"

#include "base/arena.h"
#include "base/json.h"
#include "study/buyer.h"

static void
print_address(const struct record *record, const struct value *item,
	FILE *stream)
{
	fprintf(stream, "%s/%s", record->kind->name, record->id);
	if (item != NULL && item->group[0] != NULL)
		fprintf(stream, ".%s", item->group[0]->text);
}

static void
dump_questions(const struct questions *questions, FILE *stream)
{
	unsigned i;

	for (i = 0; i < questions->alternative_count; i++) {
		const struct alternative *one = &questions->alternatives[i];

		fputs("  or ", stream);
		print_address(one->situation->pairing, one->situation->item,
			stream);
		fputs(one->divided ? "\n" : ", not told apart\n", stream);
	}
	for (i = 0; i < questions->request_count; i++) {
		fputs("  ask ", stream);
		json_print(questions->requests[i].text, stream);
		fputc('\n', stream);
	}
}

static void
dump_view(const struct buyer *buyer, FILE *stream)
{
	unsigned i;

	print_address(buyer->record, buyer->item, stream);
	fputc('\n', stream);
	for (i = 0; i < buyer->risk_count; i++)
		fprintf(stream, "  risk %s %u of %u\n",
			buyer->risks[i].anomaly->id,
			buyer->risks[i].affected, buyer->risks[i].seen);
	for (i = 0; i < buyer->fake_count; i++)
		fprintf(stream, "  fake %s for %s/%s\n",
			buyer->fakes[i].imitation->id,
			buyer->fakes[i].part->kind->name,
			buyer->fakes[i].part->id);
	if (buyer->questions != NULL)
		dump_questions(buyer->questions, stream);
}

void
dump_buyer(const struct model *model, FILE *stream)
{
	struct record_list pairings = model_records_of(model, "pairing");
	struct arena *arena = arena_new();
	struct seen *seen = seen_gather(model, arena);
	struct buying *buying = buying_gather(model, seen, arena);
	unsigned i, j;

	for (i = 0; i < pairings.count; i++) {
		const struct record *pairing = pairings.items[i];
		const struct value *list = model_get(model, pairing->values,
			NAME(PAIRING_COMBINATIONS));
		struct arena *page = arena_new();

		dump_view(study_buyer(buying, pairing, NULL, page), stream);
		for (j = 0; j < value_count(list); j++)
			dump_view(study_buyer(buying, pairing,
				value_item(list, j), page), stream);
		arena_free(page);
	}
	seen_free(seen);
	arena_free(arena);
}
