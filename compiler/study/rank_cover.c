/*
 * Lines are led to the pairings that they cover, and from these to the pieces
 * of the guide that they count.
 */
#include "study/rank_cover.h"

#include "study/slots.h"

struct covering {
	const struct model *model;
	const struct seen *seen;
	GHashTable *of_pairing;	/* pairing → struct cover, of all lines */
};

static void
add_cover(GArray *covers, GHashTable *places, const struct reference *reference)
{
	gpointer place = g_hash_table_lookup(places, reference->record);
	struct cover new = {.pairing = reference->record}, *found;

	if (place == NULL) {
		g_array_append_val(covers, new);
		place = GUINT_TO_POINTER(covers->len);
		g_hash_table_insert(places,
			(gpointer)(uintptr_t)reference->record, place);
	}
	found = &g_array_index(covers, struct cover,
		GPOINTER_TO_UINT(place) - 1);
	if (reference->item == NULL)
		found->whole = true;
	else {
		if (found->items == NULL)
			found->items = g_ptr_array_new();
		if (!g_ptr_array_find(found->items, reference->item, NULL))
			g_ptr_array_add(found->items,
				(gpointer)(uintptr_t)reference->item);
	}
}

GArray *
covers_of(const struct model *model, const struct value *category)
{
	const struct value *list = model_get(model, category->group,
		NAME(CENSUS_CATEGORY_PAIRINGS));
	GArray *covers = g_array_new(FALSE, FALSE, sizeof(struct cover));
	GHashTable *places = g_hash_table_new(NULL, NULL);
	unsigned i;

	for (i = 0; i < value_count(list); i++)
		if (value_item(list, i)->reference.record != NULL)
			add_cover(covers, places, &value_item(list, i)->
				reference);
	g_hash_table_destroy(places);
	return covers;
}

void
covers_free(GArray *covers)
{
	guint i;

	for (i = 0; i < covers->len; i++) {
		GPtrArray *items = g_array_index(covers, struct cover, i)
			.items;

		if (items != NULL)
			g_ptr_array_free(items, TRUE);
	}
	g_array_free(covers, TRUE);
}

static bool
part_allows(const struct model *model, const struct record *specimen,
	enum field_name of_specimen, const struct value *combination,
	enum field_name of_combination)
{
	const struct record *part = model_record(model, combination->group,
		of_combination);

	return part == NULL || identity_allows(model_get(model,
		specimen->values, of_specimen), part) != ALLOWS_NOT;
}

static bool
may_exist(const struct model *model, const struct value *combination)
{
	return study_may_exist(model_word(model, combination->group,
		NAME(COMBINATION_CONCLUDED)));
}

/* Whether the specimen, one of the pairing, may be of the combination. */
static bool
may_be(const struct model *model, const struct record *specimen,
	const struct value *combination)
{
	return may_exist(model, combination) &&
		part_allows(model, specimen, NAME(SPECIMEN_FRONT), combination,
			NAME(COMBINATION_FRONT)) &&
		part_allows(model, specimen, NAME(SPECIMEN_BLISTER),
			combination, NAME(COMBINATION_BLISTER)) &&
		part_allows(model, specimen, NAME(SPECIMEN_VARIANT),
			combination, NAME(COMBINATION_VARIANT)) &&
		part_allows(model, specimen, NAME(SPECIMEN_ANOMALY),
			combination, NAME(COMBINATION_ANOMALY));
}

static bool
covers_item(const struct cover *cover, const struct value *item)
{
	return cover->whole || (item != NULL && g_ptr_array_find(cover->items,
		item, NULL));
}

/* Whether `line` covers it, and no other line of the report does. */
static bool
covers_alone(const GPtrArray *covers, unsigned line, const struct value *item)
{
	bool covered = false;
	guint i;

	for (i = 0; i < covers->len; i++) {
		const struct cover *one = g_ptr_array_index(covers, i);

		if (!covers_item(one, item))
			continue;
		if (one->line != line)
			return false;
		covered = true;
	}
	return covered;
}

/* The same for whatever combination of its pairing the specimen may be. */
static bool
surely_covered(const struct model *model, const GPtrArray *covers,
	const struct cover *cover, const struct record *specimen)
{
	const struct value *list = model_get(model, cover->pairing->values,
		NAME(PAIRING_COMBINATIONS));
	bool any = false;
	unsigned i;

	for (i = 0; i < value_count(list); i++) {
		if (!may_be(model, specimen, value_item(list, i)))
			continue;
		if (!covers_alone(covers, cover->line, value_item(list, i)))
			return false;
		any = true;
	}
	return any || covers_alone(covers, cover->line, NULL);
}

