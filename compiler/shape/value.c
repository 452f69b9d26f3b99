/*
 * Values that are made of others: lists, groups, translations and partial
 * identities.
 */
#include "shape/shaping.h"

#include <glib.h>
#include <string.h>

#include "shape/nearest.h"

static const char *const node_titles[] = {
	[NODE_BAD] = "nothing",
	[NODE_SCALAR] = "a single value",
	[NODE_LIST] = "a list",
	[NODE_MAP] = "a group of fields",
};

static const char a_list[] = "a list";

static struct diag *
report_shape(struct shaping *shaping, const struct field *field,
	const struct node *node, const char *expected)
{
	struct diag *diag;

	diag = diag_report(shaping->diags, DIAG_WRONG_SHAPE, node->span,
		"\"%s\" takes %s, not %s", field->name, expected,
		node_titles[node->kind]);
	if (expected == a_list) {
		if (node->kind == NODE_SCALAR && field->type != TYPE_GROUP)
			diag_help(diag, "write a list, such as [%s]",
				node->text);
		else
			diag_help(diag, "begin each item with \"- \"");
		shape_offer_list(shaping, diag, field, node);
	} else if (node->kind == NODE_LIST) {
		diag_help(diag, "write the one value without \"[\" or \"-\"");
		shape_offer_single(shaping, diag, node);
	}
	return diag;
}

static bool
report_empty(struct shaping *shaping, const struct field *field,
	const struct node *node)
{
	struct diag *diag;

	diag = diag_report(shaping->diags, DIAG_EMPTY_VALUE, node->span,
		"\"%s\" is given but empty", field->name);
	diag_help(diag, "write %s, or leave the line out",
		type_title(field->type));
	return false;
}

/* Nothing but blanks is nothing. */
static bool
is_empty(const struct node *scalar)
{
	return strspn(scalar->text, " \t\r\n") == scalar->count;
}

/* One text of a translation; false after reporting what is wrong with it. */
static bool
shape_translated(struct shaping *shaping, const struct field *field,
	const struct node_entry *entry, struct translation *item)
{
	const struct node *node = entry->value;

	if (node->kind == NODE_BAD)
		return false;
	if (node->kind != NODE_SCALAR) {
		report_shape(shaping, field, node, "text");
		return false;
	}
	if (is_empty(node))
		return report_empty(shaping, field, node);
	*item = (struct translation){entry->key, shape_trimmed(shaping, node),
		entry->key_span};
	return shape_printable(shaping, node);
}

static bool
shape_translation(struct shaping *shaping, const struct field *field,
	const struct node *node, struct value *value)
{
	struct translation *items;
	bool good = true;
	uint32_t i;

	if (node->kind != NODE_MAP) {
		report_shape(shaping, field, node,
			type_title(TYPE_TRANSLATION));
		return false;
	}
	items = arena_array(shaping->arena, struct translation, node->count);
	for (i = 0; i < node->count; i++)
		good &= shape_translated(shaping, field, &node->entries[i],
			&items[i]);
	value->translation.items = items;
	value->translation.count = node->count;
	if (node->count == 0 && !node->partial)
		return report_empty(shaping, field, node);
	return good && node->count > 0;
}

static void
report_identity(struct shaping *shaping, const struct node *node)
{
	struct diag *diag;

	diag = diag_report(shaping->diags, DIAG_BAD_IDENTITY, node->span,
		"this is not an identity");
	diag_help(diag, "write an id, unknown, {one_of: [a, b]} or "
		"{not: [a]}");
}

/* Fills the references of a list, or of a single id. */
static bool
shape_candidates(struct shaping *shaping, const struct field *field,
	const struct node *node, struct value *value)
{
	struct node *one = (struct node *)(uintptr_t)node;
	struct node **items = node->kind == NODE_LIST ? node->items : &one;
	uint32_t count = node->kind == NODE_LIST ? node->count : 1, i;

	value->identity.items = arena_array(shaping->arena, struct reference,
		count);
	value->identity.count = count;
	for (i = 0; i < count; i++) {
		if (items[i]->kind != NODE_SCALAR || is_empty(items[i]))
			return false;
		shape_reference(shaping, field, items[i],
			&value->identity.items[i]);
	}
	return count > 0;
}

