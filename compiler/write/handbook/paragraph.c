/*
 * Text becomes atoms here. White space of any length is one glue; a word is
 * cut where a line may end within it; each cut part is shaped by itself. Atoms
 * and parts are two arrays of the same length: what the line breaker needs,
 * and what the press needs.
 */
#include "write/handbook/paragraph.h"

#include <string.h>

#include "base/arena.h"
#include "write/handbook/hyphens.h"
#include "write/handbook/places.h"

/* Costs of ending a line within a word. */
#define AFTER_HYPHEN 60.0f
#define AFTER_DASH 30.0f
#define AFTER_SLASH 50.0f
#define AFTER_POINT 80.0f
#define ANYWHERE 400.0f
/* At a division that the text does not have; ragged lines need few of them, and
 * only of words so long that they leave a hole. */
#define DIVIDED 110.0f
#define DIVIDED_RAGGED 600.0f
#define LONG_RAGGED 12
/* Words longer than this may be cut after points, as in an address. */
#define LONG_WORD 24
/* No longer piece is given to the shaper. */
#define LONGEST 512
/* Glue, as shares of the space: how far it may give. */
#define STRETCH 0.5f
#define SHRINK 0.28f
/* Looser than this, a line is left short rather than full of holes. */
#define LOOSEST 2.5f

struct filler {
	struct paragraph *to;
	const struct run *run;
	const struct style_spec *spec;
	enum face face;
	double widest;
};

void
paragraph_init(struct paragraph *paragraph, struct arena *arena,
	struct fonts *fonts, struct hyphens *hyphens, struct places *places,
	const struct format *format)
{
	paragraph->arena = arena;
	paragraph->fonts = fonts;
	paragraph->hyphens = hyphens;
	paragraph->places = places;
	paragraph->format = format;
	paragraph->atoms = g_array_new(FALSE, TRUE, sizeof(struct atom));
	paragraph->parts = g_array_new(FALSE, TRUE, sizeof(struct piece));
	paragraph->lines = g_array_new(FALSE, TRUE, sizeof(struct line));
	paragraph->missing = g_ptr_array_new();
}

void
paragraph_release(struct paragraph *paragraph)
{
	g_array_free(paragraph->atoms, TRUE);
	g_array_free(paragraph->parts, TRUE);
	g_array_free(paragraph->lines, TRUE);
	g_ptr_array_free(paragraph->missing, TRUE);
}

static void
add_atom(struct filler *filler, struct atom atom, struct piece piece)
{
	g_array_append_val(filler->to->atoms, atom);
	g_array_append_val(filler->to->parts, piece);
}

static struct atom *
last_atom(const struct paragraph *paragraph)
{
	GArray *atoms = paragraph->atoms;

	return atoms->len == 0 ?
		NULL :
		&g_array_index(atoms, struct atom, atoms->len - 1);
}

static void
add_glue(struct filler *filler)
{
	const struct atom *last = last_atom(filler->to);
	struct piece none = {0};
	uint32_t glyph;
	float width;

	if (last == NULL || last->kind != ATOM_BOX)
		return;
	width = (float)(fonts_space(filler->to->fonts, filler->face, &glyph) *
		filler->spec->size);
	none.link = filler->run->link;
	add_atom(filler,
		(struct atom){ATOM_GLUE, width, width * STRETCH, width * SHRINK,
			0},
		none);
}

static void
add_penalty(struct filler *filler, float penalty)
{
	struct piece none = {0};

	add_atom(filler,
		(struct atom){.kind = ATOM_PENALTY, .penalty = penalty}, none);
}

/* Between neighbours that belong together there is room for a break, for the
 * case that together they are too wide. */
static void
add_box(struct filler *filler, struct piece piece)
{
	const struct atom *last = last_atom(filler->to);

	if (last != NULL && last->kind == ATOM_BOX)
		add_penalty(filler, LINES_NEVER);
	add_atom(filler, (struct atom){.kind = ATOM_BOX, .width = piece.width},
		piece);
}

/* Allows breaks within chains of boxes that are wider than a line. */
static void
loosen(struct paragraph *paragraph, double widest)
{
	struct atom *atoms = (struct atom *)(void *)paragraph->atoms->data;
	guint i, k, from = 0;
	double width = 0;

	for (i = 0; i <= paragraph->atoms->len; i++) {
		if (i < paragraph->atoms->len &&
			(atoms[i].kind == ATOM_BOX ||
				(atoms[i].kind == ATOM_PENALTY &&
					atoms[i].penalty >= LINES_NEVER))) {
			width += atoms[i].width;
			continue;
		}
		for (k = from; k < i && width > widest; k++) {
			if (atoms[k].kind == ATOM_PENALTY)
				atoms[k].penalty = ANYWHERE;
		}
		from = i + 1;
		width = 0;
	}
}

static struct piece
make_piece(const struct filler *filler, const struct shaped *word)
{
	struct piece piece = {.kind = PIECE_WORD};

	piece.ink = filler->spec->ink;
	piece.size = (float)filler->spec->size;
	piece.link = filler->run->link;
	piece.about = filler->run->about;
	piece.face = filler->face;
	if (word != NULL) {
		piece.word = word;
		piece.face = word->face;
		piece.width = (float)(word->width * filler->spec->size);
	}
	return piece;
}

