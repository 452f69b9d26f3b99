/*
 * The view of a character: the card backs it is known on in every market, its
 * variants, accessories and fronts, the anomalies known of it.
 */
#include "base/sort.h"
#include "write/site/estimates.h"
#include "write/site/pairs.h"
#include "write/site/record.h"
#include "write/site/rows.h"
#include "write/site/show.h"

void
character_lead(struct page *page)
{
	const struct site *site = page->site;
	struct arena *arena = arena_new();
	struct record_list list = rows_pointing(page, page->record,
		NAME(PAIRING_CHARACTER), arena);
	struct pair_count cards = pairs_count(site, &list);
	unsigned seen = 0, anomalous = 0, i;

	for (i = 0; i < list.count; i++) {
		seen += site->glances[list.items[i]->index].seen.specimens;
		anomalous += site->glances[list.items[i]->index].anomalous;
	}
	html_put(page->out, "<p class=\"answer\">Known on <b>%u</b> card "
		"back%s", cards.known, cards.known == 1 ? "" : "s");
	if (cards.unsure > 0)
		html_put(page->out, ", <b>%u</b> more not settled",
			cards.unsure);
	html_put(page->out, "; <b>%u</b> piece%s told apart.", seen,
		seen == 1 ? "" : "s");
	if (anomalous > 0)
		html_put(page->out, " <span class=\"warn\">Anomalies are known "
			"on <b>%u</b> card back%s.</span>", anomalous,
			anomalous == 1 ? "" : "s");
	g_string_append(page->out, "</p>\n");
	arena_free(arena);
}

/* A card back, with the pairing if the character is known on it. */
struct card {
	const struct record *cardback;
	const struct record *pairing;
	unsigned rank;
};

/* By rank; a pairing before the bare card back. */
static int
compare_cards(const void *a, const void *b)
{
	const struct card *left = a, *right = b;

	if (left->rank != right->rank)
		return left->rank < right->rank ? -1 : 1;
	return (left->pairing == NULL) - (right->pairing == NULL);
}

static void
add_card(struct page *page, GArray *cards, const struct record *cardback,
	const struct record *pairing)
{
	struct card card = {cardback, pairing, 0};

	if (cardback == NULL)
		return;
	card.rank = page->site->cardback_rank[cardback->index];
	g_array_append_val(cards, card);
}

static GArray *
gather_cards(struct page *page)
{
	GArray *cards = g_array_new(FALSE, FALSE, sizeof(struct card));
	struct arena *arena = arena_new();
	struct record_list list;
	unsigned i;

	list = rows_pointing(page, page->record, NAME(PAIRING_CHARACTER),
		arena);
	for (i = 0; i < list.count; i++)
		add_card(page, cards, model_record(page->site->model,
			list.items[i]->values, NAME(PAIRING_CARDBACK)),
			list.items[i]);
	list = rows_pointing(page, page->record, NAME(CARDBACK_PICTURES),
		arena);
	for (i = 0; i < list.count; i++)
		add_card(page, cards, list.items[i], NULL);
	sort_items(cards->data, cards->len, sizeof(struct card), compare_cards);
	arena_free(arena);
	return cards;
}

static const struct record *
market_of(const struct page *page, const struct card *card)
{
	return model_record(page->site->model, card->cardback->values,
		NAME(CARDBACK_MARKET));
}

static void
show_card(struct page *page, const struct card *card)
{
	const char *label = cardback_label(page->site, card->cardback);

	if (card->pairing != NULL) {
		tile_show(page, card->pairing, label);
		g_string_append(page->out, "\n");
		return;
	}
	g_string_append(page->out, "<a class=\"t p\" href=\"");
	page_href(page, card->cardback, NULL);
	html_put(page->out, "\" title=\"pictured, not known on it\">\u00b7 %s"
		"</a>\n", label);
}