/* Whether a message was given about what stands there. */
static bool
holds_bad(const struct node *node)
{
	uint32_t i;

	if (node->kind == NODE_LIST)
		for (i = 0; i < node->count; i++)
			if (node->items[i]->kind == NODE_BAD)
				return true;
	return node->kind == NODE_BAD ||
		(node->kind == NODE_MAP && node->partial);
}

static bool
shape_identity(struct shaping *shaping, const struct field *field,
	const struct node *node, struct value *value)
{
	const struct node *given = node;
	bool good = true;

	value->identity.kind = IDENTITY_KNOWN;
	if (node->kind == NODE_MAP && node->count == 1) {
		given = node->entries[0].value;
		if (strcmp(node->entries[0].key, "one_of") == 0)
			value->identity.kind = IDENTITY_ONE_OF;
		else if (strcmp(node->entries[0].key, "not") == 0)
			value->identity.kind = IDENTITY_NOT;
		else
			good = false;
	} else if (node->kind != NODE_SCALAR)
		good = false;
	else if (strcmp(node->text, "unknown") == 0) {
		value->identity.kind = IDENTITY_UNKNOWN;
		return true;
	}
	if (good && shape_candidates(shaping, field, given, value))
		return true;
	if (!holds_bad(given))
		report_identity(shaping, node);
	return false;
}

/* One value, whatever `many` says. */
static struct value *
shape_one(struct shaping *shaping, const struct field *field,
	const struct node *node)
{
	struct value *value = arena_one(shaping->arena, struct value);
	bool good;

	value->field = field;
	value->node = node;
	value->span = node->span;
	if (node->kind == NODE_BAD)
		return NULL;
	if (node->kind == NODE_SCALAR && is_empty(node)) {
		report_empty(shaping, field, node);
		return NULL;
	}
	if (field->type == TYPE_TRANSLATION)
		good = shape_translation(shaping, field, node, value);
	else if (field->type == TYPE_IDENTITY)
		good = shape_identity(shaping, field, node, value);
	else if (field->type == TYPE_GROUP && node->kind == NODE_MAP) {
		value->group = shape_fields(shaping, &field->fields, node,
			NULL, field->name);
		good = true;
	} else if (field->type != TYPE_GROUP && node->kind == NODE_SCALAR)
		good = shape_scalar(shaping, field, node, value);
	else {
		report_shape(shaping, field, node, type_title(field->type));
		good = false;
	}
	return good ? value : NULL;
}

struct value *
shape_value(struct shaping *shaping, const struct field *field,
	const struct node *node)
{
	struct value *list, *item;
	uint32_t i;

	if (!field->many)
		return shape_one(shaping, field, node);
	if (node->kind != NODE_LIST) {
		if (node->kind == NODE_SCALAR && node->count == 0)
			report_empty(shaping, field, node);
		else if (node->kind != NODE_BAD)
			report_shape(shaping, field, node, a_list);
		return NULL;
	}
	list = arena_one(shaping->arena, struct value);
	list->field = field;
	list->form = VALUE_MANY;
	list->node = node;
	list->span = node->span;
	list->many.items = arena_array(shaping->arena, struct value *,
		node->count);
	for (i = 0; i < node->count; i++) {
		item = shape_one(shaping, field, node->items[i]);
		if (item != NULL)
			list->many.items[list->many.count++] = item;
	}
	return list;
}

/* Whether what stands there could be the field's value, once mended. */
static bool
could_hold(const struct field *field, const struct node *node)
{
	bool grouped = field->type == TYPE_GROUP ||
		field->type == TYPE_TRANSLATION;

	if (node->kind == NODE_LIST)
		return field->many || node->count == 1;
	if (node->kind == NODE_MAP)
		return !field->many && (grouped ||
			field->type == TYPE_IDENTITY);
	return !grouped;
}

/*
 * Reports a field that there is not. Of the names near, one that is not yet
 * given is meant; that field then counts as given, since its value is there.
 */
