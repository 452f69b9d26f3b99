/*
 * Pieces: whether one counts, and what it may be. A part that a combination
 * does not state excludes nothing.
 */
#include "study/pieces.h"

#include <string.h>

#include "study/slots.h"

static bool
has_word(const char *word, const char *const *words)
{
	for (; word != NULL && *words != NULL; words++)
		if (strcmp(word, *words) == 0)
			return true;
	return false;
}

/*
 * Altered pieces, anomalies, and pieces that are not yet or no longer yours
 * fill no slot.
 */
static bool
does_count(const struct model *model, const struct record *record)
{
	static const char *const held[] = {"held", "away", NULL};
	const char *status = model_word(model, record->values,
		NAME(HOLDING_STATUS));
	const struct value *anomaly = model_get(model, record->values,
		NAME(HOLDING_ANOMALY));

	if (status != NULL && !has_word(status, held))
		return false;
	if (value_count(model_get(model, record->values,
		NAME(HOLDING_ALTERATIONS))) > 0)
		return false;
	return anomaly == NULL || anomaly->identity.kind == IDENTITY_UNKNOWN ||
		anomaly->identity.kind == IDENTITY_NOT;
}

bool
study_is_named(const struct model *model, const struct record *piece)
{
	static const enum field_name names[] = {NAME(HOLDING_CHARACTER),
		NAME(HOLDING_CARDBACK), NAME(HOLDING_FRONT),
		NAME(HOLDING_BLISTER), NAME(HOLDING_VARIANT),
		NAME(HOLDING_PACKAGE), NAME(HOLDING_PREPRODUCTION)};
	size_t i;

	for (i = 0; i < G_N_ELEMENTS(names); i++) {
		const struct value *identity = model_get(model, piece->values,
			names[i]);

		if (identity != NULL && identity->identity.count > 0)
			return true;
	}
	return false;
}

static bool
part_allows(const struct model *model, const struct record *piece,
	enum field_name name, const struct record *part)
{
	const struct value *identity = model_get(model, piece->values, name);

	return part == NULL ||
		identity_allows(identity, part) != ALLOWS_NOT;
}

/* A list of stickers is all there are; without one, any may be on it. */
static bool
sticker_allows(const struct model *model, const struct record *piece,
	const struct record *sticker)
{
	const struct value *list = model_get(model, piece->values,
		NAME(HOLDING_STICKERS));
	unsigned i;

	if (sticker == NULL || list == NULL)
		return true;
	for (i = 0; i < value_count(list); i++)
		if (value_item(list, i)->reference.record == sticker)
			return true;
	return false;
}

static bool
fits(const struct model *model, const struct record *piece,
	const struct situation *situation)
{
	return situation->anomaly == NULL && part_allows(model, piece,
		NAME(HOLDING_CHARACTER), situation->character) &&
		part_allows(model, piece, NAME(HOLDING_CARDBACK),
			situation->cardback) &&
		part_allows(model, piece, NAME(HOLDING_FRONT),
			situation->front) &&
		part_allows(model, piece, NAME(HOLDING_BLISTER),
			situation->blister) &&
		part_allows(model, piece, NAME(HOLDING_VARIANT),
			situation->variant) &&
		sticker_allows(model, piece, situation->sticker);
}

static void
add_fitting(struct piece *piece, const struct model *model,
	const struct record *pairing)
{
	guint from = piece->situations->len, i;

	situations_of(model, pairing, piece->situations);
	for (i = piece->situations->len; i > from; i--)
		if (!fits(model, piece->record, &g_array_index(
			piece->situations, struct situation, i - 1)))
			g_array_remove_index(piece->situations, i - 1);
}

/* The pairings by which a record is pointed at through one field. */
static void
add_pointing(struct piece *piece, const struct model *model,
	const struct record *target, enum field_name name)
{
	struct pointer_list list = model_pointing(model, target);
	size_t i;

	for (i = 0; i < list.count; i++)
		if (list.items[i].field == model_field(model, name))
			add_fitting(piece, model, list.items[i].from);
}

