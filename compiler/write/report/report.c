/*
 * The frame, the overview, and what it shares with the file for the phone.
 */
#include "write/report/inside.h"

#include <string.h>

#include "base/sort.h"
#include "study/again.h"

static const char policy[] =
	"default-src 'none'; style-src 'unsafe-inline'; base-uri 'none'; "
	"form-action 'none'";

const char *
report_s(unsigned count)
{
	return count == 1 ? "" : "s";
}

bool
report_is_begun(const struct filling *filling)
{
	return filling->held + filling->possible > 0;
}

static unsigned
slots_of(const struct filling *filling)
{
	return filling->held + filling->possible + filling->missing;
}

void
report_begin(const struct report *report, const char *title, GString *out)
{
	html_put(out, "<!DOCTYPE html>\n<html lang=\"en\" class=\"reader\">\n"
		"<head>\n<meta charset=\"utf-8\">\n<title>%s</title>\n"
		"<meta http-equiv=\"Content-Security-Policy\" content=\"",
		title);
	g_string_append(out, policy);
	g_string_append(out, "\">\n<meta name=\"referrer\" "
		"content=\"no-referrer\">\n<meta name=\"robots\" "
		"content=\"noindex, nofollow\">\n<meta name=\"viewport\" "
		"content=\"width=device-width, initial-scale=1\">\n"
		"<meta name=\"color-scheme\" content=\"light dark\">\n"
		"<style>\n");
	g_string_append(out, report->style);
	html_put(out, "</style>\n</head>\n<body>\n<header class=\"banner "
		"private\">\n<p><b>Private. Do not share.</b> Made %s from "
		"your own list and %s.</p>\n</header>\n<main>\n",
		report->made, model_title(report->model));
}

void
report_end(GString *out)
{
	g_string_append(out, "</main>\n<footer class=\"foot\">\n<p>This says "
		"what somebody holds: keep it to yourself, and delete it when "
		"it is old. Numbers of how many there are count what was "
		"seen; an estimate is no appraisal and no authentication.</p>"
		"\n<p>Old plastics and paints may carry lead, cadmium or "
		"phthalates: not for children.</p>\n</footer>\n</body>\n"
		"</html>\n");
}

void
report_answer(const struct report *report, GString *out)
{
	unsigned begun = 0, held = 0, possible = 0, of = 0, i;

	for (i = 0; i < report->count; i++) {
		const struct filling *filling = report->fillings[i];

		if (!report_is_begun(filling))
			continue;
		begun++;
		held += filling->held;
		possible += filling->possible;
		of += slots_of(filling);
	}
	if (begun == 0) {
		g_string_append(out, "<p class=\"answer\">No run is begun; "
			"what follows is over all of them.</p>\n");
		return;
	}
	html_put(out, "<p class=\"answer\"><b>%u</b> of <b>%u</b> slots held "
		"in %u run%s begun", held, of, begun, report_s(begun));
	if (possible > 0)
		html_put(out, "; <b>%u</b> more perhaps", possible);
	g_string_append(out, ".</p>\n");
}

/* Held and possible as parts of a bar. */
static void
put_bar(const struct filling *filling, GString *out)
{
	unsigned of = slots_of(filling);

	html_put(out, "<svg class=\"share\" viewBox=\"0 0 %u 1\" "
		"preserveAspectRatio=\"none\" aria-hidden=\"true\">"
		"<rect class=\"h\" width=\"%u\" height=\"1\"/>"
		"<rect class=\"m\" x=\"%u\" width=\"%u\" height=\"1\"/></svg>",
		MAX(of, 1u), filling->held, filling->held, filling->possible);
}

void
report_runs(const struct report *report, const char *before,
	const char *after, GString *out)
{
	unsigned others = 0, i;

	g_string_append(out, "<div class=\"scroll\"><table class=\"rows "
		"runs\">\n<thead><tr><th scope=\"col\">run</th>"
		"<th scope=\"col\" class=\"number\">held</th>"
		"<th scope=\"col\" class=\"number\">perhaps</th>"
		"<th scope=\"col\" class=\"number\">missing</th>"
		"<th scope=\"col\" class=\"number\">of</th></tr></thead>\n"
		"<tbody>\n");
	for (i = 0; i < report->count; i++) {
		const struct filling *filling = report->fillings[i];

		if (!report_is_begun(filling)) {
			others++;
			continue;
		}
		html_put(out, "<tr><th scope=\"row\"><a href=\"%s%s%s\">%s"
			"</a>", before, filling->aim->id, after,
			filling->aim->name);
		put_bar(filling, out);
		html_put(out, "</th><td class=\"number\">%u</td>"
			"<td class=\"number\">%u</td><td class=\"number\">%u"
			"</td><td class=\"number\">%u</td></tr>\n",
			filling->held, filling->possible, filling->missing,
			slots_of(filling));
	}
	g_string_append(out, "</tbody>\n</table></div>\n");
	if (others == 0)
		return;
	g_string_append(out, "<p class=\"note\">Not begun: ");
	for (i = 0; i < report->count; i++)
		if (!report_is_begun(report->fillings[i]))
			html_put(out, "%s%s", report->fillings[i]->aim->name,
				--others > 0 ? "; " : ".");
	g_string_append(out, "</p>\n");
}

