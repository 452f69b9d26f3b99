/*
 * Pairings and anomalies carry the same fields under names of their own.
 */
#include "model/quoted.h"

#include <string.h>

struct quoted_names {
	enum field_name list, of, form, number, low, high, date, source,
		method;
};

static const struct quoted_names of_pairings = {
	NAME(PAIRING_ESTIMATES), NAME(PAIRING_ESTIMATE_OF),
	NAME(PAIRING_ESTIMATE_FORM), NAME(PAIRING_ESTIMATE_NUMBER),
	NAME(PAIRING_ESTIMATE_LOW), NAME(PAIRING_ESTIMATE_HIGH),
	NAME(PAIRING_ESTIMATE_DATE), NAME(PAIRING_ESTIMATE_SOURCE),
	NAME(PAIRING_ESTIMATE_METHOD),
};
static const struct quoted_names of_anomalies = {
	NAME(ANOMALY_ESTIMATES), NAME(ANOMALY_ESTIMATE_OF),
	NAME(ANOMALY_ESTIMATE_FORM), NAME(ANOMALY_ESTIMATE_NUMBER),
	NAME(ANOMALY_ESTIMATE_LOW), NAME(ANOMALY_ESTIMATE_HIGH),
	NAME(ANOMALY_ESTIMATE_DATE), NAME(ANOMALY_ESTIMATE_SOURCE),
	NAME(ANOMALY_ESTIMATE_METHOD),
};

static const struct word *
word_of(const struct model *model, struct value *const *group,
	enum field_name name)
{
	const struct value *value = model_get(model, group, name);

	return value == NULL ? NULL : value->word;
}

static struct quoted
read_one(const struct model *model, const struct quoted_names *names,
	const struct value *item)
{
	struct value *const *group = item->group;

	return (struct quoted){
		.item = item,
		.of = word_of(model, group, names->of),
		.form = word_of(model, group, names->form),
		.number = model_whole(model, group, names->number,
			QUOTED_NONE),
		.low = model_whole(model, group, names->low, QUOTED_NONE),
		.high = model_whole(model, group, names->high, QUOTED_NONE),
		.date = model_date(model, group, names->date),
		.source = model_record(model, group, names->source),
		.method = model_text(model, group, names->method),
	};
}

struct quoted_list
quoted_of(const struct model *model, const struct record *record,
	const struct record *pairing, struct arena *arena)
{
	bool anomaly = strcmp(record->kind->name, "anomaly") == 0;
	const struct quoted_names *names = anomaly ? &of_anomalies :
		&of_pairings;
	struct quoted_list list = {NULL, 0};
	const struct value *all;
	struct quoted *items;
	unsigned i;

	if (!anomaly && strcmp(record->kind->name, "pairing") != 0)
		return list;
	all = model_get(model, record->values, names->list);
	items = arena_array(arena, struct quoted, value_count(all));
	for (i = 0; i < value_count(all); i++) {
		const struct value *item = value_item(all, i);

		if (!anomaly || model_record(model, item->group,
			NAME(ANOMALY_ESTIMATE_PAIRING)) == pairing)
			items[list.count++] = read_one(model, names, item);
	}
	list.items = items;
	return list;
}

void
quoted_range(const struct quoted *quoted, int64_t *low, int64_t *high)
{
	*low = quoted->low != QUOTED_NONE ? quoted->low :
		quoted->number != QUOTED_NONE ? quoted->number : 0;
	*high = quoted->high != QUOTED_NONE ? quoted->high :
		quoted->number != QUOTED_NONE && quoted->low == QUOTED_NONE ?
		quoted->number : INT64_MAX;
}
