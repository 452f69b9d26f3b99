/*
 * Ranks as tables. Services stand side by side, a table each, so that nobody
 * adds them by running down a column.
 */
#include "write/site/ranks.h"

#include <inttypes.h>

#include "write/ranking.h"
#include "write/site/record.h"
#include "write/site/show.h"

void
ranks_heads(struct page *page)
{
	g_string_append(page->out, "<thead><tr><th scope=\"col\">step</th>"
		"<th scope=\"col\">certificates</th><th scope=\"col\">higher"
		"</th><th scope=\"col\">rank</th><th scope=\"col\">share</th>"
		"<th scope=\"col\">change</th></tr></thead>\n");
}

/* A bar as long as the step's share; the number beside it says the same. */
static void
show_bar(struct page *page, const struct rank_step *step)
{
	unsigned width = (unsigned)(step->share * 100 + 0.5);

	if (step->count > 0)
		html_put(page->out, " <svg class=\"bar\" viewBox=\"0 0 100 1\""
			" width=\"50\" height=\"9\" preserveAspectRatio="
			"\"none\" aria-hidden=\"true\"><rect width=\"%u\" "
			"height=\"1\"/></svg>", MAX(width, 1));
}

static void
show_number(struct page *page, const char *text)
{
	html_put(page->out, "<td class=\"number\">%s</td>", text);
}

void
ranks_rows(struct page *page, const struct rank_line *line)
{
	struct arena *arena = arena_new();
	unsigned i;

	for (i = 0; i < line->count; i++) {
		const struct rank_step *step = &line->steps[i];

		html_put(page->out, "<tr><th scope=\"row\">%s</th>"
			"<td class=\"number\">", step->step);
		g_string_append_printf(page->out, "%" PRId64, step->count);
		show_bar(page, step);
		g_string_append_printf(page->out, "</td><td class=\"number\">"
			"%" PRId64 "</td>", step->higher);
		show_number(page, ranking_rank(step, arena));
		show_number(page, ranking_share(step, arena));
		show_number(page, ranking_change(line, step, arena));
		g_string_append(page->out, "</tr>\n");
	}
	arena_free(arena);
}

void
ranks_words(struct page *page, const struct rank_line *line)
{
	struct arena *arena = arena_new();
	struct told_list list = ranking_line(line, page->site->model, false,
		arena);
	unsigned i;

	for (i = 0; i < list.count; i++)
		html_put(page->out, i == 0 ? "%s" : " %s", list.items[i].text);
	arena_free(arena);
}

static void
show_line(struct page *page, const struct rank_line *line)
{
	const struct snapshot *snapshot = line->line->snapshot;

	g_string_append(page->out, "<section>\n<h3>");
	page_link_words(page, snapshot->census, NULL, snapshot->service->name);
	g_string_append(page->out, " <small>");
	show_date(page, model_date(page->site->model,
		snapshot->census->values, NAME(CENSUS_DATE)));
	html_put(page->out, "</small></h3>\n<p>\u201c%s\u201d: ",
		line->line->wording);
	ranks_words(page, line);
	g_string_append(page->out, "</p>\n");
	if (line->count > 0) {
		table_begin(page, line->line->wording, "rows ranks");
		ranks_heads(page);
		g_string_append(page->out, "<tbody>\n");
		ranks_rows(page, line);
		table_end(page);
	}
	g_string_append(page->out, "</section>\n");
}

/* What is said of the services together. */
static void
show_together(struct page *page)
{
	struct arena *arena = arena_new();
	struct told_list list = ranking_together(page->site->ranks,
		page->record, arena);
	unsigned i;

	if (list.count > 0)
		g_string_append(page->out, "<ul class=\"note\">\n");
	for (i = 0; i < list.count; i++) {
		g_string_append(page->out, "<li>");
		if (list.items[i].about == NULL)
			html_text(page->out, list.items[i].text);
		else
			page_link_words(page, list.items[i].about, NULL,
				list.items[i].text);
		g_string_append(page->out, "</li>\n");
	}
	if (list.count > 0)
		g_string_append(page->out, "</ul>\n");
	arena_free(arena);
}

void
ranks_section(struct page *page)
{
	struct rank_lines lines = rank_of_pairing(page->site->ranks,
		page->record);
	unsigned i;

	if (lines.count == 0)
		return;
	g_string_append(page->out, "<section>\n");
	page_heading(page, "reports", "In population reports");
	html_put(page->out, "<p class=\"note\">%s</p>\n<div class=\"beside\">"
		"\n", ranking_caution);
	for (i = 0; i < lines.count; i++)
		show_line(page, lines.items[i]);
	g_string_append(page->out, "</div>\n");
	show_together(page);
	g_string_append(page->out, "</section>\n");
}
