/*
 * Relations that are worked out from the corpus: where old ids lead, what
 * prose mentions, the slots of runs, and what was seen of each pairing and
 * anomaly.
 */
#include "write/relations/inside.h"

#include "study/slots.h"

static struct cell
text(const char *words)
{
	struct cell cell = {.form = words == NULL ? CELL_NULL : CELL_TEXT};

	cell.text = words;
	return cell;
}

static struct cell
whole(int64_t number)
{
	struct cell cell = {.form = CELL_WHOLE};

	cell.whole = number;
	return cell;
}

/* What the walks over all records share. */
struct giving {
	const struct relations *relations;
	relation_row *row;
	void *data;
	GError **error;
};

typedef bool give_record(const struct giving *giving,
	const struct record *record);

static bool
each_record(const struct giving *giving, give_record *give)
{
	const struct model *model = giving->relations->model;
	const struct schema *schema = model_schema(model);
	unsigned i, j;

	for (i = 0; i < schema->count; i++) {
		struct record_list list = model_records(model,
			&schema->kinds[i]);

		for (j = 0; j < list.count; j++)
			if (!give(giving, list.items[j]))
				return false;
	}
	return true;
}

/* A field that every record may carry, of those that are exported. */
static const struct value *
every_value(const struct giving *giving, const struct record *record,
	enum field_name name)
{
	const struct model *model = giving->relations->model;

	return model_field(model, name)->exported ?
		model_get_every(model, record, name) : NULL;
}

static bool
give_retired(const struct giving *giving, const struct record *record)
{
	const struct model *model = giving->relations->model;
	const struct value *retired = every_value(giving, record,
		NAME(EVERY_RETIRED));
	const struct record *to;

	if (retired == NULL)
		return true;
	to = model_record(model, retired->group,
		NAME(EVERY_RETIRED_SUCCESSOR));
	return giving->row(giving->data, (struct cell[]){
		text(record->kind->name), text(record->id),
		text(to == NULL ? NULL : to->kind->name),
		text(to == NULL ? NULL : to->id), text("retired"),
		text(model_text(model, retired->group,
			NAME(EVERY_RETIRED_REASON)))}, giving->error);
}

static bool
give_redirects(const struct giving *giving, const struct record *record)
{
	const struct value *former = every_value(giving, record,
		NAME(EVERY_FORMERLY));
	unsigned i;

	for (i = 0; i < value_count(former); i++)
		if (!giving->row(giving->data, (struct cell[]){
			text(record->kind->name),
			text(value_item(former, i)->text),
			text(record->kind->name), text(record->id),
			text("renamed"), text(NULL)}, giving->error))
			return false;
	return give_retired(giving, record);
}

static bool
compute_redirects(const struct relations *relations, relation_row *row,
	void *data, GError **error)
{
	struct giving giving = {relations, row, data, error};

	return each_record(&giving, give_redirects);
}

static const struct computed_column redirect_columns[] = {
	{"kind", "kind", CELL_TEXT, true, NULL},
	{"was", "the id that led somewhere", CELL_TEXT, true, NULL},
	{"to_kind", "kind of where it leads now", CELL_TEXT, false, NULL},
	{"to_id", "where it leads now", CELL_TEXT, false, "record"},
	{"why", "renamed or retired", CELL_TEXT, true, NULL},
	{"reason", "why it was retired", CELL_TEXT, false, NULL},
	{0},
};

/* Links of one text, counted through a record. */
static bool
give_links(const struct giving *giving, const struct record *record,
	const struct prose *prose, unsigned *position)
{
	const struct prose *inner;

	if (prose->kind == PROSE_LINK && prose->record != NULL &&
		!giving->row(giving->data, (struct cell[]){
		text(record->kind->name), text(record->id),
		whole(++*position), text(prose->record->kind->name),
		text(prose->record->id), text(prose->key)}, giving->error))
		return false;
	for (inner = prose->first; inner != NULL; inner = inner->next)
		if (!give_links(giving, record, inner, position))
			return false;
	return true;
}

static bool
give_value_links(const struct giving *giving, const struct record *record,
	const struct value *value, unsigned *position)
{
	const struct fields *fields;
	unsigned i;

	if (value == NULL || !value->field->exported)
		return true;
	if (value->form == VALUE_MANY) {
		for (i = 0; i < value->many.count; i++)
			if (!give_value_links(giving, record,
				value->many.items[i], position))
				return false;
		return true;
	}
	if (value->field->type == TYPE_PROSE)
		return give_links(giving, record, value->prose.tree, position);
	if (value->field->type != TYPE_GROUP)
		return true;
	fields = &value->field->fields;
	for (i = 0; i < fields->count; i++)
		if (!give_value_links(giving, record, value->group[i],
			position))
			return false;
	return true;
}

