/*
 * Tables of card backs: first the label that this guide uses, then what to
 * look at, then the rest.
 */
#include "write/site/cardbacks.h"

#include <inttypes.h>
#include <string.h>

#include "write/site/parts.h"
#include "write/site/show.h"

enum { MOST_TOGETHER = 120 };

/* The labels of other schemes, with whose they are. */
static void
show_other_labels(struct page *page, const struct record *cardback)
{
	const struct model *model = page->site->model;
	const struct value *labels = model_get(model, cardback->values,
		NAME(CARDBACK_LABELS));
	unsigned i;

	for (i = 1; i < value_count(labels); i++) {
		struct value *const *group = value_item(labels, i)->group;
		const struct record *scheme = model_record(model, group,
			NAME(CARDBACK_LABELS_SCHEME));
		const char *label = model_text(model, group,
			NAME(CARDBACK_LABELS_LABEL));

		html_put(page->out, "%s%s", i == 1 ? "" : ", ",
			label == NULL ? "" : label);
		if (scheme != NULL)
			html_put(page->out, " <small>%s</small>",
				scheme->name);
	}
}

static void
show_named(struct page *page, const struct record *cardback,
	enum field_name name)
{
	const struct value *value = model_get(page->site->model,
		cardback->values, name);

	g_string_append(page->out, "<td>");
	if (value != NULL)
		show_value(page, value);
	g_string_append(page->out, "</td>");
}

static void
show_row(struct page *page, const struct record *cardback)
{
	const struct value *concluded = model_get(page->site->model,
		cardback->values, NAME(CARDBACK_CONCLUDED));

	g_string_append(page->out, cardback == page->record ?
		"<tr class=\"this\"><th scope=\"row\">" :
		"<tr><th scope=\"row\">");
	page_link_words(page, cardback, NULL,
		cardback_label(page->site, cardback));
	if (concluded != NULL && concluded->word->index > 0)
		html_put(page->out, " <small>%s</small>",
			concluded->word->title);
	g_string_append(page->out, "</th>");
	show_named(page, cardback, NAME(CARDBACK_PRINTING));
	show_named(page, cardback, NAME(CARDBACK_OFFER));
	show_named(page, cardback, NAME(CARDBACK_FROM));
	show_named(page, cardback, NAME(CARDBACK_TO));
	g_string_append(page->out, "<td>");
	show_other_labels(page, cardback);
	g_string_append(page->out, "</td></tr>\n");
}

void
cardbacks_table(struct page *page, struct record_list list)
{
	unsigned i;

	table_begin(page, "Card backs", "rows backs");
	g_string_append(page->out, "<thead><tr><th scope=\"col\">label</th>"
		"<th scope=\"col\">what to look at</th>"
		"<th scope=\"col\">offer printed</th>"
		"<th scope=\"col\">from</th><th scope=\"col\">to</th>"
		"<th scope=\"col\">others call it</th></tr></thead>\n"
		"<tbody>\n");
	for (i = 0; i < list.count; i++)
		show_row(page, list.items[i]);
	table_end(page);
}

static void
show_market(struct page *page, const struct record *market)
{
	const struct model *model = page->site->model;
	struct record_list list = page->site->cardbacks[market->index], part;
	int64_t number;
	unsigned i, next;

	if (list.count == 0)
		return;
	html_put(page->out, "<section>\n<h2 id=\"_%s\">", market->id);
	page_link(page, market);
	g_string_append(page->out, "</h2>\n");
	for (i = 0; i < list.count; i = next) {
		number = model_whole(model, list.items[i]->values,
			NAME(CARDBACK_NUMBER), 0);
		for (next = i + 1; next < list.count; next++)
			if (model_whole(model, list.items[next]->values,
				NAME(CARDBACK_NUMBER), 0) != number)
				break;
		html_put(page->out, "<h3 id=\"_%s-", market->id);
		g_string_append_printf(page->out, "%" PRId64 "\">%" PRId64
			" figures pictured</h3>\n", number, number);
		part.items = list.items + i;
		part.count = next - i;
		cardbacks_table(page, part);
	}
	g_string_append(page->out, "</section>\n");
}

static const struct kind *
cardback_kind(const struct site *site)
{
	return model_field(site->model, NAME(CARDBACK_MARKET))->kind;
}

/* So many that each market has a page of its own. */
static bool
are_many(const struct site *site)
{
	return model_records(site->model, cardback_kind(site)).count >
		MOST_TOGETHER;
}

char *
cardbacks_path(const struct site *site, const struct record *market)
{
	char *first = list_path(cardback_kind(site), 1);
	char *stem, *path;

	if (!are_many(site))
		return first;
	stem = g_strndup(first, strlen(first) - strlen(".html"));
	path = g_strdup_printf("%s.%s.html", stem, market->id);
	g_free(stem);
	g_free(first);
	return path;
}

static bool
write_market(const struct site *site, const struct record *market,
	GError **error)
{
	const struct kind *kind = cardback_kind(site);
	struct page page = {.error = error};
	char *path = cardbacks_path(site, market);

	page_begin(&page, site, path, kind->titles,
		chapter_ink(kind->chapter));
	g_free(path);
	list_head(&page, kind, site->cardbacks[market->index].count);
	show_market(&page, market);
	return page_end(&page);
}

bool
cardbacks_write(const struct site *site, const struct kind *kind,
	GError **error)
{
	struct record_list markets = model_records_of(site->model, "market");
	struct page page = {.error = error};
	char *path = list_path(kind, 1);
	bool done = true;
	unsigned i;

	page_begin(&page, site, path, kind->titles,
		chapter_ink(kind->chapter));
	g_free(path);
	list_head(&page, kind, model_records(site->model, kind).count);
	for (i = 0; i < markets.count; i++) {
		if (!are_many(site)) {
			show_market(&page, markets.items[i]);
			continue;
		}
		path = cardbacks_path(site, markets.items[i]);
		html_put(page.out, "<p><a href=\"%s\">%s</a></p>\n", path,
			markets.items[i]->name);
		g_free(path);
		done = done && write_market(site, markets.items[i], error);
	}
	if (!done)
		page.error = NULL;
	return page_end(&page) && done;
}
