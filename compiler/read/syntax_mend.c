/*
 * Mends of files that are not YAML, for the two slips that all make: text that
 * holds ": " and has no quotes, and a ":" with no blank behind it. What was
 * meant is seen from the line alone, so the mends are probable and no more.
 */
#include "read/syntax.h"

#include <glib.h>
#include <string.h>

/* A line of a record, "  - name: value": where its parts are in the file. */
struct line {
	const char *bytes;
	uint32_t indent;	/* where the name begins */
	uint32_t colon;
	uint32_t value;
	uint32_t end;		/* of the value, without blanks or a comment */
};

static uint32_t
pass_blanks(const char *bytes, uint32_t at, uint32_t end)
{
	while (at < end && (bytes[at] == ' ' || bytes[at] == '\t'))
		at++;
	return at;
}

/* Takes the line that holds `byte` apart; false if it is no field. */
static bool
cut(const struct source *source, uint32_t byte, struct line *line)
{
	struct span span = source_line(source, byte);
	const char *bytes = source->bytes;
	uint32_t at = pass_blanks(bytes, span.from, span.to), i;

	while (at + 1 < span.to && bytes[at] == '-' && bytes[at + 1] == ' ')
		at = pass_blanks(bytes, at + 1, span.to);
	*line = (struct line){.bytes = bytes, .indent = at};
	while (at < span.to && (g_ascii_isalnum(bytes[at]) ||
		bytes[at] == '_' || bytes[at] == '-'))
		at++;
	if (at == line->indent || at >= span.to || bytes[at] != ':')
		return false;
	line->colon = at;
	line->value = pass_blanks(bytes, at + 1, span.to);
	line->end = span.to;
	for (i = line->value; i + 1 < span.to; i++)
		if (bytes[i] == ' ' && bytes[i + 1] == '#') {
			line->end = i;
			break;
		}
	while (line->end > line->value && strchr(" \t\r",
		bytes[line->end - 1]) != NULL)
		line->end--;
	return line->end > line->value;
}

/* Whether the value goes on: the next line is indented past the name. */
static bool
goes_on(const struct source *source, const struct line *line)
{
	struct span here = source_line(source, line->end);
	struct span next;
	uint32_t at;

	if (here.to >= source->size)
		return false;
	next = source_line(source, here.to + 1 + (source->bytes[here.to] ==
		'\r'));
	at = pass_blanks(source->bytes, next.from, next.to);
	return at < next.to && at - next.from > line->indent - here.from;
}

static void
offer_quotes(const struct source *source, uint32_t file,
	const struct line *line, struct diag *diag)
{
	const char *text = line->bytes + line->value;
	size_t size = line->end - line->value;
	const char *quote = "'";

	if (memchr(text, '\'', size) != NULL)
		quote = memchr(text, '"', size) != NULL ||
			memchr(text, '\\', size) != NULL ? NULL : "\"";
	if (quote == NULL || strchr("\"'[{|>&*!%@`", *text) != NULL ||
		goes_on(source, line))
		return;
	diag_mend(diag, (struct span){file, line->value, line->value}, quote,
		MEND_PROBABLE);
	diag_mend(diag, (struct span){file, line->end, line->end}, quote,
		MEND_PROBABLE);
}

/* Offers the blank that a line lacks behind its ":", if it does. */
static bool
offer_blank(const struct source *source, struct span at, struct diag *diag)
{
	struct line line;

	if (!cut(source, at.from, &line) || line.value != line.colon + 1)
		return false;
	at.from = at.to = line.value;
	diag_mend(diag, at, " ", MEND_PROBABLE);
	return true;
}

void
syntax_offer(struct diag *diag, const struct source *source,
	const struct syntax_error *error)
{
	struct span before = source_line(source, error->span.from);
	struct line line;

	before.file = error->span.file;
	before.from -= before.from > 0;
	if (strcmp(error->problem, "could not find expected ':'") == 0 &&
		error->context != NULL)
		offer_blank(source, error->context_span, diag);
	if (strcmp(error->problem, "mapping values are not allowed in this "
		"context") != 0 || !cut(source, error->span.from, &line))
		return;
	if (error->span.from > line.colon && line.value > line.colon + 1)
		offer_quotes(source, error->span.file, &line, diag);
	else if (error->span.from == line.colon && before.from > 0)
		offer_blank(source, before, diag);
}