static bool
give_mentions(const struct giving *giving, const struct record *record)
{
	unsigned position = 0, i;

	for (i = 0; i < record->kind->fields.count; i++)
		if (!give_value_links(giving, record, record->values[i],
			&position))
			return false;
	return true;
}

static bool
compute_mentions(const struct relations *relations, relation_row *row,
	void *data, GError **error)
{
	struct giving giving = {relations, row, data, error};

	return each_record(&giving, give_mentions);
}

static const struct computed_column mention_columns[] = {
	{"kind", "kind of the record whose text it is", CELL_TEXT, true, NULL},
	{"id", "the record whose text it is", CELL_TEXT, true, "record"},
	{"position", "place in its texts", CELL_WHOLE, true, NULL},
	{"to_kind", "kind of what is mentioned", CELL_TEXT, true, NULL},
	{"to_id", "what is mentioned", CELL_TEXT, true, "record"},
	{"to_key", "the item of it", CELL_TEXT, false, NULL},
	{0},
};

static const char *const standings[] = {
	[SLOT_SURE] = "sure",
	[SLOT_UNSURE] = "unsure",
};

static bool
give_slots(const struct giving *giving, const struct record *run,
	const struct slots *slots)
{
	unsigned i;

	for (i = 0; i < slots->count; i++) {
		const struct slot *slot = &slots->items[i];

		if (!giving->row(giving->data, (struct cell[]){
			text(run->id), whole((int64_t)i + 1),
			text(slot->record->kind->name), text(slot->record->id),
			text(slot->item == NULL ? NULL :
				slot->item->group[0]->text),
			text(slot->name), text(standings[slot->standing]),
			text(slot_doubt_words(slot))},
			giving->error))
			return false;
	}
	return true;
}

static bool
compute_slots(const struct relations *relations, relation_row *row,
	void *data, GError **error)
{
	struct giving giving = {relations, row, data, error};
	struct record_list runs = model_records_of(relations->model, "run");
	bool given = true;
	unsigned i;

	for (i = 0; given && i < runs.count; i++) {
		struct arena *arena = arena_new();

		given = give_slots(&giving, runs.items[i], study_slots(
			relations->model, runs.items[i], arena));
		arena_free(arena);
	}
	return given;
}

static const struct computed_column slot_columns[] = {
	{"run", "run", CELL_TEXT, true, "run"},
	{"position", "place among its slots", CELL_WHOLE, true, NULL},
	{"slot_kind", "kind of what fills it", CELL_TEXT, true, NULL},
	{"slot_id", "what fills it", CELL_TEXT, true, "record"},
	{"slot_key", "the item of that", CELL_TEXT, false, NULL},
	{"name", "what it is called", CELL_TEXT, true, NULL},
	{"standing", "sure, or unsure: it may not exist", CELL_TEXT, true,
		NULL},
	{"doubt", "why it may not exist", CELL_TEXT, false, NULL},
	{0},
};

/* Puts counts into five cells. */
static void
count_cells(struct cell *cells, struct seen_count count)
{
	cells[0] = whole(count.specimens);
	cells[1] = whole(count.sightings);
	cells[2] = whole(count.lists);
	cells[3] = whole(count.possible);
	cells[4] = text(count.last == NULL ? NULL : count.last->text);
}

#define COUNT_COLUMNS \
	{"specimens", "pieces seen", CELL_WHOLE, true, NULL}, \
	{"sightings", "sightings of them", CELL_WHOLE, true, NULL}, \
	{"lists", "lists that have them", CELL_WHOLE, true, NULL}, \
	{"possible", "pieces that may be one too", CELL_WHOLE, true, \
		NULL}, \
	{"last_seen", "last seen", CELL_TEXT, false, NULL}, \
	{0}

static bool
compute_pairing_seen(const struct relations *relations, relation_row *row,
	void *data, GError **error)
{
	struct record_list list = model_records_of(relations->model,
		"pairing");
	struct cell cells[6];
	unsigned i;

	for (i = 0; i < list.count; i++) {
		cells[0] = text(list.items[i]->id);
		count_cells(cells + 1, seen_count(relations->seen,
			seen_of_pairing(relations->seen, list.items[i]), NULL,
			NULL));
		if (!row(data, cells, error))
			return false;
	}
	return true;
}

static const struct computed_column pairing_seen_columns[] = {
	{"pairing", "pairing", CELL_TEXT, true, "pairing"},
	COUNT_COLUMNS,
};

