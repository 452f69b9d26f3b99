/*
 * Lists of pairings, and the tile that stands for one everywhere.
 */
#include "write/site/pairs.h"

#include <stdlib.h>
#include <string.h>

#include "base/sort.h"
#include "study/slots.h"
#include "write/site/show.h"

/* From how many pieces seen on a tile fills by one step more. */
static const unsigned steps[] = {1, 2, 5, 15};

static const char *const step_words[] = {
	"none seen", "1 piece seen", "2 to 4", "5 to 14", "15 or more",
};

const struct kind *
pairs_kind(const struct site *site)
{
	return model_field(site->model, NAME(PAIRING_CHARACTER))->kind;
}

static const struct record *
character_of(const struct site *site, const struct record *pairing)
{
	return model_record(site->model, pairing->values,
		NAME(PAIRING_CHARACTER));
}

static const struct record *
cardback_of(const struct site *site, const struct record *pairing)
{
	return model_record(site->model, pairing->values,
		NAME(PAIRING_CARDBACK));
}

struct ranked {
	struct pair pair;
	unsigned cardback;
	unsigned character;
};

static int
compare_ranked(const void *a, const void *b)
{
	const struct ranked *left = a, *right = b;

	if (left->cardback != right->cardback)
		return left->cardback < right->cardback ? -1 : 1;
	if (left->character != right->character)
		return left->character < right->character ? -1 : 1;
	if (left->pair.key == NULL || right->pair.key == NULL)
		return (left->pair.key != NULL) - (right->pair.key != NULL);
	return strcmp(left->pair.key, right->pair.key);
}

void
pairs_sort(const struct site *site, struct pair *pairs, unsigned count)
{
	struct ranked *ranked = g_new0(struct ranked, count + 1);
	const struct record *record;
	unsigned i;

	for (i = 0; i < count; i++) {
		ranked[i].pair = pairs[i];
		record = cardback_of(site, pairs[i].pairing);
		ranked[i].cardback = record == NULL ? G_MAXUINT :
			site->cardback_rank[record->index];
		record = character_of(site, pairs[i].pairing);
		ranked[i].character = record == NULL ? G_MAXUINT :
			record->index;
	}
	sort_items(ranked, count, sizeof(*ranked), compare_ranked);
	for (i = 0; i < count; i++)
		pairs[i] = ranked[i].pair;
	g_free(ranked);
}

/* One character's pairs, which stand together; returns how many they are. */
static unsigned
show_character(struct page *page, const struct pair *pairs, unsigned count)
{
	const struct record *character = character_of(page->site,
		pairs[0].pairing);
	unsigned i;

	page_link_words(page, pairs[0].pairing, pairs[0].key,
		character == NULL ? pairs[0].pairing->name : character->name);
	for (i = 0; i < count && pairs[i].pairing == pairs[0].pairing; i++)
		if (pairs[i].key != NULL && (i == 0 ||
			g_strcmp0(pairs[i].key, pairs[i - 1].key) != 0))
			html_put(page->out, " <small>%s</small>",
				pairs[i].key);
	return i;
}

static void
show_market(struct page *page, const struct record *cardback, int level)
{
	const struct record *market = cardback == NULL ? NULL :
		model_record(page->site->model, cardback->values,
			NAME(CARDBACK_MARKET));

	if (market != NULL)
		html_put(page->out, "<h%d>%s</h%d>\n", level, market->name,
			level);
}

static bool
same_market(const struct site *site, const struct record *left,
	const struct record *right)
{
	if (left == NULL || right == NULL)
		return left == right;
	return model_record(site->model, left->values, NAME(CARDBACK_MARKET))
		== model_record(site->model, right->values,
			NAME(CARDBACK_MARKET));
}

void
pairs_show(struct page *page, const struct pair *pairs, unsigned count,
	int level)
{
	const struct site *site = page->site;
	const struct record *before = NULL, *cardback;
	unsigned i = 0;

	while (i < count) {
		cardback = cardback_of(site, pairs[i].pairing);
		if (i == 0 || !same_market(site, before, cardback)) {
			g_string_append(page->out, i == 0 ? "" : "</dl>\n");
			show_market(page, cardback, level);
			g_string_append(page->out, "<dl class=\"pairs\">\n");
		}
		g_string_append(page->out, "<div><dt>");
		if (cardback != NULL)
			page_link_words(page, cardback, NULL,
				cardback_label(site, cardback));
		g_string_append(page->out, "</dt><dd>");
		before = cardback;
		while (i < count && cardback_of(site, pairs[i].pairing) ==
			before) {
			i += show_character(page, pairs + i, count - i);
			if (i < count && cardback_of(site, pairs[i].pairing)
				== before)
				g_string_append(page->out, ", ");
		}
		g_string_append(page->out, "</dd></div>\n");
	}
	g_string_append(page->out, count == 0 ? "" : "</dl>\n");
}

