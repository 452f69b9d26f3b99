/*
 * What to look at to settle whether a piece fills a slot: the feature in which
 * the ways that fill it differ from those that do not, or else the part.
 */
#include <string.h>

#include "study/collect.h"
#include "study/fill.h"
#include "study/settle.h"
#include "study/states.h"

struct asking {
	const struct filled_slot *slot;
	bool gives;
};

static void
note_slot(void *data, const struct situation *situation,
	const struct record *record, const struct value *item)
{
	struct asking *asking = data;

	(void)situation;
	if (record == asking->slot->slot->record &&
		item == asking->slot->slot->item)
		asking->gives = true;
}

static bool
gives(const struct pieces *pieces, const struct aim *aim,
	const struct filled_slot *slot, const struct situation *situation)
{
	struct asking asking = {slot, false};

	if ((situation->anomaly == NULL || aim->anomalies) &&
		aim_selects(pieces->model, aim, situation))
		collect(pieces->model, aim->what, situation, note_slot,
			&asking);
	return asking.gives;
}

static const struct record *
part_of(const struct situation *situation, enum field_name name)
{
	if (name == NAME(HOLDING_CHARACTER))
		return situation->character;
	if (name == NAME(HOLDING_CARDBACK))
		return situation->cardback;
	if (name == NAME(HOLDING_FRONT))
		return situation->front;
	if (name == NAME(HOLDING_BLISTER))
		return situation->blister;
	if (name == NAME(HOLDING_STICKERS))
		return situation->sticker;
	return situation->variant;
}

static const struct {
	enum field_name name;
	bool loose;	/* there is such a part off its card */
	const char *words;
} parts[] = {
	{NAME(HOLDING_CHARACTER), true, "the figure"},
	{NAME(HOLDING_CARDBACK), false, "the card back"},
	{NAME(HOLDING_FRONT), false, "the front"},
	{NAME(HOLDING_VARIANT), true, "the figure's marks and tells"},
	{NAME(HOLDING_BLISTER), false, "the blister"},
	{NAME(HOLDING_STICKERS), false, "whether a sticker is on it"},
};

/* How the ways that fill a slot and the others stand in one part. */
enum division { SAME, MIXED, DIVIDED };

static enum division
compare(GHashTable *fill, GHashTable *others)
{
	unsigned common = 0;
	GHashTableIter iter;
	gpointer key;

	g_hash_table_iter_init(&iter, fill);
	while (g_hash_table_iter_next(&iter, &key, NULL))
		common += g_hash_table_contains(others, key);
	if (g_hash_table_size(fill) + g_hash_table_size(others) - common < 2)
		return SAME;
	return common == 0 ? DIVIDED : MIXED;
}

/* Puts what the piece may be in that part into `records`. */
static enum division
divide(const struct pieces *pieces, const struct filling *filling,
	const struct filled_slot *slot, const struct piece *piece,
	enum field_name name, GPtrArray *records)
{
	GHashTable *fill = g_hash_table_new(NULL, NULL);
	GHashTable *others = g_hash_table_new(NULL, NULL);
	enum division division;
	unsigned i, j;

	for (i = 0; i < piece->reading_count; i++)
		for (j = 0; j < piece->readings[i].count; j++) {
			const struct situation *one = &pieces->situations[
				piece->readings[i].items[j]];
			gpointer record = (gpointer)(uintptr_t)part_of(one,
				name);

			g_hash_table_add(gives(pieces, filling->aim, slot,
				one) ? fill : others, record);
			if (record != NULL && !g_ptr_array_find(records,
				record, NULL))
				g_ptr_array_add(records, record);
		}
	division = compare(fill, others);
	g_hash_table_destroy(fill);
	g_hash_table_destroy(others);
	return division;
}

/* How far the names all begin alike: "Kedge, " of two of its variants. */
static size_t
common_prefix(const GPtrArray *records)
{
	const char *first = ((const struct record *)g_ptr_array_index(records,
		0))->name;
	const char *end = strstr(first, ", ");
	unsigned i;

	for (i = 1; end != NULL && i < records->len; i++)
		if (strncmp(first, ((const struct record *)g_ptr_array_index(
			records, i))->name, (size_t)(end + 2 - first)) != 0)
			return 0;
	return end == NULL ? 0 : (size_t)(end + 2 - first);
}

/* How far they all end alike, from a comma on: ", Greece" of card backs. */
static size_t
common_suffix(const GPtrArray *records)
{
	const char *first = ((const struct record *)g_ptr_array_index(records,
		0))->name;
	const char *end = strrchr(first, ',');
	unsigned i;

	for (i = 1; end != NULL && i < records->len; i++)
		if (!g_str_has_suffix(((const struct record *)
			g_ptr_array_index(records, i))->name, end))
			return 0;
	return end == NULL ? 0 : strlen(end);
}