unsigned
rank_certificates(const struct model *model, const struct record *specimen,
	const struct snapshot *report)
{
	const struct date *day = model_date(model, report->census->values,
		NAME(CENSUS_DATE));
	const struct value *list = model_get(model, specimen->values,
		NAME(SPECIMEN_CERTIFICATES));
	const struct date *date;
	unsigned i, count = 0;

	for (i = 0; i < value_count(list); i++) {
		struct value *const *group = value_item(list, i)->group;

		date = model_date(model, group,
			NAME(SPECIMEN_CERTIFICATE_DATE));
		if (date != NULL && date->last <= day->first &&
			model_record(model, group,
				NAME(SPECIMEN_CERTIFICATE_SERVICE)) ==
			report->service)
			count++;
	}
	return count;
}

/* Counts the specimens that a line surely counts, as far as it says. */
static void
count_known(const struct covering *covering, struct rank_line *rank,
	const struct cover *cover)
{
	const GPtrArray *covers = g_hash_table_lookup(covering->of_pairing,
		cover->pairing);
	struct seen_list list = seen_of_pairing(covering->seen,
		cover->pairing);
	unsigned i, count;

	for (i = 0; i < list.count; i++) {
		if (!list.items[i].certain)
			continue;
		count = rank_certificates(covering->model,
			list.items[i].specimen, rank->line->snapshot);
		if (count == 0 || !surely_covered(covering->model, covers,
			cover, list.items[i].specimen))
			continue;
		rank->known++;
		rank->again += count - 1;
	}
}

/* Combinations of a pairing that may exist; at least the pairing itself. */
static unsigned
count_combinations(const struct model *model, const struct record *pairing)
{
	const struct value *list = model_get(model, pairing->values,
		NAME(PAIRING_COMBINATIONS));
	unsigned i, count = 0;

	for (i = 0; i < value_count(list); i++)
		count += may_exist(model, value_item(list, i));
	return MAX(count, 1);
}

static void
cover_line(const struct covering *covering, struct rank_line *rank,
	const GArray *covers)
{
	guint i;

	rank->pairings = covers->len;
	for (i = 0; i < covers->len; i++) {
		const struct cover *one = &g_array_index(covers, struct cover,
			i);

		rank->combinations += one->whole ? count_combinations(
			covering->model, one->pairing) : one->items->len;
		/* Of a narrower line none is surely counted. */
		if (rank->fit == FIT_EXACT || rank->fit == FIT_BROADER)
			count_known(covering, rank, one);
	}
	rank->broad = rank->fit == FIT_BROADER || rank->combinations > 1;
}

/* Enters what a line covers at each pairing. */
static void
enter_covers(GHashTable *of_pairing, GArray *covers, unsigned line)
{
	GPtrArray *entered;
	guint i;

	for (i = 0; i < covers->len; i++) {
		struct cover *one = &g_array_index(covers, struct cover, i);
		gpointer pairing = (gpointer)(uintptr_t)one->pairing;

		one->line = line;
		entered = g_hash_table_lookup(of_pairing, pairing);
		if (entered == NULL) {
			entered = g_ptr_array_new();
			g_hash_table_insert(of_pairing, pairing, entered);
		}
		g_ptr_array_add(entered, one);
	}
}

static void
free_list(gpointer list)
{
	g_ptr_array_free(list, TRUE);
}

void
rank_cover(const struct model *model, const struct seen *seen,
	struct rank_line *lines, unsigned count)
{
	struct covering covering = {model, seen, g_hash_table_new_full(NULL,
		NULL, NULL, free_list)};
	GArray **covers = g_new(GArray *, count + 1);
	unsigned i;

	for (i = 0; i < count; i++) {
		covers[i] = covers_of(model, lines[i].line->category);
		enter_covers(covering.of_pairing, covers[i], i);
	}
	for (i = 0; i < count; i++)
		cover_line(&covering, &lines[i], covers[i]);
	for (i = 0; i < count; i++)
		covers_free(covers[i]);
	g_free(covers);
	g_hash_table_destroy(covering.of_pairing);
}