/* A hyphen that is printed only where the line ends at it. One that the text
 * does not have is read as none. */
static void
add_hyphen(struct filler *filler, float penalty)
{
	struct piece piece = make_piece(filler,
		fonts_word(filler->to->fonts, filler->face,
			filler->run->language, "-", 1));

	piece.says = "\u00ad";
	add_atom(filler,
		(struct atom){.kind = ATOM_PENALTY,
			.width = piece.width,
			.penalty = penalty},
		piece);
}

/* A part of a word, up to a division or to its end. */
static struct piece
make_part(const struct filler *filler, const struct shaped *word,
	const struct cuts *cuts, unsigned i)
{
	size_t from = i == 0 ? 0 : cuts->at[i - 1];
	size_t to = i < cuts->count ? cuts->at[i] : word->size;

	return make_piece(filler,
		fonts_word(filler->to->fonts, filler->face,
			filler->run->language, word->text + from, to - from));
}

/* In a narrow column a part with its hyphen may still be too wide. */
static bool
parts_fit(const struct filler *filler, const struct shaped *word,
	const struct cuts *cuts)
{
	double room = filler->widest - 0.4 * filler->spec->size;
	unsigned i;

	for (i = 0; i <= cuts->count; i++) {
		if ((double)make_part(filler, word, cuts, i).width > room)
			return false;
	}
	return true;
}

/* Adds a word in the parts into which it may be divided; false: in none. */
static bool
add_parts(struct filler *filler, const struct shaped *word)
{
	bool justify = filler->spec->justify;
	struct cuts cuts;
	unsigned i;

	if (filler->run->emphasis & CODE ||
		(!justify && word->size < LONG_RAGGED))
		return false;
	cuts = hyphens_find(filler->to->hyphens, word);
	if (cuts.count == 0 || !parts_fit(filler, word, &cuts))
		return false;
	for (i = 0; i <= cuts.count; i++) {
		add_box(filler, make_part(filler, word, &cuts, i));
		if (i < cuts.count)
			add_hyphen(filler, justify ? DIVIDED : DIVIDED_RAGGED);
	}
	return true;
}

static void
add_word(struct filler *filler, const char *text, size_t size)
{
	const struct shaped *word = fonts_word(filler->to->fonts, filler->face,
		filler->run->language, text, size);
	struct piece piece = make_piece(filler, word);
	size_t from = 0, fits;

	if (word->missing && !g_ptr_array_find(filler->to->missing, word, NULL))
		g_ptr_array_add(filler->to->missing, (gpointer)(guintptr)word);
	if (add_parts(filler, word))
		return;
	if (piece.width <= filler->widest) {
		add_box(filler, piece);
		return;
	}
	while (from < size) {
		fits = fonts_fit(word, from,
			filler->widest / filler->spec->size);
		piece = make_piece(filler,
			fonts_word(filler->to->fonts, filler->face,
				filler->run->language, text + from, fits));
		add_box(filler, piece);
		from += fits;
	}
}

/*
 * May a line end between the character `left` and what follows, and at what
 * penalty? Labels and dates ("18-back", "1983-11") are kept whole: a hyphen
 * counts only between letters.
 */
static float
break_cost(gunichar before, gunichar left, gunichar right, size_t length)
{
	switch (left) {
	case '-':
	case 0x2010:
		if (g_unichar_isalpha(before) && g_unichar_isalpha(right))
			return AFTER_HYPHEN;
		return LINES_NEVER;
	case 0x2013:
	case 0x2014:
		return right == 0 || g_unichar_isdigit(right) ? LINES_NEVER :
								AFTER_DASH;
	case '/':
		return before != 0 && g_unichar_isalnum(right) ? AFTER_SLASH :
								 LINES_NEVER;
	case '.':
	case '_':
	case '&':
	case '=':
	case '?':
	case ',':
		return length > LONG_WORD && g_unichar_isalnum(right) ?
			AFTER_POINT :
			LINES_NEVER;
	default:
		return LINES_NEVER;
	}
}

/* A token holds no white space. */
static void
add_token(struct filler *filler, const char *text, size_t size)
{
	const char *end = text + size, *from = text, *at = text, *next;
	gunichar before = 0, left, right;
	float cost;

	for (; at < end; at = next) {
		left = g_utf8_get_char(at);
		next = at + g_utf8_skip[(unsigned char)*at];
		right = next < end ? g_utf8_get_char(next) : 0;
		if (left == 0xAD || left == 0x200B) {
			if (at > from)
				add_word(filler, from, (size_t)(at - from));
			if (left == 0xAD && at > text && next < end)
				add_hyphen(filler, AFTER_HYPHEN);
			else
				add_penalty(filler, 0);
			from = next;
			continue;
		}
		cost = break_cost(before, left, right, size);
		if (next < end &&
			(cost < LINES_NEVER || next - from >= LONGEST)) {
			add_word(filler, from, (size_t)(next - from));
			add_penalty(filler, MIN(cost, ANYWHERE));
			from = next;
		}
		before = left;
	}
	if (from < end)
		add_word(filler, from, (size_t)(end - from));
}