void
report_again(const struct report *report, GString *out)
{
	struct again_list list = study_again(report->pieces, report->fillings,
		report->count, 100, report->arena);
	unsigned i;

	if (list.count == 0)
		return;
	g_string_append(out, "<section>\n<h2 id=\"again\">Look again at your "
		"own</h2>\n<ul class=\"todo\">\n");
	for (i = 0; i < list.count; i++)
		html_put(out, "<li><b>%s</b> %s <small>may close %u gap%s"
			"</small></li>\n", report->pieces->items[
			list.items[i].piece].record->name,
			list.items[i].look_at, list.items[i].gaps,
			report_s(list.items[i].gaps));
	if (list.others > 0)
		html_put(out, "<li>and %u more</li>\n", list.others);
	g_string_append(out, "</ul>\n</section>\n");
}

static int
compare_wanted(const void *a, const void *b)
{
	const struct wanted *one = a, *other = b;
	int order = rarity_compare(&one->look->rarity, &other->look->rarity);

	if (order != 0)
		return order;
	if (one->gains != other->gains)
		return one->gains > other->gains ? -1 : 1;
	return one->look < other->look ? -1 : one->look > other->look;
}

const struct wanted *
report_wanted(const struct report *report, unsigned *count)
{
	const struct next *next = report->next;
	struct wanted *wanted = arena_array(report->arena, struct wanted,
		next->cover->count);
	unsigned i;

	*count = next->cover->count;
	for (i = 0; i < *count; i++)
		wanted[i] = (struct wanted){
			&next->pieces[next->cover->sets[i]],
			next->cover->gains[i]};
	sort_items(wanted, *count, sizeof(*wanted), compare_wanted);
	return wanted;
}

/* Those that close most, as the overview has them. */
static void
put_next(const struct report *report, GString *out)
{
	const struct next *next = report->next;
	unsigned i;

	if (next->count == 0)
		return;
	html_put(out, "<section>\n<h2>What to look for next</h2>\n"
		"<p class=\"note\">%u piece%s close all %u gaps; no fewer than "
		"%u can. Those that close most come first.</p>\n"
		"<ol class=\"todo\">\n", next->cover->count,
		report_s(next->cover->count), next->cover->covered,
		next->fewest);
	for (i = 0; i < next->cover->count && i < 25; i++) {
		const struct look_for *look = &next->pieces[
			next->cover->sets[i]];
		const char *words = rarity_words(report->rarities,
			&look->rarity, report->model, report->arena);

		html_put(out, "<li><b>%s</b> closes %u gap%s", look->name,
			next->cover->gains[i],
			report_s(next->cover->gains[i]));
		if (words != NULL)
			html_put(out, " <small>%s</small>", words);
		g_string_append(out, "</li>\n");
	}
	g_string_append(out, "</ol>\n</section>\n");
}

static void
put_unnamed(const struct report *report, GString *out)
{
	bool any = false;
	unsigned i;

	for (i = 0; i < report->pieces->count; i++) {
		if (report->pieces->items[i].named)
			continue;
		if (!any)
			g_string_append(out, "<section>\n<h2>Too little is "
				"known of these to count them</h2>\n"
				"<ul class=\"names\">\n");
		any = true;
		html_put(out, "<li>%s</li>\n",
			report->pieces->items[i].record->name);
	}
	if (any)
		g_string_append(out, "</ul>\n</section>\n");
}

void
report_index(const struct report *report, GString *out)
{
	report_begin(report, "My pieces", out);
	g_string_append(out, "<header class=\"card\">\n<p class=\"kind\">"
		"private report</p>\n<h1>My pieces</h1>\n");
	report_answer(report, out);
	g_string_append(out, "</header>\n");
	report_runs(report, "run-", ".html", out);
	put_next(report, out);
	report_again(report, out);
	put_unnamed(report, out);
	report_end(out);
}

const char *
report_run_path(const struct report *report, unsigned run)
{
	return arena_print(report->arena, "run-%s.html",
		report->fillings[run]->aim->id);
}

void
report_run(const struct report *report, unsigned run, GString *out)
{
	const struct filling *filling = report->fillings[run];

	report_begin(report, filling->aim->name, out);
	html_put(out, "<header class=\"card\">\n<p class=\"kind\">"
		"<a href=\"index.html\">my pieces</a></p>\n<h1>%s</h1>\n"
		"<p class=\"answer\"><b>%u</b> of <b>%u</b> held", 
		filling->aim->name, filling->held, slots_of(filling));
	if (filling->possible > 0)
		html_put(out, ", <b>%u</b> perhaps", filling->possible);
	html_put(out, ", <b>%u</b> missing", filling->missing);
	if (filling->unsure > 0)
		html_put(out, "; %u more set apart: not settled that %s",
			filling->unsure, filling->unsure == 1 ? "it exists" :
			"they exist");
	g_string_append(out, ".</p>\n");
	if (filling->case_style != NULL)
		html_put(out, "<p class=\"note\">In cases of the style "
			"\u201c%s\u201d.</p>\n", filling->case_style);
	g_string_append(out, "</header>\n");
	report_slots(report, filling, 2, out);
	report_end(out);
}