static void
show_cards(struct page *page)
{
	GArray *cards = gather_cards(page);
	const struct record *market, *before = NULL;
	unsigned i;

	if (cards->len > 0) {
		g_string_append(page->out, "<section>\n");
		page_heading(page, "cards", "On which card backs");
	}
	for (i = 0; i < cards->len; i++) {
		const struct card *card = &g_array_index(cards, struct card,
			i);

		if (i > 0 && card[-1].cardback == card->cardback)
			continue;
		market = market_of(page, card);
		if (i == 0 || market != before) {
			g_string_append(page->out, i == 0 ? "" : "</p>\n");
			if (market != NULL) {
				g_string_append(page->out, "<h3>");
				page_link(page, market);
				g_string_append(page->out, "</h3>\n");
			}
			g_string_append(page->out, "<p class=\"tiles\">\n");
		}
		before = market;
		show_card(page, card);
	}
	if (cards->len > 0) {
		g_string_append(page->out, "</p>\n");
		tile_legend(page);
		g_string_append(page->out, "</section>\n");
	}
	g_array_free(cards, TRUE);
}

/* Anomalies of the character's pairings, each once. */
static void
show_anomalies(struct page *page)
{
	const struct model *model = page->site->model;
	struct arena *arena = arena_new();
	struct record_list all = model_records_of(model, "anomaly"), found;
	struct record_list pairings = rows_pointing(page, page->record,
		NAME(PAIRING_CHARACTER), arena);
	bool *known = arena_array(arena, bool, all.count);
	unsigned i, j;
	size_t k;

	for (i = 0; i < pairings.count; i++) {
		const struct value *list = model_get(model,
			pairings.items[i]->values, NAME(PAIRING_COMBINATIONS));
		struct pointer_list pointing = model_pointing(model,
			pairings.items[i]);

		for (j = 0; j < value_count(list); j++) {
			const struct record *anomaly = model_record(model,
				value_item(list, j)->group,
				NAME(COMBINATION_ANOMALY));

			if (anomaly != NULL)
				known[anomaly->index] = true;
		}
		for (k = 0; k < pointing.count; k++)
			if (pointing.items[k].field == model_field(model,
				NAME(ANOMALY_PAIRINGS)))
				known[pointing.items[k].from->index] = true;
	}
	found.items = arena_array(arena, const struct record *, all.count);
	found.count = 0;
	for (i = 0; i < all.count; i++)
		if (known[i])
			found.items[found.count++] = all.items[i];
	rows_section(page, "anomalies", "Anomalies to know of", found, NULL);
	arena_free(arena);
}

/* Accessories named by the character, then those that name it. */
static struct record_list
find_accessories(struct page *page, struct arena *arena)
{
	const struct value *own = model_get(page->site->model,
		page->record->values, NAME(CHARACTER_ACCESSORIES));
	struct record_list pointing = rows_pointing(page, page->record,
		NAME(ACCESSORY_CHARACTERS), arena);
	struct record_list list = {arena_array(arena, const struct record *,
		value_count(own) + pointing.count), 0};
	unsigned i, j;

	for (i = 0; i < value_count(own); i++)
		list.items[list.count++] = value_item(own, i)->
			reference.record;
	for (i = 0; i < pointing.count; i++) {
		for (j = 0; j < list.count; j++)
			if (list.items[j] == pointing.items[i])
				break;
		if (j == list.count)
			list.items[list.count++] = pointing.items[i];
	}
	return list;
}

void
character_body(struct page *page)
{
	struct arena *arena = arena_new();

	page_tell(page, NAME(CHARACTER_ACCESSORIES));
	page_tell_pointer(page, NAME(PAIRING_CHARACTER));
	page_tell_pointer(page, NAME(CARDBACK_PICTURES));
	page_tell_pointer(page, NAME(VARIANT_CHARACTER));
	page_tell_pointer(page, NAME(ACCESSORY_CHARACTERS));
	page_tell_pointer(page, NAME(FRONT_CHARACTER));
	page_tell_pointer(page, NAME(SPECIMEN_CHARACTER));
	show_cards(page);
	rows_section(page, "variants", "Variants, and how to tell them",
		rows_pointing(page, page->record, NAME(VARIANT_CHARACTER),
			arena),
		model_field(page->site->model, NAME(VARIANT_CHARACTER)));
	show_anomalies(page);
	rows_section(page, "accessories", "What came with it",
		find_accessories(page, arena),
		model_field(page->site->model, NAME(ACCESSORY_CHARACTERS)));
	rows_section(page, "fronts", "Card fronts",
		rows_pointing(page, page->record, NAME(FRONT_CHARACTER),
			arena),
		model_field(page->site->model, NAME(FRONT_CHARACTER)));
	seen_loose_ends(page, NAME(SPECIMEN_CHARACTER),
		"Pieces not settled on a card back");
	arena_free(arena);
}
