/*
 * The view of a lettering scheme: its labels, and what this guide calls the
 * same card backs.
 */
#include "write/site/pairs.h"
#include "write/site/record.h"
#include "write/site/rows.h"
#include "write/site/show.h"

static const char *
label_in(const struct model *model, const struct record *cardback,
	const struct record *scheme)
{
	const struct value *labels = model_get(model, cardback->values,
		NAME(CARDBACK_LABELS));
	unsigned i;

	for (i = 0; i < value_count(labels); i++) {
		struct value *const *group = value_item(labels, i)->group;

		if (model_record(model, group, NAME(CARDBACK_LABELS_SCHEME))
			== scheme)
			return model_text(model, group,
				NAME(CARDBACK_LABELS_LABEL));
	}
	return NULL;
}

void
scheme_body(struct page *page)
{
	const struct site *site = page->site;
	struct arena *arena = arena_new();
	struct record_list list = rows_pointing(page, page->record,
		NAME(CARDBACK_LABELS_SCHEME), arena);
	const char *label;
	unsigned i;

	page_tell_pointer(page, NAME(CARDBACK_LABELS_SCHEME));
	if (list.count > 0) {
		g_string_append(page->out, "<section>\n");
		page_heading(page, "labels", "Its labels");
		g_string_append(page->out, "<ul class=\"labels many\">\n");
	}
	for (i = 0; i < list.count; i++) {
		label = label_in(site->model, list.items[i], page->record);
		html_put(page->out, "<li><b>%s</b> ", label == NULL ? "" :
			label);
		page_link_words(page, list.items[i], NULL,
			cardback_label(site, list.items[i]));
		g_string_append(page->out, "</li>\n");
	}
	if (list.count > 0)
		g_string_append(page->out, "</ul>\n</section>\n");
	arena_free(arena);
}
