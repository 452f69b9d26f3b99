/*
 * The view of a lettering scheme: its labels, what this guide calls the same
 * card backs, and what has been relabelled.
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

/* "Your old 18C is now 18D." */
static void
show_relabel(struct page *page, struct value *const *group)
{
	const struct model *model = page->site->model;
	const struct record *cardback = model_record(model, group,
		NAME(SCHEME_RELABEL_CARDBACK));
	const char *now = model_text(model, group, NAME(SCHEME_RELABEL_NOW));
	const char *reason = model_text(model, group,
		NAME(SCHEME_RELABEL_REASON));
	const struct date *date = model_date(model, group,
		NAME(SCHEME_RELABEL_DATE));

	g_string_append(page->out, "<li id=\"");
	html_place(page->out, model_text(model, group,
		NAME(SCHEME_RELABEL_KEY)));
	html_put(page->out, "\">Your old <b>%s</b> ", model_text(model, group,
		NAME(SCHEME_RELABEL_WAS)));
	if (now == NULL)
		g_string_append(page->out, "has no label any more");
	else
		html_put(page->out, "is now <b>%s</b>", now);
	if (cardback != NULL) {
		g_string_append(page->out, ": ");
		page_link(page, cardback);
	}
	g_string_append(page->out, ".");
	if (date != NULL) {
		g_string_append(page->out, " Changed ");
		show_date(page, date);
		g_string_append(page->out, ".");
	}
	if (reason != NULL)
		html_put(page->out, " %s", reason);
	g_string_append(page->out, "</li>\n");
}

static void
show_relabels(struct page *page)
{
	const struct value *list = model_get(page->site->model,
		page->record->values, NAME(SCHEME_RELABELS));
	unsigned i;

	page_tell(page, NAME(SCHEME_RELABELS));
	if (value_count(list) == 0)
		return;
	g_string_append(page->out, "<section>\n");
	page_heading(page, "relabels", "Labels that have changed");
	g_string_append(page->out, "<p class=\"note\">Old lists and old "
		"photographs go on using the old ones.</p>\n<ul>\n");
	for (i = 0; i < value_count(list); i++)
		show_relabel(page, value_item(list, i)->group);
	g_string_append(page->out, "</ul>\n</section>\n");
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
	show_relabels(page);
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
