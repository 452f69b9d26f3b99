/*
 * The list of characters. Each has a strip for every market: one mark for each
 * card back of it, as deep as pieces were seen. It is the character's row of
 * the market's matrix, in small.
 */
#include "write/site/characters.h"

#include <string.h>

#include "write/site/pairs.h"
#include "write/site/parts.h"
#include "write/site/rows.h"
#include "write/site/show.h"

enum { ROWS_ON_PAGE = 80, MOST_STRIPS = 8, INKS = 6, MARK = 5 };

/* Adds one card back's mark to the paths of a strip. */
static void
add_mark(struct page *page, GString *paths[INKS], const struct record *pairing,
	unsigned place)
{
	const struct glance *glance = &page->site->glances[pairing->index];

	g_string_append_printf(paths[tile_depth(glance->seen.specimens)],
		"M%u .5h.8", place);
	if (glance->anomalous)
		g_string_append_printf(paths[INKS - 1], "M%u.2 .5h.4", place);
}

static void
show_paths(struct page *page, GString *paths[INKS], unsigned width)
{
	unsigned i;

	html_put(page->out, "<svg class=\"strip\" viewBox=\"0 0 %u 1\" "
		"width=\"%u\" height=\"18\" preserveAspectRatio=\"none\" "
		"aria-hidden=\"true\">", width, width * MARK);
	for (i = 0; i < INKS; i++)
		if (paths[i]->len > 0)
			g_string_append_printf(page->out,
				"<path class=\"i%u\" d=\"%s\"/>", i,
				paths[i]->str);
	g_string_append(page->out, "</svg>");
}

/* The cell of a market: the strip, and the number for those who can't see. */
static void
show_strip(struct page *page, struct record_list pairings,
	const struct record *market)
{
	const struct site *site = page->site;
	struct record_list backs = site->cardbacks[market->index];
	unsigned base = site->cardback_rank[backs.items[0]->index];
	GString *paths[INKS];
	unsigned i, rank, known = 0;

	for (i = 0; i < INKS; i++)
		paths[i] = g_string_new(NULL);
	for (i = 0; i < pairings.count; i++) {
		const struct record *cardback = model_record(site->model,
			pairings.items[i]->values, NAME(PAIRING_CARDBACK));

		rank = cardback == NULL ? G_MAXUINT :
			site->cardback_rank[cardback->index];
		if (rank < base || rank - base >= backs.count)
			continue;
		known++;
		add_mark(page, paths, pairings.items[i], rank - base);
	}
	g_string_append(page->out, "<td>");
	show_paths(page, paths, backs.count);
	html_put(page->out, " <small>%u</small></td>", known);
	for (i = 0; i < INKS; i++)
		g_string_free(paths[i], TRUE);
}

/* Names in other languages, each wording once. */
static void
show_other_names(struct page *page, const struct record *character)
{
	const struct value *names = model_get(page->site->model,
		character->values, NAME(CHARACTER_NAMES));
	const struct translation *items;
	unsigned i, j, shown = 0;

	if (names == NULL)
		return;
	items = names->translation.items;
	for (i = 1; i < names->translation.count; i++) {
		for (j = 0; j < i; j++)
			if (strcmp(items[j].text, items[i].text) == 0)
				break;
		if (j < i)
			continue;
		g_string_append(page->out, shown++ == 0 ?
			"<small class=\"says\">" : " \u00b7 ");
		g_string_append(page->out, "<bdi");
		html_language(page->out, items[i].language);
		html_put(page->out, ">%s</bdi>", items[i].text);
	}
	g_string_append(page->out, shown > 0 ? "</small>" : "");
}

static void
show_character(struct page *page, const struct record *character,
	struct record_list markets)
{
	const struct site *site = page->site;
	struct arena *arena = arena_new();
	struct record_list pairings = rows_pointing(page, character,
		NAME(PAIRING_CHARACTER), arena);
	const struct date *date = model_date(site->model, character->values,
		NAME(CHARACTER_RELEASED));
	unsigned i, seen = 0;

	g_string_append(page->out, "<tr><th scope=\"row\">");
	page_link(page, character);
	show_other_names(page, character);
	g_string_append(page->out, "</th><td>");
	if (date != NULL)
		show_date(page, date);
	g_string_append(page->out, "</td>");
	for (i = 0; i < markets.count; i++)
		if (site->cardbacks[markets.items[i]->index].count > 0)
			show_strip(page, pairings, markets.items[i]);
	for (i = 0; i < pairings.count; i++)
		seen += site->glances[pairings.items[i]->index].seen.specimens;
	html_put(page->out, "<td class=\"number\">%u</td>"
		"<td class=\"number\">%u</td></tr>\n", pairings.count, seen);
	arena_free(arena);
}

static void
show_table_of(struct page *page, struct record_list list, unsigned from,
	unsigned to)
{
	struct record_list markets = model_records_of(page->site->model,
		"market");
	unsigned i;

	if (markets.count > MOST_STRIPS)
		markets.count = 0;
	table_begin(page, "Characters", "rows strips");
	g_string_append(page->out, "<thead><tr><th scope=\"col\">character"
		"</th><th scope=\"col\">first sold</th>");
	for (i = 0; i < markets.count; i++)
		if (page->site->cardbacks[markets.items[i]->index].count > 0)
			html_put(page->out, "<th scope=\"col\">%s</th>",
				markets.items[i]->name);
	g_string_append(page->out, "<th scope=\"col\">card backs</th>"
		"<th scope=\"col\">pieces</th></tr></thead>\n<tbody>\n");
	for (i = from; i < to; i++)
		show_character(page, list.items[i], markets);
	table_end(page);
}

bool
characters_write(const struct site *site, const struct kind *kind,
	GError **error)
{
	return list_pages(site, kind, ROWS_ON_PAGE, show_table_of, error);
}
