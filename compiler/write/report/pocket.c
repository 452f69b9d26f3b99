/*
 * One file for the phone: the answer, what to look for with the hardest first,
 * what is held, and the pages of the guide that one needs at a table.
 */
#include "write/report/inside.h"

#include <string.h>

/* Adds a record once. */
static void
add(struct record_list *list, GHashTable *known, unsigned most,
	const struct record *record)
{
	if (record == NULL || !record->kind->page || list->count >= most ||
		!g_hash_table_add(known, (gpointer)(uintptr_t)record))
		return;
	list->items[list->count++] = record;
}

/* The page of what is looked for, and of the parts that set it apart. */
struct record_list
report_folded(const struct report *report, unsigned most)
{
	struct record_list list = {arena_array(report->arena,
		const struct record *, most), 0};
	GHashTable *known = g_hash_table_new(NULL, NULL);
	unsigned count, i;
	const struct wanted *wanted = report_wanted(report, &count);

	for (i = 0; i < count; i++)
		add(&list, known, most, wanted[i].look->record);
	for (i = 0; i < count; i++) {
		const struct value *item = wanted[i].look->item;

		if (item == NULL)
			continue;
		add(&list, known, most, model_record(report->model,
			item->group, NAME(COMBINATION_VARIANT)));
		add(&list, known, most, model_record(report->model,
			item->group, NAME(COMBINATION_BLISTER)));
	}
	g_hash_table_destroy(known);
	return list;
}

static void
put_look(const struct report *report, GHashTable *folded,
	const struct wanted *wanted, GString *out)
{
	const struct look_for *look = wanted->look;
	const char *words = rarity_words(report->rarities, &look->rarity,
		report->model, report->arena);

	if (g_hash_table_contains(folded, look->record))
		html_put(out, "<li><a href=\"#%s/%s\"><b>%s</b></a>",
			look->record->kind->name, look->record->id,
			look->name);
	else
		html_put(out, "<li><b>%s</b>", look->name);
	if (wanted->gains > 1)
		html_put(out, " closes %u gaps", wanted->gains);
	if (words != NULL)
		html_put(out, " <small>%s</small>", words);
	g_string_append(out, "</li>\n");
}

static void
put_wanted(const struct report *report, struct record_list list, GString *out)
{
	GHashTable *folded = g_hash_table_new(NULL, NULL);
	unsigned count, i;
	const struct wanted *wanted = report_wanted(report, &count);

	for (i = 0; i < list.count; i++)
		g_hash_table_add(folded, (gpointer)(uintptr_t)list.items[i]);
	html_put(out, "<section>\n<h2 id=\"want\">To look for <span class=\""
		"count\">%u</span></h2>\n", count);
	if (count == 0)
		g_string_append(out, "<p>Nothing: no gap is open.</p>\n");
	else
		g_string_append(out, "<p class=\"note\">The hardest first. "
			"Together they close every gap of the runs you have "
			"begun.</p>\n<ol class=\"todo\">\n");
	for (i = 0; i < count; i++)
		put_look(report, folded, &wanted[i], out);
	g_string_append(out, count == 0 ? "</section>\n" :
		"</ol>\n</section>\n");
	g_hash_table_destroy(folded);
}

/* What the collector wrote down as wanted, whether it closes anything or not. */
static void
put_own_wants(const struct report *report, GString *out)
{
	bool any = false;
	unsigned i;

	for (i = 0; i < report->pieces->count; i++) {
		if (report->pieces->items[i].use != PIECE_WANTED)
			continue;
		if (!any)
			g_string_append(out, "<section>\n<h2 id=\"own\">On "
				"your own list</h2>\n<ul class=\"names\">\n");
		any = true;
		html_put(out, "<li>%s</li>\n",
			report->pieces->items[i].record->name);
	}
	if (any)
		g_string_append(out, "</ul>\n</section>\n");
}

static void
put_held(const struct report *report, GString *out)
{
	unsigned i;

	g_string_append(out, "<section>\n<h2 id=\"held\">What you hold</h2>\n");
	for (i = 0; i < report->count; i++) {
		const struct filling *filling = report->fillings[i];

		if (!report_is_begun(filling))
			continue;
		html_put(out, "<h3 id=\"run/%s\">%s <small>%u of %u</small>"
			"</h3>\n", filling->aim->id, filling->aim->name,
			filling->held, filling->held + filling->possible +
			filling->missing);
		report_slots(report, filling, out);
	}
	g_string_append(out, "</section>\n");
}

void
report_pocket(const struct report *report, struct record_list list,
	const char *folded, GString *out)
{
	report_begin(report, "My pieces, in the pocket", out);
	g_string_append(out, "<header class=\"card\">\n<p class=\"kind\">for "
		"the pocket</p>\n<h1>My pieces</h1>\n");
	report_answer(report, out);
	g_string_append(out, "<p class=\"jump\"><a href=\"#want\">To look for"
		"</a> <a href=\"#held\">What you hold</a> <a href=\"#again\">"
		"Look again</a> <a href=\"#pages\">From the guide</a></p>\n"
		"</header>\n");
	put_own_wants(report, out);
	put_wanted(report, list, out);
	report_runs(report, "#run/", "", out);
	put_held(report, out);
	report_again(report, out);
	html_put(out, "<section id=\"pages\">\n<h2>From the guide</h2>\n"
		"<p class=\"note\">Of %s, what you need for the %u hardest, as "
		"it was when this was made. Anyone may read these; the rest of "
		"this file is yours.</p>\n", model_title(report->model),
		list.count);
	g_string_append(out, folded);
	g_string_append(out, "</section>\n<p class=\"jump up\"><a href=\""
		"#want\">To look for</a></p>\n");
	report_end(out);
}
