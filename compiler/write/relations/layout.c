/*
 * From the schema to drafts of relations: which columns a field becomes, and
 * which relations of their own its lists do.
 */
#include "write/relations/inside.h"

#include <string.h>

/* `name`, or the first of name_2, name_3... that is not taken. */
static const char *
free_name(struct drafting *drafting, const char *name)
{
	const char *found = name;
	unsigned i;

	for (i = 2; g_hash_table_contains(drafting->names, found); i++)
		found = arena_print(drafting->arena, "%s_%u", name, i);
	g_hash_table_add(drafting->names, (gpointer)(uintptr_t)found);
	return found;
}

static struct draft *
add_draft(struct drafting *drafting, const char *name)
{
	struct draft *draft = arena_one(drafting->arena, struct draft);

	draft->relation.name = name;
	draft->columns = g_array_new(FALSE, TRUE, sizeof(struct column));
	draft->leads = g_array_new(FALSE, TRUE, sizeof(struct lead));
	g_ptr_array_add(drafting->drafts, draft);
	return draft;
}

static bool
has_column(const struct draft *draft, const char *name)
{
	guint i;

	for (i = 0; i < draft->columns->len; i++)
		if (strcmp(g_array_index(draft->columns, struct column,
			i).name, name) == 0)
			return true;
	return false;
}

static struct column *
add_column(struct drafting *drafting, struct draft *draft, const char *name,
	enum part part, enum cell_form form)
{
	struct column column = {.name = name, .title = name, .part = part,
		.form = form};
	unsigned i;

	for (i = 2; has_column(draft, column.name); i++)
		column.name = arena_print(drafting->arena, "%s_%u", name, i);
	g_array_append_val(draft->columns, column);
	return &g_array_index(draft->columns, struct column,
		draft->columns->len - 1);
}

static void
add_key_column(struct drafting *drafting, struct draft *draft,
	const char *name, enum part part, const char *title)
{
	struct column *column = add_column(drafting, draft, name, part,
		part == PART_POSITION ? CELL_WHOLE : CELL_TEXT);

	column->title = title;
	column->required = true;
	column->level = part == PART_POSITION ? draft->relation.level : 0;
	draft->relation.key_count = draft->columns->len;
}

/* A name with those of the groups around it, up to the list it stands in. */
static const char *
path_name(struct drafting *drafting, const struct draft *draft,
	const struct field *field)
{
	const char *name = field->name;
	const struct field *group = field->parent;

	if (field == draft->relation.field)
		return name;
	for (; group != NULL && group != draft->relation.field;
		group = group->parent)
		name = arena_print(drafting->arena, "%s_%s", group->name,
			name);
	return name;
}

static const char *
path_title(struct drafting *drafting, const struct draft *draft,
	const struct field *field)
{
	const char *title = field->title;
	const struct field *group = field->parent;

	if (field == draft->relation.field)
		return title;
	for (; group != NULL && group != draft->relation.field;
		group = group->parent)
		title = arena_print(drafting->arena, "%s: %s", group->title,
			title);
	return title;
}

/* A column of a field, its name ended by `suffix`. */
static struct column *
add_field_column(struct drafting *drafting, struct draft *draft,
	const struct field *field, const char *suffix, enum part part,
	enum cell_form form)
{
	const char *name = arena_print(drafting->arena, "%s%s",
		path_name(drafting, draft, field), suffix);
	struct column *column = add_column(drafting, draft, name, part, form);

	column->field = field;
	column->title = path_title(drafting, draft, field);
	column->says = field->says;
	return column;
}

/* Whether a row without the field's value cannot be. */
static bool
is_always(const struct draft *draft, const struct field *field)
{
	return field == draft->relation.field ||
		(field->required && field->parent == draft->relation.field);
}

static bool
has_keys(const struct kind *kind)
{
	unsigned i;

	for (i = 0; i < kind->fields.count; i++)
		if (field_is_keyed(&kind->fields.items[i]) &&
			kind->fields.items[i].exported)
			return true;
	return false;
}

static void
add_lead(struct draft *draft, const struct kind *kind, unsigned columns,
	bool keyed)
{
	struct lead lead = {draft->columns->len - columns, kind, keyed};

	if (kind == NULL || kind_is_public(kind))
		g_array_append_val(draft->leads, lead);
}

static void
add_key_of_target(struct drafting *drafting, struct draft *draft,
	const struct field *field)
{
	bool keyed = false;
	unsigned i;

	for (i = 0; i < field->to_count; i++)
		keyed = keyed || has_keys(field->to[i]);
	if (!keyed)
		return;
	add_field_column(drafting, draft, field, "_key", PART_TARGET_KEY,
		CELL_TEXT)->says = "The key of the item within the record.";
	if (field->to_count == 1)
		add_lead(draft, field->to[0], 2, true);
}

