/*
 * Answers and workings, from the sentences that all outputs share.
 */
#include "write/site/computed.h"

#include <string.h>

#include "study/reckon.h"
#include "write/site/show.h"
#include "write/working.h"

static void
show_line(struct page *page, const struct working_line *line)
{
	html_put(page->out, "<li>%s", line->text);
	if (line->about != NULL) {
		g_string_append_c(page->out, ' ');
		page_link_words(page, line->about, NULL, "Source.");
	}
	g_string_append(page->out, "</li>\n");
}

/* The lines of one part as sentences above the fold. */
static void
show_open(struct page *page, const struct working *working,
	enum working_part part)
{
	const char *between = "<p>";
	unsigned i;

	for (i = 0; i < working->count; i++) {
		if (working->lines[i].part != part)
			continue;
		g_string_append(page->out, between);
		html_text(page->out, working->lines[i].text);
		between = " ";
	}
	if (*between == ' ')
		g_string_append(page->out, "</p>\n");
}

static void
show_folded(struct page *page, const struct working *working)
{
	enum working_part open = WORKING_PARTS;
	unsigned i;

	g_string_append(page->out, "<details><summary>The working</summary>"
		"\n");
	for (i = 0; i < working->count; i++) {
		const struct working_line *line = &working->lines[i];

		if (line->part == WORKING_ANSWER || line->part == WORKING_RISK)
			continue;
		if (line->part != open) {
			if (open != WORKING_PARTS)
				g_string_append(page->out, "</ul>\n");
			open = line->part;
			html_put(page->out, "<h3>%s</h3>\n<ul>\n",
				working_heading(open));
		}
		show_line(page, line);
	}
	if (open != WORKING_PARTS)
		g_string_append(page->out, "</ul>\n");
	html_put(page->out, "<p class=\"note\">%s</p>\n</details>\n",
		working_caution);
}

static bool
is_below(const struct subject *part, const struct subject *whole)
{
	return part->record == whole->record && part->form != whole->form &&
		(part->form == SUBJECT_COMBINATION ||
			part->form == SUBJECT_ANOMALY_ON);
}

static void
show_row(struct page *page, const struct subject *subject,
	struct arena *arena)
{
	struct reckoning *one = reckon(page->site->job->reckonings, *subject,
		arena);

	g_string_append(page->out, "<tr><th scope=\"row\">");
	if (subject->pairing != NULL)
		page_link(page, subject->pairing);
	else
		page_link_words(page, subject->record,
			subject->item->group[0]->text,
			subject->item->group[0]->text);
	html_put(page->out, "</th><td>%s</td><td>",
		working_answer(&one->choice, arena));
	if (one->evidence->possible > 0)
		html_put(page->out, "%u", one->evidence->possible);
	if (one->share.all > 0)
		html_put(page->out, "</td><td>%u of %u: %s",
			one->share.affected, one->share.all, working_share(
				one->share.affected, one->share.all,
				one->share.wilson, arena));
	else if (subject->pairing != NULL)
		g_string_append(page->out, "</td><td>");
	g_string_append(page->out, "</td></tr>\n");
}

/* What the subject is made of, each with its answer; nothing if nothing. */
static void
show_below(struct page *page, struct subject whole, struct arena *arena)
{
	const struct reckonings *all = page->site->job->reckonings;
	bool anomaly = whole.form == SUBJECT_ANOMALY;
	unsigned count, i;
	const struct subject *subjects = reckonings_subjects(all, &count);

	i = evidences_place(reckonings_evidences(all), &whole) + 1;
	if (i >= count || !is_below(&subjects[i], &whole))
		return;
	table_begin(page, anomaly ? "How many by pairing" :
		"How many by combination", "rows estimates");
	html_put(page->out, "<thead><tr><th scope=\"col\">%s</th>"
		"<th scope=\"col\">how many</th><th scope=\"col\">may belong "
		"too</th>", anomaly ? "pairing" : "combination");
	g_string_append(page->out, anomaly ? "<th scope=\"col\">share of the "
		"pairing that is it</th></tr></thead>\n<tbody>\n" :
		"</tr></thead>\n<tbody>\n");
	for (; i < count && is_below(&subjects[i], &whole); i++)
		show_row(page, &subjects[i], arena);
	table_end(page);
}

void
computed_show(struct page *page, struct subject subject)
{
	struct arena *arena = arena_new();
	struct reckoning *one = reckon(page->site->job->reckonings, subject,
		arena);
	struct working *working = working_of_reckoning(one, false, arena);

	if (one->evidence->known + one->evidence->possible > 0) {
		g_string_append(page->out, "<section>\n");
		page_heading(page, "estimate", "How many there may be");
		show_open(page, working, WORKING_ANSWER);
		show_open(page, working, WORKING_RISK);
		show_below(page, subject, arena);
		show_folded(page, working);
		g_string_append(page->out, "</section>\n");
	}
	arena_free(arena);
}
