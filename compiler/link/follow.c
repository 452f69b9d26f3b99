/*
 * Holdings outlive editions. What they name may have been withdrawn since: a
 * record that was put together with another leads to that one, and one that
 * turned out to be several leads to all of these, of which it is one.
 */
#include "link/names.h"

#include <string.h>

/* No record was withdrawn in favour of others oftener than this in a row. */
enum { MOST_STEPS = 20 };

struct following {
	struct arena *arena;
	struct diags *diags;
	GPtrArray *found;	/* of the reference that is being followed */
};

/* A value of the group under "retired" of a record, or NULL. */
static const struct value *
retired_value(const struct record *record, const char *name)
{
	const struct field *field = fields_find(&record->kind->fields,
		"retired"), *part;
	const struct value *retired = field == NULL ? NULL :
		record->values[field->index];

	if (retired == NULL)
		return NULL;
	part = fields_find(&field->fields, name);
	return part == NULL ? NULL : retired->group[part->index];
}

/* Adds what took the record's place, as far as it is of the same kind. */
static void
find(struct following *following, const struct record *record, int steps)
{
	const struct value *one = retired_value(record, "successor");
	const struct value *many = retired_value(record, "split_into");
	const struct record *next;
	unsigned i, count = many == NULL ? 0 : many->many.count;

	if (!names_is_retired(record)) {
		if (!g_ptr_array_find(following->found, record, NULL))
			g_ptr_array_add(following->found,
				(gpointer)(uintptr_t)record);
		return;
	}
	for (i = 0; steps < MOST_STEPS && i <= count; i++) {
		const struct value *value = i < count ? many->many.items[i] :
			count == 0 ? one : NULL;

		next = value == NULL ? NULL : value->reference.record;
		if (next != NULL && next->kind == record->kind)
			find(following, next, steps + 1);
	}
}

static void
help(struct following *following, struct diag *diag,
	const struct reference *reference)
{
	const struct record *first = following->found->len == 0 ? NULL :
		g_ptr_array_index(following->found, 0);
	GString *names = g_string_new(NULL);
	guint i;

	for (i = 0; i < following->found->len; i++)
		g_string_append_printf(names, "%s\"%s\"", i == 0 ? "" :
			i + 1 == following->found->len ? " and " : ", ",
			((const struct record *)g_ptr_array_index(
				following->found, i))->id);
	if (first == NULL)
		diag_help(diag, "nothing takes its place, and it stays as it "
			"is: see what your piece is now called");
	else if (following->found->len > 1)
		diag_help(diag, "it is taken for one of %s; look which it is, "
			"and write that", names->str);
	else {
		diag_help(diag, "it is taken for %s; write that", names->str);
		if (reference->key == NULL && reference->written_kind == NULL)
			diag_mend(diag, reference->span, first->id,
				MEND_PROBABLE);
	}
	g_string_free(names, TRUE);
}

/* What a reference leads to now, in `found`; false where that is as before. */
static bool
follow(struct following *following, const struct reference *reference)
{
	const struct record *record = reference->record;
	const struct value *reason;
	struct diag *diag;

	g_ptr_array_set_size(following->found, 0);
	if (record == NULL || !names_is_retired(record))
		return false;
	find(following, record, 0);
	reason = retired_value(record, "reason");
	diag = diag_report(following->diags, DIAG_RETIRED_ID, reference->span,
		"%s \"%s\" was withdrawn%s%s", record->kind->title, record->id,
		reason == NULL ? "" : ": ", reason == NULL ? "" :
		reason->text);
	diag_note(diag, record->id_span, "it is here");
	help(following, diag, reference);
	return following->found->len > 0;
}

static struct reference
reference_to(const struct reference *was, const struct record *record)
{
	struct reference reference = *was;

	reference.record = record;
	reference.id = record->id;
	reference.key = NULL;
	reference.item = NULL;
	return reference;
}

static bool
has_record(const struct reference *items, unsigned count,
	const struct record *record)
{
	unsigned i;

	for (i = 0; i < count; i++)
		if (items[i].record == record)
			return true;
	return false;
}

/* An identity anew, with each reference led on, and none named twice. */
static void
follow_identity(struct following *following, struct value *value)
{
	GArray *items = g_array_new(FALSE, FALSE, sizeof(struct reference));
	unsigned i;
	guint j;

	for (i = 0; i < value->identity.count; i++) {
		const struct reference *was = &value->identity.items[i];

		if (!follow(following, was)) {
			g_array_append_val(items, *was);
			continue;
		}
		for (j = 0; j < following->found->len; j++) {
			struct reference now = reference_to(was,
				g_ptr_array_index(following->found, j));

			if (!has_record((struct reference *)(void *)
				items->data, items->len, now.record))
				g_array_append_val(items, now);
		}
	}
	value->identity.count = items->len;
	value->identity.items = arena_array(following->arena,
		struct reference, items->len);
	memcpy(value->identity.items, items->data,
		sizeof(struct reference) * items->len);
	if (value->identity.kind != IDENTITY_NOT)
		value->identity.kind = items->len > 1 ? IDENTITY_ONE_OF :
			IDENTITY_KNOWN;
	g_array_free(items, TRUE);
}

static void
follow_value(struct following *following, struct value *value)
{
	const struct field *field = value->field;
	unsigned i;

	if (value->form == VALUE_MANY) {
		for (i = 0; i < value->many.count; i++)
			follow_value(following, value->many.items[i]);
		return;
	}
	if (field->type == TYPE_IDENTITY && value->identity.count > 0)
		follow_identity(following, value);
	if (field->type == TYPE_REFERENCE && follow(following,
		&value->reference) && following->found->len == 1)
		value->reference = reference_to(&value->reference,
			g_ptr_array_index(following->found, 0));
	for (i = 0; field->type == TYPE_GROUP && i < field->fields.count; i++)
		if (value->group[i] != NULL)
			follow_value(following, value->group[i]);
}

void
link_follow(const struct records *records, struct arena *arena,
	struct diags *diags)
{
	struct following following = {arena, diags, g_ptr_array_new()};
	size_t i;
	unsigned j;

	for (i = 0; i < records->count; i++)
		for (j = 0; j < records->items[i]->kind->fields.count; j++)
			if (records->items[i]->values[j] != NULL)
				follow_value(&following,
					records->items[i]->values[j]);
	g_ptr_array_free(following.found, TRUE);
}
