/*
 * The views of a run and of a market: what there is to collect.
 */
#include "study/slots.h"
#include "write/site/matrix.h"
#include "write/site/pairs.h"
#include "write/site/record.h"
#include "write/site/show.h"
#include "write/site/unseen.h"

static void
show_pairs(struct page *page, const struct slots *slots)
{
	struct pair *pairs = g_new0(struct pair, slots->count);
	unsigned i;

	for (i = 0; i < slots->count; i++) {
		pairs[i].pairing = slots->items[i].record;
		if (slots->items[i].item != NULL)
			pairs[i].key = slots->items[i].item->group[0]->text;
	}
	pairs_sort(page->site, pairs, slots->count);
	pairs_show(page, pairs, slots->count, 3);
	g_free(pairs);
}

static void
show_names(struct page *page, const struct slots *slots)
{
	unsigned i;

	g_string_append(page->out, "<ul class=\"names slots\">\n");
	for (i = 0; i < slots->count; i++) {
		const struct slot *slot = &slots->items[i];

		g_string_append(page->out, "<li>");
		page_link_words(page, slot->record, slot->item == NULL ?
			NULL : slot->item->group[0]->text, slot->name);
		if (slot->standing == SLOT_UNSURE)
			html_put(page->out, " <small>%s</small>",
				slot_doubt_words(slot));
		g_string_append(page->out, "</li>\n");
	}
	g_string_append(page->out, "</ul>\n");
}

void
run_body(struct page *page)
{
	struct arena *arena = arena_new();
	struct slots *slots = study_slots(page->site->model, page->record,
		arena);
	unsigned sure = 0, i;

	for (i = 0; i < slots->count; i++)
		sure += slots->items[i].standing == SLOT_SURE;
	g_string_append(page->out, "<section>\n");
	page_heading(page, "slots", "Its slots");
	html_put(page->out, "<p class=\"answer\"><b>%u</b> slot%s to fill",
		sure, sure == 1 ? "" : "s");
	if (slots->count > sure)
		html_put(page->out, "; <b>%u</b> more set apart, because it "
			"is not settled that they exist",
			slots->count - sure);
	html_put(page->out, ". To hold your own pieces against it: <code>"
		"hangtab gaps MY-PIECES.yaml --run %s</code></p>\n",
		page->record->id);
	if (slots->count > 0 && slots->items[0].record->kind ==
		pairs_kind(page->site))
		show_pairs(page, slots);
	else if (slots->count > 0)
		show_names(page, slots);
	g_string_append(page->out, "</section>\n");
	arena_free(arena);
}

void
market_body(struct page *page)
{
	page_tell_pointer(page, NAME(CARDBACK_MARKET));
	matrix_show(page, page->record);
	unseen_show(page, page->record);
}
