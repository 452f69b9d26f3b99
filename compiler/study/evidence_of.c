/*
 * The subjects there are, and what there is on one of them.
 */
#include <glib.h>
#include <string.h>

#include "study/evidence_inside.h"

static void
list_subject(GArray *list, enum subject_form form,
	const struct record *record, const struct value *item,
	const struct record *pairing)
{
	struct subject subject = {form, record, item, pairing};

	g_array_append_val(list, subject);
}

/* A single combination would say what its pairing says. */
static void
list_pairings(struct evidences *all, GArray *list)
{
	struct record_list pairings = model_records_of(all->model, "pairing");
	const struct value *items;
	unsigned i, j;

	all->of_pairing = arena_array(all->arena, unsigned, pairings.count);
	for (i = 0; i < pairings.count; i++) {
		all->of_pairing[i] = list->len;
		list_subject(list, SUBJECT_PAIRING, pairings.items[i], NULL,
			NULL);
		items = model_get(all->model, pairings.items[i]->values,
			NAME(PAIRING_COMBINATIONS));
		for (j = 0; value_count(items) > 1 && j < value_count(items);
			j++)
			list_subject(list, SUBJECT_COMBINATION,
				pairings.items[i], value_item(items, j), NULL);
	}
}

static gint
compare_records(gconstpointer a, gconstpointer b)
{
	const struct record *left = *(const struct record *const *)a;
	const struct record *right = *(const struct record *const *)b;

	return (left->index > right->index) - (left->index < right->index);
}

/* Pairings that an anomaly names, that name it, or that it was seen on. */
static void
list_pairings_of(const struct evidences *all, const struct record *anomaly,
	GArray *list)
{
	const struct value *own = model_get(all->model, anomaly->values,
		NAME(ANOMALY_PAIRINGS));
	struct pointer_list pointing = model_pointing(all->model, anomaly);
	struct seen_list seen = seen_of_anomaly(all->seen, anomaly);
	GPtrArray *found = g_ptr_array_new();
	size_t i;
	guint j;

	for (i = 0; i < value_count(own); i++)
		g_ptr_array_add(found, (gpointer)(uintptr_t)value_item(own,
			(unsigned)i)->reference.record);
	for (i = 0; i < pointing.count; i++)
		if (pointing.items[i].field == model_field(all->model,
			NAME(COMBINATION_ANOMALY)))
			g_ptr_array_add(found, (gpointer)(uintptr_t)
				pointing.items[i].from);
	for (i = 0; i < seen.count; i++)
		if (seen.items[i].certain && seen_pairing(all->seen,
			seen.items[i].specimen) != NULL)
			g_ptr_array_add(found, (gpointer)(uintptr_t)
				seen_pairing(all->seen,
					seen.items[i].specimen));
	g_ptr_array_sort(found, compare_records);
	for (j = 0; j < found->len; j++)
		if (j == 0 || found->pdata[j] != found->pdata[j - 1])
			list_subject(list, SUBJECT_ANOMALY_ON, anomaly, NULL,
				found->pdata[j]);
	g_ptr_array_free(found, TRUE);
}

void
subjects_list(struct evidences *all)
{
	struct record_list anomalies = model_records_of(all->model, "anomaly");
	struct record_list cardbacks = model_records_of(all->model,
		"cardback");
	GArray *list = g_array_new(FALSE, FALSE, sizeof(struct subject));
	unsigned i;

	list_pairings(all, list);
	all->of_anomaly = arena_array(all->arena, unsigned, anomalies.count);
	for (i = 0; i < anomalies.count; i++) {
		all->of_anomaly[i] = list->len;
		list_subject(list, SUBJECT_ANOMALY, anomalies.items[i], NULL,
			NULL);
		list_pairings_of(all, anomalies.items[i], list);
	}
	all->first_cardback = list->len;
	for (i = 0; i < cardbacks.count; i++)
		list_subject(list, SUBJECT_CARDBACK, cardbacks.items[i], NULL,
			NULL);
	all->subject_count = list->len;
	all->subjects = arena_array(all->arena, struct subject, list->len);
	if (list->len > 0)
		memcpy(all->subjects, list->data,
			sizeof(struct subject) * list->len);
	g_array_free(list, TRUE);
}

const struct subject *
evidences_subjects(const struct evidences *all, unsigned *count)
{
	*count = all->subject_count;
	return all->subjects;
}

static bool
same_subject(const struct subject *a, const struct subject *b)
{
	return a->form == b->form && a->record == b->record &&
		a->item == b->item && a->pairing == b->pairing;
}

