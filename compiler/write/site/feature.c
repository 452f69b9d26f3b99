/*
 * The view of a feature: under each of its states, the records that have it.
 */
#include "write/site/record.h"
#include "write/site/show.h"

/* Whether a reference of the record's own field leads to that state. */
static bool
has_state(const struct page *page, const struct pointer *pointer,
	const char *key)
{
	const struct value *value = pointer->from->values
		[pointer->field->index];
	const struct reference *reference;
	unsigned i, count = value == NULL ? 0 :
		value->form == VALUE_ONE ? 1 : value->many.count;

	for (i = 0; i < count; i++) {
		reference = value->form == VALUE_ONE ? &value->reference :
			&value->many.items[i]->reference;
		if (reference->record == page->record &&
			g_strcmp0(reference->key, key) == 0)
			return true;
	}
	return false;
}

/* Fields that are told of here, each pointer once. */
static bool
is_score(const struct pointer_list *list, size_t i)
{
	const struct field *field = list->items[i].field;

	return field->parent == NULL && field->type == TYPE_REFERENCE &&
		field->exported && field->show != SHOW_NO && (i == 0 || list->items[i - 1].from != list->items[i].from ||
		list->items[i - 1].field != field);
}

static unsigned
show_state(struct page *page, const char *key, const char *name)
{
	struct pointer_list list = model_pointing(page->site->model,
		page->record);
	unsigned shown = 0;
	size_t i;

	for (i = 0; i < list.count; i++) {
		if (!is_score(&list, i) ||
			!has_state(page, &list.items[i], key))
			continue;
		if (shown++ == 0)
			html_put(page->out, "<h3>%s</h3>\n<ul class=\"names\">"
				"\n", name);
		page_tell_pointer_of(page, list.items[i].field);
		g_string_append(page->out, "<li>");
		page_link(page, list.items[i].from);
		html_put(page->out, " <small>%s</small></li>\n",
			list.items[i].from->kind->title);
	}
	if (shown > 0)
		g_string_append(page->out, "</ul>\n");
	return shown;
}

void
feature_body(struct page *page)
{
	const struct model *model = page->site->model;
	const struct value *states = model_get(model, page->record->values,
		NAME(FEATURE_STATES));
	gsize before = page->out->len;
	unsigned i, shown = 0;

	g_string_append(page->out, "<section>\n");
	page_heading(page, "scored", "What has which");
	for (i = 0; i < value_count(states); i++) {
		struct value *const *group = value_item(states, i)->group;

		shown += show_state(page, model_text(model, group,
			NAME(FEATURE_STATE_KEY)), model_text(model, group,
			NAME(FEATURE_STATE_NAME)));
	}
	if (shown == 0)
		g_string_truncate(page->out, before);
	else
		g_string_append(page->out, "</section>\n");
}
