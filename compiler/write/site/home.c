/*
 * The first page: what are you holding? Doors by card back and by character,
 * the line at a glance, what to avoid, what to read.
 */
#include <inttypes.h>

#include "study/slots.h"
#include "write/site/cardbacks.h"
#include "write/site/keys.h"
#include "write/site/matrix.h"
#include "write/site/parts.h"
#include "write/site/show.h"

enum { MOST_CHARACTERS = 200 };

/* Records of a kind, but for card backs and pairings that never were. */
static unsigned
count_issued(const struct model *model, const struct kind *kind)
{
	struct record_list list = model_records(model, kind);
	static const enum field_name names[] = {NAME(CARDBACK_CONCLUDED),
		NAME(PAIRING_CONCLUDED)};
	unsigned i, count = list.count;
	size_t j;

	for (j = 0; j < G_N_ELEMENTS(names); j++)
		for (i = 0; model_field(model, names[j])->kind == kind &&
			i < list.count; i++)
			count -= !study_may_exist(model_word(model,
				list.items[i]->values, names[j]));
	return count;
}

static void
show_hero(struct page *page)
{
	static const char *const counted[] = {
		"character", "cardback", "market", "pairing", "specimen",
	};
	const struct model *model = page->site->model;
	const char *between = "";
	size_t i;

	html_put(page->out, "<header class=\"hero\">\n<p class=\"kind\">%s</p>"
		"\n<h1>%s</h1>\n<p class=\"lede\">",
		page->site->edition == NULL ? "A guide" :
		page->site->edition->name, model_title(model));
	for (i = 0; i < G_N_ELEMENTS(counted); i++) {
		const struct kind *kind = schema_kind(model_schema(model),
			counted[i]);
		unsigned count = kind == NULL ? 0 :
			count_issued(model, kind);

		if (count == 0)
			continue;
		html_put(page->out, "%s<b>%u</b> %s", between, count,
			count == 1 ? kind->title : kind->titles);
		between = "\u00a0\u00b7 ";
	}
	g_string_append(page->out, "</p>\n</header>\n");
}

/* The numbers of figures pictured in a market, each leading to its backs. */
static void
show_numbers(struct page *page, const struct record *market)
{
	const struct model *model = page->site->model;
	struct record_list backs = page->site->cardbacks[market->index];
	int64_t before = INT64_MIN, number;
	unsigned i;
	char *path;

	if (backs.count == 0)
		return;
	g_string_append(page->out, "<tr><th scope=\"row\">");
	page_link(page, market);
	g_string_append(page->out, "</th><td class=\"chips\">");
	path = cardbacks_path(page->site, market);
	for (i = 0; i < backs.count; i++) {
		number = model_whole(model, backs.items[i]->values,
			NAME(CARDBACK_NUMBER), 0);
		if (number == before || number == 0)
			continue;
		before = number;
		html_put(page->out, "<a href=\"%s%s#_%s-", page->up, path,
			market->id);
		g_string_append_printf(page->out, "%" PRId64 "\">%" PRId64
			"</a> ", number, number);
	}
	g_free(path);
	g_string_append(page->out, "</td></tr>\n");
}

static void
show_card_door(struct page *page)
{
	struct record_list markets = model_records_of(page->site->model,
		"market");
	unsigned i;

	g_string_append(page->out, "<section class=\"door\">\n<h3>A card, and "
		"you can see its back</h3>\n<p>Count the figures pictured. "
		"Then pick the market by the languages on the card.</p>\n"
		"<table class=\"doors\"><tbody>\n");
	for (i = 0; i < markets.count; i++)
		show_numbers(page, markets.items[i]);
	g_string_append(page->out, "</tbody></table>\n</section>\n");
}

static void
show_character_door(struct page *page)
{
	struct record_list list = model_records_of(page->site->model,
		"character");
	unsigned i;

	g_string_append(page->out, "<section class=\"door\">\n<h3>A figure, or "
		"a card from the front</h3>\n<p>Pick the character. Another "
		"language, a short form or a label? It is among the "
		"<a href=\"names.html\">names A\u2013Z</a>.</p>\n"
		"<ul class=\"names\">\n");
	for (i = 0; i < list.count && i < MOST_CHARACTERS; i++) {
		g_string_append(page->out, "<li>");
		page_link(page, list.items[i]);
		g_string_append(page->out, "</li>\n");
	}
	g_string_append(page->out, "</ul>\n</section>\n");
}

/* Links to all records of a kind, after what they are for. */
static void
show_kind(struct page *page, const char *kind, const char *words)
{
	struct record_list list = model_records_of(page->site->model, kind);
	unsigned i;

	if (list.count == 0)
		return;
	html_put(page->out, "<p>%s</p>\n<ul class=\"names\">\n", words);
	for (i = 0; i < list.count && i < MOST_CHARACTERS; i++) {
		g_string_append(page->out, "<li>");
		page_link(page, list.items[i]);
		g_string_append(page->out, "</li>\n");
	}
	g_string_append(page->out, "</ul>\n");
}