/* The one record an identity names or may name, listed in `records`. */
static const struct value *
named(const struct model *model, const struct record *piece,
	enum field_name name)
{
	const struct value *identity = model_get(model, piece->values, name);

	if (identity == NULL || identity->identity.count == 0 ||
		identity->identity.kind == IDENTITY_NOT)
		return NULL;
	return identity;
}

static void
add_named(struct piece *piece, const struct model *model,
	const struct value *identity, enum field_name name)
{
	unsigned i;

	for (i = 0; i < identity->identity.count; i++)
		add_pointing(piece, model,
			identity->identity.items[i].record, name);
}

void
piece_init(struct piece *piece, const struct model *model,
	const struct record *record)
{
	const struct value *character, *cardback;
	struct record_list all;
	unsigned i;

	piece->record = record;
	piece->counts = does_count(model, record) &&
		study_is_named(model, record);
	piece->situations = g_array_new(FALSE, FALSE,
		sizeof(struct situation));
	character = named(model, record, NAME(HOLDING_CHARACTER));
	cardback = named(model, record, NAME(HOLDING_CARDBACK));
	if (!piece->counts)
		return;
	if (character != NULL) {
		add_named(piece, model, character, NAME(PAIRING_CHARACTER));
		return;
	}
	if (cardback != NULL) {
		add_named(piece, model, cardback, NAME(PAIRING_CARDBACK));
		return;
	}
	all = model_records_of(model, "pairing");
	for (i = 0; i < all.count; i++)
		add_fitting(piece, model, all.items[i]);
}

void
piece_release(struct piece *piece)
{
	g_array_free(piece->situations, TRUE);
}

bool
piece_has_form(const struct model *model, const struct record *piece,
	const struct record *run, enum collected what)
{
	static const char *const carded[] = {"carded", "carded-cased", NULL};
	static const char *const loose[] = {"loose", "loose-cased", NULL};
	static const char *const back[] = {"carded", "carded-cased",
		"card-only", NULL};
	const char *form = model_word(model, piece->values,
		NAME(HOLDING_FORM));
	const char *asked = model_word(model, run->values, NAME(RUN_FORM));

	if (what == COLLECT_CARDBACK || what == COLLECT_FRONT ||
		what == COLLECT_OFFER || what == COLLECT_STICKER) {
		if (!has_word(form, back))
			return false;
	} else if (what == COLLECT_PAIRING || what == COLLECT_COMBINATION ||
		what == COLLECT_BLISTER) {
		if (!has_word(form, carded))
			return false;
	}
	if (asked == NULL)
		return true;
	if (strcmp(asked, "carded") == 0)
		return has_word(form, carded);
	if (strcmp(asked, "loose") == 0)
		return has_word(form, loose);
	return form != NULL && strcmp(form, asked) == 0;
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

/* Whether the situations that are left differ in a part. */
static bool
differs(const struct piece *piece, enum field_name name)
{
	const struct record *first = NULL, *part;
	guint i;

	for (i = 0; i < piece->situations->len; i++) {
		part = part_of(&g_array_index(piece->situations,
			struct situation, i), name);
		if (i > 0 && part != first)
			return true;
		first = part;
	}
	return false;
}

static bool
is_loose(const struct model *model, const struct record *piece)
{
	static const char *const forms[] = {"loose", "loose-cased", NULL};

	return has_word(model_word(model, piece->values, NAME(HOLDING_FORM)),
		forms);
}

const char *
piece_look_at(const struct model *model, const struct piece *piece)
{
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
	bool loose = is_loose(model, piece->record);
	size_t i;

	for (i = 0; i < G_N_ELEMENTS(parts); i++) {
		const struct value *identity = model_get(model,
			piece->record->values, parts[i].name);

		if (loose && !parts[i].loose)
			continue;
		if (identity != NULL && (identity->form == VALUE_MANY ||
			identity->identity.kind == IDENTITY_KNOWN))
			continue;
		if (differs(piece, parts[i].name))
			return parts[i].words;
	}
	return NULL;
}
