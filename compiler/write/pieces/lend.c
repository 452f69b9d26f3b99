/*
 * A piece, or its sale, as a sighting that anybody may read: a record of kind
 * sighting made of named fields alone. Texts of the owner's go nowhere, nor does
 * the certificate number unless that is asked for; the day is that on which the
 * piece was seen, and never the one on which it was bought.
 */
#include "write/pieces/pieces.h"

#include <string.h>

#include "write/draft.h"

struct lending {
	const struct model *model;
	const struct record *piece;
	struct arena *arena;
	bool certificate;	/* put its number in */
};

static struct node *
new_node(const struct lending *lending, enum node_kind kind)
{
	struct node *node = arena_one(lending->arena, struct node);

	node->kind = kind;
	return node;
}

static struct node *
text_node(const struct lending *lending, const char *text)
{
	struct node *node = new_node(lending, NODE_SCALAR);

	node->text = text;
	node->count = (uint32_t)strlen(text);
	return node;
}

static void
put(const struct lending *lending, struct node *map, const char *key,
	struct node *value)
{
	struct node_entry *entries = arena_array(lending->arena,
		struct node_entry, map->count + 1);

	if (map->count > 0)
		memcpy(entries, map->entries, sizeof(*entries) * map->count);
	entries[map->count++] = (struct node_entry){key, SPAN_NOWHERE, value};
	map->entries = entries;
}

static void
put_text(const struct lending *lending, struct node *map, const char *key,
	const char *text)
{
	if (text != NULL)
		put(lending, map, key, text_node(lending, text));
}

static struct node *
ids_node(const struct lending *lending, const struct reference *items,
	unsigned count)
{
	struct node *list = new_node(lending, NODE_LIST);
	unsigned i;

	list->count = count;
	list->items = arena_array(lending->arena, struct node *, count);
	for (i = 0; i < count; i++)
		list->items[i] = text_node(lending, items[i].record->id);
	return list;
}

static void
put_identity(const struct lending *lending, struct node *map, const char *key,
	enum field_name name)
{
	const struct value *value = model_get(lending->model,
		lending->piece->values, name);
	struct node *inner;

	if (value == NULL)
		return;
	if (value->identity.kind == IDENTITY_UNKNOWN) {
		put_text(lending, map, key, "unknown");
		return;
	}
	if (value->identity.kind == IDENTITY_KNOWN) {
		put_text(lending, map, key,
			value->identity.items[0].record->id);
		return;
	}
	inner = new_node(lending, NODE_MAP);
	put(lending, inner, value->identity.kind == IDENTITY_NOT ? "not" :
		"one_of", ids_node(lending, value->identity.items,
		value->identity.count));
	put(lending, map, key, inner);
}

/* A field that may be passed on, and what it is called in a sighting. */
struct passed {
	const char *key;
	enum field_name name;
};

/* The value as a sighting has it; NULL for none. */
static struct node *
value_node(const struct lending *lending, const struct value *value)
{
	struct node *list;
	unsigned i;

	if (value == NULL)
		return NULL;
	if (value->form == VALUE_MANY) {
		list = new_node(lending, NODE_LIST);
		list->items = arena_array(lending->arena, struct node *,
			value->many.count);
		for (i = 0; i < value->many.count; i++)
			list->items[list->count++] = value_node(lending,
				value->many.items[i]);
		return list;
	}
	if (value->field->type == TYPE_WORD)
		return text_node(lending, value->word->word);
	if (value->field->type == TYPE_REFERENCE)
		return text_node(lending, value->reference.record->id);
	if (value->field->type == TYPE_DATE)
		return text_node(lending, value->date.text);
	return text_node(lending, value->text);
}

static struct node *
group_node(const struct lending *lending, struct value *const *group,
	const struct passed *passed, size_t count)
{
	struct node *map = new_node(lending, NODE_MAP), *value;
	size_t i;

	for (i = 0; i < count; i++) {
		value = value_node(lending, model_get(lending->model, group,
			passed[i].name));
		if (value != NULL)
			put(lending, map, passed[i].key, value);
	}
	return map;
}

static void
put_groups(const struct lending *lending, struct node *map, const char *key,
	const struct value *list, const struct passed *passed, size_t count)
{
	struct node *node = new_node(lending, NODE_LIST);
	unsigned i;

	if (value_count(list) == 0)
		return;
	node->count = value_count(list);
	node->items = arena_array(lending->arena, struct node *, node->count);
	for (i = 0; i < node->count; i++)
		node->items[i] = group_node(lending, value_item(list, i)->
			group, passed, count);
	put(lending, map, key, node);
}

