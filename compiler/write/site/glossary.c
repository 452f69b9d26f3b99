/*
 * The glossary: all terms on one page, each with a place of its own.
 */
#include "write/site/parts.h"
#include "write/site/show.h"

static void
show_see(struct page *page, const struct record *term)
{
	const struct field *field = fields_find(&term->kind->fields, "see");
	const struct value *see = field == NULL ? NULL :
		term->values[field->index];
	unsigned i;

	if (see == NULL || field->type != TYPE_REFERENCE || !field->many)
		return;
	g_string_append(page->out, "<p class=\"see\">See ");
	for (i = 0; i < see->many.count; i++) {
		const struct record *other = see->many.items[i]->
			reference.record;

		html_put(page->out, "%s<a href=\"#%s\">%s</a>",
			i == 0 ? "" : ", ", other->id, other->name);
	}
	g_string_append(page->out, "</p>");
}

static void
show_term(struct page *page, const struct record *term)
{
	const struct model *model = page->site->model;
	const struct value *also = model_get(model, term->values,
		NAME(TERM_ALSO));
	const struct value *meaning = model_get(model, term->values,
		NAME(TERM_MEANING));

	html_put(page->out, "<div id=\"%s\"><dt><a href=\"", term->id);
	page_href(page, term, NULL);
	html_put(page->out, "\">%s</a>", term->name);
	if (also != NULL) {
		g_string_append(page->out, " <small>also ");
		show_value(page, also);
		g_string_append(page->out, "</small>");
	}
	g_string_append(page->out, "</dt><dd>");
	if (meaning != NULL)
		show_prose(page, meaning->prose.tree, 1);
	show_see(page, term);
	g_string_append(page->out, "</dd></div>\n");
}

bool
glossary_write(const struct site *site, GError **error)
{
	struct record_list terms = model_records_of(site->model, "term");
	struct page page = {.error = error};
	unsigned i;

	page_begin(&page, site, "glossary.html", "Glossary", "reader");
	html_put(page.out, "<header class=\"sheet-head\"><h1>Glossary "
		"<span class=\"count\">%u</span></h1>\n<p class=\"lede\">"
		"Words of the trade in plain words.</p></header>\n",
		terms.count);
	if (terms.count > 0)
		g_string_append(page.out, "<dl class=\"glossary\">\n");
	for (i = 0; i < terms.count; i++)
		show_term(&page, terms.items[i]);
	if (terms.count > 0)
		g_string_append(page.out, "</dl>\n");
	return page_end(&page);
}
