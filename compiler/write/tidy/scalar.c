/*
 * Texts in YAML. What may stand plain is what libyaml reads back the same, less
 * what other readers of YAML are known to quarrel about.
 */
#include "write/tidy/scalar.h"

#include <string.h>

static int
width_of(gunichar c)
{
	if (g_unichar_iszerowidth(c) ||
		g_unichar_type(c) == G_UNICODE_NON_SPACING_MARK)
		return 0;
	return g_unichar_iswide(c) ? 2 : 1;
}

static int
columns_of(const char *text, const char *end)
{
	int columns = 0;

	for (; text < end; text = g_utf8_next_char(text))
		columns += width_of(g_utf8_get_char(text));
	return columns;
}

int
tidy_columns(const char *text)
{
	return columns_of(text, text + strlen(text));
}

/* Characters that stand for themselves nowhere but in escapes. */
static bool
is_special(gunichar c)
{
	return (c < 0x20 && c != '\n' && c != '\t') ||
		(c >= 0x7F && c <= 0x9F) || c == 0x2028 || c == 0x2029 ||
		c == 0xFEFF || (c & 0xFFFE) == 0xFFFE;
}

static bool
has_special(const char *text)
{
	for (; *text != '\0'; text = g_utf8_next_char(text))
		if (is_special(g_utf8_get_char(text)))
			return true;
	return false;
}

static bool
is_blank(char c)
{
	return c == ' ' || c == '\t';
}

/* Whether the first character, with what follows, may begin a plain text. */
static bool
begins_plain(const char *text, enum tidy_place place)
{
	if (*text == '\0' || is_blank(*text) ||
		strchr(",[]{}#&*!|>'\"%@`", *text) != NULL)
		return false;
	if (strchr("-?:", *text) == NULL)
		return true;
	if (strncmp(text, "---", 3) == 0)
		return false;
	return text[1] != '\0' && !is_blank(text[1]) &&
		(*text == '-' || place == TIDY_BLOCK);
}

bool
tidy_is_plain(const char *text, enum tidy_place place)
{
	const char *at;

	if (!begins_plain(text, place) || has_special(text) ||
		strcmp(text, "<<") == 0 || strncmp(text, "...", 3) == 0)
		return false;
	for (at = text; *at != '\0'; at++) {
		bool last = at[1] == '\0' || is_blank(at[1]);

		if (*at == '\n' || *at == '\t' || (*at == ' ' && at[1] == '\0'))
			return false;
		if ((*at == ':' && last) || (*at == ' ' && at[1] == '#'))
			return false;
		if (place == TIDY_FLOW && strchr(",[]{}?", *at) != NULL)
			return false;
	}
	return true;
}

static void
append_escaped(GString *out, gunichar c)
{
	static const struct { gunichar c; const char *text; } named[] = {
		{'\n', "\\n"}, {'\t', "\\t"}, {'\r', "\\r"}, {'"', "\\\""},
		{'\\', "\\\\"}, {0x85, "\\N"}, {0x2028, "\\L"},
		{0x2029, "\\P"},
	};
	size_t i;

	for (i = 0; i < G_N_ELEMENTS(named); i++)
		if (named[i].c == c) {
			g_string_append(out, named[i].text);
			return;
		}
	if (!is_special(c))
		g_string_append_unichar(out, c);
	else if (c < 0x100)
		g_string_append_printf(out, "\\x%02X", c);
	else if (c < 0x10000)
		g_string_append_printf(out, "\\u%04X", c);
	else
		g_string_append_printf(out, "\\U%08X", c);
}

void
tidy_append_line(GString *out, const char *text, enum tidy_place place)
{
	if (tidy_is_plain(text, place)) {
		g_string_append(out, text);
		return;
	}
	/* Single quotes where double ones would need a backslash. */
	if (strpbrk(text, "\"\\") != NULL && strpbrk(text, "'\n\t") == NULL &&
		!has_special(text)) {
		g_string_append_printf(out, "'%s'", text);
		return;
	}
	g_string_append_c(out, '"');
	for (; *text != '\0'; text = g_utf8_next_char(text))
		append_escaped(out, g_utf8_get_char(text));
	g_string_append_c(out, '"');
}

/* A text as a block: what stands before its last line ends, and their number. */
struct block {
	const char *text;
	const char *end;
	unsigned ends;
};

static struct block
block_of(const char *text)
{
	struct block block = {text, text + strlen(text), 0};

	while (block.end > text && block.end[-1] == '\n') {
		block.end--;
		block.ends++;
	}
	return block;
}

/* The byte after the line that begins at `at`. */
static const char *
line_end(const struct block *block, const char *at)
{
	const char *end = memchr(at, '\n', (size_t)(block->end - at));

	return end == NULL ? block->end : end;
}

