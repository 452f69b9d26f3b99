/*
 * A record's page, from top to bottom: its kind, its name, what its view says
 * at once, the first facts; prose; the view's sections; the other facts and
 * sections; what points here; its permanent address.
 */
#include "write/site/record.h"

#include <string.h>

#include "write/site/keys.h"
#include "write/site/points.h"
#include "write/site/show.h"

static const struct view views[] = {
	{"character", character_lead, character_body, false},
	{"cardback", cardback_lead, cardback_body, false},
	{"pairing", pairing_lead, pairing_body, false},
	{"anomaly", anomaly_lead, anomaly_body, false},
	{"market", NULL, market_body, true},
	{"run", NULL, run_body, false},
	{"specimen", specimen_lead, NULL, false},
	{"census", NULL, census_body, false},
	{"scheme", NULL, scheme_body, false},
	{"feature", NULL, feature_body, false},
	{"sheet", sheet_lead, sheet_body, false},
};

static const struct view *
find_view(const struct record *record)
{
	size_t i;

	for (i = 0; i < G_N_ELEMENTS(views); i++)
		if (strcmp(views[i].kind, record->kind->name) == 0)
			return &views[i];
	return NULL;
}

static void
show_retired(struct page *page)
{
	const struct record *record = page->record;
	const struct field *field = fields_find(&record->kind->fields,
		"retired");
	const struct value *value = field == NULL ? NULL :
		record->values[field->index];
	unsigned i;

	if (value == NULL || field->type != TYPE_GROUP)
		return;
	page->told[field->index] = true;
	g_string_append(page->out, "<div class=\"retired\"><p><b>Withdrawn."
		"</b> ");
	for (i = 0; i < field->fields.count; i++) {
		if (value->group[i] == NULL)
			continue;
		if (field->fields.items[i].type == TYPE_REFERENCE)
			g_string_append(page->out, " Read instead: ");
		show_value(page, value->group[i]);
	}
	g_string_append(page->out, "</p></div>\n");
}

static void
show_head(struct page *page, const struct view *view)
{
	const struct record *record = page->record;
	char *path = list_path(record->kind, 1);

	html_put(page->out, "<header class=\"card\">\n<p class=\"kind\">"
		"<a href=\"%s%s\">%s</a></p>\n<h1", page->up, path,
		record->kind->title);
	g_free(path);
	name_language(page, record);
	html_put(page->out, ">%s</h1>\n", record->name);
	show_retired(page);
	if (view != NULL && view->lead != NULL)
		view->lead(page);
	show_facts(page, record, SHOW_FIRST);
	g_string_append(page->out, "</header>\n");
}

static void
show_address(struct page *page)
{
	const struct record *record = page->record;

	html_put(page->out, "<p class=\"address\">Permanent address of this "
		"record: <code>%s/%s</code></p>\n", record->kind->name,
		record->id);
}

/* The facts that do not come first; nothing where there are none. */
static void
show_details(struct page *page)
{
	gsize before = page->out->len, after;

	g_string_append(page->out, "<section class=\"details\">\n");
	page_heading(page, "details", "Details");
	after = page->out->len;
	show_facts(page, page->record, SHOW_YES);
	if (page->out->len == after)
		g_string_truncate(page->out, before);
	else
		g_string_append(page->out, "</section>\n");
}

static void
show_body(struct page *page, const struct view *view)
{
	if (view == NULL || !view->body_first)
		show_sections(page, page->record, SECTIONS_PROSE);
	keys_section(page);
	buyer_section(page);
	if (view != NULL && view->body != NULL)
		view->body(page);
	if (view != NULL && view->body_first)
		show_sections(page, page->record, SECTIONS_PROSE);
	show_sections(page, page->record, SECTIONS_OTHER);
	show_details(page);
	questions_section(page);
}

bool
record_write(const struct site *site, const struct record *record,
	GError **error)
{
	struct page page = {.error = error, .record = record};
	const struct view *view = find_view(record);
	char *path = g_strdup_printf("%s/%s.html", record->kind->name,
		record->id);
	struct points *points;
	bool done;

	page_begin(&page, site, path, record->name,
		chapter_ink(record->kind->chapter));
	page.told = g_new0(bool, record->kind->fields.count);
	html_put(page.out, "<article class=\"of-%s\">\n", record->kind->name);
	show_head(&page, view);
	show_body(&page, view);
	points = points_gather(&page);
	points_show(points, &page);
	show_address(&page);
	g_string_append(page.out, "</article>\n");
	done = page_end(&page) && points_continue(points, error);
	points_free(points);
	g_free(path);
	return done;
}

void
record_fold(const struct site *site, const struct record *record, GString *out)
{
	struct page page = {.site = site, .out = out, .up = "../",
		.record = record};
	const struct view *view = find_view(record);

	page.told = g_new0(bool, record->kind->fields.count);
	html_put(page.out, "<article class=\"of-%s\">\n", record->kind->name);
	show_head(&page, view);
	show_body(&page, view);
	show_address(&page);
	g_string_append(page.out, "</article>\n");
	g_free(page.told);
	if (page.told_pointers != NULL)
		g_ptr_array_free(page.told_pointers, TRUE);
}