static bool
is_space(char c)
{
	return c == ' ' || c == '\n' || c == '\t' || c == '\r';
}

static void
add_text(struct filler *filler, const char *text, size_t size)
{
	const char *end = text + size, *from;

	while (text < end) {
		if (is_space(*text)) {
			add_glue(filler);
			text++;
			continue;
		}
		for (from = text; text < end && !is_space(*text); text++)
			continue;
		add_token(filler, from, (size_t)(text - from));
	}
}

static void
add_page(struct filler *filler)
{
	struct spot *spot = places_use(filler->to->places, filler->run->text);
	struct piece piece;
	const struct shaped *word;

	if (spot == NULL)
		return;
	word = fonts_word(filler->to->fonts, filler->face, NULL, spot->room,
		strlen(spot->room));
	piece = make_piece(filler, word);
	piece.kind = PIECE_PAGE;
	piece.anchor = spot->name;
	if (piece.link == NULL)
		piece.link = arena_print(filler->to->arena, "#%s", spot->name);
	add_box(filler, piece);
}

static void
add_symbol(struct filler *filler)
{
	struct piece piece = make_piece(filler, NULL);

	piece.kind = PIECE_DRAWING;
	piece.drawing = drawing_symbol(filler->run->symbol);
	piece.says = filler->run->text;
	piece.width = (float)(piece.drawing->width * piece.size);
	add_box(filler, piece);
}

static void
add_break(struct filler *filler)
{
	GArray *atoms = filler->to->atoms;
	const struct atom *last = last_atom(filler->to);

	if (last != NULL && last->kind == ATOM_GLUE) {
		g_array_set_size(atoms, atoms->len - 1);
		g_array_set_size(filler->to->parts, atoms->len);
	}
	add_penalty(filler, LINES_ALWAYS);
}

void
paragraph_fill(struct paragraph *paragraph, const struct run *runs,
	const struct style_spec *spec, double widest)
{
	struct filler filler = {.to = paragraph,
		.spec = spec,
		.widest = widest};

	g_array_set_size(paragraph->atoms, 0);
	g_array_set_size(paragraph->parts, 0);
	for (filler.run = runs; filler.run != NULL;
		filler.run = filler.run->next) {
		filler.face = format_face(spec, filler.run->emphasis);
		switch (filler.run->kind) {
		case RUN_TEXT:
			add_text(&filler, filler.run->text, filler.run->size);
			break;
		case RUN_PAGE:
			add_page(&filler);
			break;
		case RUN_SYMBOL:
			add_symbol(&filler);
			break;
		case RUN_BREAK:
			add_break(&filler);
			break;
		}
	}
	loosen(paragraph, widest);
}

double
paragraph_width(const struct paragraph *paragraph)
{
	const struct atom *atoms = (const struct atom *)(const void *)
					   paragraph->atoms->data;
	double width = 0;
	guint i;

	for (i = 0; i < paragraph->atoms->len; i++) {
		if (atoms[i].kind != ATOM_PENALTY)
			width += atoms[i].width;
	}
	return width;
}

void
paragraph_break(struct paragraph *paragraph, const struct measure *measure)
{
	g_array_set_size(paragraph->lines, 0);
	lines_break((const struct atom *)(const void *)paragraph->atoms->data,
		paragraph->atoms->len, measure, paragraph->lines);
}

/* What a space is set to in a line. */
static double
glue_width(const struct atom *atom, const struct line *line)
{
	if (line->ratio < 0)
		return atom->width + atom->shrink * (double)line->ratio;
	return atom->width + atom->stretch * (double)MIN(line->ratio, LOOSEST);
}

const struct piece *
paragraph_line(const struct paragraph *paragraph, const struct line *line,
	double x, double y, double room, enum align align, uint32_t *count)
{
	struct piece *pieces = arena_array(paragraph->arena, struct piece,
		line->to - line->from + 1);
	const struct atom *atom = NULL;
	uint32_t i, n = 0;

	if (align != ALIGN_LEFT)
		x += (room - line->width) / (align == ALIGN_CENTRE ? 2 : 1);
	for (i = line->from; i <= line->to && i < paragraph->atoms->len; i++) {
		atom = &g_array_index(paragraph->atoms, struct atom, i);
		if (i == line->to && !(line->broken && atom->width > 0))
			break;
		if (atom->kind == ATOM_GLUE) {
			if (n > 0)
				pieces[n - 1].spaced = i + 1 < line->to;
			x += glue_width(atom, line);
			continue;
		}
		if (atom->kind == ATOM_PENALTY && i < line->to)
			continue;
		pieces[n] = g_array_index(paragraph->parts, struct piece, i);
		pieces[n].x = (float)x;
		pieces[n].y = (float)y;
		x += pieces[n].width;
		n++;
	}
	/* The space that a break takes away is still one to who listens. */
	if (n > 0 && i == line->to && i < paragraph->atoms->len &&
		atom->kind == ATOM_GLUE)
		pieces[n - 1].spaced = true;
	*count = n;
	return pieces;
}
