/*
 * The list of each kind: a table of names and first facts, in pages; for the
 * kinds that readers begin with, lists of their own.
 */
#include <string.h>

#include "write/site/cardbacks.h"
#include "write/site/characters.h"
#include "write/site/keys.h"
#include "write/site/parts.h"
#include "write/site/rows.h"

enum { ROWS_ON_PAGE = 150 };

char *
turn_path(const char *stem, unsigned number)
{
	if (number == 1)
		return g_strconcat(stem, ".html", NULL);
	return g_strdup_printf("%s.%u.html", stem, number);
}

void
show_turns(struct page *page, const char *stem, unsigned number, unsigned last)
{
	char *path;

	if (last <= 1)
		return;
	g_string_append(page->out, "<p class=\"turns\">");
	if (number > 1) {
		path = turn_path(stem, number - 1);
		html_put(page->out, "<a rel=\"prev\" href=\"%s%s\">before"
			"</a> ", page->up, path);
		g_free(path);
	}
	html_put(page->out, "page %u of %u", number, last);
	if (number < last) {
		path = turn_path(stem, number + 1);
		html_put(page->out, " <a rel=\"next\" href=\"%s%s\">after"
			"</a>", page->up, path);
		g_free(path);
	}
	g_string_append(page->out, "</p>\n");
}

void
list_head(struct page *page, const struct kind *kind, unsigned count)
{
	g_string_append(page->out, "<header class=\"sheet-head\"><h1>");
	page_capital(page, kind->titles);
	html_put(page->out, " <span class=\"count\">%u</span></h1>\n", count);
	if (kind->says != NULL)
		html_put(page->out, "<p class=\"lede\">%s</p>\n", kind->says);
	keys_of_kind(page, kind);
	g_string_append(page->out, "</header>\n");
}

bool
list_pages(const struct site *site, const struct kind *kind,
	unsigned rows_on_page, list_rows *show, GError **error)
{
	struct record_list list = model_records(site->model, kind);
	unsigned last = MAX(1, (list.count + rows_on_page - 1) / rows_on_page);
	char *first = list_path(kind, 1);
	char *stem = g_strndup(first, strlen(first) - strlen(".html"));
	bool done = true;
	unsigned number;

	for (number = 1; done && number <= last; number++) {
		struct page page = {.error = error};
		char *path = turn_path(stem, number);

		page_begin(&page, site, path, kind->titles,
			chapter_ink(kind->chapter));
		list_head(&page, kind, list.count);
		show_turns(&page, stem, number, last);
		show(&page, list, (number - 1) * rows_on_page,
			MIN(list.count, number * rows_on_page));
		show_turns(&page, stem, number, last);
		done = page_end(&page);
		g_free(path);
	}
	g_free(stem);
	g_free(first);
	return done;
}

static void
show_plain(struct page *page, struct record_list list, unsigned from,
	unsigned to)
{
	struct rows rows = {
		.kind = list.items[0]->kind,
		.items = list.items,
		.count = list.count,
	};

	rows_show(page, &rows, from, to);
}

static bool
write_plain(const struct site *site, const struct kind *kind,
	GError **error)
{
	return list_pages(site, kind, ROWS_ON_PAGE, show_plain, error);
}

typedef bool list_write(const struct site *site, const struct kind *kind,
	GError **error);

static list_write *
list_function(const struct kind *kind)
{
	if (strcmp(kind->name, "cardback") == 0)
		return cardbacks_write;
	if (strcmp(kind->name, "character") == 0)
		return characters_write;
	return write_plain;
}

bool
lists_write(const struct site *site, GError **error)
{
	const struct schema *schema = model_schema(site->model);
	unsigned i;

	for (i = 0; i < schema->count; i++) {
		const struct kind *kind = &schema->kinds[i];

		if (!kind->page || model_records(site->model, kind).count == 0)
			continue;
		if (!list_function(kind)(site, kind, error))
			return false;
	}
	return true;
}
