/*
 * The view of a census snapshot: categories by the steps of the service's
 * scale; and of a specimen: what it is, in a sentence.
 */
#include <inttypes.h>
#include <string.h>

#include "write/site/estimates.h"
#include "write/site/pairs.h"
#include "write/site/record.h"
#include "write/site/show.h"

struct census {
	struct page *page;
	const struct value *steps;	/* of the scale, best first */
};

static int64_t
count_of(const struct census *census, const struct value *counts,
	const char *step)
{
	const struct model *model = census->page->site->model;
	const char *name;
	unsigned i;

	for (i = 0; i < value_count(counts); i++) {
		name = model_text(model, value_item(counts, i)->group,
			NAME(CENSUS_COUNT_STEP));
		if (g_strcmp0(name, step) == 0)
			return model_whole(model, value_item(counts,
				i)->group, NAME(CENSUS_COUNT_COUNT), 0);
	}
	return 0;
}

static int64_t
total_of(const struct census *census, const struct value *counts)
{
	int64_t total = 0;
	unsigned i;

	for (i = 0; i < value_count(counts); i++)
		total += model_whole(census->page->site->model, value_item(
			counts, i)->group, NAME(CENSUS_COUNT_COUNT), 0);
	return total;
}

static void
show_count(struct page *page, int64_t count)
{
	g_string_append(page->out, "<td class=\"number\">");
	if (count != 0)
		g_string_append_printf(page->out, "%" PRId64, count);
	g_string_append(page->out, "</td>");
}

static void
show_category(const struct census *census, struct value *const *group)
{
	struct page *page = census->page;
	const struct model *model = page->site->model;
	const struct value *counts = model_get(model, group,
		NAME(CENSUS_CATEGORY_COUNTS));
	const struct value *pairings = model_get(model, group,
		NAME(CENSUS_CATEGORY_PAIRINGS));
	const struct value *match = model_get(model, group,
		NAME(CENSUS_CATEGORY_MATCH));
	const char *wording = model_text(model, group,
		NAME(CENSUS_CATEGORY_WORDING));
	unsigned i;

	g_string_append(page->out, "<tr><th scope=\"row\">");
	if (wording == NULL)
		wording = "";
	if (value_count(pairings) == 1)
		page_link_words(page, value_item(pairings, 0)->
			reference.record, NULL, wording);
	else
		html_text(page->out, wording);
	for (i = 0; value_count(pairings) > 1 &&
		i < pairings->many.count; i++) {
		/* Several combinations of one pairing name it once. */
		if (i > 0 && value_item(pairings, i)->reference.record ==
			value_item(pairings, i - 1)->reference.record)
			continue;
		g_string_append(page->out, i == 0 ? " <small>" : ", ");
		pair_short(page, value_item(pairings, i)->reference.record,
			i == 0 ? NULL : value_item(pairings, i - 1)->
			reference.record);
	}
	g_string_append(page->out, value_count(pairings) > 1 ?
		"</small></th><td>" : "</th><td>");
	if (match != NULL)
		show_value(page, match);
	g_string_append(page->out, "</td>");
	show_count(page, total_of(census, counts));
	for (i = 0; i < value_count(census->steps); i++)
		show_count(page, count_of(census, counts,
			value_item(census->steps, i)->text));
	g_string_append(page->out, "</tr>\n");
}

/* What the words in the column "fit" mean. */
static void
explain_fit(struct page *page)
{
	const struct vocabulary *words = model_field(page->site->model,
		NAME(CENSUS_CATEGORY_MATCH))->vocabulary;
	unsigned i;

	g_string_append(page->out, "<p class=\"note\">How a category fits the "
		"pairings of this guide: ");
	for (i = 0; i < words->count; i++)
		html_put(page->out, "<b>%s</b>: %s ", words->words[i].title,
			words->words[i].says == NULL ? "" :
			words->words[i].says);
	g_string_append(page->out, "</p>\n");
}

void
census_body(struct page *page)
{
	const struct model *model = page->site->model;
	const struct record *service = model_record(model,
		page->record->values, NAME(CENSUS_SERVICE));
	const struct record *scale = service == NULL ? NULL :
		model_record(model, service->values, NAME(SERVICE_SCALE));
	struct census census = {page, scale == NULL ? NULL :
		model_get(model, scale->values, NAME(SCALE_STEPS))};
	const struct value *list = model_get(model, page->record->values,
		NAME(CENSUS_CATEGORIES));
	unsigned i;

	page_tell(page, NAME(CENSUS_CATEGORIES));
	if (value_count(list) == 0)
		return;
	g_string_append(page->out, "<section class=\"wide\">\n");
	page_heading(page, "categories", "The lines of the report");
	g_string_append(page->out, "<p class=\"note\">These numbers count "
		"only what was submitted to this service, and certificates, "
		"not pieces: a piece that was graded twice may count twice. "
		"They do not say how many there are.</p>\n");
	explain_fit(page);
	table_begin(page, "The lines of the report", "rows census");
	g_string_append(page->out, "<thead><tr><th scope=\"col\">category as "
		"printed</th><th scope=\"col\">fit</th><th scope=\"col\">all"
		"</th>");
	for (i = 0; i < value_count(census.steps); i++)
		html_put(page->out, "<th scope=\"col\">%s</th>",
			value_item(census.steps, i)->text);
	g_string_append(page->out, "</tr></thead>\n<tbody>\n");
	for (i = 0; i < list->many.count; i++)
		show_category(&census, value_item(list, i)->group);
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
