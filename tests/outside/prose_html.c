/*
 * Reads CommonMark as hangtab reads prose, and writes the tree as the HTML that
 * the examples of the CommonMark specification have. Titles of links and the
 * words behind a code fence are not in the tree.
 *
 * Takes texts on standard input, each as "NAME SIZE\n" and its bytes, and
 * answers each with "NAME CODES SIZE\n" and the HTML: the codes reported,
 * apart from prose-link, or "-".
 */
#include <glib.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "diag/collect.h"
#include "read/prose.h"

static void
escape(GString *out, const char *text)
{
	for (; *text != '\0'; text++) {
		if (*text == '&')
			g_string_append(out, "&amp;");
		else if (*text == '<')
			g_string_append(out, "&lt;");
		else if (*text == '>')
			g_string_append(out, "&gt;");
		else if (*text == '"')
			g_string_append(out, "&quot;");
		else
			g_string_append_c(out, *text);
	}
}

/* An address: what a URI cannot have is written as percent and two digits. */
static void
escape_address(GString *out, const char *address)
{
	static const char as_is[] = "-_.+!*(),%#@?=;:/,+$~"
		"0123456789abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ";

	for (; *address != '\0'; address++) {
		if (*address == '&')
			g_string_append(out, "&amp;");
		else if (*address == '\'')
			g_string_append(out, "&#x27;");
		else if (strchr(as_is, *address) != NULL)
			g_string_append_c(out, *address);
		else
			g_string_append_printf(out, "%%%02X",
				(unsigned char)*address);
	}
}

/* A block begins on a line of its own. */
static void
begin_line(GString *out)
{
	if (out->len > 0 && out->str[out->len - 1] != '\n')
		g_string_append_c(out, '\n');
}

static bool
is_in_tight(const struct prose *paragraph)
{
	const struct prose *item = paragraph->parent;

	return item != NULL && item->kind == PROSE_ITEM &&
		item->parent->tight;
}

static void
write_all(GString *out, const struct prose *prose);

static void
write_block(GString *out, const char *tag, const struct prose *prose,
	bool breaks)
{
	begin_line(out);
	g_string_append_printf(out, "<%s>%s", tag, breaks ? "\n" : "");
	write_all(out, prose->first);
	if (breaks)
		begin_line(out);
	g_string_append_printf(out, "</%.*s>\n", (int)strcspn(tag, " "), tag);
}

static void
write_numbers(GString *out, const struct prose *prose)
{
	char tag[32] = "ol";

	if (prose->level != 1)
		g_snprintf(tag, sizeof(tag), "ol start=\"%d\"", prose->level);
	write_block(out, tag, prose, true);
}

static void
write_span(GString *out, const char *tag, const struct prose *prose)
{
	g_string_append_printf(out, "<%s>", tag);
	if (prose->text != NULL)
		escape(out, prose->text);
	write_all(out, prose->first);
	g_string_append_printf(out, "</%s>", tag);
}

static void
write_one(GString *out, const struct prose *prose)
{
	char tag[8];

	switch (prose->kind) {
	case PROSE_DOCUMENT:
		write_all(out, prose->first);
		break;
	case PROSE_PARAGRAPH:
		if (is_in_tight(prose))
			write_all(out, prose->first);
		else
			write_block(out, "p", prose, false);
		break;
	case PROSE_HEADING:
		g_snprintf(tag, sizeof(tag), "h%d", prose->level);
		write_block(out, tag, prose, false);
		break;
	case PROSE_QUOTE:
		write_block(out, "blockquote", prose, true);
		break;
	case PROSE_BULLETS:
		write_block(out, "ul", prose, true);
		break;
	case PROSE_NUMBERS:
		write_numbers(out, prose);
		break;
	case PROSE_ITEM:
		write_block(out, "li", prose, false);
		break;
	case PROSE_CODE_BLOCK:
		begin_line(out);
		g_string_append(out, "<pre><code>");
		escape(out, prose->text);
		g_string_append(out, "</code></pre>\n");
		break;
	case PROSE_RULE:
		begin_line(out);
		g_string_append(out, "<hr />\n");
		break;
	case PROSE_TEXT:
		escape(out, prose->text);
		break;
	case PROSE_CODE:
		write_span(out, "code", prose);
		break;
	case PROSE_SOFT_BREAK:
		g_string_append_c(out, '\n');
		break;
	case PROSE_LINE_BREAK:
		g_string_append(out, "<br />\n");
		break;
	case PROSE_EMPHASIS:
		write_span(out, "em", prose);
		break;
	case PROSE_STRONG:
		write_span(out, "strong", prose);
		break;
	case PROSE_LINK:
		g_string_append(out, "<a href=\"");
		escape_address(out, prose->text);
		g_string_append(out, "\">");
		write_all(out, prose->first);
		g_string_append(out, "</a>");
		break;
	}
}

static void
write_all(GString *out, const struct prose *prose)
{
	for (; prose != NULL; prose = prose->next)
		write_one(out, prose);
}

static void
print_codes(const struct diags *diags)
{
	bool any = false;
	guint i;

	for (i = 0; i < diags->items->len; i++) {
		const struct diag *diag = g_ptr_array_index(diags->items, i);

		if (diag->code == DIAG_PROSE_LINK)
			continue;
		printf("%s%s", any ? "," : " ", diag_info(diag->code)->code);
		any = true;
	}
	if (!any)
		fputs(" -", stdout);
}

static void
answer(const char *name, char *bytes, size_t size)
{
	struct arena *arena = arena_new();
	struct sources *sources = sources_new();
	struct diags *diags = diags_new(sources);
	GString *out = g_string_new(NULL);
	struct node scalar = {
		.kind = NODE_SCALAR,
		.style = SCALAR_RAW,
		.text = bytes,
		.count = (uint32_t)size,
	};

	scalar.span.file = sources_add(sources, name, bytes, (uint32_t)size);
	scalar.span.to = (uint32_t)size;
	write_one(out, read_prose(&scalar, sources, arena, diags));
	fputs(name, stdout);
	print_codes(diags);
	printf(" %zu\n%s", out->len, out->str);
	g_string_free(out, TRUE);
	diags_free(diags);
	sources_free(sources);
	arena_free(arena);
}

int
main(void)
{
	char name[64];
	size_t size;

	while (scanf("%63s %zu", name, &size) == 2) {
		char *bytes = g_malloc0(size + 1);

		if (getchar() != '\n' ||
			fread(bytes, 1, size, stdin) != size)
			return EXIT_FAILURE;
		answer(name, bytes, size);
	}
	return EXIT_SUCCESS;
}