/*
 * Whether it can be a literal block at all. A last line of nothing but blanks
 * could, but nobody would see it.
 */
static bool
can_be_literal(const struct block *block)
{
	const char *at = block->text, *end = block->end;

	if (block->text == block->end || has_special(block->text))
		return false;
	while (end > at && is_blank(end[-1]))
		end--;
	if (end == at || end[-1] == '\n')
		return false;
	while (*at == '\n')
		at++;
	end = line_end(block, at);
	if (*at == '\t')
		return false;
	while (at < end && is_blank(*at))
		at++;
	return at < end;
}

/* Whether every line of it fits at that indentation. */
static bool
fits_literal(const struct block *block, int indent)
{
	const char *at, *end;

	for (at = block->text; at < block->end; at = end + 1) {
		end = line_end(block, at);
		if (indent + columns_of(at, end) > TIDY_WIDTH)
			return false;
	}
	return true;
}

/* The end of the word that begins at `at`: a single blank may end a line. */
static const char *
word_end(const char *at, const char *end)
{
	for (at++; at < end; at++)
		if (*at == ' ' && !is_blank(at[-1]) && at + 1 < end &&
			!is_blank(at[1]))
			break;
	return at;
}

/* Whether filling it gives its text again, and may shorten a line. */
static bool
can_be_folded(const struct block *block)
{
	const char *at, *end;
	bool breaks = false;

	if (!can_be_literal(block) || *block->text == '\n')
		return false;
	for (at = block->text; at < block->end; at = end + 1) {
		end = line_end(block, at);
		if (at < end && is_blank(*at))
			return false;
		breaks = breaks || (at < end && word_end(at, end) < end);
	}
	return breaks;
}

static void
append_line(GString *out, int indent, const char *text, const char *end)
{
	if (end > text)
		g_string_append_printf(out, "%*s", indent, "");
	g_string_append_len(out, text, end - text);
	g_string_append_c(out, '\n');
}

static void
append_filled(GString *out, int indent, const char *at, const char *end)
{
	while (at < end) {
		const char *line = at, *next;

		at = word_end(at, end);
		while (at < end) {
			next = word_end(at + 1, end);
			if (indent + columns_of(line, next) > TIDY_WIDTH)
				break;
			at = next;
		}
		append_line(out, indent, line, at);
		if (at < end)
			at++;
	}
}

static void
append_header(GString *out, char style, const struct block *block,
	const char *remark)
{
	const char *first = block->text;

	while (*first == '\n')
		first++;
	g_string_append_c(out, style);
	if (*first == ' ')
		g_string_append_printf(out, "%d", TIDY_INDENT);
	if (block->ends != 1)
		g_string_append_c(out, block->ends == 0 ? '-' : '+');
	if (remark != NULL)
		g_string_append_printf(out, "  %s", remark);
	g_string_append_c(out, '\n');
}

static bool
append_block(GString *out, const struct block *block, char style, int indent,
	const char *remark)
{
	const char *at, *end;
	unsigned i;

	append_header(out, style, block, remark);
	for (at = block->text; at < block->end; at = end + 1) {
		end = line_end(block, at);
		if (style == '|')
			append_line(out, indent, at, end);
		else
			append_filled(out, indent, at, end);
		/* In a folded block, a line end is written as two. */
		if (style == '>' && end < block->end)
			g_string_append_c(out, '\n');
	}
	for (i = 1; i < block->ends; i++)
		g_string_append_c(out, '\n');
	return block->ends <= 1;
}

static bool
append_one_line(GString *out, const char *text, const char *remark)
{
	tidy_append_line(out, text, TIDY_BLOCK);
	if (remark != NULL)
		g_string_append_printf(out, "  %s", remark);
	g_string_append_c(out, '\n');
	return true;
}

static int
line_columns(const char *text)
{
	GString *line = g_string_new(NULL);
	int columns;

	tidy_append_line(line, text, TIDY_BLOCK);
	columns = tidy_columns(line->str);
	g_string_free(line, TRUE);
	return columns;
}

bool
tidy_append_text(GString *out, const char *text, enum scalar_style style,
	int indent, int column, const char *remark)
{
	struct block block = block_of(text);
	bool several = line_end(&block, text) < block.end;
	bool folded;

	indent += TIDY_INDENT;
	if (several && (style == SCALAR_FOLDED || style == SCALAR_LITERAL))
		folded = style == SCALAR_FOLDED;
	else if (several || block.ends > 0)
		folded = !fits_literal(&block, indent);
	else
		folded = column + line_columns(text) > TIDY_WIDTH;
	if (folded && can_be_folded(&block))
		return append_block(out, &block, '>', indent, remark);
	if ((several || block.ends > 0) && can_be_literal(&block))
		return append_block(out, &block, '|', indent, remark);
	return append_one_line(out, text, remark);
}
