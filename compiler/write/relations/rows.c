/*
 * The rows of a relation: records are walked in order, and in each the lists
 * that lead to the relation's own.
 */
#include "write/relations/relations.h"

#include "write/relations/inside.h"

/* Where a walk is: what the cells of a row are taken from. */
struct walk {
	const struct model *model;
	const struct relation *relation;
	const struct relation **chain;	/* the relation and its owners, from
					   the outermost */
	const struct record *record;
	struct value *const *values;	/* of the record or the item */
	const struct value *item;	/* of a list that is not of groups */
	const struct reference *reference;
	const struct translation *translation;
	unsigned *positions;		/* by level */
	struct cell *cells;
	struct arena *scratch;		/* for days of the row at hand */
	relation_row *row;
	void *data;
	GError **error;
};

static const char *const part_names[] = {
	[PART_KIND] = "kind",
	[PART_ID] = "id",
	[PART_CALLED] = "called",
	[PART_PLACE] = "place",
	[PART_POINTED] = "pointed",
	[PART_POSITION] = "position",
	[PART_VALUE] = "value",
	[PART_FIRST] = "first",
	[PART_LAST] = "last",
	[PART_STATE] = "state",
	[PART_TARGET_KIND] = "target_kind",
	[PART_TARGET] = "target",
	[PART_TARGET_KEY] = "target_key",
	[PART_LANGUAGE] = "language",
	[PART_TRANSLATED] = "text",
	[PART_COMPUTED] = "computed",
};

static const char *const states[] = {
	[IDENTITY_UNKNOWN] = "unknown",
	[IDENTITY_KNOWN] = "known",
	[IDENTITY_ONE_OF] = "one_of",
	[IDENTITY_NOT] = "not",
};

const char *
part_name(enum part part)
{
	return part_names[part];
}

/*
 * The value of `field` in values that belong to `around` (NULL: a record).
 * Fields of every record were laid out by those of one kind, and stand behind
 * each kind's own.
 */
static const struct value *
value_of(const struct record *record, struct value *const *values,
	const struct field *field, const struct field *around)
{
	const struct value *group;

	if (field->parent != around) {
		group = value_of(record, values, field->parent, around);
		return group == NULL ? NULL : group->group[field->index];
	}
	if (around != NULL)
		return values[field->index];
	return values[field->index + record->kind->own_count -
		field->kind->own_count];
}

static struct cell
text_cell(const char *text)
{
	struct cell cell = {.form = text == NULL ? CELL_NULL : CELL_TEXT};

	cell.text = text;
	return cell;
}

static struct cell
whole_cell(int64_t whole)
{
	struct cell cell = {.form = CELL_WHOLE};

	cell.whole = whole;
	return cell;
}

static struct cell
day_cell(struct arena *arena, day_number day)
{
	GDate date;

	g_date_clear(&date, 1);
	g_date_set_julian(&date, (guint32)day);
	return text_cell(arena_print(arena, "%04d-%02d-%02d",
		(int)g_date_get_year(&date), (int)g_date_get_month(&date),
		(int)g_date_get_day(&date)));
}

/* The value itself, of the types that are one column. */
static struct cell
value_cell(const struct value *value)
{
	struct cell cell = {.form = CELL_NULL};

	switch (value->field->type) {
	case TYPE_TEXT:
	case TYPE_COUNTRY:
	case TYPE_LANGUAGE:
	case TYPE_CURRENCY:
	case TYPE_BARCODE:
	case TYPE_AMOUNT:
		return text_cell(value->text);
	case TYPE_PROSE:
		return text_cell(value->prose.text);
	case TYPE_DATE:
		return text_cell(value->date.text);
	case TYPE_WORD:
		return text_cell(value->word->word);
	case TYPE_WHOLE:
		return whole_cell(value->whole);
	case TYPE_YESNO:
		return whole_cell(value->yes ? 1 : 0);
	case TYPE_QUANTITY:
		cell.form = CELL_REAL;
		cell.real = value->quantity.number;
		return cell;
	case TYPE_TRANSLATION:
	case TYPE_REFERENCE:
	case TYPE_IDENTITY:
	case TYPE_GROUP:
		break;
	}
	return cell;
}

