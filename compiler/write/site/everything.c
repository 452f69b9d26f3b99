/*
 * What there is: kinds by chapter with their numbers; and what the words of
 * the schema mean, kind by kind and vocabulary by vocabulary.
 */
#include "write/site/parts.h"

static void
show_kind(struct page *page, const struct kind *kind)
{
	unsigned count = model_records(page->site->model, kind).count;
	char *path = list_path(kind, 1);

	g_string_append(page->out, "<li>");
	if (kind->page && count > 0) {
		html_put(page->out, "<a href=\"%s\">", path);
		page_capital(page, kind->titles);
		g_string_append(page->out, "</a>");
	} else
		page_capital(page, kind->titles);
	html_put(page->out, " <span class=\"count\">%u</span>", count);
	if (kind->says != NULL)
		html_put(page->out, "<small class=\"says\">%s</small>",
			kind->says);
	g_string_append(page->out, "</li>\n");
	g_free(path);
}

bool
everything_write(const struct site *site, GError **error)
{
	const struct schema *schema = model_schema(site->model);
	struct page page = {.error = error};
	enum chapter chapter;
	unsigned i;

	page_begin(&page, site, "everything.html", "Everything", "known");
	g_string_append(page.out, "<header class=\"sheet-head\">"
		"<h1>Everything</h1>\n<p class=\"lede\">All kinds of record in "
		"this guide, and how many there are of each. What they "
		"<a href=\"fields.html\">say</a>, and what their "
		"<a href=\"words.html\">words mean</a>, is on pages of its "
		"own, and so is what the compiler's <a href=\"messages.html\">"
		"messages mean</a>; the database takes <a href=\"queries.html\">questions "
		"of your own</a>.</p></header>\n<div class=\"chapters\">\n");
	for (chapter = CHAPTER_LINE; chapter < CHAPTER_PRIVATE; chapter++) {
		html_put(page.out, "<section class=\"%s\"><h2>%s</h2>\n"
			"<ul class=\"kinds\">\n", chapter_ink(chapter),
			chapter_title(chapter));
		for (i = 0; i < schema->count; i++)
			if (schema->kinds[i].chapter == chapter)
				show_kind(&page, &schema->kinds[i]);
		g_string_append(page.out, "</ul></section>\n");
	}
	g_string_append(page.out, "</div>\n");
	return page_end(&page);
}

static void
show_fields(struct page *page, const struct fields *fields)
{
	unsigned i;

	g_string_append(page->out, "<dl class=\"meanings\">\n");
	for (i = 0; i < fields->count; i++) {
		const struct field *field = &fields->items[i];

		if (field->show == SHOW_NO || !field->exported)
			continue;
		html_put(page->out, "<dt>%s <small>%s</small></dt><dd>%s",
			field->title, type_title(field->type),
			field->says == NULL ? "" : field->says);
		if (field->type == TYPE_WORD)
			html_put(page->out, " <a href=\"words.html#_words-%s\">"
				"The words</a>.", field->vocabulary->name);
		if (field->type == TYPE_GROUP)
			show_fields(page, &field->fields);
		g_string_append(page->out, "</dd>\n");
	}
	g_string_append(page->out, "</dl>\n");
}

/* A vocabulary's name is a word of the schema: "company_role". */
static void
show_vocabulary(struct page *page, const struct vocabulary *vocabulary)
{
	char *title = g_strdelimit(g_strdup(vocabulary->name), "_", ' ');
	unsigned i;

	html_put(page->out, "<section id=\"_words-%s\"><h2>",
		vocabulary->name);
	page_capital(page, title);
	g_string_append(page->out, "</h2>\n<dl class=\"meanings\">\n");
	for (i = 0; i < vocabulary->count; i++)
		html_put(page->out, "<dt>%s</dt><dd>%s</dd>\n",
			vocabulary->words[i].title,
			vocabulary->words[i].says == NULL ? "" :
			vocabulary->words[i].says);
	g_string_append(page->out, "</dl></section>\n");
	g_free(title);
}

bool
words_write(const struct site *site, GError **error)
{
	const struct schema *schema = model_schema(site->model);
	struct page page = {.error = error};
	unsigned i;

	page_begin(&page, site, "words.html", "What the words mean", "known");
	g_string_append(page.out, "<header class=\"sheet-head\"><h1>What the "
		"words mean</h1>\n<p class=\"lede\">The fixed words that "
		"records are described with. What each kind of record says is "
		"<a href=\"fields.html\">on another page</a>, and words of "
		"the trade are in the <a href=\"glossary.html\">glossary</a>."
		"</p></header>\n<div class=\"columns\">\n");
	for (i = 0; i < schema->vocabulary_count; i++)
		show_vocabulary(&page, &schema->vocabularies[i]);
	g_string_append(page.out, "</div>\n");
	return page_end(&page);
}

bool
fields_write(const struct site *site, GError **error)
{
	const struct schema *schema = model_schema(site->model);
	struct page page = {.error = error};
	unsigned i;

	page_begin(&page, site, "fields.html", "What records say", "known");
	g_string_append(page.out, "<header class=\"sheet-head\"><h1>What "
		"records say</h1>\n<p class=\"lede\">Every kind of record, "
		"and what stands in it.</p></header>\n");
	for (i = 0; i < schema->count; i++) {
		if (schema->kinds[i].chapter == CHAPTER_PRIVATE)
			continue;
		html_put(page.out, "<details id=\"_%s\"><summary>",
			schema->kinds[i].name);
		page_capital(&page, schema->kinds[i].titles);
		g_string_append(page.out, "</summary>\n");
		show_fields(&page, &schema->kinds[i].fields);
		g_string_append(page.out, "</details>\n");
	}
	return page_end(&page);
}
