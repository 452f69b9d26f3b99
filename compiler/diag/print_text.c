/*
 * Messages for people. Each shows where, what, the line itself with the span
 * marked under it, the other places involved, and what to do. Columns on the
 * terminal are not characters: tabs jump, wide letters take two, combining
 * marks none; the marks under the line follow what the eye sees.
 */
#include "diag/collect.h"

#include <string.h>

#include "diag/shown.h"

enum { TAB = 8, WIDEST = 100, LEAD = 30 };

struct ink {
	const char *error;
	const char *warning;
	const char *strong;
	const char *faint;
	const char *off;
};

static const struct ink plain = {"", "", "", "", ""};
static const struct ink coloured = {
	"\033[1;31m", "\033[1;35m", "\033[1m", "\033[36m", "\033[0m",
};

/* How many columns the character takes that begins at column `at`. */
static int
columns(gunichar c, int at)
{
	if (c == '\t')
		return TAB - at % TAB;
	if (shown_as_mark(c))
		return 1;
	if (g_unichar_iszerowidth(c) || g_unichar_type(c) ==
		G_UNICODE_NON_SPACING_MARK)
		return 0;
	return g_unichar_iswide(c) ? 2 : 1;
}

/* A line laid out on columns: what to show, and where the span lies on it. */
struct layout {
	GString *text;
	int from;
	int to;
};

static void
lay_character(struct layout *out, const char *at, const char *next, int width)
{
	gunichar c = g_utf8_get_char_validated(at, next - at);

	if (c == '\t')
		g_string_append_printf(out->text, "%*s", width, "");
	else if (shown_as_mark(c))
		g_string_append_c(out->text, '?');
	else
		g_string_append_len(out->text, at, next - at);
}

/*
 * Lays out the line that holds the span's start. A long line is cut so that
 * the span stays in view; what is left out is shown by an ellipsis.
 */
static struct layout
lay_out(const struct source *source, struct span span)
{
	struct span line = source_line(source, span.from);
	struct layout out = {g_string_new(NULL), 0, 0};
	const char *at = source->bytes + line.from;
	const char *end = source->bytes + line.to;
	const char *from = source->bytes + span.from;
	const char *to = source->bytes + MIN(span.to, line.to);
	int skip = 0, column = 0, before;

	before = (int)g_utf8_strlen(at, MIN(from, end) - at);
	if (before > WIDEST - LEAD)
		skip = before - LEAD;
	if (skip > 0) {
		at = g_utf8_offset_to_pointer(at, skip);
		g_string_append(out.text, "…");
		column = 1;
	}
	out.from = out.to = -1;
	for (; at < end && column < WIDEST; at = g_utf8_next_char(at)) {
		const char *next = MIN(g_utf8_next_char(at), end);
		int width = columns(g_utf8_get_char_validated(at, next - at),
			column);

		if (at >= from && out.from < 0)
			out.from = column;
		if (at >= to && out.to < 0)
			out.to = column;
		lay_character(&out, at, next, width);
		column += width;
	}
	if (at < end)
		g_string_append(out.text, "…");
	if (out.from < 0)
		out.from = column;
	if (out.to < 0)
		out.to = column;
	if (out.to <= out.from)
		out.to = out.from + 1;
	return out;
}

static void
print_line(const struct source *source, struct span span,
	const struct ink *ink, FILE *stream)
{
	struct place place = source_place(source, span.from);
	struct layout out = lay_out(source, span);
	int i;

	fprintf(stream, "%s%6u |%s %s\n", ink->faint, place.line, ink->off,
		out.text->str);
	fprintf(stream, "%s       |%s %*s%s", ink->faint, ink->off, out.from, "",
		ink->strong);
	for (i = out.from; i < out.to; i++)
		fputc('^', stream);
	fprintf(stream, "%s\n", ink->off);
	g_string_free(out.text, TRUE);
}

/* A whole file is meant where the span is empty and at its start. */
static bool
has_line(const struct source *source, struct span span)
{
	return source != NULL && source->size > 0 &&
		(span.to > 0 || span.from > 0);
}

static void
print_place(const struct source *source, struct span span, FILE *stream)
{
	char *path = shown_text(source->path, 0);
	struct place place;

	if (has_line(source, span)) {
		place = source_place(source, span.from);
		fprintf(stream, "%s:%u:%u: ", path, place.line, place.column);
	} else
		fprintf(stream, "%s: ", path);
	g_free(path);
}

static void
print_one(const struct diag *diag, const struct ink *ink, FILE *stream)
{
	const struct sources *sources = diag->diags->sources;
	const struct source *source = sources_get(sources, diag->span.file);
	const struct diag_info *info = diag_info(diag->code);
	bool error = info->severity == SEVERITY_ERROR;
	guint i;

	fprintf(stream, "%s", ink->strong);
	if (source != NULL)
		print_place(source, diag->span, stream);
	fprintf(stream, "%s%s:%s %s %s[%s]%s\n",
		error ? ink->error : ink->warning,
		error ? "error" : "warning", ink->off, diag->text,
		ink->faint, info->code, ink->off);
	if (has_line(source, diag->span))
		print_line(source, diag->span, ink, stream);
	for (i = 0; diag->notes != NULL && i < diag->notes->len; i++) {
		struct diag_note *note;

		note = &g_array_index(diag->notes, struct diag_note, i);
		source = sources_get(sources, note->span.file);
		fprintf(stream, "   ");
		if (has_line(source, note->span))
			print_place(source, note->span, stream);
		fprintf(stream, "note: %s\n", note->text);
		if (has_line(source, note->span))
			print_line(source, note->span, ink, stream);
	}
	if (diag->help != NULL)
		fprintf(stream, "   help: %s\n", diag->help);
}

static void
print_count(size_t count, const char *word, FILE *stream)
{
	fprintf(stream, "%zu %s%s", count, word, count == 1 ? "" : "s");
}

static void
print_hidden(const size_t *hidden, FILE *stream)
{
	if (hidden[SEVERITY_ERROR] + hidden[SEVERITY_WARNING] == 0)
		return;
	if (hidden[SEVERITY_ERROR] > 0)
		print_count(hidden[SEVERITY_ERROR], "more error", stream);
	if (hidden[SEVERITY_ERROR] > 0 && hidden[SEVERITY_WARNING] > 0)
		fputs(" and ", stream);
	if (hidden[SEVERITY_WARNING] > 0)
		print_count(hidden[SEVERITY_WARNING], "more warning", stream);
	fputs(" not shown (--errors=0 shows all)\n", stream);
}

void
diags_print_text(const struct diags *diags, struct diag_style style,
	FILE *stream)
{
	const struct ink *ink = style.colour ? &coloured : &plain;
	size_t shown[] = {0, 0}, hidden[] = {0, 0};
	guint i;

	for (i = 0; i < diags->items->len; i++) {
		const struct diag *diag = g_ptr_array_index(diags->items, i);
		enum severity severity = diag_info(diag->code)->severity;

		if (style.most > 0 && ++shown[severity] > style.most) {
			hidden[severity]++;
			continue;
		}
		print_one(diag, ink, stream);
		fputc('\n', stream);
	}
	print_hidden(hidden, stream);
	print_count(diags->counts[SEVERITY_ERROR], "error", stream);
	fprintf(stream, ", ");
	print_count(diags->counts[SEVERITY_WARNING], "warning", stream);
	fputc('\n', stream);
}
