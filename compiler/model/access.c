/*
 * Reading the model.
 */
#include <string.h>

#include "model/inside.h"

const struct schema *
model_schema(const struct model *model)
{
	return model->schema;
}

const struct names *
model_names(const struct model *model)
{
	return model->names;
}

const struct sources *
model_sources(const struct model *model)
{
	return model->sources;
}

const char *
model_title(const struct model *model)
{
	return model->title;
}

const char *
model_digest(const struct model *model)
{
	return model->digest;
}

struct record_list
model_records(const struct model *model, const struct kind *kind)
{
	return model->lists[kind->index];
}

struct record_list
model_records_of(const struct model *model, const char *kind)
{
	const struct kind *found = schema_kind(model->schema, kind);

	if (found == NULL)
		return (struct record_list){NULL, 0};
	return model->lists[found->index];
}

struct pointer_list
model_pointing(const struct model *model, const struct record *record)
{
	return model->pointers[record->kind->index][record->index];
}

const struct field *
model_field(const struct model *model, enum field_name name)
{
	return model->fields[name];
}

const struct value *
model_get(const struct model *model, struct value *const *values,
	enum field_name name)
{
	return values[model->fields[name]->index];
}

const struct value *
model_get_every(const struct model *model, const struct record *record,
	enum field_name name)
{
	const struct field *field = model->fields[name];

	/* It was looked up in one kind; in each they follow the kind's own. */
	return record->values[field->index - field->kind->own_count +
		record->kind->own_count];
}

const char *
model_text(const struct model *model, struct value *const *values,
	enum field_name name)
{
	const struct value *value = model_get(model, values, name);

	return value == NULL ? NULL : value->text;
}

const struct record *
model_record(const struct model *model, struct value *const *values,
	enum field_name name)
{
	const struct value *value = model_get(model, values, name);

	return value == NULL ? NULL : value->reference.record;
}

const char *
model_word(const struct model *model, struct value *const *values,
	enum field_name name)
{
	const struct value *value = model_get(model, values, name);

	return value == NULL ? NULL : value->word->word;
}

const struct date *
model_date(const struct model *model, struct value *const *values,
	enum field_name name)
{
	const struct value *value = model_get(model, values, name);

	return value == NULL ? NULL : &value->date;
}

int64_t
model_whole(const struct model *model, struct value *const *values,
	enum field_name name, int64_t absent)
{
	const struct value *value = model_get(model, values, name);

	return value == NULL ? absent : value->whole;
}

bool
model_yes(const struct model *model, struct value *const *values,
	enum field_name name)
{
	const struct value *value = model_get(model, values, name);

	return value != NULL && value->yes;
}

unsigned
value_count(const struct value *list)
{
	return list == NULL ? 0 : list->many.count;
}

const struct value *
value_item(const struct value *list, unsigned i)
{
	return list->many.items[i];
}

bool
model_may_exist(const char *concluded)
{
	return concluded == NULL || (strcmp(concluded, "disproved") != 0 &&
		strcmp(concluded, "never-issued") != 0);
}

enum allows
identity_allows(const struct value *identity, const struct record *record)
{
	bool named = false;
	unsigned i;

	if (identity == NULL)
		return ALLOWS_POSSIBLY;
	for (i = 0; i < identity->identity.count; i++)
		named |= identity->identity.items[i].record == record;
	switch (identity->identity.kind) {
	case IDENTITY_UNKNOWN:
		return ALLOWS_POSSIBLY;
	case IDENTITY_KNOWN:
		return named ? ALLOWS_CERTAINLY : ALLOWS_NOT;
	case IDENTITY_ONE_OF:
		return named ? ALLOWS_POSSIBLY : ALLOWS_NOT;
	case IDENTITY_NOT:
		break;
	}
	return named ? ALLOWS_NOT : ALLOWS_POSSIBLY;
}