/* Names what it may be, where that is short. */
static const char *
word_part(const char *words, const GPtrArray *records, struct arena *arena)
{
	GString *text = g_string_new(words);
	const char *done;
	size_t skip = records->len < 2 ? 0 : common_prefix(records);
	size_t drop = records->len < 2 || skip > 0 ? 0 :
		common_suffix(records);
	unsigned i;

	for (i = 0; records->len >= 2 && records->len <= 3 &&
		i < records->len; i++) {
		const struct record *record = g_ptr_array_index(records, i);

		g_string_append_printf(text, "%s%.*s", i == 0 ? ": " :
			i + 1 == records->len ? " or " : ", ",
			(int)(strlen(record->name + skip) - drop),
			record->name + skip);
	}
	if (text->len > strlen(words))
		g_string_append_c(text, '?');
	done = arena_text(arena, text->str, text->len);
	g_string_free(text, TRUE);
	return done;
}

static bool
is_loose(const struct piece *piece)
{
	return piece->form != NULL && g_str_has_prefix(piece->form, "loose");
}

/* The feature that divides them best, in its own words; NULL if none does. */
static const char *
look_at_feature(const struct pieces *pieces, const struct filling *filling,
	const struct filled_slot *slot, const struct piece *piece,
	struct arena *arena)
{
	GPtrArray *this = g_ptr_array_new(), *others = g_ptr_array_new();
	struct ways ways = {.loose = is_loose(piece)};
	const char *words;
	unsigned i, j;

	for (i = 0; i < piece->reading_count; i++)
		for (j = 0; j < piece->readings[i].count; j++) {
			const struct situation *one = &pieces->situations[
				piece->readings[i].items[j]];

			g_ptr_array_add(gives(pieces, filling->aim, slot,
				one) ? this : others,
				(gpointer)(uintptr_t)one);
		}
	ways.this = (const struct situation **)this->pdata;
	ways.this_count = this->len;
	ways.others = (const struct situation **)others->pdata;
	ways.other_count = others->len;
	words = settle_words(pieces->model, pieces->features, &ways, arena);
	g_ptr_array_free(this, TRUE);
	g_ptr_array_free(others, TRUE);
	return words;
}

/* The first part that divides them cleanly, or else at all. */
static const char *
look_at_part(const struct pieces *pieces, const struct filling *filling,
	const struct filled_slot *slot, const struct piece *piece,
	struct arena *arena)
{
	const char *best = NULL;
	enum division so_far = SAME, division;
	size_t i;

	for (i = 0; i < G_N_ELEMENTS(parts) && so_far != DIVIDED; i++) {
		const struct value *identity = model_get(pieces->model,
			piece->record->values, parts[i].name);
		GPtrArray *records;

		if (is_loose(piece) && !parts[i].loose)
			continue;
		if (identity != NULL && (identity->form == VALUE_MANY ||
			identity->identity.kind == IDENTITY_KNOWN))
			continue;
		records = g_ptr_array_new();
		division = divide(pieces, filling, slot, piece,
			parts[i].name, records);
		if (division > so_far) {
			so_far = division;
			best = word_part(parts[i].words, records, arena);
		}
		g_ptr_array_free(records, TRUE);
	}
	return best;
}

const char *
study_look_at(const struct pieces *pieces, const struct filling *filling,
	const struct filled_slot *slot, const struct claim *claim,
	struct arena *arena)
{
	const struct piece *piece = &pieces->items[claim->piece];
	struct meeting meeting = piece_meets(pieces, filling->aim, piece,
		filling->case_style);
	const char *words = NULL;

	switch (claim->kind) {
	case CLAIM_SURE:
	case CLAIM_COMING:
		return NULL;
	case CLAIM_LACKS:
		return meeting.words;
	case CLAIM_POSSIBLE:
		break;
	}
	switch (filling->aim->what) {
	case COLLECT_ACCESSORY:
		words = "whether the accessory is original";
		break;
	case COLLECT_PACKAGE:
	case COLLECT_PREPRODUCTION:
		words = "what is printed on it";
		break;
	case COLLECT_CHARACTER:
	case COLLECT_CARDBACK:
	case COLLECT_PAIRING:
	case COLLECT_COMBINATION:
	case COLLECT_FRONT:
	case COLLECT_VARIANT:
	case COLLECT_BLISTER:
	case COLLECT_STICKER:
	case COLLECT_OFFER:
	case COLLECT_ANOMALY:
	case COLLECT_MARKET:
	case COLLECT_NOTHING:
		words = look_at_feature(pieces, filling, slot, piece, arena);
		if (words == NULL)
			words = look_at_part(pieces, filling, slot, piece,
				arena);
		break;
	}
	if (meeting.truth != TRUTH_MAYBE)
		return words;
	return words == NULL ? meeting.words : arena_print(arena, "%s; and %s",
		words, meeting.words);
}