void
pair_short(struct page *page, const struct record *pairing,
	const struct record *before)
{
	const struct record *character = character_of(page->site, pairing);
	const struct record *cardback = cardback_of(page->site, pairing);

	if (character != NULL && (before == NULL ||
		character_of(page->site, before) != character))
		html_put(page->out, "%s ", character->name);
	page_link_words(page, pairing, NULL, cardback == NULL ?
		pairing->name : cardback_label(page->site, cardback));
}

unsigned
tile_depth(unsigned specimens)
{
	unsigned i;

	for (i = 0; i < G_N_ELEMENTS(steps); i++)
		if (specimens < steps[i])
			break;
	return i;
}

static const struct word *
conclusion_of(const struct site *site, const struct record *pairing)
{
	const struct value *value = model_get(site->model, pairing->values,
		NAME(PAIRING_CONCLUDED));

	return value == NULL ? NULL : value->word;
}

struct pair_count
pairs_count(const struct site *site, const struct record_list *pairings)
{
	struct pair_count count = {0};
	unsigned i;

	for (i = 0; i < pairings->count; i++) {
		const char *concluded = model_word(site->model,
			pairings->items[i]->values, NAME(PAIRING_CONCLUDED));

		if (study_is_settled(concluded))
			count.known++;
		else if (study_may_exist(concluded))
			count.unsure++;
	}
	return count;
}

void
tile_classes(struct page *page, const struct record *pairing)
{
	const struct glance *glance = &page->site->glances[pairing->index];
	const struct word *concluded = conclusion_of(page->site, pairing);

	if (concluded == NULL)
		g_string_append(page->out, "cn");
	else
		html_put(page->out, "c%u", MIN(concluded->index, 9u));
	html_put(page->out, " d%u", tile_depth(glance->seen.specimens));
	if (glance->anomalous)
		g_string_append(page->out, " x");
}

void
tile_words(struct page *page, const struct record *pairing)
{
	const struct glance *glance = &page->site->glances[pairing->index];
	const struct word *concluded = conclusion_of(page->site, pairing);

	html_put(page->out, "%s, %u seen", concluded == NULL ?
		"nothing concluded" : concluded->title,
		glance->seen.specimens);
	if (glance->anomalous)
		g_string_append(page->out, ", anomaly known");
}

void
tile_show(struct page *page, const struct record *pairing, const char *words)
{
	g_string_append(page->out, "<a class=\"t ");
	tile_classes(page, pairing);
	g_string_append(page->out, "\" href=\"");
	page_href(page, pairing, NULL);
	g_string_append(page->out, "\" title=\"");
	tile_words(page, pairing);
	html_put(page->out, "\">%s</a>", words);
}

void
tile_legend(struct page *page)
{
	const struct vocabulary *words = model_field(page->site->model,
		NAME(PAIRING_CONCLUDED))->vocabulary;
	unsigned i;

	g_string_append(page->out, "<dl class=\"legend\">\n");
	for (i = 0; i < words->count; i++)
		html_put(page->out, "<div><dt><span class=\"t c%u d0\">n"
			"</span></dt><dd>%s</dd></div>\n", MIN(i, 9u),
			words->words[i].title);
	for (i = 0; i < G_N_ELEMENTS(step_words); i++)
		html_put(page->out, "<div><dt><span class=\"t c0 d%u\">n"
			"</span></dt><dd>%s</dd></div>\n", i, step_words[i]);
	g_string_append(page->out, "<div><dt><span class=\"t c0 d0 x\">n"
		"</span></dt><dd>an anomaly is known here</dd></div>\n"
		"<div><dt><span class=\"t p\">\u00b7</span></dt>"
		"<dd>pictured on the back, not known on it</dd></div>\n"
		"</dl>\n");
}