static void
show_other_doors(struct page *page)
{
	g_string_append(page->out, "<section class=\"door\">\n<h3>In a bag, "
		"a box or a case</h3>\n");
	show_kind(page, "package", "Leave it closed. Sent by mail or sold in "
		"a box:");
	show_kind(page, "service", "Sealed in hard plastic with a grade on "
		"its label? That case is a grading service\u2019s:");
	g_string_append(page->out, "</section>\n<section class=\"door\">\n"
		"<h3>A parcel that has just come</h3>\n");
	show_kind(page, "sheet", "A sheet to print and tick, for each form:");
	g_string_append(page->out, "<p>New to all this? ");
	if (model_records_of(page->site->model, "essay").count > 0)
		g_string_append(page->out, "Begin with <a href=\"#_read\">"
			"what there is to read</a>. ");
	g_string_append(page->out, "Words of the trade are in the "
		"<a href=\"glossary.html\">glossary</a>. Old "
		"toys are not for children: see the <a href=\"cautions.html\">"
		"cautions</a>.</p>\n</section>\n");
}

static void
show_line(struct page *page)
{
	struct record_list markets = model_records_of(page->site->model,
		"market");
	unsigned i;

	if (markets.count == 0)
		return;
	g_string_append(page->out, "<section>\n");
	page_heading(page, "line", "The whole line");
	g_string_append(page->out, "<p>A row for each character in the order "
		"of their release, a column for each card back. Pick a market "
		"to read it.</p>\n<div class=\"thumbs\">\n");
	for (i = 0; i < markets.count; i++)
		matrix_thumb(page, markets.items[i]);
	g_string_append(page->out, "</div>\n</section>\n");
}

static void
show_anomalies(struct page *page)
{
	const struct model *model = page->site->model;
	struct record_list list = model_records_of(model, "anomaly");
	const struct value *value;
	unsigned i;

	if (list.count == 0)
		return;
	g_string_append(page->out, "<section>\n");
	page_heading(page, "avoid", "Before you buy");
	g_string_append(page->out, "<dl class=\"avoid\">\n");
	for (i = 0; i < list.count; i++) {
		g_string_append(page->out, "<div><dt>");
		page_link(page, list.items[i]);
		value = model_get(model, list.items[i]->values,
			NAME(ANOMALY_STANDING));
		if (value != NULL)
			html_put(page->out, " <small>%s</small>",
				value->word->title);
		g_string_append(page->out, "</dt><dd>");
		value = model_get(model, list.items[i]->values,
			NAME(ANOMALY_TELLS));
		if (value_count(value) > 0)
			show_value(page, value_item(value, 0));
		g_string_append(page->out, "</dd></div>\n");
	}
	g_string_append(page->out, "</dl>\n</section>\n");
}

static void
show_reading(struct page *page)
{
	struct record_list list = model_records_of(page->site->model, "essay");
	unsigned i;

	if (list.count == 0)
		return;
	g_string_append(page->out, "<section>\n");
	page_heading(page, "read", "To read");
	g_string_append(page->out, "<ul class=\"essays\">\n");
	for (i = 0; i < list.count; i++) {
		g_string_append(page->out, "<li>");
		page_link(page, list.items[i]);
		g_string_append(page->out, "</li>\n");
	}
	g_string_append(page->out, "</ul>\n</section>\n");
}

/* What else the guide consists of, by the table of writers. */
static void
show_others(struct page *page)
{
	static const struct {
		const char *name, *path, *words;
	} others[] = {
		{"handbook", "handbook.pdf", "The handbook, to print"},
		{"database", "guide.db", "The database, for questions of your "
			"own"},
		{"tables", "tables/datapackage.json", "Tables for a "
			"spreadsheet"},
	};
	const struct writer *writer;
	size_t i;

	g_string_append(page->out, "<section>\n");
	page_heading(page, "more", "And also");
	g_string_append(page->out, "<ul class=\"essays\">\n");
	for (writer = writers; writer->name != NULL; writer++)
		for (i = 0; i < G_N_ELEMENTS(others); i++)
			if (g_str_equal(writer->name, others[i].name))
				html_put(page->out, "<li><a href=\"%s\">%s</a>"
					"</li>\n", others[i].path,
					others[i].words);
	g_string_append(page->out, "<li><a href=\"queries.html\">Sample "
		"questions to the database</a></li>\n"
		"<li><a href=\"everything.html\">Every kind of record</a></li>"
		"\n<li><a href=\"words.html\">What fields and words mean</a>"
		"</li>\n<li><a href=\"cautions.html\">Cautions</a></li>\n"
		"<li><a href=\"about.html\">About this guide</a></li>\n"
		"</ul>\n</section>\n");
}

bool
home_write(const struct site *site, GError **error)
{
	struct page page = {.error = error};

	page_begin(&page, site, "index.html", "What are you holding?",
		"home");
	show_hero(&page);
	g_string_append(page.out, "<section class=\"card\">\n");
	page_heading(&page, "holding", "What are you holding?");
	if (model_records_of(site->model, "feature").count > 0)
		g_string_append(page.out, "<p><a href=\"narrow.html\">Say what "
			"you see</a>, in any order, and be told what it can be "
			"and what to look at next.</p>\n");
	g_string_append(page.out, "<div class=\"two\">\n");
	show_card_door(&page);
	show_character_door(&page);
	keys_door(&page);
	show_other_doors(&page);
	g_string_append(page.out, "</div>\n</section>\n");
	show_line(&page);
	g_string_append(page.out, "<div class=\"two\">\n");
	show_anomalies(&page);
	g_string_append(page.out, "<div>\n");
	show_reading(&page);
	show_others(&page);
	g_string_append(page.out, "</div>\n</div>\n");
	return page_end(&page);
}
