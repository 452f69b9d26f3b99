/*
 * Words on the page. Each is coded once: its glyphs as a part of an array for
 * TJ (ISO 32000-1, 9.4.3), with the steps by which they miss their advance.
 * Words that stand side by side in one face and size are shown by one array,
 * with the spaces between them, so that text copied from the page reads as it
 * was written.
 */
#include <math.h>
#include <string.h>

#include "write/handbook/pressing.h"
#include "write/pdf/write.h"

/* A word as it goes into the file. */
struct coded {
	char *bytes;
	size_t size;
	int advance; /* thousandths of an em */
};

/* Where the pen is while a word is being coded; thousandths of an em. */
struct pen {
	int x;
	bool open; /* a string is */
	bool odd;  /* something had to stand outside of the array */
};

static void
end_string(GString *out, struct pen *pen)
{
	if (pen->open)
		g_string_append_c(out, ')');
	pen->open = false;
}

static void
move_pen(GString *out, struct pen *pen, double x)
{
	int step = (int)lround(x) - pen->x;

	/* Less is what rounding an advance can come to. */
	if (ABS(step) < 2)
		return;
	end_string(out, pen);
	pdf_number(out, -step);
	pen->x += step;
}

static void
append_glyph(GString *out, struct pen *pen, unsigned id)
{
	const char bytes[2] = {(char)(id >> 8), (char)(id & 255)};
	int i;

	if (!pen->open)
		g_string_append_c(out, '(');
	pen->open = true;
	for (i = 0; i < 2; i++) {
		if (bytes[i] == '\r') {
			g_string_append(out, "\\r");
			continue;
		}
		if (bytes[i] == '(' || bytes[i] == ')' || bytes[i] == '\\')
			g_string_append_c(out, '\\');
		g_string_append_c(out, bytes[i]);
	}
}

static bool
is_raised(const struct glyph *glyphs, unsigned count)
{
	unsigned i;

	for (i = 0; i < count; i++) {
		if (glyphs[i].y != 0)
			return true;
	}
	return false;
}

static void
append_glyphs(struct press *press, const struct shaped *word, unsigned from,
	unsigned count, GString *out, struct pen *pen)
{
	struct pdf_font *font = press->fonts[fonts_file(word->face)];
	const struct glyph *glyph;
	unsigned i;

	for (i = from; i < from + count; i++) {
		glyph = &word->glyphs[i];
		move_pen(out, pen, (double)glyph->x * 1000);
		append_glyph(out, pen, glyph->id);
		pen->x += pdf_font_width(font, glyph->id);
	}
}

/*
 * Glyphs that do not say by themselves what they stand for, or do not stand on
 * the line, are shown by operators of their own, outside the array.
 */
static void
append_odd(struct press *press, const struct shaped *word, unsigned from,
	unsigned count, const char *text, size_t size, GString *out,
	struct pen *pen)
{
	bool raised = is_raised(&word->glyphs[from], count);
	unsigned i;

	pen->odd = true;
	end_string(out, pen);
	g_string_append(out, "]TJ\n/Span<</ActualText<FEFF");
	pdf_utf16(out, text, size);
	g_string_append(out, ">>>BDC\n[");
	for (i = from; i < from + count; i++) {
		if (raised) {
			end_string(out, pen);
			g_string_append(out, "]TJ");
			pdf_number(out, -press->size *
				(double)word->glyphs[i].y);
			g_string_append(out, " Ts[");
		}
		append_glyphs(press, word, i, 1, out, pen);
	}
	end_string(out, pen);
	g_string_append(out, raised ? "]TJ 0 Ts\nEMC\n[" : "]TJ\nEMC\n[");
}

/* Glyphs to bytes; a word that is set backwards speaks as a whole. */
static void
code_glyphs(struct press *press, const struct shaped *word, GString *out,
	struct pen *pen)
{
	struct pdf_font *font = press->fonts[fonts_file(word->face)];
	const struct cluster *cluster;
	unsigned i, from = 0;
	size_t byte = 0;
	bool odd;

	for (i = 0; i < word->cluster_count && !word->backward; i++) {
		cluster = &word->clusters[i];
		odd = cluster->glyphs != 1 || word->glyphs[from].y != 0 ||
			!pdf_font_use(font, word->glyphs[from].id,
				word->text + byte, cluster->bytes);
		if (odd)
			append_odd(press, word, from, cluster->glyphs,
				word->text + byte, cluster->bytes, out, pen);
		else
			append_glyphs(press, word, from, 1, out, pen);
		from += cluster->glyphs;
		byte += cluster->bytes;
	}
	if (word->backward)
		append_odd(press, word, 0, word->glyph_count, word->text,
			word->size, out, pen);
	move_pen(out, pen, (double)word->width * 1000);
	end_string(out, pen);
}

/* All glyphs have to be in the cut, and all are named somehow. */
static void
use_all(struct press *press, const struct shaped *word)
{
	struct pdf_font *font = press->fonts[fonts_file(word->face)];
	unsigned i, from = 0;
	size_t byte = 0;

	for (i = 0; i < word->cluster_count; i++) {
		if (word->clusters[i].glyphs == 1 && !word->backward)
			pdf_font_use(font, word->glyphs[from].id,
				word->text + byte, word->clusters[i].bytes);
		from += word->clusters[i].glyphs;
		byte += word->clusters[i].bytes;
	}
	for (i = 0; i < word->glyph_count; i++)
		pdf_font_use(font, word->glyphs[i].id, "\xEF\xBF\xBD", 3);
}

/* Shows a word and returns its advance. Plain words are kept: they read the
 * same at any size. */
