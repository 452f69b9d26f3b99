/*
 * The view of a card back: its labels in every scheme, what tells it from the
 * others with as many figures, and the characters as they stand on it.
 */
#include <stdlib.h>
#include <string.h>

#include "write/site/cardbacks.h"
#include "write/site/computed.h"
#include "write/site/estimates.h"
#include "write/site/pairs.h"
#include "write/site/record.h"
#include "write/site/rows.h"
#include "write/site/show.h"

static void
show_labels(struct page *page)
{
	const struct model *model = page->site->model;
	const struct value *labels = model_get(model, page->record->values,
		NAME(CARDBACK_LABELS));
	unsigned i;

	g_string_append(page->out, "<ul class=\"labels\">");
	for (i = 0; i < value_count(labels); i++) {
		struct value *const *group = value_item(labels, i)->group;
		const struct record *scheme = model_record(model, group,
			NAME(CARDBACK_LABELS_SCHEME));
		const char *label = model_text(model, group,
			NAME(CARDBACK_LABELS_LABEL));

		html_put(page->out, "<li><b>%s</b> ",
			label == NULL ? "" : label);
		if (scheme != NULL)
			page_link(page, scheme);
		g_string_append(page->out, "</li>");
	}
	g_string_append(page->out, "</ul>\n");
}

/* The card backs before and after it in its market. */
static void
show_turns_of(struct page *page)
{
	const struct site *site = page->site;
	const struct record *market = model_record(site->model,
		page->record->values, NAME(CARDBACK_MARKET));
	struct record_list list;
	unsigned at;

	if (market == NULL)
		return;
	list = site->cardbacks[market->index];
	at = site->cardback_rank[page->record->index] -
		site->cardback_rank[list.items[0]->index];
	page_neighbours(page, at == 0 ? NULL : list.items[at - 1],
		at + 1 == list.count ? NULL : list.items[at + 1],
		cardback_label);
}

void
cardback_lead(struct page *page)
{
	const struct site *site = page->site;
	struct arena *arena = arena_new();
	struct record_list list = rows_pointing(page, page->record,
		NAME(PAIRING_CARDBACK), arena);
	struct pair_count known = pairs_count(site, &list);
	unsigned seen = 0, i;

	if (model_get(site->model, page->record->values,
		NAME(CARDBACK_LABELS)) != NULL)
		show_labels(page);
	page_tell(page, NAME(CARDBACK_LABELS));
	for (i = 0; i < list.count; i++)
		seen += site->glances[list.items[i]->index].seen.specimens;
	html_put(page->out, "<p class=\"answer\"><b>%u</b> character%s known "
		"on it", known.known, known.known == 1 ? " is" : "s are");
	if (known.unsure > 0)
		html_put(page->out, ", <b>%u</b> more not settled",
			known.unsure);
	html_put(page->out, "; <b>%u</b> piece%s told apart.</p>\n", seen,
		seen == 1 ? "" : "s");
	show_turns_of(page);
	arena_free(arena);
}

/* Card backs of the same market with the same number of figures. */
static void
show_neighbours(struct page *page, const struct record *market)
{
	const struct model *model = page->site->model;
	int64_t number = model_whole(model, page->record->values,
		NAME(CARDBACK_NUMBER), 0);
	struct arena *arena = arena_new();
	struct record_list all = page->site->cardbacks[market->index], same;
	unsigned i, kept = 0;
	char *heading;

	same.items = arena_array(arena, const struct record *, all.count);
	for (i = 0; i < all.count; i++)
		if (model_whole(model, all.items[i]->values,
			NAME(CARDBACK_NUMBER), 0) == number)
			same.items[kept++] = all.items[i];
	same.count = kept;
	if (kept > 1) {
		heading = g_strdup_printf("Which %d-back? All %u of this "
			"market, side by side", (int)number, kept);
		g_string_append(page->out, "<section>\n");
		page_heading(page, "neighbours", heading);
		g_free(heading);
		cardbacks_table(page, same);
		g_string_append(page->out, "</section>\n");
	}
	arena_free(arena);
}

static void
show_picture(struct page *page, const struct record *character)
{
	const struct record *pairing = seen_find_pairing(page->site->seen,
		character, page->record);

	g_string_append(page->out, "<li>");
	if (pairing != NULL)
		tile_show(page, pairing, character->name);
	else {
		g_string_append(page->out, "<a class=\"t p\" href=\"");
		page_href(page, character, NULL);
		html_put(page->out, "\" title=\"pictured, not known on it\">"
			"%s</a>", character->name);
	}
	g_string_append(page->out, "</li>\n");
}

/* The figures in the order printed, drawn as the grid that they are. */
static void
show_pictures(struct page *page, const struct value *pictures)
{
	unsigned i;

	if (value_count(pictures) == 0)
		return;
	g_string_append(page->out, "<section>\n");
	page_heading(page, "pictures", "Pictured, in the order printed");
	g_string_append(page->out, "<ol class=\"back\">\n");
	for (i = 0; i < pictures->many.count; i++)
		show_picture(page, value_item(pictures, i)->reference.record);
	g_string_append(page->out, "</ol>\n");
	tile_legend(page);
	g_string_append(page->out, "</section>\n");
}

static bool
is_pictured(const struct value *pictures, const struct record *character)
{
	unsigned i;

	for (i = 0; i < value_count(pictures); i++)
		if (value_item(pictures, i)->reference.record == character)
			return true;
	return false;
}

/* Characters known on it that it does not picture. */
static void
show_unpictured(struct page *page, const struct value *pictures)
{
	struct arena *arena = arena_new();
	struct record_list list = rows_pointing(page, page->record,
		NAME(PAIRING_CARDBACK), arena);
	const struct record *character;
	unsigned i, shown = 0;

	for (i = 0; i < list.count; i++) {
		character = model_record(page->site->model,
			list.items[i]->values, NAME(PAIRING_CHARACTER));
		if (character == NULL || is_pictured(pictures, character))
			continue;
		if (shown++ == 0) {
			g_string_append(page->out, "<section>\n");
			page_heading(page, "unpictured", pictures == NULL ?
				"Known on it" : "Known on it, not pictured");
			g_string_append(page->out, "<p class=\"tiles\">\n");
		}
		tile_show(page, list.items[i], character->name);
		g_string_append_c(page->out, '\n');
	}
	if (shown > 0)
		g_string_append(page->out, "</p>\n</section>\n");
	arena_free(arena);
}

void
cardback_body(struct page *page)
{
	const struct model *model = page->site->model;
	const struct value *pictures = model_get(model, page->record->values,
		NAME(CARDBACK_PICTURES));
	const struct record *market = model_record(model,
		page->record->values, NAME(CARDBACK_MARKET));

	page_tell(page, NAME(CARDBACK_PICTURES));
	page_tell_pointer(page, NAME(PAIRING_CARDBACK));
	page_tell_pointer(page, NAME(SPECIMEN_CARDBACK));
	if (market != NULL)
		show_neighbours(page, market);
	show_pictures(page, pictures);
	show_unpictured(page, pictures);
	computed_show(page, (struct subject){SUBJECT_CARDBACK, page->record,
		NULL, NULL});
	seen_loose_ends(page, NAME(SPECIMEN_CARDBACK),
		"Pieces that may be this one");
}
