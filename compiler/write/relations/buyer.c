/*
 * The buyer's view as a relation: its sentences for everything that was made,
 * and for each combination.
 */
#include "write/relations/inside.h"

#include "write/buying.h"

static const char *const parts[] = {
	[BUYING_EXISTS] = "exists",
	[BUYING_RISKS] = "anomalies",
	[BUYING_FAKES] = "imitations",
	[BUYING_OTHERS] = "others",
	[BUYING_ASK] = "ask",
};

static struct cell
text(const char *words)
{
	struct cell cell = {.form = words == NULL ? CELL_NULL : CELL_TEXT};

	cell.text = words;
	return cell;
}

struct giving {
	const struct model *model;
	const struct buying *buying;
	relation_row *row;
	void *data;
	GError **error;
};

/* Gives the sentences of one view; positions go on through a record. */
static bool
give_view(const struct giving *giving, const struct record *record,
	const struct value *item, int64_t *position)
{
	struct arena *arena = arena_new();
	struct sentences *sentences = buying_sentences(giving->model,
		study_buyer(giving->buying, record, item, arena), arena);
	bool given = true;
	unsigned i;

	for (i = 0; given && i < sentences->count; i++) {
		const struct sentence *sentence = &sentences->items[i];
		const struct record *about = sentence->about;
		struct cell place = {.form = CELL_WHOLE};

		place.whole = ++*position;
		given = giving->row(giving->data, (struct cell[]){
			text(record->kind->name), text(record->id), place,
			text(item == NULL ? NULL : item->group[0]->text),
			text(parts[sentence->part]),
			text(buying_heading(sentence->part)),
			text(sentence->text),
			text(about == NULL ? NULL : about->kind->name),
			text(about == NULL ? NULL : about->id)},
			giving->error);
	}
	arena_free(arena);
	return given;
}

static bool
give_record(const struct giving *giving, const struct record *record)
{
	const struct value *combinations = NULL;
	int64_t position = 0;
	unsigned i;

	if (record->kind == model_field(giving->model,
		NAME(PAIRING_COMBINATIONS))->kind)
		combinations = model_get(giving->model, record->values,
			NAME(PAIRING_COMBINATIONS));
	if (!give_view(giving, record, NULL, &position))
		return false;
	for (i = 0; i < value_count(combinations); i++)
		if (!give_view(giving, record, value_item(combinations, i),
			&position))
			return false;
	return true;
}

bool
compute_buyer(const struct relations *relations, relation_row *row,
	void *data, GError **error)
{
	const struct schema *schema = model_schema(relations->model);
	struct arena *arena = arena_new();
	struct giving giving = {relations->model, buying_gather(
		relations->model, relations->seen, arena), row, data, error};
	bool given = true;
	unsigned i, j;

	for (i = 0; i < schema->count; i++) {
		struct record_list list = model_records(relations->model,
			&schema->kinds[i]);

		if (schema->kinds[i].chapter != CHAPTER_MADE)
			continue;
		for (j = 0; given && j < list.count; j++)
			given = give_record(&giving, list.items[j]);
	}
	arena_free(arena);
	return given;
}

const struct computed_column buyer_columns[] = {
	{"kind", "kind", CELL_TEXT, true, NULL},
	{"id", "what is to be bought", CELL_TEXT, true, "record"},
	{"position", "place among its sentences", CELL_WHOLE, true, NULL},
	{"item", "key of the combination", CELL_TEXT, false, NULL},
	{"part", "exists, anomalies, imitations, others or ask", CELL_TEXT,
		true, NULL},
	{"heading", "what the part is headed by", CELL_TEXT, true, NULL},
	{"sentence", "the sentence", CELL_TEXT, true, NULL},
	{"about_kind", "kind of what it is about", CELL_TEXT, false, NULL},
	{"about_id", "what it is about", CELL_TEXT, false, "record"},
	{0},
};