unsigned
evidences_place(const struct evidences *all, const struct subject *subject)
{
	unsigned index = subject->record->index, place = 0;

	switch (subject->form) {
	case SUBJECT_PAIRING:
	case SUBJECT_COMBINATION:
		place = all->of_pairing[index];
		break;
	case SUBJECT_ANOMALY:
	case SUBJECT_ANOMALY_ON:
		place = all->of_anomaly[index];
		break;
	case SUBJECT_CARDBACK:
		return all->first_cardback + index;
	}
	for (; place < all->subject_count &&
		all->subjects[place].record == subject->record; place++)
		if (same_subject(&all->subjects[place], subject))
			return place;
	return all->subject_count;
}

static bool
is_anomaly(const struct value *identity)
{
	return identity != NULL &&
		(identity->identity.kind == IDENTITY_KNOWN ||
			identity->identity.kind == IDENTITY_ONE_OF);
}

/* A piece is of an anomaly, or has a sticker, only where it is said to. */
static enum allows
said_allows(const struct model *model, const struct record *specimen,
	const struct record *anomaly)
{
	const struct value *identity = model_get(model, specimen->values,
		NAME(SPECIMEN_ANOMALY));

	if (!is_anomaly(identity))
		return anomaly == NULL ? ALLOWS_CERTAINLY : ALLOWS_NOT;
	return anomaly == NULL ? ALLOWS_NOT :
		identity_allows(identity, anomaly);
}

static bool
has_sticker(const struct model *model, const struct record *specimen,
	const struct record *sticker)
{
	const struct value *list = model_get(model, specimen->values,
		NAME(SPECIMEN_STICKERS));
	unsigned i;

	for (i = 0; i < value_count(list); i++)
		if (value_item(list, i)->reference.record == sticker)
			return true;
	return false;
}

/* One without a sticker is not for pieces with that of another. */
static bool
sticker_fits(const struct model *model, const struct record *specimen,
	const struct value *items, const struct value *item)
{
	const struct record *sticker = model_record(model, item->group,
		NAME(COMBINATION_STICKER));
	unsigned i;

	if (sticker != NULL)
		return has_sticker(model, specimen, sticker);
	if (model_get(model, specimen->values, NAME(SPECIMEN_STICKERS)) ==
		NULL)
		return true;
	for (i = 0; i < value_count(items); i++) {
		sticker = model_record(model, value_item(items, i)->group,
			NAME(COMBINATION_STICKER));
		if (sticker != NULL && has_sticker(model, specimen, sticker))
			return false;
	}
	return true;
}

/* A part that the combination does not state excludes nothing. */
static bool
fits(const struct model *model, const struct record *specimen,
	const struct value *items, const struct value *item)
{
	static const enum field_name parts[][2] = {
		{NAME(COMBINATION_FRONT), NAME(SPECIMEN_FRONT)},
		{NAME(COMBINATION_BLISTER), NAME(SPECIMEN_BLISTER)},
		{NAME(COMBINATION_VARIANT), NAME(SPECIMEN_VARIANT)},
	};
	const struct record *part;
	size_t i;

	for (i = 0; i < G_N_ELEMENTS(parts); i++) {
		part = model_record(model, item->group, parts[i][0]);
		if (part != NULL && identity_allows(model_get(model,
			specimen->values, parts[i][1]), part) == ALLOWS_NOT)
			return false;
	}
	return said_allows(model, specimen, model_record(model, item->group,
		NAME(COMBINATION_ANOMALY))) != ALLOWS_NOT &&
		sticker_fits(model, specimen, items, item);
}

/* A piece surely is of a combination if it fits no other of the pairing. */
static enum allows
combination_allows(const struct model *model, const struct subject *subject,
	const struct record *specimen)
{
	const struct value *items = model_get(model, subject->record->values,
		NAME(PAIRING_COMBINATIONS));
	unsigned i;

	if (!fits(model, specimen, items, subject->item))
		return ALLOWS_NOT;
	for (i = 0; i < value_count(items); i++)
		if (value_item(items, i) != subject->item &&
			fits(model, specimen, items, value_item(items, i)))
			return ALLOWS_POSSIBLY;
	return ALLOWS_CERTAINLY;
}