static void
put_grading(const struct lending *lending, struct node *map)
{
	static const struct passed passed[] = {
		{"service", NAME(HOLDING_CERTIFICATE_SERVICE)},
		{"date", NAME(HOLDING_CERTIFICATE_DATE)},
		{"grade", NAME(HOLDING_CERTIFICATE_GRADE)},
		{"qualifiers", NAME(HOLDING_CERTIFICATE_QUALIFIERS)},
		{"certificate", NAME(HOLDING_CERTIFICATE_NUMBER)},
	};
	static const struct passed parts[] = {
		{"part", NAME(HOLDING_SUBGRADE_PART)},
		{"grade", NAME(HOLDING_SUBGRADE_GRADE)},
	};
	const struct value *list = model_get(lending->model,
		lending->piece->values, NAME(HOLDING_CERTIFICATES)), *last;
	struct node *grading;

	if (value_count(list) == 0)
		return;
	last = value_item(list, value_count(list) - 1);
	if (model_date(lending->model, last->group,
		NAME(HOLDING_CERTIFICATE_UNTIL)) != NULL)
		return;
	grading = group_node(lending, last->group, passed,
		G_N_ELEMENTS(passed) - !lending->certificate);
	put_groups(lending, grading, "subgrades", model_get(lending->model,
		last->group, NAME(HOLDING_CERTIFICATE_SUBGRADES)), parts,
		G_N_ELEMENTS(parts));
	put(lending, map, "grading", grading);
}

static void
put_state(const struct lending *lending, struct node *map)
{
	static const struct passed condition[] = {
		{"part", NAME(HOLDING_CONDITION_PART)},
		{"state", NAME(HOLDING_CONDITION_STATE)},
		{"date", NAME(HOLDING_CONDITION_DATE)},
	};
	static const struct passed alterations[] = {
		{"what", NAME(HOLDING_ALTERATION_WHAT)},
		{"certainty", NAME(HOLDING_ALTERATION_CERTAINTY)},
		{"date", NAME(HOLDING_ALTERATION_DATE)},
	};
	static const struct passed accessories[] = {
		{"accessory", NAME(HOLDING_ACCESSORY)},
		{"original", NAME(HOLDING_ACCESSORY_ORIGINAL)},
	};
	const struct model *model = lending->model;
	struct value *const *values = lending->piece->values;

	put_groups(lending, map, "condition", model_get(model, values,
		NAME(HOLDING_CONDITION)), condition, G_N_ELEMENTS(condition));
	put_groups(lending, map, "alterations", model_get(model, values,
		NAME(HOLDING_ALTERATIONS)), alterations,
		G_N_ELEMENTS(alterations));
	put_groups(lending, map, "accessories", model_get(model, values,
		NAME(HOLDING_ACCESSORIES)), accessories,
		G_N_ELEMENTS(accessories));
}

/* The latest day on which the piece is known to have been looked at. */
static const char *
day_seen(const struct lending *lending)
{
	const struct model *model = lending->model;
	const struct value *list = model_get(model, lending->piece->values,
		NAME(HOLDING_CONDITION));
	const struct date *best = model_date(model, lending->piece->values,
		NAME(HOLDING_LOOKED_AT)), *date;
	unsigned i;

	for (i = 0; i < value_count(list); i++) {
		date = model_date(model, value_item(list, i)->group,
			NAME(HOLDING_CONDITION_DATE));
		if (date != NULL && (best == NULL || date->last > best->last))
			best = date;
	}
	return best == NULL ? NULL : best->text;
}

/* Where and when it was seen: at its sale, or else with its owner. */
static void
put_occasion(const struct lending *lending, struct node *map)
{
	const struct model *model = lending->model;
	const struct value *away = model_get(model, lending->piece->values,
		NAME(HOLDING_DISPOSAL));
	const char *how = away == NULL ? NULL : model_word(model, away->group,
		NAME(HOLDING_DISPOSAL_HOW));
	bool sold = how != NULL && strcmp(how, "sold") == 0;
	const struct date *date = !sold ? NULL : model_date(model, away->group,
		NAME(HOLDING_DISPOSAL_DATE));
	const char *venue = !sold ? "collection" : model_word(model,
		away->group, NAME(HOLDING_DISPOSAL_VENUE));

	put_text(lending, map, "date", date != NULL ? date->text :
		day_seen(lending));
	put_text(lending, map, "venue", venue);
	put_text(lending, map, "seen", "in-hand");
	put_text(lending, map, "outcome", sold ? "sold" : "not-for-sale");
}

void
pieces_lend(const struct model *model, const struct record *piece,
	bool certificate, GString *out)
{
	static const struct passed parts[] = {
		{"character", NAME(HOLDING_CHARACTER)},
		{"cardback", NAME(HOLDING_CARDBACK)},
		{"front", NAME(HOLDING_FRONT)},
		{"blister", NAME(HOLDING_BLISTER)},
		{"variant", NAME(HOLDING_VARIANT)},
		{"anomaly", NAME(HOLDING_ANOMALY)},
		{"package", NAME(HOLDING_PACKAGE)},
		{"preproduction", NAME(HOLDING_PREPRODUCTION)},
	};
	static const struct passed whole[] = {
		{"specimen", NAME(HOLDING_SPECIMEN)},
		{"form", NAME(HOLDING_FORM)},
	};
	const struct lending lending = {model, piece, arena_new(),
		certificate};
	const struct kind *kind = schema_kind(model_schema(model), "sighting");
	struct node *map = group_node(&lending, piece->values, whole,
		G_N_ELEMENTS(whole));
	const struct node *record = map;
	size_t i;

	put_text(&lending, map, "id", "new-sighting");
	put_occasion(&lending, map);
	for (i = 0; i < G_N_ELEMENTS(parts); i++)
		put_identity(&lending, map, parts[i].key, parts[i].name);
	put_grading(&lending, map);
	put_state(&lending, map);
	draft_rows(&record, 1, kind, model_schema(model), false, out);
	arena_free(lending.arena);
}