/* What a value refers to for certain, or NULL. */
static const struct reference *
reference_of(const struct value *value)
{
	if (value == NULL)
		return NULL;
	if (value->field->type == TYPE_REFERENCE)
		return &value->reference;
	if (value->identity.kind == IDENTITY_KNOWN)
		return &value->identity.items[0];
	return NULL;
}

static struct cell
reference_cell(const struct reference *reference, enum part part)
{
	if (reference == NULL || reference->record == NULL)
		return text_cell(NULL);
	if (part == PART_TARGET_KIND)
		return text_cell(reference->record->kind->name);
	if (part == PART_TARGET_KEY)
		return text_cell(reference->key);
	return text_cell(reference->record->id);
}

static const struct value *
column_value(const struct walk *walk, const struct column *column)
{
	if (column->field == NULL)
		return NULL;
	if (column->field == walk->relation->field)
		return walk->item;
	return value_of(walk->record, walk->values, column->field,
		walk->relation->field);
}

/* Columns that hold something of the record or its place. */
static struct cell
row_cell(const struct walk *walk, const struct column *column)
{
	switch (column->part) {
	case PART_KIND:
		return text_cell(walk->record->kind->name);
	case PART_ID:
		return text_cell(walk->record->id);
	case PART_CALLED:
		return text_cell(walk->record->name);
	case PART_PLACE:
		return whole_cell((int64_t)walk->record->index + 1);
	case PART_POINTED:
		return whole_cell((int64_t)model_pointing(walk->model,
			walk->record).count);
	case PART_POSITION:
		return whole_cell(walk->positions[column->level]);
	case PART_LANGUAGE:
		return text_cell(walk->translation->language);
	case PART_TRANSLATED:
		return text_cell(walk->translation->text);
	case PART_VALUE:
	case PART_FIRST:
	case PART_LAST:
	case PART_STATE:
	case PART_TARGET_KIND:
	case PART_TARGET:
	case PART_TARGET_KEY:
	case PART_COMPUTED:
		break;
	}
	return text_cell(NULL);
}

static struct cell
make_cell(const struct walk *walk, const struct column *column)
{
	const struct value *value = column_value(walk, column);

	switch (column->part) {
	case PART_VALUE:
		return value == NULL ? text_cell(NULL) : value_cell(value);
	case PART_FIRST:
	case PART_LAST:
		if (value == NULL)
			return text_cell(NULL);
		return day_cell(walk->scratch, column->part == PART_FIRST ?
			value->date.first : value->date.last);
	case PART_STATE:
		return text_cell(value == NULL ? NULL :
			states[value->identity.kind]);
	case PART_TARGET_KIND:
	case PART_TARGET:
	case PART_TARGET_KEY:
		return reference_cell(walk->reference != NULL ?
			walk->reference : reference_of(value), column->part);
	case PART_KIND:
	case PART_ID:
	case PART_CALLED:
	case PART_PLACE:
	case PART_POINTED:
	case PART_POSITION:
	case PART_LANGUAGE:
	case PART_TRANSLATED:
	case PART_COMPUTED:
		break;
	}
	return row_cell(walk, column);
}

static bool
give_row(struct walk *walk)
{
	bool given;
	unsigned i;

	walk->scratch = arena_new();
	for (i = 0; i < walk->relation->count; i++)
		walk->cells[i] = make_cell(walk, &walk->relation->columns[i]);
	given = walk->row(walk->data, walk->cells, walk->error);
	arena_free(walk->scratch);
	return given;
}

