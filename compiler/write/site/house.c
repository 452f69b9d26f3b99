/*
 * The pages that every guide has whatever its corpus: cautions, and what this
 * guide is.
 */
#include "write/site/parts.h"
#include "write/site/show.h"

struct caution {
	const char *heading;
	const char *text;
};

static const struct caution cautions[] = {
	{"Not for children", "Old plastics and paints may carry lead, "
		"cadmium or phthalates, and small parts can be swallowed. "
		"Vintage figures and their accessories are for grown "
		"collectors. Keep them from children and from food, and wash "
		"your hands after handling them. Sticky or crumbling plastic "
		"is giving something off: air the room, and do not store it "
		"closed up with other pieces."},
	{"Solvents, heat and light", "Cleaning with solvents, shrinking or "
		"loosening with heat, pressing cards and bleaching plastic "
		"can poison, burn and start fires, and they ruin pieces. This "
		"guide describes what such work leaves behind so that it can "
		"be recognised, never so that it can be done. Follow the "
		"label, the safety sheet and the rules of the place where you "
		"live, and leave the work to those trained for it."},
	{"Opening sealed cases and blisters", "A service\u2019s case is made "
		"not to be opened: it breaks with sharp edges, and the "
		"certificate ends with it. An opened blister cannot be "
		"closed again; a resealed one is an altered piece, and must "
		"be called so when it changes hands."},
	{"Estimates are not appraisals", "A number in this guide says how "
		"many pieces may have been made, may survive, are known or "
		"were certified, who said so, and when. It says nothing of "
		"what a piece is worth. For insurance, tax, customs or a "
		"sale, ask somebody licensed for that work where you live."},
	{"Recognising is not authenticating", "What is written here can rule "
		"a piece out; it cannot prove one genuine. A photograph shows "
		"less than the piece in the hand, and imitators read guides "
		"too. Buy from people who take pieces back."},
	{"What was seen, and what we conclude", "Each claim says how it was "
		"seen and, apart from that, what we conclude. \u201cNot "
		"known\u201d means that nobody told us, not that it does not "
		"exist."},
};

bool
cautions_write(const struct site *site, GError **error)
{
	struct page page = {.error = error};
	size_t i;

	page_begin(&page, site, "cautions.html", "Cautions", "line");
	g_string_append(page.out, "<header class=\"sheet-head\"><h1>Cautions"
		"</h1>\n<p class=\"lede\">Read these once before you handle, "
		"clean, open or buy.</p></header>\n<div class=\"prose\">\n");
	for (i = 0; i < G_N_ELEMENTS(cautions); i++)
		html_put(page.out, "<h2>%s</h2>\n<p>%s</p>\n",
			cautions[i].heading, cautions[i].text);
	g_string_append(page.out, "</div>\n");
	return page_end(&page);
}

static void
show_edition(struct page *page)
{
	const struct record *edition = page->site->edition;

	if (edition == NULL)
		return;
	html_put(page->out, "<section class=\"card\">\n<h2>%s</h2>\n",
		edition->name);
	page->told = g_new0(bool, edition->kind->fields.count);
	show_facts(page, edition, SHOW_FIRST);
	show_facts(page, edition, SHOW_YES);
	g_string_append(page->out, "<p><a href=\"");
	page_href(page, edition, NULL);
	g_string_append(page->out, "\">What is new in this edition</a></p>\n"
		"</section>\n");
}

bool
about_write(const struct site *site, GError **error)
{
	struct page page = {.error = error};

	page_begin(&page, site, "about.html", "About this guide", "known");
	html_put(page.out, "<header class=\"sheet-head\"><h1>About this guide"
		"</h1>\n<p class=\"lede\">%s: compiled by hangtab from records "
		"that its contributors wrote and checked.</p></header>\n",
		model_title(site->model));
	show_edition(&page);
	g_string_append(page.out, "<div class=\"prose\">\n"
		"<h2>Nothing is sent</h2>\n<p>These pages load nothing from "
		"anywhere but the folder they lie in, keep nothing, count "
		"nobody and send nothing. They work without a network and "
		"without scripts. Links that lead out of the guide are "
		"followed only when you click them.</p>\n"
		"<h2>To correct something</h2>\n<p>Every page of a record "
		"gives its permanent address, such as <code>cardback/18a"
		"</code>. Send that, what you have seen, and how you saw it: "
		"in hand, in a photograph of one side or both, or told by "
		"somebody. \u201cI looked for it and did not find it\u201d is "
		"a contribution too.</p>\n"
		"<h2>How to read a claim</h2>\n<p>How a thing was seen and "
		"what we conclude from it are two questions, and are answered "
		"apart. What was printed is kept as it was printed, beside "
		"what is right. All words are explained "
		"<a href=\"words.html\">on one page</a>.</p>\n"
		"<h2>This state of the corpus</h2>\n");
	html_put(page.out, "<p>The digest (SHA-256) of the files that this "
		"guide was compiled from; the same files give the same guide:"
		"</p>\n<p><code class=\"digest\">%s</code></p>\n</div>\n",
		model_digest(site->model));
	return page_end(&page);
}
