/*
 * The views of a pairing and of an anomaly: what is concluded, what was seen,
 * what others estimate.
 */
#include "write/site/computed.h"
#include "write/site/estimates.h"
#include "write/site/pairs.h"
#include "write/site/ranks.h"
#include "write/site/record.h"
#include "write/site/rows.h"
#include "write/site/show.h"

static const struct estimate_names of_pairing = {
	.list = NAME(PAIRING_ESTIMATES),
	.of = NAME(PAIRING_ESTIMATE_OF),
	.form = NAME(PAIRING_ESTIMATE_FORM),
	.number = NAME(PAIRING_ESTIMATE_NUMBER),
	.low = NAME(PAIRING_ESTIMATE_LOW),
	.high = NAME(PAIRING_ESTIMATE_HIGH),
	.date = NAME(PAIRING_ESTIMATE_DATE),
	.source = NAME(PAIRING_ESTIMATE_SOURCE),
	.method = NAME(PAIRING_ESTIMATE_METHOD),
};

static const struct estimate_names of_anomaly = {
	.list = NAME(ANOMALY_ESTIMATES),
	.of = NAME(ANOMALY_ESTIMATE_OF),
	.form = NAME(ANOMALY_ESTIMATE_FORM),
	.number = NAME(ANOMALY_ESTIMATE_NUMBER),
	.low = NAME(ANOMALY_ESTIMATE_LOW),
	.high = NAME(ANOMALY_ESTIMATE_HIGH),
	.date = NAME(ANOMALY_ESTIMATE_DATE),
	.source = NAME(ANOMALY_ESTIMATE_SOURCE),
	.method = NAME(ANOMALY_ESTIMATE_METHOD),
	.pairing = NAME(ANOMALY_ESTIMATE_PAIRING),
	.with_pairing = true,
};

/* A word of a vocabulary as a stamp; its place tells its colour. */
static void
show_stamp(struct page *page, enum field_name name, const char *class)
{
	const struct value *value = model_get(page->site->model,
		page->record->values, name);

	if (value != NULL)
		html_put(page->out, "<p class=\"stamp %s%u\">%s</p>\n", class,
			MIN(value->word->index, 9u), value->word->title);
}

static const char *
name_short(const struct site *site, const struct record *pairing)
{
	const struct record *cardback = model_record(site->model,
		pairing->values, NAME(PAIRING_CARDBACK));

	return cardback == NULL ? pairing->name :
		cardback_label(site, cardback);
}

void
pairing_lead(struct page *page)
{
	const struct glance *glance = &page->site->glances[
		page->record->index];

	show_stamp(page, NAME(PAIRING_CONCLUDED), "s");
	g_string_append(page->out, "<p class=\"answer\">");
	seen_words(page, glance->seen);
	if (glance->anomalous)
		g_string_append(page->out, " <a class=\"warn\" href=\"#_"
			"combinations\">An anomaly is known here.</a>");
	g_string_append(page->out, "</p>\n");
	page_neighbours(page, glance->before, glance->after, name_short);
}

void
pairing_body(struct page *page)
{
	const struct value *combinations = model_get(page->site->model,
		page->record->values, NAME(PAIRING_COMBINATIONS));
	struct seen_list list = seen_of_pairing(page->site->seen,
		page->record);

	page_tell(page, NAME(PAIRING_COMBINATIONS));
	if (combinations != NULL)
		show_section(page, combinations);
	else
		g_string_append(page->out, "<p id=\"_combinations\" class="
			"\"note\">No combination is written down yet.</p>\n");
	computed_show(page, (struct subject){SUBJECT_PAIRING, page->record,
		NULL, NULL});
	estimates_show(page, &of_pairing);
	ranks_section(page);
	if (list.count == 0)
		return;
	g_string_append(page->out, "<section>\n");
	page_heading(page, "seen", "Pieces seen");
	seen_table(page, list, "Pieces seen");
	g_string_append(page->out, "</section>\n");
}

void
anomaly_lead(struct page *page)
{
	struct seen_list list = seen_of_anomaly(page->site->seen,
		page->record);

	show_stamp(page, NAME(ANOMALY_STANDING), "w");
	g_string_append(page->out, "<p class=\"answer\">");
	seen_words(page, seen_count(page->site->seen, list, NULL, NULL));
	g_string_append(page->out, "</p>\n");
}

/* Pairings that it is known on, by the anomaly's list or a combination. */
static struct record_list
find_pairings(struct page *page, struct arena *arena)
{
	const struct value *own = model_get(page->site->model,
		page->record->values, NAME(ANOMALY_PAIRINGS));
	struct record_list pointing = rows_pointing(page, page->record,
		NAME(COMBINATION_ANOMALY), arena);
	unsigned count = model_records_of(page->site->model, "pairing").count;
	bool *known = arena_array(arena, bool, count);
	struct record_list list = {arena_array(arena, const struct record *,
		value_count(own) + pointing.count), 0};
	const struct record *pairing;
	unsigned i;

	for (i = 0; i < value_count(own) + pointing.count; i++) {
		pairing = i < value_count(own) ? value_item(own, i)->
			reference.record : pointing.items[i -
				value_count(own)];
		if (!known[pairing->index])
			list.items[list.count++] = pairing;
		known[pairing->index] = true;
	}
	return list;
}

static void
show_known(struct page *page)
{
	struct arena *arena = arena_new();
	struct record_list list = find_pairings(page, arena);
	struct seen_list seen = seen_of_anomaly(page->site->seen,
		page->record);
	struct pair *pairs = arena_array(arena, struct pair, list.count);
	unsigned i;

	for (i = 0; i < list.count; i++)
		pairs[i].pairing = list.items[i];
	pairs_sort(page->site, pairs, list.count);
	if (list.count > 0) {
		g_string_append(page->out, "<section>\n");
		page_heading(page, "pairings", "On which it is known");
		table_begin(page, "On which it is known", "rows");
		g_string_append(page->out, "<thead><tr><th scope=\"col\">"
			"pairing</th><th scope=\"col\">seen</th></tr></thead>"
			"\n<tbody>\n");
	}
	for (i = 0; i < list.count; i++) {
		g_string_append(page->out, "<tr><th scope=\"row\">");
		page_link(page, pairs[i].pairing);
		g_string_append(page->out, "</th><td>");
		seen_words(page, seen_count(page->site->seen, seen,
			pairs[i].pairing, NULL));
		g_string_append(page->out, "</td></tr>\n");
	}
	if (list.count > 0) {
		table_end(page);
		g_string_append(page->out, "</section>\n");
	}
	arena_free(arena);
}

void
anomaly_body(struct page *page)
{
	struct seen_list list = seen_of_anomaly(page->site->seen,
		page->record);

	page_tell(page, NAME(ANOMALY_PAIRINGS));
	page_tell_pointer(page, NAME(COMBINATION_ANOMALY));
	page_tell_pointer(page, NAME(SPECIMEN_ANOMALY));
	show_known(page);
	computed_show(page, (struct subject){SUBJECT_ANOMALY, page->record,
		NULL, NULL});
	estimates_show(page, &of_anomaly);
	if (list.count == 0)
		return;
	g_string_append(page->out, "<section>\n");
	page_heading(page, "seen", "Pieces seen");
	seen_table(page, list, "Pieces seen");
	g_string_append(page->out, "</section>\n");
}