/* Whether a piece of an anomaly is on a pairing. */
static enum allows
pairing_allows(const struct evidences *all, const struct record *pairing,
	const struct record *specimen)
{
	enum allows character, cardback;

	if (seen_pairing(all->seen, specimen) == pairing)
		return ALLOWS_CERTAINLY;
	if (seen_pairing(all->seen, specimen) != NULL)
		return ALLOWS_NOT;
	character = identity_allows(model_get(all->model, specimen->values,
		NAME(SPECIMEN_CHARACTER)), model_record(all->model,
			pairing->values, NAME(PAIRING_CHARACTER)));
	cardback = identity_allows(model_get(all->model, specimen->values,
		NAME(SPECIMEN_CARDBACK)), model_record(all->model,
			pairing->values, NAME(PAIRING_CARDBACK)));
	return MIN(character, cardback) == ALLOWS_NOT ? ALLOWS_NOT :
		ALLOWS_POSSIBLY;
}

static struct seen_list
list_of(const struct evidences *all, const struct subject *subject)
{
	switch (subject->form) {
	case SUBJECT_PAIRING:
	case SUBJECT_COMBINATION:
		return seen_of_pairing(all->seen, subject->record);
	case SUBJECT_ANOMALY:
	case SUBJECT_ANOMALY_ON:
		return seen_of_anomaly(all->seen, subject->record);
	case SUBJECT_CARDBACK:
		return all->of_cardback[subject->record->index];
	}
	return (struct seen_list){NULL, 0};
}

static enum allows
belongs(const struct evidences *all, const struct subject *subject,
	const struct seen_specimen *entry)
{
	enum allows whole = entry->certain ? ALLOWS_CERTAINLY :
		ALLOWS_POSSIBLY, part = ALLOWS_CERTAINLY;

	if (subject->form == SUBJECT_COMBINATION)
		part = combination_allows(all->model, subject,
			entry->specimen);
	if (subject->form == SUBJECT_ANOMALY_ON)
		part = pairing_allows(all, subject->pairing, entry->specimen);
	return MIN(whole, part);
}

GPtrArray *
evidence_pieces(const struct evidences *all, const struct subject *subject)
{
	struct seen_list list = list_of(all, subject);
	GPtrArray *pieces = g_ptr_array_new();
	unsigned i;

	for (i = 0; i < list.count; i++)
		if (belongs(all, subject, &list.items[i]) == ALLOWS_CERTAINLY)
			g_ptr_array_add(pieces, (gpointer)(uintptr_t)
				list.items[i].specimen);
	return pieces;
}

unsigned
evidence_known(const struct evidences *all, const struct subject *subject)
{
	struct seen_list list = list_of(all, subject);
	unsigned known = 0, i;

	for (i = 0; i < list.count; i++)
		known += all->pieces[list.items[i].specimen->index].standing ==
			STANDING_COUNTS && belongs(all, subject,
				&list.items[i]) == ALLOWS_CERTAINLY;
	return known;
}

/* The pieces of a subject while it is worked out. */
struct building {
	const struct evidences *all;
	struct evidence *evidence;
	GPtrArray *certain;	/* struct piece_seen, with sightings */
	GPtrArray *possible;
};

static void
count_certain(struct building *building, const struct record *specimen)
{
	struct evidence *evidence = building->evidence;
	struct piece_seen *piece = &building->all->pieces[specimen->index];

	evidence->out[piece->standing]++;
	if (piece->standing != STANDING_COUNTS)
		return;
	evidence->known++;
	evidence->suspected += piece->suspected;
	evidence->unsure += piece->unsure;
	evidence->sightings += piece->count;
	evidence->relisted += piece->relisted;
	evidence->anomalous += is_anomaly(model_get(building->all->model,
		specimen->values, NAME(SPECIMEN_ANOMALY)));
	if (piece->count == 0)
		evidence->undated++;
	else
		g_ptr_array_add(building->certain, piece);
}

static void
count_pieces(struct building *building)
{
	const struct evidences *all = building->all;
	const struct subject *subject = &building->evidence->subject;
	struct seen_list list = list_of(all, subject);
	unsigned i;

	for (i = 0; i < list.count; i++) {
		const struct record *specimen = list.items[i].specimen;
		struct piece_seen *piece = &all->pieces[specimen->index];

		switch (belongs(all, subject, &list.items[i])) {
		case ALLOWS_NOT:
			break;
		case ALLOWS_POSSIBLY:
			if (piece->standing != STANDING_COUNTS)
				break;
			building->evidence->possible++;
			if (piece->count > 0)
				g_ptr_array_add(building->possible, piece);
			break;
		case ALLOWS_CERTAINLY:
			count_certain(building, specimen);
			break;
		}
	}
}

static gint
compare_places(gconstpointer a, gconstpointer b)
{
	const unsigned *left = a, *right = b;

	return (*left > *right) - (*left < *right);
}