static void
add_target(struct drafting *drafting, struct draft *draft,
	const struct field *field, bool always)
{
	struct column *column;

	if (field->to_count == 1) {
		column = add_field_column(drafting, draft, field, "",
			PART_TARGET, CELL_TEXT);
		column->required = always;
		add_lead(draft, field->to[0], 1, false);
	} else {
		column = add_field_column(drafting, draft, field, "_kind",
			PART_TARGET_KIND, CELL_TEXT);
		column->required = always;
		column = add_field_column(drafting, draft, field, "_id",
			PART_TARGET, CELL_TEXT);
		column->required = always;
		add_lead(draft, NULL, 2, false);
	}
	add_key_of_target(drafting, draft, field);
}

/* A relation for what stands in a row of `owner`, with the owner's key. */
static struct draft *
add_list(struct drafting *drafting, struct draft *owner,
	const struct field *field, enum relation_form form, const char *suffix)
{
	const char *name = arena_print(drafting->arena, "%s_%s%s",
		owner->relation.name, field == owner->relation.field ?
		"each" : path_name(drafting, owner, field), suffix);
	struct draft *draft = add_draft(drafting, free_name(drafting, name));
	struct relation *relation = &draft->relation;
	unsigned i;

	relation->form = form;
	relation->kind = owner->relation.kind;
	relation->owner = &owner->relation;
	relation->field = field;
	relation->level = owner->relation.level + 1;
	relation->title = path_title(drafting, owner, field);
	relation->says = field->says;
	for (i = 0; i < owner->relation.key_count; i++) {
		struct column column = g_array_index(owner->columns,
			struct column, i);

		if (column.part == PART_ID && relation->kind != NULL)
			column.name = relation->kind->name;
		if (column.part == PART_POSITION &&
			column.level == owner->relation.level)
			column.name = arena_print(drafting->arena,
				"%s_position", owner->relation.field->name);
		g_array_append_val(draft->columns, column);
	}
	add_key_column(drafting, draft, "position", PART_POSITION,
		"place in the list");
	return draft;
}

static void
add_identity(struct drafting *drafting, struct draft *draft,
	const struct field *field, bool always)
{
	struct draft *candidates;

	add_target(drafting, draft, field, false);
	add_field_column(drafting, draft, field, "_state", PART_STATE,
		CELL_TEXT)->required = always;
	candidates = add_list(drafting, draft, field, RELATION_CANDIDATES,
		"_candidates");
	candidates->relation.says = "What it may be (one_of), or is not (not).";
	add_target(drafting, candidates, field, true);
}

static void
add_translation(struct drafting *drafting, struct draft *draft,
	const struct field *field)
{
	struct draft *texts = add_list(drafting, draft, field,
		RELATION_TRANSLATIONS, "");
	struct column *column;

	column = add_column(drafting, texts, "language", PART_LANGUAGE,
		CELL_TEXT);
	column->title = "language (BCP 47)";
	column->required = true;
	column = add_column(drafting, texts, "text", PART_TRANSLATED,
		CELL_TEXT);
	column->title = field->title;
	column->required = true;
}

static void
add_date(struct drafting *drafting, struct draft *draft,
	const struct field *field, bool always)
{
	struct column *column;

	add_field_column(drafting, draft, field, "", PART_VALUE, CELL_TEXT)
		->required = always;
	column = add_field_column(drafting, draft, field, "_first", PART_FIRST,
		CELL_TEXT);
	column->required = always;
	column->says = "The first day that the date may mean.";
	column = add_field_column(drafting, draft, field, "_last", PART_LAST,
		CELL_TEXT);
	column->required = always;
	column->says = "The last day that the date may mean.";
}

/* "_mm": the unit as the end of a column's name. */
static const char *
unit_suffix(struct drafting *drafting, const struct field *field)
{
	char *suffix = g_ascii_strdown(field->units[0], -1);
	const char *kept;

	g_strcanon(suffix, "abcdefghijklmnopqrstuvwxyz0123456789", '_');
	kept = arena_print(drafting->arena, "_%s", suffix);
	g_free(suffix);
	return kept;
}

static void
add_fields(struct drafting *drafting, struct draft *draft,
	const struct fields *fields, unsigned from, unsigned to);