/* The list, translation or identity that a relation shows, or NULL. */
static const struct value *
list_value(const struct walk *walk, const struct relation *relation)
{
	const struct relation *owner = relation->owner;

	if (owner->field != NULL && owner->field == relation->field)
		return walk->item;
	return value_of(walk->record, walk->values, relation->field,
		owner->field);
}

static bool
walk_translations(struct walk *walk, const struct value *value,
	unsigned level)
{
	unsigned i;

	for (i = 0; i < value->translation.count; i++) {
		walk->translation = &value->translation.items[i];
		walk->positions[level] = i + 1;
		if (!give_row(walk))
			return false;
	}
	return true;
}

static bool
walk_candidates(struct walk *walk, const struct value *value, unsigned level)
{
	bool given = true;
	unsigned i;

	if (value->identity.kind != IDENTITY_ONE_OF &&
		value->identity.kind != IDENTITY_NOT)
		return true;
	for (i = 0; given && i < value->identity.count; i++) {
		walk->reference = &value->identity.items[i];
		walk->positions[level] = i + 1;
		given = give_row(walk);
	}
	walk->reference = NULL;
	return given;
}

static bool
walk_level(struct walk *walk, unsigned level);

static bool
walk_items(struct walk *walk, const struct value *list, unsigned level)
{
	struct value *const *values = walk->values;
	const struct value *item = walk->item;
	bool given = true;
	unsigned i;

	for (i = 0; given && i < list->many.count; i++) {
		walk->item = list->many.items[i];
		walk->values = walk->item->field->type == TYPE_GROUP ?
			walk->item->group : NULL;
		walk->positions[level] = i + 1;
		given = walk_level(walk, level + 1);
	}
	walk->values = values;
	walk->item = item;
	return given;
}

/* Gives a row where the chain is at its end, else goes down the next list. */
static bool
walk_level(struct walk *walk, unsigned level)
{
	const struct relation *relation;
	const struct value *value;

	if (level > walk->relation->level)
		return give_row(walk);
	relation = walk->chain[level];
	value = list_value(walk, relation);
	if (value == NULL)
		return true;
	if (relation->form == RELATION_TRANSLATIONS)
		return walk_translations(walk, value, level);
	if (relation->form == RELATION_CANDIDATES)
		return walk_candidates(walk, value, level);
	return walk_items(walk, value, level);
}

static bool
walk_kind(struct walk *walk, const struct kind *kind)
{
	struct record_list list = model_records(walk->model, kind);
	unsigned i;

	for (i = 0; i < list.count; i++) {
		walk->record = list.items[i];
		walk->values = list.items[i]->values;
		walk->item = NULL;
		if (!walk_level(walk, 1))
			return false;
	}
	return true;
}

static bool
walk_kinds(struct walk *walk)
{
	const struct schema *schema = model_schema(walk->model);
	unsigned i;

	if (walk->relation->kind != NULL)
		return walk_kind(walk, walk->relation->kind);
	for (i = 0; i < schema->count; i++)
		if (kind_is_public(&schema->kinds[i]) &&
			!walk_kind(walk, &schema->kinds[i]))
			return false;
	return true;
}

bool
relation_rows(const struct relations *relations,
	const struct relation *relation, relation_row *row, void *data,
	GError **error)
{
	struct walk walk = {.model = relations->model, .relation = relation,
		.row = row, .data = data, .error = error};
	const struct relation *up = relation;
	bool given;

	if (relation->form == RELATION_COMPUTED)
		return relation->compute(relations, row, data, error);
	walk.chain = g_new0(const struct relation *, relation->level + 1);
	walk.positions = g_new0(unsigned, relation->level + 1);
	walk.cells = g_new0(struct cell, relation->count);
	for (; up != NULL; up = up->owner)
		walk.chain[up->level] = up;
	given = walk_kinds(&walk);
	g_free(walk.chain);
	g_free(walk.positions);
	g_free(walk.cells);
	return given;
}
