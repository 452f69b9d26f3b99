/*
 * Names from templates such as "{number}-back, {market}". A name may be made
 * of other records' names, so naming follows references; a circle of such
 * templates ends at a fixed depth with the id.
 */
#include "model/naming.h"

#include <string.h>

#include "model/text.h"

enum { DEEPEST = 6 };

static void
name_at_depth(struct record *record, struct arena *arena, int depth);

static void
name_targets(const struct value *value, struct arena *arena, int depth)
{
	const struct reference *items = NULL;
	unsigned count = 0, i;

	if (value->field->type == TYPE_REFERENCE) {
		items = &value->reference;
		count = 1;
	} else if (value->field->type == TYPE_IDENTITY) {
		items = value->identity.items;
		count = value->identity.count;
	}
	for (i = 0; i < count; i++)
		if (items[i].record != NULL && items[i].record->name == NULL)
			name_at_depth((struct record *)(uintptr_t)
				items[i].record, arena, depth + 1);
}

/* The value that a path such as "labels.label" leads to, or NULL. */
static const struct value *
follow(struct value *const *values, const struct fields *fields,
	const char *path)
{
	const char *dot = strchr(path, '.');
	char *name = dot == NULL ? g_strdup(path) :
		g_strndup(path, (gsize)(dot - path));
	const struct field *field = fields_find(fields, name);
	const struct value *value;

	g_free(name);
	value = field == NULL ? NULL : values[field->index];
	if (value != NULL && value->form == VALUE_MANY)
		value = value->many.count == 0 ? NULL : value->many.items[0];
	if (value == NULL || dot == NULL)
		return value;
	if (field->type != TYPE_GROUP)
		return NULL;
	return follow(value->group, &field->fields, dot + 1);
}

/*
 * Appends what stands for {path}; an empty one takes the blank before it. A
 * date is in words, or in figures where the name is to be `sorted`.
 */
static void
append_path(const struct record *record, const char *path,
	struct arena *arena, int depth, bool sorted, GString *out)
{
	const struct value *value;
	gsize before = out->len;

	value = follow(record->values, &record->kind->fields, path);
	if (value != NULL && value->field->type == TYPE_TRANSLATION)
		g_string_append(out, value->translation.items[0].text);
	else if (value != NULL) {
		name_targets(value, arena, depth);
		if (sorted)
			value_append_text(value, out);
		else
			value_append_words(value, out);
	}
	while (out->len == before && before > 0 &&
		(out->str[before - 1] == ' ' || out->str[before - 1] == ','))
		g_string_truncate(out, --before);
}

static const char *
make_name(const struct record *record, struct arena *arena, int depth,
	bool sorted)
{
	const char *template = record->kind->called, *name = record->id;
	GString *out = g_string_new(NULL);
	const char *at, *end;

	if (template == NULL)
		template = "{name}";
	for (at = template; depth < DEEPEST && *at != '\0'; at++) {
		end = *at == '{' ? strchr(at, '}') : NULL;
		if (end == NULL) {
			g_string_append_c(out, *at);
			continue;
		}
		char *path = g_strndup(at + 1, (gsize)(end - at - 1));

		append_path(record, path, arena, depth, sorted, out);
		g_free(path);
		at = end;
	}
	g_strstrip(out->str);
	if (out->str[0] != '\0')
		name = arena_text(arena, out->str, strlen(out->str));
	g_string_free(out, TRUE);
	return name;
}

/* Whether a name by the template holds a date of the record itself. */
static bool
has_date(const struct kind *kind)
{
	unsigned i;

	for (i = 0; kind->called != NULL && i < kind->fields.count; i++) {
		char *path = g_strdup_printf("{%s}", kind->fields.items[i]
			.name);
		bool named = kind->fields.items[i].type == TYPE_DATE &&
			strstr(kind->called, path) != NULL;

		g_free(path);
		if (named)
			return true;
	}
	return false;
}

static void
name_at_depth(struct record *record, struct arena *arena, int depth)
{
	record->name = make_name(record, arena, depth, false);
	record->sorted = record->name;
	if (has_date(record->kind))
		record->sorted = make_name(record, arena, depth, true);
}

void
name_record(struct record *record, struct arena *arena)
{
	if (record->name == NULL)
		name_at_depth(record, arena, 0);
}