/* A field's single value, as columns of `draft`. */
static void
add_one(struct drafting *drafting, struct draft *draft,
	const struct field *field)
{
	bool always = is_always(draft, field);
	enum cell_form form = CELL_TEXT;
	const char *suffix = "";

	switch (field->type) {
	case TYPE_REFERENCE:
		add_target(drafting, draft, field, always);
		return;
	case TYPE_IDENTITY:
		add_identity(drafting, draft, field, always);
		return;
	case TYPE_TRANSLATION:
		add_translation(drafting, draft, field);
		return;
	case TYPE_DATE:
		add_date(drafting, draft, field, always);
		return;
	case TYPE_GROUP:
		add_fields(drafting, draft, &field->fields, 0,
			field->fields.count);
		return;
	case TYPE_WHOLE:
	case TYPE_YESNO:
		form = CELL_WHOLE;
		break;
	case TYPE_QUANTITY:
		form = CELL_REAL;
		suffix = unit_suffix(drafting, field);
		break;
	case TYPE_TEXT:
	case TYPE_PROSE:
	case TYPE_WORD:
	case TYPE_COUNTRY:
	case TYPE_LANGUAGE:
	case TYPE_CURRENCY:
	case TYPE_BARCODE:
	case TYPE_AMOUNT:
		break;
	}
	add_field_column(drafting, draft, field, suffix, PART_VALUE, form)
		->required = always;
}

static void
add_field(struct drafting *drafting, struct draft *draft,
	const struct field *field)
{
	struct draft *list;

	if (!field->exported)
		return;
	if (!field->many) {
		add_one(drafting, draft, field);
		return;
	}
	list = add_list(drafting, draft, field, RELATION_LIST, "");
	add_one(drafting, list, field);
	if (field->type == TYPE_GROUP && field_is_keyed(field) &&
		list->relation.level == 1)
		list->relation.key_column = list->relation.key_count;
}

static void
add_fields(struct drafting *drafting, struct draft *draft,
	const struct fields *fields, unsigned from, unsigned to)
{
	unsigned i;

	for (i = from; i < to; i++)
		add_field(drafting, draft, &fields->items[i]);
}

static void
add_called(struct drafting *drafting, struct draft *draft)
{
	struct column *column = add_column(drafting, draft, "called",
		PART_CALLED, CELL_TEXT);

	column->title = "what it is called";
	column->required = true;
}

/* What every record has: its name and place, and the fields of every.yaml. */
static void
add_record(struct drafting *drafting)
{
	struct draft *draft = add_draft(drafting, "record");
	struct column *column;
	const struct kind *kind;

	drafting->record = draft;
	draft->relation.title = "records of every kind";
	draft->relation.says = "Each record, with what any record may carry.";
	draft->relation.form = RELATION_RECORDS;
	add_key_column(drafting, draft, "kind", PART_KIND, "kind");
	add_key_column(drafting, draft, "id", PART_ID, "id");
	add_called(drafting, draft);
	column = add_column(drafting, draft, "place", PART_PLACE, CELL_WHOLE);
	column->title = "place in reading order among its kind";
	column->required = true;
	column = add_column(drafting, draft, "pointed", PART_POINTED,
		CELL_WHOLE);
	column->title = "how many references lead to it";
	column->required = true;
	if (drafting->schema->count == 0)
		return;
	kind = &drafting->schema->kinds[0];
	add_fields(drafting, draft, &kind->fields, kind->own_count,
		kind->fields.count);
}

static void
add_kind(struct drafting *drafting, const struct kind *kind)
{
	struct draft *draft = add_draft(drafting, kind->name);

	drafting->of_kind[kind->index] = draft;
	draft->relation.title = kind->titles;
	draft->relation.says = kind->says;
	draft->relation.form = RELATION_RECORDS;
	draft->relation.kind = kind;
	add_key_column(drafting, draft, "id", PART_ID, "id");
	add_called(drafting, draft);
	add_fields(drafting, draft, &kind->fields, 0, kind->own_count);
}

static void
add_computed(struct drafting *drafting, const struct computed *computed)
{
	struct draft *draft = add_draft(drafting, computed->name);
	const struct computed_column *said = computed->columns;

	draft->relation.title = computed->title;
	draft->relation.says = computed->says;
	draft->relation.form = RELATION_COMPUTED;
	draft->relation.key_count = computed->key_count;
	draft->relation.compute = computed->compute;
	for (; said->name != NULL; said++) {
		struct column *column = add_column(drafting, draft,
			said->name, PART_COMPUTED, said->form);

		column->title = said->title;
		column->required = said->required;
		if (said->to != NULL)
			add_lead(draft, schema_kind(drafting->schema,
				said->to), strcmp(said->to, "record") == 0 ?
				2 : 1, false);
	}
}

void
relations_lay_out(struct drafting *drafting)
{
	const struct schema *schema = drafting->schema;
	const struct computed *computed;
	unsigned i;

	add_record(drafting);
	for (i = 0; i < schema->count; i++)
		if (kind_is_public(&schema->kinds[i]))
			add_kind(drafting, &schema->kinds[i]);
	for (computed = computed_relations; computed->name != NULL; computed++)
		add_computed(drafting, computed);
}