static void
report_unknown(struct shaping *shaping, const struct fields *fields,
	const struct node_entry *entry, const char *what, bool *given,
	const char *builtin)
{
	struct nearest free = nearest_to(entry->key);
	struct nearest taken = nearest_to(entry->key);
	const struct field *meant;
	enum confidence sure;
	const char *found;
	struct diag *diag;
	unsigned i;

	for (i = 0; i < fields->count; i++) {
		const struct field *field = &fields->items[i];
		struct nearest *nearest = given[i] ? &taken : &free;

		nearest_offer(nearest, field->name);
		if (field->title != NULL)
			nearest_offer_title(nearest, field->title,
				field->name);
	}
	if (builtin != NULL)
		nearest_offer(&free, builtin);
	diag = diag_report(shaping->diags, DIAG_UNKNOWN_FIELD,
		entry->key_span, "\"%s\" has no field \"%s\"", what,
		entry->key);
	found = nearest_found(&free, &sure);
	meant = found == NULL ? NULL : fields_find(fields, found);
	if (found != NULL && (meant == NULL || could_hold(meant,
		entry->value))) {
		nearest_suggest(&free, diag, entry->key_span, "");
		if (meant != NULL && sure != MEND_BLANK)
			given[meant->index] = true;
	} else if (found != NULL)
		diag_help(diag, "did you mean \"%s\"?", found);
	else if (nearest_found(&taken, &sure) != NULL)
		diag_help(diag, "did you mean \"%s\"? it is given already",
			nearest_found(&taken, &sure));
	else
		diag_help(diag, "the fields of \"%s\" are listed in schema/",
			what);
}

static void
report_missing(struct shaping *shaping, const struct field *field,
	const struct node *map, const char *what)
{
	struct span span = map->span;
	struct diag *diag;

	if (map->kind == NODE_MAP && map->count > 0)
		span = map->entries[0].key_span;
	diag = diag_report(shaping->diags, DIAG_MISSING_FIELD, span,
		"\"%s\" lacks the field \"%s\"", what, field->name);
	diag_help(diag, "add \"%s: \" and %s%s%s", field->name,
		type_title(field->type), field->says == NULL ? "" : ": ",
		field->says == NULL ? "" : field->says);
	shape_offer_field(shaping, diag, field, map);
}

/* The value that stands for an absent field; NULL where there is none. */
static struct value *
fall_back(struct shaping *shaping, const struct field *field,
	const struct node *map)
{
	struct node *node;

	if (field->fallback == NULL)
		return NULL;
	node = arena_one(shaping->arena, struct node);
	node->kind = NODE_SCALAR;
	node->style = SCALAR_RAW;
	node->span = map->span;
	node->text = field->fallback;
	node->count = (uint32_t)strlen(field->fallback);
	return shape_one(shaping, field, node);
}

struct value **
shape_fields(struct shaping *shaping, const struct fields *fields,
	const struct node *map, const char *builtin, const char *what)
{
	struct value **values;
	bool *given;
	uint32_t i;

	values = arena_array(shaping->arena, struct value *, fields->count);
	given = g_new0(bool, fields->count);
	for (i = 0; i < map->count; i++) {
		const struct node_entry *entry = &map->entries[i];
		const struct field *field = fields_find(fields, entry->key);

		if (field == NULL)
			continue;
		given[field->index] = true;
		values[field->index] = shape_value(shaping, field,
			entry->value);
	}
	for (i = 0; i < map->count; i++) {
		const struct node_entry *entry = &map->entries[i];

		if (fields_find(fields, entry->key) == NULL &&
			(builtin == NULL || strcmp(entry->key, builtin) != 0))
			report_unknown(shaping, fields, entry, what, given,
				node_get(map, builtin == NULL ? "" :
				builtin) == NULL ? builtin : NULL);
	}
	for (i = 0; i < fields->count; i++) {
		const struct field *field = &fields->items[i];

		if (given[i])
			continue;
		/* What was refused may have been the field. */
		if (field->required && !map->partial)
			report_missing(shaping, field, map, what);
		else if (!field->required)
			values[i] = fall_back(shaping, field, map);
	}
	g_free(given);
	return values;
}
