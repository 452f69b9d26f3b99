/*
 * A market's page: what lists have shown of it, year by year, and what they
 * leave to be found.
 */
#include "write/site/unseen.h"

#include "write/site/show.h"

static void
show_years(struct page *page, const struct unseen *unseen)
{
	unsigned i;

	table_begin(page, "First on a list, by year", "rows discovery");
	g_string_append(page->out, "<thead><tr><th scope=\"col\">year</th>"
		"<th scope=\"col\">lists</th><th scope=\"col\">new</th>"
		"<th scope=\"col\">in all</th></tr></thead>\n<tbody>\n");
	for (i = 0; i < unseen->year_count; i++) {
		const struct discovery *year = &unseen->years[i];

		html_put(page->out, "<tr><th scope=\"row\">%u</th>"
			"<td class=\"number\">%u</td><td class=\"number\">%u"
			"</td><td class=\"number\">%u</td></tr>\n",
			(unsigned)year->year, year->lists, year->fresh,
			year->known);
	}
	table_end(page);
}

void
unseen_show(struct page *page, const struct record *market)
{
	const struct unseen *unseen = &page->site->unseen.items[market->index];
	struct arena *arena = arena_new();
	struct unseen_words words = unseen_say(unseen, arena);
	unsigned i;

	if (unseen->recorded > 0) {
		g_string_append(page->out, "<section>\n");
		page_heading(page, "unseen", "Still unseen");
		g_string_append(page->out, "<ul>\n");
		for (i = 0; i < words.count; i++)
			html_put(page->out, "<li>%s</li>\n", words.items[i]);
		g_string_append(page->out, "</ul>\n");
		if (unseen->year_count > 0)
			show_years(page, unseen);
		g_string_append(page->out, "</section>\n");
	}
	arena_free(arena);
}
