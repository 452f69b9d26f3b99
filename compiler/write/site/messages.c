/*
 * For contributors: what each message of the compiler means, with a record
 * that gives it and that record mended. The pages are those of `hangtab
 * explain`.
 */
#include "write/site/parts.h"

#include <string.h>

#include "diag/page.h"
#include "read/prose.h"
#include "write/site/show.h"

/* CommonMark that stands in no file of the corpus. */
static void
show_text(struct page *page, const char *text)
{
	struct sources *sources = sources_new();
	struct diags *diags = diags_new(sources);
	struct arena *arena = arena_new();
	struct node node = {
		.kind = NODE_SCALAR,
		.style = SCALAR_RAW,
		.text = text,
		.count = (uint32_t)strlen(text),
	};

	show_prose(page, read_prose(&node, sources, arena, diags), 2);
	arena_free(arena);
	diags_free(diags);
	sources_free(sources);
}

static void
show_samples(struct page *page, const char *title,
	const struct diag_samples *samples)
{
	unsigned i;

	html_put(page->out, "<h3>%s</h3>\n", title);
	for (i = 0; i < samples->count; i++) {
		const struct diag_sample *sample = &samples->items[i];

		if (sample->name != NULL)
			html_put(page->out, "<p><code>%s</code>%s</p>\n",
				sample->name, sample->text == NULL ?
				" cannot be read." : "");
		if (sample->text != NULL)
			html_put(page->out, "<pre><code>%s</code></pre>\n",
				sample->text);
	}
}

static void
show_code(struct page *page, enum diag_code code)
{
	const struct diag_info *info = diag_info(code);
	struct arena *arena = arena_new();
	const struct diag_page *said = diag_page_read(page->site->job->codes,
		code, arena);

	html_put(page->out, "<details id=\"_%s\"><summary><code>%s</code> "
		"%s</summary>\n", info->code, info->code, info->headline);
	if (said != NULL) {
		show_text(page, said->says);
		show_samples(page, "A record that gives it", &said->failing);
		show_samples(page, "Mended", &said->mended);
		g_string_append(page->out, "<h3>Why</h3>\n");
		show_text(page, said->why);
	}
	g_string_append(page->out, "</details>\n");
	arena_free(arena);
}

static void
show_codes(struct page *page, enum severity severity, const char *title)
{
	int code;

	html_put(page->out, "<section><h2>%s</h2>\n", title);
	for (code = 0; code < DIAG_COUNT; code++)
		if (diag_info((enum diag_code)code)->severity == severity)
			show_code(page, (enum diag_code)code);
	g_string_append(page->out, "</section>\n");
}

bool
messages_write(const struct site *site, GError **error)
{
	struct page page = {.error = error};

	page_begin(&page, site, "messages.html", "What messages mean",
		"known");
	g_string_append(page.out, "<header class=\"sheet-head\"><h1>What "
		"messages mean</h1>\n<p class=\"lede\">For those who write "
		"records: what the compiler may find in them, each with a "
		"record that shows it, and mended.</p></header>\n");
	show_codes(&page, SEVERITY_ERROR, "Errors");
	show_codes(&page, SEVERITY_WARNING, "Surprises");
	return page_end(&page);
}
