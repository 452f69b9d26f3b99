/*
 * Papers on two devices. Every word is text: html_put escapes it on a page,
 * and control characters are blanks on a terminal.
 */
#include "write/pieces/paper.h"

#include <string.h>

#include "write/site/html.h"

enum { WIDTH = 78, LABEL = 18 };

/* A page fetches nothing and runs nothing. */
static const char policy[] = "default-src 'none'; style-src 'unsafe-inline'; "
	"base-uri 'none'; form-action 'none'";

/* Appends one word to a line that is `column` long; the column behind it. */
static long
put_word(GString *out, const char *word, long column, long indent)
{
	long width = g_utf8_strlen(word, -1);

	if (column > indent && column + 1 + width > WIDTH) {
		g_string_append_printf(out, "\n%*s", (int)indent, "");
		column = indent;
	} else if (column > indent) {
		g_string_append_c(out, ' ');
		column++;
	}
	for (; *word != '\0'; word = g_utf8_next_char(word)) {
		gunichar c = g_utf8_get_char(word);

		g_string_append_unichar(out, g_unichar_iscntrl(c) ? ' ' : c);
	}
	return column + width;
}

/* Fills `words` into lines from `column` on, the next ones at `indent`. */
static void
fill(GString *out, const char *words, long column, long indent)
{
	char **parts = g_strsplit_set(words, " \n\t", -1);
	size_t i;

	for (i = 0; parts[i] != NULL; i++)
		if (parts[i][0] != '\0')
			column = put_word(out, parts[i], column, indent);
	g_string_append_c(out, '\n');
	g_strfreev(parts);
}

/* Ends the rows or items that are being put down. */
static void
settle(struct paper *paper)
{
	if (paper->look != NULL && paper->rows)
		g_string_append(paper->out, "</dl>\n");
	if (paper->look != NULL && paper->items)
		g_string_append(paper->out, "</ul>\n");
	paper->rows = paper->items = false;
}

struct paper
paper_begin(GString *out, const char *look, const char *title)
{
	struct paper paper = {.out = out, .look = look};

	if (look == NULL) {
		fill(out, title, 0, 0);
		return paper;
	}
	html_put(out, "<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n"
		"<meta charset=\"utf-8\">\n<title>%s</title>\n"
		"<meta http-equiv=\"Content-Security-Policy\" content=\"",
		title);
	html_put(out, "%s\">\n<meta name=\"referrer\" "
		"content=\"no-referrer\">\n<meta name=\"viewport\" "
		"content=\"width=device-width, initial-scale=1\">\n"
		"<meta name=\"color-scheme\" content=\"light dark\">\n"
		"<style>\n", policy);
	g_string_append(out, look);
	html_put(out, "</style>\n</head>\n<body>\n<main id=\"_main\">\n"
		"<h1>%s</h1>\n", title);
	return paper;
}

void
paper_end(struct paper *paper)
{
	settle(paper);
	if (paper->look != NULL)
		g_string_append(paper->out, "</main>\n</body>\n</html>\n");
}

void
paper_heading(struct paper *paper, const char *words)
{
	settle(paper);
	if (paper->look != NULL) {
		html_put(paper->out, "<h2>%s</h2>\n", words);
		return;
	}
	g_string_append_c(paper->out, '\n');
	fill(paper->out, words, 0, 0);
}

void
paper_thing(struct paper *paper, const char *words)
{
	settle(paper);
	if (paper->look != NULL) {
		html_put(paper->out, "<h3>%s</h3>\n", words);
		return;
	}
	g_string_append(paper->out, "\n  ");
	fill(paper->out, words, 2, 2);
}

void
paper_say(struct paper *paper, const char *words)
{
	settle(paper);
	if (paper->look != NULL) {
		html_put(paper->out, "<p>%s</p>\n", words);
		return;
	}
	fill(paper->out, words, 0, 0);
}

void
paper_row(struct paper *paper, const char *label, const char *words)
{
	if (words == NULL || words[0] == '\0')
		return;
	if (!paper->rows) {
		settle(paper);
		paper->rows = true;
		if (paper->look != NULL)
			g_string_append(paper->out, "<dl class=\"facts\">\n");
	}
	if (paper->look != NULL) {
		html_put(paper->out, "<div><dt>%s</dt><dd>%s</dd></div>\n",
			label, words);
		return;
	}
	g_string_append_printf(paper->out, "  %s%*s", label,
		(int)MAX(1, LABEL - 2 - g_utf8_strlen(label, -1)), "");
	fill(paper->out, words, LABEL, LABEL);
}

void
paper_item(struct paper *paper, const char *words)
{
	if (!paper->items) {
		settle(paper);
		paper->items = true;
		if (paper->look != NULL)
			g_string_append(paper->out, "<ul>\n");
	}
	if (paper->look != NULL) {
		html_put(paper->out, "<li>%s</li>\n", words);
		return;
	}
	g_string_append(paper->out, "  - ");
	fill(paper->out, words, 4, 4);
}
