/*
 * Prose into HTML. Of what the tree may hold, every kind has its element in
 * the table below; those that need more than that have a case.
 */
#include "write/site/show.h"

#include <string.h>

struct setting {
	struct page *page;
	int below;
	int last;	/* level of the last heading; none is skipped */
};

static const char *const elements[] = {
	[PROSE_DOCUMENT] = NULL,
	[PROSE_PARAGRAPH] = "p",
	[PROSE_HEADING] = "h",
	[PROSE_QUOTE] = "blockquote",
	[PROSE_BULLETS] = "ul",
	[PROSE_NUMBERS] = "ol",
	[PROSE_ITEM] = "li",
	[PROSE_CODE_BLOCK] = "pre",
	[PROSE_RULE] = "hr",
	[PROSE_TEXT] = NULL,
	[PROSE_CODE] = "code",
	[PROSE_SOFT_BREAK] = NULL,
	[PROSE_LINE_BREAK] = "br",
	[PROSE_EMPHASIS] = "em",
	[PROSE_STRONG] = "strong",
	[PROSE_LINK] = "a",
};

static void
append_prose(struct setting *setting, const struct prose *prose);

static void
append_children(struct setting *setting, const struct prose *prose)
{
	const struct prose *child;

	for (child = prose->first; child != NULL; child = child->next)
		append_prose(setting, child);
}

/* A paragraph of a tight list's item stands without an element. */
static bool
is_tight(const struct prose *prose)
{
	return prose->kind == PROSE_PARAGRAPH && prose->parent != NULL &&
		prose->parent->kind == PROSE_ITEM &&
		prose->parent->parent != NULL && prose->parent->parent->tight;
}

static bool
is_block(enum prose_kind kind)
{
	return kind <= PROSE_RULE;
}

static void
append_link(struct setting *setting, const struct prose *prose)
{
	struct page *page = setting->page;
	const struct record *home = NULL;
	GString *out = page->out;

	if (prose->record != NULL)
		home = page_home(prose->record);
	if (home != NULL) {
		g_string_append(out, "<a href=\"");
		page_href(page, home,
			home == prose->record ? prose->key : NULL);
		g_string_append(out, "\">");
	} else if (prose->record == NULL && html_is_address(prose->text)) {
		g_string_append(out, "<a rel=\"noopener noreferrer\" href=\"");
		html_address(out, prose->text);
		g_string_append(out, "\">");
	} else {
		append_children(setting, prose);
		return;
	}
	append_children(setting, prose);
	g_string_append(out, "</a>");
}

static void
append_heading(struct setting *setting, const struct prose *prose)
{
	int level = CLAMP(setting->below + prose->level, 2,
		MIN(setting->last + 1, 6));

	setting->last = level;
	html_put(setting->page->out, "<h%d>", level);
	append_children(setting, prose);
	html_put(setting->page->out, "</h%d>\n", level);
}

static void
append_element(struct setting *setting, const struct prose *prose)
{
	GString *out = setting->page->out;
	const char *element = elements[prose->kind];

	if (is_tight(prose))
		element = NULL;
	if (element != NULL && prose->kind == PROSE_NUMBERS &&
		prose->level != 1)
		html_put(out, "<ol start=\"%d\">", prose->level);
	else if (element != NULL)
		html_put(out, "<%s>", element);
	if (prose->text != NULL)
		html_text(out, prose->text);
	append_children(setting, prose);
	if (element != NULL)
		html_put(out, "</%s>", element);
	if (is_block(prose->kind))
		g_string_append_c(out, '\n');
}

static void
append_prose(struct setting *setting, const struct prose *prose)
{
	switch (prose->kind) {
	case PROSE_HEADING:
		append_heading(setting, prose);
		return;
	case PROSE_LINK:
		append_link(setting, prose);
		return;
	case PROSE_RULE:
		g_string_append(setting->page->out, "<hr>\n");
		return;
	case PROSE_LINE_BREAK:
		g_string_append(setting->page->out, "<br>\n");
		return;
	case PROSE_SOFT_BREAK:
		g_string_append_c(setting->page->out, '\n');
		return;
	case PROSE_DOCUMENT:
	case PROSE_PARAGRAPH:
	case PROSE_QUOTE:
	case PROSE_BULLETS:
	case PROSE_NUMBERS:
	case PROSE_ITEM:
	case PROSE_CODE_BLOCK:
	case PROSE_TEXT:
	case PROSE_CODE:
	case PROSE_EMPHASIS:
	case PROSE_STRONG:
		append_element(setting, prose);
		return;
	}
}

void
show_prose(struct page *page, const struct prose *prose, int below)
{
	struct setting setting = {page, below, MAX(below, 1)};

	append_prose(&setting, prose);
}