static bool
compute_anomaly_seen(const struct relations *relations, relation_row *row,
	void *data, GError **error)
{
	struct record_list list = model_records_of(relations->model,
		"anomaly");
	struct cell cells[6];
	unsigned i;

	for (i = 0; i < list.count; i++) {
		cells[0] = text(list.items[i]->id);
		count_cells(cells + 1, seen_count(relations->seen,
			seen_of_anomaly(relations->seen, list.items[i]), NULL,
			NULL));
		if (!row(data, cells, error))
			return false;
	}
	return true;
}

static const struct computed_column anomaly_seen_columns[] = {
	{"anomaly", "anomaly", CELL_TEXT, true, "anomaly"},
	COUNT_COLUMNS,
};

/* Pairings that the anomaly is said of, each once. */
static bool
give_anomaly_pairings(const struct giving *giving,
	const struct record *anomaly)
{
	const struct model *model = giving->relations->model;
	const struct seen *seen = giving->relations->seen;
	const struct value *pairings = model_get(model, anomaly->values,
		NAME(ANOMALY_PAIRINGS));
	GHashTable *given = g_hash_table_new(NULL, NULL);
	struct cell cells[7];
	bool all = true;
	unsigned i;

	for (i = 0; all && i < value_count(pairings); i++) {
		const struct record *pairing = value_item(pairings, i)
			->reference.record;

		if (!g_hash_table_add(given, (gpointer)(uintptr_t)pairing))
			continue;
		cells[0] = text(anomaly->id);
		cells[1] = text(pairing->id);
		count_cells(cells + 2, seen_count(seen,
			seen_of_anomaly(seen, anomaly), pairing, NULL));
		all = giving->row(giving->data, cells, giving->error);
	}
	g_hash_table_destroy(given);
	return all;
}

static bool
compute_anomaly_pairing_seen(const struct relations *relations,
	relation_row *row, void *data, GError **error)
{
	struct giving giving = {relations, row, data, error};
	struct record_list list = model_records_of(relations->model,
		"anomaly");
	unsigned i;

	for (i = 0; i < list.count; i++)
		if (!give_anomaly_pairings(&giving, list.items[i]))
			return false;
	return true;
}

static const struct computed_column anomaly_pairing_seen_columns[] = {
	{"anomaly", "anomaly", CELL_TEXT, true, "anomaly"},
	{"pairing", "pairing", CELL_TEXT, true, "pairing"},
	COUNT_COLUMNS,
};

const struct computed computed_relations[] = {
	{"redirect", "old ids", "Where a former or withdrawn id leads.", 2,
		compute_redirects, redirect_columns},
	{"mention", "mentions", "What the prose of a record links to.", 3,
		compute_mentions, mention_columns},
	{"run_slot", "slots of runs", "What there is to fill in each run.", 2,
		compute_slots, slot_columns},
	{"pairing_seen", "seen so far", "Sightings counted by pairing, "
		"without doubted pieces.", 1, compute_pairing_seen,
		pairing_seen_columns},
	{"anomaly_seen", "seen so far", "Sightings counted by anomaly, "
		"without doubted pieces.", 1, compute_anomaly_seen,
		anomaly_seen_columns},
	{"anomaly_pairing_seen", "anomalies seen on each pairing", "Sightings "
		"counted by anomaly and pairing, without doubted pieces.", 2,
		compute_anomaly_pairing_seen, anomaly_pairing_seen_columns},
	{"census_line", "lines of population reports", "What each line "
		"counts, what it covers, and of how many pieces its "
		"certificates may be.", 2, compute_census_line,
		census_line_columns},
	{"census_rank", "rank in population reports", "Certificates at each "
		"step of each line, how many are higher, and so the ranks "
		"there.", 3, compute_census_rank, census_rank_columns},
	{"census_words", "population reports in sentences", "What reports say "
		"of each pairing, and of each of their lines.", 3,
		compute_census_words, census_words_columns},
	{"unseen", "still unseen", "Pairings of each market: how many lists "
		"have shown, how many they can show at least, and how many "
		"are not recorded yet.", 1, compute_unseen, unseen_columns},
	{"discovery", "what lists showed first", "Pairings of each market "
		"that were new to all lists, by year.", 2, compute_discovery,
		discovery_columns},
	{"buyer", "before you buy", "What to know and to ask before buying, "
		"in sentences.", 3, compute_buyer, buyer_columns},
	{"estimate", "estimates of how many exist", "Computed from what was "
		"seen; what others have published stands in their records. An "
		"estimate is no appraisal.", 1, compute_estimates,
		estimate_columns},
	{0},
};
