/*
 * Numbers of pieces: what somebody published, never without what it counts,
 * from whom and when; and what this guide has seen.
 */
#include "write/site/estimates.h"

#include <inttypes.h>

#include "write/site/show.h"

enum { MOST_PIECES = 150 };

static void
show_number(struct page *page, const struct estimate_names *names,
	struct value *const *group)
{
	const struct model *model = page->site->model;
	int64_t number = model_whole(model, group, names->number, -1);
	int64_t low = model_whole(model, group, names->low, -1);
	int64_t high = model_whole(model, group, names->high, -1);

	g_string_append(page->out, "<b>");
	if (number >= 0)
		g_string_append_printf(page->out, "%" PRId64, number);
	if (number >= 0 && (low >= 0 || high >= 0))
		g_string_append(page->out, "</b> <b>");
	if (low >= 0 && high >= 0)
		g_string_append_printf(page->out, "%" PRId64 "\u2013%" PRId64,
			low, high);
	else if (low >= 0)
		g_string_append_printf(page->out, "%" PRId64 " or more", low);
	else if (high >= 0)
		g_string_append_printf(page->out, "%" PRId64 " at most", high);
	g_string_append(page->out, "</b>");
}

static void
show_named(struct page *page, struct value *const *group,
	enum field_name name)
{
	const struct value *value = model_get(page->site->model, group, name);

	g_string_append(page->out, "<td>");
	if (value != NULL)
		show_value(page, value);
	g_string_append(page->out, "</td>");
}

void
estimates_show(struct page *page, const struct estimate_names *names)
{
	const struct model *model = page->site->model;
	const struct value *list = model_get(model, page->record->values,
		names->list);
	unsigned i;

	page_tell(page, names->list);
	if (value_count(list) == 0)
		return;
	g_string_append(page->out, "<section>\n");
	page_heading(page, "estimates", "Quoted estimates");
	g_string_append(page->out, "<p class=\"note\">Numbers as others "
		"published them. None is an appraisal.</p>\n");
	table_begin(page, "Quoted estimates", "rows estimates");
	g_string_append(page->out, "<thead><tr><th scope=\"col\">how many"
		"</th><th scope=\"col\">of what</th><th scope=\"col\">in what "
		"form</th>");
	if (names->with_pairing)
		g_string_append(page->out, "<th scope=\"col\">on what</th>");
	g_string_append(page->out, "<th scope=\"col\">when</th>"
		"<th scope=\"col\">by whom</th><th scope=\"col\">how</th>"
		"</tr></thead>\n<tbody>\n");
	for (i = 0; i < list->many.count; i++) {
		struct value *const *group = value_item(list, i)->group;

		g_string_append(page->out, "<tr><td class=\"number\">");
		show_number(page, names, group);
		g_string_append(page->out, "</td>");
		show_named(page, group, names->of);
		show_named(page, group, names->form);
		if (names->with_pairing)
			show_named(page, group, names->pairing);
		show_named(page, group, names->date);
		show_named(page, group, names->source);
		show_named(page, group, names->method);
		g_string_append(page->out, "</tr>\n");
	}
	table_end(page);
	g_string_append(page->out, "</section>\n");
}

void
seen_words(struct page *page, struct seen_count count)
{
	if (count.specimens == 0) {
		g_string_append(page->out, "No piece has been told apart yet");
	} else {
		html_put(page->out, "<b>%u</b> piece%s told apart in %u "
			"sighting%s on <b>%u</b> list%s", count.specimens,
			count.specimens == 1 ? "" : "s", count.sightings,
			count.sightings == 1 ? "" : "s", count.lists,
			count.lists == 1 ? "" : "s");
		if (count.last != NULL) {
			g_string_append(page->out, ", last seen ");
			show_date(page, count.last);
		}
	}
	if (count.possible > 0)
		html_put(page->out, "; <b>%u</b> more may belong here",
			count.possible);
	g_string_append(page->out, ".");
}

static void
show_piece(struct page *page, const struct seen_specimen *entry)
{
	const struct model *model = page->site->model;
	struct record_list sightings = seen_sightings(page->site->seen,
		entry->specimen);
	const struct value *form = model_get(model, entry->specimen->values,
		NAME(SPECIMEN_FORM));
	const struct date *date;

	g_string_append(page->out, "<tr><th scope=\"row\">");
	page_link(page, entry->specimen);
	if (entry->doubted)
		g_string_append(page->out, " <small>doubted: counted nowhere"
			"</small>");
	if (!entry->certain)
		g_string_append(page->out, " <small>perhaps</small>");
	g_string_append(page->out, "</th><td>");
	if (form != NULL)
		show_value(page, form);
	html_put(page->out, "</td><td class=\"number\">%u</td><td>",
		sightings.count);
	date = sightings.count == 0 ? NULL : model_date(model,
		sightings.items[0]->values, NAME(SIGHTING_DATE));
	if (date != NULL)
		show_date(page, date);
	g_string_append(page->out, "</td><td>");
	date = sightings.count == 0 ? NULL : model_date(model,
		sightings.items[sightings.count - 1]->values,
		NAME(SIGHTING_DATE));
	if (date != NULL)
		show_date(page, date);
	g_string_append(page->out, "</td></tr>\n");
}

void
seen_table(struct page *page, struct seen_list list, const char *heading)
{
	unsigned i;

	if (list.count == 0)
		return;
	table_begin(page, heading, "rows pieces");
	g_string_append(page->out, "<thead><tr><th scope=\"col\">piece</th>"
		"<th scope=\"col\">form</th><th scope=\"col\">times seen</th>"
		"<th scope=\"col\">first</th><th scope=\"col\">last</th></tr>"
		"</thead>\n<tbody>\n");
	for (i = 0; i < list.count && i < MOST_PIECES; i++)
		show_piece(page, &list.items[i]);
	table_end(page);
	if (list.count > MOST_PIECES)
		html_put(page->out, "<p class=\"more\">%u more are in the "
			"database.</p>\n", list.count - MOST_PIECES);
}

void
seen_loose_ends(struct page *page, enum field_name name, const char *heading)
{
	const struct model *model = page->site->model;
	const struct field *field = model_field(model, name);
	struct pointer_list list = model_pointing(model, page->record);
	GArray *found = g_array_new(FALSE, FALSE,
		sizeof(struct seen_specimen));
	size_t i;

	for (i = 0; i < list.count; i++) {
		const struct record *from = list.items[i].from;
		struct seen_specimen entry = {.specimen = from,
			.certain = list.items[i].certain};

		/* Only behind this field is it a specimen. */
		if (list.items[i].field != field ||
			seen_pairing(page->site->seen, from) != NULL ||
			from->values[field->index]->identity.kind ==
			IDENTITY_NOT)
			continue;
		entry.doubted = model_get(model, from->values,
			NAME(SPECIMEN_DOUBTED)) != NULL;
		g_array_append_val(found, entry);
	}
	if (found->len > 0) {
		g_string_append(page->out, "<section>\n");
		page_heading(page, "loose", heading);
		seen_table(page, (struct seen_list){(struct seen_specimen *)
			(void *)found->data, found->len}, heading);
		g_string_append(page->out, "</section>\n");
	}
	g_array_free(found, TRUE);
}
