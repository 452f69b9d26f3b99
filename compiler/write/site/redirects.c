/*
 * A page at each address that a record had before: it says where the record
 * is now, and leads there. Ids of withdrawn records are never used again; their
 * pages stay and say why.
 */
#include <string.h>

#include "shape/shape.h"
#include "write/site/parts.h"

static bool
write_redirect(const struct site *site, const struct record *record,
	const char *former, GError **error)
{
	struct page page = {.error = error};
	char *path = g_strdup_printf("%s/%s.html", record->kind->name, former);
	GString *head;
	char *at;

	page_begin(&page, site, path, record->name,
		chapter_ink(record->kind->chapter));
	head = g_string_new(NULL);
	html_put(head, "<meta http-equiv=\"refresh\" content=\"0; "
		"url=%s.html\">\n", record->id);
	at = strstr(page.out->str, "</head>");
	g_string_insert(page.out, at - page.out->str, head->str);
	g_string_free(head, TRUE);
	html_put(page.out, "<header class=\"sheet-head\"><h1>Moved</h1>\n"
		"<p class=\"lede\"><code>%s/%s</code> is now ",
		record->kind->name, former);
	page_link(&page, record);
	g_string_append(page.out, ".</p></header>\n");
	g_free(path);
	return page_end(&page);
}

/* Whether item `i` repeats one before it. */
static bool
is_earlier(const struct value *list, unsigned i)
{
	unsigned j;

	for (j = 0; j < i; j++)
		if (strcmp(list->many.items[j]->text,
			list->many.items[i]->text) == 0)
			return true;
	return false;
}

static bool
write_former(const struct site *site, const struct record *record,
	GError **error)
{
	const struct field *field = fields_find(&record->kind->fields,
		"formerly");
	const struct value *list = field == NULL ? NULL :
		record->values[field->index];
	unsigned i;

	if (list == NULL || list->form != VALUE_MANY ||
		field->type != TYPE_TEXT)
		return true;
	for (i = 0; i < list->many.count; i++) {
		const char *former = list->many.items[i]->text;

		if (shape_is_id(former, strlen(former)) &&
			!is_earlier(list, i) &&
			!write_redirect(site, record, former, error))
			return false;
	}
	return true;
}

bool
redirects_write(const struct site *site, GError **error)
{
	const struct schema *schema = model_schema(site->model);
	struct record_list list;
	unsigned i, j;

	for (i = 0; i < schema->count; i++) {
		list = model_records(site->model, &schema->kinds[i]);
		for (j = 0; schema->kinds[i].page && j < list.count; j++)
			if (!write_former(site, list.items[j], error))
				return false;
	}
	return true;
}
