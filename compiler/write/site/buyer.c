/*
 * "Before you buy", a section of every page of a thing that was made; and
 * intake sheets, to print and tick when it has come.
 */
#include "write/buying.h"
#include "write/site/record.h"
#include "write/site/show.h"

/* Requests are copied as they stand; everything else links to its record. */
static void
show_sentence(struct page *page, const struct sentence *sentence)
{
	g_string_append(page->out, "<li>");
	if (sentence->about != NULL && sentence->part != BUYING_ASK) {
		html_put(page->out, "%s ", sentence->text);
		page_link_words(page, sentence->about, NULL, "More.");
	} else
		html_text(page->out, sentence->text);
	g_string_append(page->out, "</li>\n");
}

static void
show_parts(struct page *page, const struct sentences *sentences)
{
	enum buying_part open = BUYING_PARTS;
	unsigned i;

	for (i = 0; i < sentences->count; i++) {
		const struct sentence *sentence = &sentences->items[i];

		if (sentence->part != open) {
			if (open != BUYING_PARTS)
				g_string_append(page->out, "</ul>\n");
			open = sentence->part;
			html_put(page->out, "<h3>%s</h3>\n<ul>\n",
				buying_heading(open));
		}
		show_sentence(page, sentence);
	}
	g_string_append(page->out, "</ul>\n");
}

/* What to ask to settle each combination, folded away. */
static void
show_combinations(struct page *page, struct arena *arena)
{
	const struct value *list = model_get(page->site->model,
		page->record->values, NAME(PAIRING_COMBINATIONS));
	unsigned i, j;

	if (value_count(list) < 2)
		return;
	g_string_append(page->out, "<details><summary>What to ask to settle "
		"the combination</summary>\n<dl>\n");
	for (i = 0; i < value_count(list); i++) {
		const struct value *item = value_item(list, i);
		const struct questions *questions = study_buyer(
			page->site->buying, page->record, item, arena)
			->questions;

		html_put(page->out, "<dt>%s</dt>\n<dd>", item->group[0]->text);
		for (j = 0; j < questions->request_count; j++)
			html_put(page->out, "%s ",
				questions->requests[j].text);
		if (questions->undivided > 0)
			html_put(page->out, "Nothing on record tells it from "
				"%u other%s.", questions->undivided,
				questions->undivided == 1 ? "" : "s");
		else if (questions->request_count == 0)
			g_string_append(page->out, "Nothing: the front "
				"settles it.");
		g_string_append(page->out, "</dd>\n");
	}
	g_string_append(page->out, "</dl></details>\n");
}

void
buyer_section(struct page *page)
{
	const struct record *record = page->record;
	struct arena *arena;
	struct sentences *sentences;

	if (record->kind->chapter != CHAPTER_MADE)
		return;
	arena = arena_new();
	sentences = buying_sentences(page->site->model, study_buyer(
		page->site->buying, record, NULL, arena), arena);
	if (sentences->count > 0) {
		g_string_append(page->out, "<section class=\"buyer\">\n");
		page_heading(page, "buyer", "Before you buy");
		show_parts(page, sentences);
		if (record->kind == model_field(page->site->model,
			NAME(PAIRING_COMBINATIONS))->kind)
			show_combinations(page, arena);
		g_string_append(page->out, "</section>\n");
	}
	arena_free(arena);
}

static void
show_check(struct page *page, struct value *const *values)
{
	const struct model *model = page->site->model;
	const struct value *against = model_get(model, values,
		NAME(SHEET_AGAINST));
	const struct value *states = model_get(model, values,
		NAME(SHEET_STATES));
	unsigned i;

	html_put(page->out, "<tr><th scope=\"row\">\u2610 %s</th>\n<td>",
		model_text(model, values, NAME(SHEET_LOOK)));
	if (against != NULL)
		html_put(page->out, "%s: %s", against->word->title,
			against->word->says == NULL ? "" :
			against->word->says);
	g_string_append(page->out, "</td>\n<td>");
	for (i = 0; i < value_count(states); i++)
		html_put(page->out, "<span class=\"tick\">\u2610 %s</span> ",
			value_item(states, i)->word->title);
	g_string_append(page->out, "</td></tr>\n");
}

/* How a tick is written down, so that the gap report reads it. */
static void
show_writing(struct page *page, const struct value *checks)
{
	const struct model *model = page->site->model;
	unsigned i;

	page_heading(page, "write", "Write it down");
	g_string_append(page->out, "<p>In your own holdings, under the piece, "
		"one line for each tick; then <code>hangtab gaps</code> knows "
		"of it.</p>\n<pre><code>condition:\n");
	for (i = 0; i < value_count(checks); i++) {
		struct value *const *values = value_item(checks, i)->group;
		const char *part = model_word(model, values,
			NAME(SHEET_PART));
		const struct value *states = model_get(model, values,
			NAME(SHEET_STATES));

		if (part != NULL && value_count(states) > 0)
			html_put(page->out, "  - {part: %s, state: %s, date: "
				"____-__-__}\n", part, value_item(states, 0)
				->word->word);
	}
	g_string_append(page->out, "</code></pre>\n");
}

/* What to do afterwards comes after the ticks. */
void
sheet_lead(struct page *page)
{
	page_tell(page, NAME(SHEET_AFTER));
}

void
sheet_body(struct page *page)
{
	const struct value *checks = model_get(page->site->model,
		page->record->values, NAME(SHEET_CHECKS));
	unsigned i;

	page_tell(page, NAME(SHEET_CHECKS));
	page_heading(page, "checks", "What to look at");
	table_begin(page, "What to look at", "rows");
	g_string_append(page->out, "<thead><tr><th scope=\"col\">Look at</th>"
		"<th scope=\"col\">Hold it against</th><th scope=\"col\">Tick "
		"what fits</th></tr></thead>\n<tbody>\n");
	for (i = 0; i < value_count(checks); i++)
		show_check(page, value_item(checks, i)->group);
	table_end(page);
	if (model_get(page->site->model, page->record->values,
		NAME(SHEET_AFTER)) != NULL)
		show_section(page, model_get(page->site->model,
			page->record->values, NAME(SHEET_AFTER)));
	show_writing(page, checks);
}