/* The occasions that saw any of the pieces, in order, each once. */
static GArray *
used_occasions(const GPtrArray *pieces)
{
	GArray *used = g_array_new(FALSE, FALSE, sizeof(unsigned));
	unsigned i, kept = 0;

	for (i = 0; i < pieces->len; i++) {
		const struct piece_seen *piece = pieces->pdata[i];

		g_array_append_vals(used, piece->catches, piece->count);
	}
	g_array_sort(used, compare_places);
	for (i = 0; i < used->len; i++)
		if (kept == 0 || g_array_index(used, unsigned, i) !=
			g_array_index(used, unsigned, kept - 1))
			g_array_index(used, unsigned, kept++) = g_array_index(
				used, unsigned, i);
	g_array_set_size(used, kept);
	return used;
}

static struct history
make_history(const GPtrArray *pieces, const GArray *used, struct arena *arena)
{
	unsigned char *seen = arena_array(arena, unsigned char,
		(size_t)pieces->len * used->len);
	struct history history = {pieces->len, used->len, seen};
	unsigned i, j, at;

	for (i = 0; i < pieces->len; i++) {
		const struct piece_seen *piece = pieces->pdata[i];

		/* Both are in order, so one walk finds all. */
		for (j = 0, at = 0; j < piece->count; j++) {
			while (g_array_index(used, unsigned, at) !=
				piece->catches[j])
				at++;
			seen[(size_t)i * used->len + at] = 1;
		}
	}
	return history;
}

static const struct listing *
make_listings(const struct evidences *all, const struct history *history,
	const GArray *used, struct arena *arena)
{
	struct record_list sources = model_records_of(all->model, "source");
	struct listing *listings = arena_array(arena, struct listing,
		used->len);
	unsigned i, j;

	for (j = 0; j < used->len; j++) {
		gint64 key = all->occasions[g_array_index(used, unsigned, j)];

		listings[j].year = (int)(key >> 32);
		listings[j].source = sources.items[key & 0xffffffff];
	}
	for (i = 0; i < history->pieces; i++) {
		bool before = false;

		for (j = 0; j < used->len; j++) {
			if (!history->seen[(size_t)i * used->len + j])
				continue;
			listings[j].pieces++;
			listings[j].again += before;
			before = true;
		}
	}
	return listings;
}

static void
make_widest(struct building *building, struct arena *arena)
{
	GArray *used;
	guint i;

	if (building->possible->len == 0)
		return;
	for (i = 0; i < building->certain->len; i++)
		g_ptr_array_add(building->possible,
			building->certain->pdata[i]);
	used = used_occasions(building->possible);
	building->evidence->widest = make_history(building->possible, used,
		arena);
	g_array_free(used, TRUE);
}

struct evidence *
evidence_of(const struct evidences *all, struct subject subject,
	struct arena *arena)
{
	struct evidence *evidence = arena_one(arena, struct evidence);
	struct building building = {all, evidence, g_ptr_array_new(),
		g_ptr_array_new()};
	GArray *used;

	evidence->subject = subject;
	count_pieces(&building);
	if (subject.form == SUBJECT_PAIRING)
		evidence->unrecognised =
			all->unrecognised[subject.record->index];
	used = used_occasions(building.certain);
	evidence->history = make_history(building.certain, used, arena);
	evidence->listings = make_listings(all, &evidence->history, used,
		arena);
	make_widest(&building, arena);
	g_array_free(used, TRUE);
	g_ptr_array_free(building.certain, TRUE);
	g_ptr_array_free(building.possible, TRUE);
	return evidence;
}

const char *
subject_address(const struct subject *subject, struct arena *arena)
{
	const struct record *record = subject->record;

	if (subject->item != NULL)
		return arena_print(arena, "%s/%s.%s", record->kind->name,
			record->id, subject->item->group[0]->text);
	if (subject->pairing != NULL)
		return arena_print(arena, "%s/%s on %s/%s",
			record->kind->name, record->id,
			subject->pairing->kind->name, subject->pairing->id);
	return arena_print(arena, "%s/%s", record->kind->name, record->id);
}

const char *
subject_typed(const struct subject *subject, struct arena *arena)
{
	if (subject->pairing == NULL)
		return subject_address(subject, arena);
	return arena_print(arena, "%s/%s --on %s", subject->record->kind->name,
		subject->record->id, subject->pairing->id);
}

const char *
subject_name(const struct subject *subject, struct arena *arena)
{
	if (subject->item != NULL)
		return arena_print(arena, "%s, combination %s",
			subject->record->name, subject->item->group[0]->text);
	if (subject->pairing != NULL)
		return arena_print(arena, "%s, %s", subject->record->name,
			subject->pairing->name);
	return subject->record->name;
}