static int
show_word(struct press *press, const struct shaped *word)
{
	GString *out = press->content;
	struct pen pen = {0, false, false};
	struct coded *coded;
	size_t from = out->len;

	if (word->index >= press->coded->len)
		g_ptr_array_set_size(press->coded, (gint)word->index + 1);
	coded = press->coded->pdata[word->index];
	if (coded != NULL) {
		g_string_append_len(out, coded->bytes, (gssize)coded->size);
		return coded->advance;
	}
	use_all(press, word);
	code_glyphs(press, word, out, &pen);
	if (pen.odd)
		return pen.x;
	coded = g_new(struct coded, 1);
	coded->size = out->len - from;
	coded->bytes = g_memdup2(out->str + from, coded->size);
	coded->advance = pen.x;
	press->coded->pdata[word->index] = coded;
	return pen.x;
}

void
pressing_forget_words(struct press *press)
{
	struct coded *coded;
	guint i;

	for (i = 0; i < press->coded->len; i++) {
		coded = press->coded->pdata[i];
		if (coded == NULL)
			continue;
		g_free(coded->bytes);
		g_free(coded);
	}
	g_ptr_array_free(press->coded, TRUE);
}

void
pressing_end_text(struct press *press)
{
	if (press->in_text)
		g_string_append(press->content, "ET\n");
	press->in_text = false;
}

static void
set_font(struct press *press, enum face face, double size)
{
	unsigned file = fonts_file(face);

	if (press->font == file + 1 && press->size == size)
		return;
	g_string_append_printf(press->content, "/F%u", file);
	pdf_number(press->content, size);
	g_string_append(press->content, " Tf\n");
	press->font = file + 1;
	press->size = size;
}

/* Begins an array at a place of the page. */
static void
begin_array(struct press *press, double x, double y)
{
	GString *out = press->content;

	if (!press->in_text) {
		g_string_append(out, "BT\n");
		press->line_x = press->line_y = 0;
	}
	press->in_text = true;
	/* What is written is rounded: the next step begins from there. */
	x = round(x * 100) / 100;
	y = round(pressing_y(press, y) * 100) / 100;
	pdf_number(out, x - press->line_x);
	pdf_number(out, y - press->line_y);
	press->line_x = x;
	press->line_y = y;
	g_string_append(out, " Td[");
}

static bool
goes_on(const struct piece *piece, const struct piece *next)
{
	return next->kind == PIECE_WORD && piece->face == next->face &&
		piece->ink == next->ink && piece->size == next->size &&
		piece->y == next->y &&
		next->says == NULL && piece->says == NULL &&
		piece->word->face == next->word->face &&
		piece->word->language == next->word->language;
}

static bool
is_foreign(const struct press *press, const struct shaped *word)
{
	const char *ours = press->imprint->language;

	return word->language != NULL &&
		(ours == NULL || strcmp(word->language, ours) != 0);
}

static void
show_space(struct press *press, enum face face, int *pen)
{
	struct pdf_font *font = press->fonts[fonts_file(face)];
	struct pen at = {0, false, false};
	uint32_t glyph;

	fonts_space(press->words, face, &glyph);
	pdf_font_use(font, glyph, " ", 1);
	append_glyph(press->content, &at, glyph);
	end_string(press->content, &at);
	*pen += pdf_font_width(font, glyph);
}

/* Moves on to `x` points from where the array began. */
static void
step(struct press *press, int *pen, double x)
{
	int to = (int)lround(x * 1000 / press->size);

	if (ABS(to - *pen) < 2)
		return;
	pdf_number(press->content, *pen - to);
	*pen = to;
}

uint32_t
pressing_words(struct press *press, const struct piece *pieces, uint32_t count,
	double x, double y)
{
	bool foreign = is_foreign(press, pieces->word);
	const char *says = pieces->says;
	const struct piece *piece;
	int pen = 0;
	uint32_t i;

	pressing_ink(press, pieces->ink);
	if (foreign) {
		g_string_append(press->content, "/Span<</Lang");
		pdf_text(press->content, pieces->word->language,
			strlen(pieces->word->language));
		g_string_append(press->content, ">>BDC\n");
	}
	if (says != NULL) {
		g_string_append(press->content, "/Span<</ActualText");
		pdf_text(press->content, says, strlen(says));
		g_string_append(press->content, ">>BDC\n");
	}
	set_font(press, pieces->word->face, (double)pieces->size);
	begin_array(press, x + (double)pieces->x, y + (double)pieces->y);
	for (i = 0; i < count; i++) {
		piece = &pieces[i];
		if (i > 0 && !goes_on(&pieces[i - 1], piece))
			break;
		step(press, &pen, (double)(piece->x - pieces->x));
		pen += show_word(press, piece->word);
		if (piece->spaced)
			show_space(press, piece->word->face, &pen);
	}
	g_string_append(press->content, "]TJ\n");
	if (says != NULL)
		g_string_append(press->content, "EMC\n");
	if (foreign)
		g_string_append(press->content, "EMC\n");
	return i;
}

void
pressing_page(struct press *press, const struct piece *piece, double x,
	double y)
{
	const struct spot *spot = places_find(press->places, piece->anchor);
	struct piece word = *piece;

	if (spot == NULL || spot->label == NULL)
		return;
	word.kind = PIECE_WORD;
	word.word = fonts_word(press->words, piece->face, NULL, spot->label,
		strlen(spot->label));
	if (piece->right)
		x += (double)piece->width -
			(double)(word.word->width * piece->size);
	word.x = word.y = 0;
	pressing_words(press, &word, 1, x, y);
}
