/*
 * The view of a census snapshot: beside which others it stands, and its lines
 * with the ranks at each step; and of a specimen: what it is, in a sentence.
 */
#include <inttypes.h>

#include "write/ranking.h"
#include "write/site/pairs.h"
#include "write/site/ranks.h"
#include "write/site/record.h"
#include "write/site/show.h"

/* The pairings of a line, where its wording does not lead to the only one. */
static void
show_pairings(struct page *page, const struct value *pairings)
{
	unsigned i;

	g_string_append(page->out, " <small>");
	for (i = 0; i < value_count(pairings); i++) {
		/* Several combinations of one pairing name it once. */
		if (i > 0 && value_item(pairings, i)->reference.record ==
			value_item(pairings, i - 1)->reference.record)
			continue;
		if (i > 0)
			g_string_append(page->out, ", ");
		pair_short(page, value_item(pairings, i)->reference.record,
			i == 0 ? NULL : value_item(pairings, i - 1)->
			reference.record);
	}
	g_string_append(page->out, "</small>");
}

static void
show_line(struct page *page, const struct rank_line *line)
{
	struct value *const *group = line->line->category->group;
	const struct value *pairings = model_get(page->site->model, group,
		NAME(CENSUS_CATEGORY_PAIRINGS));
	const struct value *match = model_get(page->site->model, group,
		NAME(CENSUS_CATEGORY_MATCH));

	html_put(page->out, "<tr class=\"line-head\"><th "
		"scope=\"rowgroup\" colspan=\"%d\">", RANKS_COLUMNS);
	if (value_count(pairings) == 1)
		page_link_words(page, value_item(pairings, 0)->
			reference.record, NULL, line->line->wording);
	else
		html_text(page->out, line->line->wording);
	if (value_count(pairings) > 1)
		show_pairings(page, pairings);
	g_string_append(page->out, "<p>");
	ranks_words(page, line);
	if (match != NULL)
		html_put(page->out, " <small>Fits our pairings: %s.</small>",
			match->word->title);
	g_string_append(page->out, "</p></th></tr>\n");
	ranks_rows(page, line);
}

/* What the words for the fit mean. */
static void
explain_fit(struct page *page)
{
	const struct vocabulary *words = model_field(page->site->model,
		NAME(CENSUS_CATEGORY_MATCH))->vocabulary;
	unsigned i;

	g_string_append(page->out, "<p class=\"note\">How a line fits the "
		"pairings of this guide: ");
	for (i = 0; i < words->count; i++)
		html_put(page->out, "<b>%s</b>: %s ", words->words[i].title,
			words->words[i].says == NULL ? "" :
			words->words[i].says);
	g_string_append(page->out, "</p>\n");
}

static void
show_report(struct page *page, const struct rank_report *report)
{
	int64_t total = 0;
	unsigned i;

	for (i = 0; i < report->count; i++)
		if (__builtin_add_overflow(total, report->lines[i].line->
			total, &total))
			total = INT64_MAX;
	html_put(page->out, "<tr%s><th scope=\"row\">",
		report->snapshot->census == page->record ?
		" class=\"this\"" : "");
	page_link_words(page, report->snapshot->census, NULL,
		report->snapshot->service->name);
	g_string_append(page->out, "</th><td>");
	show_date(page, model_date(page->site->model, report->snapshot->
		census->values, NAME(CENSUS_DATE)));
	html_put(page->out, "</td><td class=\"number\">%u</td>"
		"<td class=\"number\">", report->count);
	g_string_append_printf(page->out, "%" PRId64 "</td></tr>\n", total);
}

/* This report, the one before it, and the latest of every service. */
static void
show_beside(struct page *page, const struct rank_report *own)
{
	const struct ranks *ranks = page->site->ranks;
	unsigned i;

	if (ranks->count < 2)
		return;
	g_string_append(page->out, "<section>\n");
	page_heading(page, "beside", "Beside other reports");
	html_put(page->out, "<p class=\"note\">%s The page of a pairing has "
		"what they say of it side by side.</p>\n", ranking_apart);
	table_begin(page, "Beside other reports", "rows");
	g_string_append(page->out, "<thead><tr><th scope=\"col\">service"
		"</th><th scope=\"col\">day</th><th scope=\"col\">lines</th>"
		"<th scope=\"col\">certificates on them</th></tr></thead>\n"
		"<tbody>\n");
	for (i = 0; i < ranks->count; i++)
		if (&ranks->reports[i] == own || ranks->reports[i].snapshot->
			latest || ranks->reports[i].snapshot ==
			own->snapshot->before)
			show_report(page, &ranks->reports[i]);
	table_end(page);
	g_string_append(page->out, "</section>\n");
}

void
census_body(struct page *page)
{
	const struct rank_report *report = rank_of_census(page->site->ranks,
		page->record);
	unsigned i;

	if (report == NULL)
		return;
	page_tell(page, NAME(CENSUS_CATEGORIES));
	show_beside(page, report);
	if (report->count == 0)
		return;
	g_string_append(page->out, "<section>\n");
	page_heading(page, "categories", "The lines of the report");
	html_put(page->out, "<p class=\"note\">%s</p>\n", ranking_caution);
	explain_fit(page);
	table_begin(page, "The lines of the report", "rows ranks");
	ranks_heads(page);
	for (i = 0; i < report->count; i++) {
		g_string_append(page->out, i == 0 ? "<tbody>\n" :
			"</tbody>\n<tbody>\n");
		show_line(page, &report->lines[i]);
	}
	table_end(page);
	g_string_append(page->out, "</section>\n");
}

void
specimen_lead(struct page *page)
{
	const struct site *site = page->site;
	const struct record *pairing = seen_pairing(site->seen, page->record);
	struct record_list list = seen_sightings(site->seen, page->record);
	const struct date *first, *last;

	g_string_append(page->out, "<p class=\"answer\">");
	if (pairing != NULL) {
		g_string_append(page->out, "A piece of ");
		page_link(page, pairing);
		g_string_append(page->out, ". ");
	}
	if (list.count == 0)
		g_string_append(page->out, "No sighting is written down.");
	else {
		first = model_date(site->model, list.items[0]->values,
			NAME(SIGHTING_DATE));
		last = model_date(site->model, list.items[list.count - 1]->
			values, NAME(SIGHTING_DATE));
		html_put(page->out, "Seen <b>%u</b> time%s, ", list.count,
			list.count == 1 ? "" : "s");
		if (list.count > 1)
			g_string_append(page->out, "between ");
		show_date(page, first);
		if (list.count > 1) {
			g_string_append(page->out, " and ");
			show_date(page, last);
		}
		g_string_append(page->out, ".");
	}
	g_string_append(page->out, "</p>\n");
}
