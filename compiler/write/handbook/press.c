/*
 * Cairo's PDF surface behind our own pieces. Words that stand side by side in
 * one face and size are shown by one call, with the spaces between them, so
 * that text copied from the page reads as it was written.
 */
#include "write/handbook/press.h"

#include <cairo-ft.h>
#include <cairo-pdf.h>
#include <ft2build.h>
#include <glib.h>
#include <string.h>

#include FT_FREETYPE_H
#include FT_MODULE_H

/* Deep enough for our outline, and for lists within lists. */
enum { LEVELS = 8, DEEPEST = 48 };

struct press {
	FILE *out;
	cairo_surface_t *surface;
	cairo_t *cairo;
	FT_Library library;
	cairo_font_face_t *faces[FACE_COUNT];
	cairo_scaled_font_t *scaled; /* what is set now */
	GHashTable *fonts;	     /* face and size -> cairo_scaled_font_t */
	struct fonts *words;
	const struct format *format;
	const struct places *places;
	GArray *glyphs;	  /* cairo_glyph_t of the run being gathered */
	GArray *clusters; /* cairo_text_cluster_t */
	GString *text;
	GString *attributes;
	double space[FACE_COUNT];
	uint32_t space_glyph[FACE_COUNT];
	int outline[LEVELS];
	const struct element *open[DEEPEST]; /* from the root down */
	unsigned depth;			     /* how many of them */
	const char *why;
};

static const struct {
	double red, green, blue;
} inks[INK_COUNT] = {
	[INK_BLACK] = {0, 0, 0},
	[INK_GREY] = {0.38, 0.38, 0.38},
	[INK_ACCENT] = {0.60, 0.20, 0.10},
	[INK_PALE] = {0.72, 0.70, 0.68},
	[INK_PAPER] = {1, 1, 1},
};

static cairo_status_t
write_bytes(void *closure, const unsigned char *bytes, unsigned size)
{
	if (fwrite(bytes, 1, size, closure) != size)
		return CAIRO_STATUS_WRITE_ERROR;
	return CAIRO_STATUS_SUCCESS;
}

/* Cairo puts the hour of printing where it is told nothing else. */
static void
set_metadata(struct press *press, const struct imprint *imprint)
{
	const struct {
		cairo_pdf_metadata_t key;
		const char *text;
	} all[] = {
		{CAIRO_PDF_METADATA_TITLE, imprint->title},
		{CAIRO_PDF_METADATA_AUTHOR, imprint->author},
		{CAIRO_PDF_METADATA_SUBJECT, imprint->subject},
		{CAIRO_PDF_METADATA_KEYWORDS, imprint->keywords},
		{CAIRO_PDF_METADATA_CREATOR, imprint->creator},
		{CAIRO_PDF_METADATA_CREATE_DATE, imprint->date},
		{CAIRO_PDF_METADATA_MOD_DATE, imprint->date},
	};
	size_t i;

	for (i = 0; i < G_N_ELEMENTS(all); i++) {
		if (all[i].text != NULL)
			cairo_pdf_surface_set_metadata(press->surface,
				all[i].key, all[i].text);
	}
}

static void
close_file(void *file)
{
	FT_Library library = ((FT_Face)file)->glyph->library;

	FT_Done_Face(file);
	FT_Done_Library(library);
}

/*
 * Cairo caches fonts for as long as it likes, so the file closes with its last
 * reference to the face, and the library with the last file.
 */
static cairo_font_face_t *
open_face(struct press *press, enum face face)
{
	static const cairo_user_data_key_t key;
	const char *path = fonts_path(press->words, face);
	cairo_font_face_t *made;
	FT_Face file;

	if (FT_New_Face(press->library, path, 0, &file)) {
		press->why = "a font cannot be read";
		return NULL;
	}
	FT_Reference_Library(press->library);
	made = cairo_ft_font_face_create_for_ft_face(file, FT_LOAD_NO_HINTING);
	if (cairo_font_face_set_user_data(made, &key, file, close_file)) {
		close_file(file);
		press->why = "memory ran out";
	}
	return made;
}

static void
open_faces(struct press *press)
{
	int face;

	for (face = 0; face < FACE_COUNT && press->why == NULL; face++) {
		press->space[face] = fonts_space(press->words, face,
			&press->space_glyph[face]);
		press->faces[face] = open_face(press, face);
	}
}

static void
destroy_font(gpointer font)
{
	cairo_scaled_font_destroy(font);
}

struct press *
press_open(FILE *out, struct fonts *fonts, const struct format *format,
	const struct places *places, const struct imprint *imprint)
{
	struct press *press = g_new0(struct press, 1);

	press->out = out;
	press->words = fonts;
	press->format = format;
	press->places = places;
	press->glyphs = g_array_new(FALSE, FALSE, sizeof(cairo_glyph_t));
	press->clusters = g_array_new(FALSE, FALSE,
		sizeof(cairo_text_cluster_t));
	press->text = g_string_new(NULL);
	press->attributes = g_string_new(NULL);
	press->fonts = g_hash_table_new_full(g_direct_hash, g_direct_equal,
		NULL, destroy_font);
	press->surface = cairo_pdf_surface_create_for_stream(write_bytes, out,
		format->width, format->height);
	cairo_pdf_surface_restrict_to_version(press->surface,
		CAIRO_PDF_VERSION_1_5);
	press->cairo = cairo_create(press->surface);
	cairo_set_fill_rule(press->cairo, CAIRO_FILL_RULE_EVEN_ODD);
	set_metadata(press, imprint);
	cairo_tag_begin(press->cairo, "Document", NULL);
	if (FT_Init_FreeType(&press->library) == 0)
		open_faces(press);
	else
		press->why = "the font library does not start";
	return press;
}

static void
close_faces(struct press *press)
{
	int face;

	g_hash_table_destroy(press->fonts);
	for (face = 0; face < FACE_COUNT; face++) {
		if (press->faces[face] != NULL)
			cairo_font_face_destroy(press->faces[face]);
	}
	FT_Done_Library(press->library);
}

const char *
press_close(struct press *press)
{
	const char *why = press->why;
	cairo_status_t status;

	cairo_tag_end(press->cairo, "Document");
	status = cairo_status(press->cairo);
	cairo_destroy(press->cairo);
	cairo_surface_finish(press->surface);
	if (status == CAIRO_STATUS_SUCCESS)
		status = cairo_surface_status(press->surface);
	if (why == NULL && status != CAIRO_STATUS_SUCCESS)
		why = cairo_status_to_string(status);
	cairo_surface_destroy(press->surface);
	close_faces(press);
	g_array_free(press->glyphs, TRUE);
	g_array_free(press->clusters, TRUE);
	g_string_free(press->text, TRUE);
	g_string_free(press->attributes, TRUE);
	g_free(press);
	return why;
}

static void
close_elements(struct press *press, unsigned depth)
{
	while (press->depth > depth)
		cairo_tag_end(press->cairo, press->open[--press->depth]->tag);
}

static void
set_element(struct press *press, const struct element *element)
{
	const struct element *path[DEEPEST], *at;
	unsigned count = 0, same = 0;

	for (at = element; at != NULL && count < DEEPEST; at = at->parent)
		count++;
	for (at = element; at != NULL && count > 0; at = at->parent)
		path[--count] = at;
	for (at = element; at != NULL && count < DEEPEST; at = at->parent)
		count++;
	while (same < count && same < press->depth &&
		path[same] == press->open[same])
		same++;
	close_elements(press, same);
	for (; press->depth < count; press->depth++) {
		press->open[press->depth] = path[press->depth];
		cairo_tag_begin(press->cairo, path[press->depth]->tag, NULL);
	}
}

void
press_begin(struct press *press, const char *label)
{
	cairo_pdf_surface_set_page_label(press->surface, label);
	press->scaled = NULL;
}

void
press_end(struct press *press)
{
	close_elements(press, 0);
	cairo_show_page(press->cairo);
}

static void
set_ink(struct press *press, enum ink ink)
{
	cairo_set_source_rgb(press->cairo, inks[ink].red, inks[ink].green,
		inks[ink].blue);
}

/* Sizes are few and come in hundredths of a point. */
static void
set_font(struct press *press, enum face face, double size)
{
	unsigned hundredths = (unsigned)(size * 100 + 0.5);
	gpointer key = GUINT_TO_POINTER(hundredths * FACE_COUNT + face);
	cairo_scaled_font_t *font = g_hash_table_lookup(press->fonts, key);
	cairo_font_options_t *options;
	cairo_matrix_t scale, plain;

	if (font == NULL) {
		options = cairo_font_options_create();
		cairo_font_options_set_hint_style(options,
			CAIRO_HINT_STYLE_NONE);
		cairo_font_options_set_hint_metrics(options,
			CAIRO_HINT_METRICS_OFF);
		cairo_matrix_init_scale(&scale, hundredths / 100.0,
			hundredths / 100.0);
		cairo_matrix_init_identity(&plain);
		font = cairo_scaled_font_create(press->faces[face], &scale,
			&plain, options);
		cairo_font_options_destroy(options);
		g_hash_table_insert(press->fonts, key, font);
	}
	if (font != press->scaled)
		cairo_set_scaled_font(press->cairo, font);
	press->scaled = font;
}

/* Appends the glyphs of a word at a place of the page. */
static void
gather(struct press *press, const struct shaped *word, double size, double x,
	double y)
{
	cairo_text_cluster_t cluster;
	cairo_glyph_t glyph;
	unsigned i;

	for (i = 0; i < word->glyph_count; i++) {
		glyph.index = word->glyphs[i].id;
		glyph.x = x + (double)word->glyphs[i].x * size;
		glyph.y = y + (double)word->glyphs[i].y * size;
		g_array_append_val(press->glyphs, glyph);
	}
	for (i = 0; i < word->cluster_count; i++) {
		cluster.num_bytes = word->clusters[i].bytes;
		cluster.num_glyphs = word->clusters[i].glyphs;
		g_array_append_val(press->clusters, cluster);
	}
	g_string_append_len(press->text, word->text, word->size);
}

static void
gather_space(struct press *press, enum face face, double x, double y)
{
	cairo_text_cluster_t cluster = {1, 1};
	cairo_glyph_t glyph = {press->space_glyph[face], x, y};

	g_array_append_val(press->glyphs, glyph);
	g_array_append_val(press->clusters, cluster);
	g_string_append_c(press->text, ' ');
}

static void
show(struct press *press, bool backward)
{
	if (press->glyphs->len > 0)
		cairo_show_text_glyphs(press->cairo, press->text->str,
			(int)press->text->len,
			(const cairo_glyph_t *)(void *)press->glyphs->data,
			(int)press->glyphs->len,
			(const cairo_text_cluster_t *)(void *)
				press->clusters->data,
			(int)press->clusters->len,
			backward ? CAIRO_TEXT_CLUSTER_FLAG_BACKWARD : 0);
	g_array_set_size(press->glyphs, 0);
	g_array_set_size(press->clusters, 0);
	g_string_truncate(press->text, 0);
}

static bool
goes_on(const struct piece *piece, const struct piece *next)
{
	return piece->kind == PIECE_WORD && next->kind == PIECE_WORD &&
		piece->face == next->face && piece->ink == next->ink &&
		piece->size == next->size && piece->y == next->y &&
		!piece->word->backward && !next->word->backward;
}

/* Prints words from `pieces` on that make one run. Returns how many. */
static uint32_t
print_words(struct press *press, const struct piece *pieces, uint32_t count,
	double x, double y)
{
	const struct piece *piece;
	uint32_t i;

	set_font(press, pieces->face, (double)pieces->size);
	set_ink(press, pieces->ink);
	for (i = 0; i < count; i++) {
		piece = &pieces[i];
		if (i > 0 && !goes_on(&pieces[i - 1], piece))
			break;
		gather(press, piece->word, (double)piece->size,
			x + (double)piece->x, y + (double)piece->y);
		if (piece->spaced)
			gather_space(press, piece->face,
				x + (double)piece->x + (double)piece->width,
				y + (double)piece->y);
	}
	show(press, pieces->word->backward);
	return i;
}

static void
print_page(struct press *press, const struct piece *piece, double x, double y)
{
	const struct spot *spot = places_find(press->places, piece->anchor);
	const struct shaped *word;

	if (spot == NULL || spot->label == NULL)
		return;
	word = fonts_word(press->words, piece->face, NULL, spot->label,
		strlen(spot->label));
	if (piece->right)
		x += (double)piece->width - (double)(word->width * piece->size);
	set_font(press, word->face, (double)piece->size);
	set_ink(press, piece->ink);
	gather(press, word, (double)piece->size, x, y);
	if (piece->spaced)
		gather_space(press, word->face,
			x + (double)(word->width * piece->size), y);
	show(press, false);
}

/* Dots stand at the same places in all lines, whatever they lead from. They
 * are drawn, so that they are not read aloud or copied. */
static void
print_leader(struct press *press, const struct piece *piece, double x, double y)
{
	double pitch = 0.55 * (double)piece->size, radius, at;
	double end = x + (double)piece->width;

	radius = 0.045 * (double)piece->size;
	set_ink(press, INK_GREY);
	cairo_set_line_cap(press->cairo, CAIRO_LINE_CAP_ROUND);
	cairo_set_line_width(press->cairo, 2 * radius);
	for (at = pitch * (double)(long)(x / pitch + 1); at < end;
		at += pitch) {
		cairo_move_to(press->cairo, at, y - radius);
		cairo_close_path(press->cairo);
	}
	cairo_stroke(press->cairo);
	cairo_set_line_cap(press->cairo, CAIRO_LINE_CAP_BUTT);
}

static void
print_drawing(struct press *press, const struct piece *piece, double x,
	double y)
{
	const struct stroke *strokes = piece->drawing->strokes, *s;
	double size = (double)piece->size;
	cairo_t *cairo = press->cairo;
	unsigned i;

	cairo_new_path(cairo);
	for (i = 0; i < piece->drawing->count; i++) {
		s = &strokes[i];
#define AT(n) x + size *(double)s->x##n, y + size *(double)s->y##n
		switch (s->kind) {
		case STROKE_MOVE:
			cairo_move_to(cairo, AT(1));
			break;
		case STROKE_LINE:
			cairo_line_to(cairo, AT(1));
			break;
		case STROKE_CURVE:
			cairo_curve_to(cairo, AT(1), AT(2), AT(3));
			break;
		case STROKE_CLOSE:
			cairo_close_path(cairo);
			break;
		case STROKE_DRAW:
			set_ink(press, s->ink);
			cairo_set_line_width(cairo, size * (double)s->x1);
			cairo_stroke(cairo);
			break;
		case STROKE_FILL:
			set_ink(press, s->ink);
			cairo_fill(cairo);
			break;
		}
#undef AT
	}
}

/* Attribute values stand in single quotes. */
static void
append_quoted(GString *out, const char *text)
{
	g_string_append_c(out, '\'');
	for (; *text != '\0'; text++) {
		if (*text == '\'' || *text == '\\')
			g_string_append_c(out, '\\');
		g_string_append_c(out, *text);
	}
	g_string_append_c(out, '\'');
}

static void
append_number(GString *out, double number)
{
	char text[G_ASCII_DTOSTR_BUF_SIZE];

	g_string_append_c(out, ' ');
	g_string_append(out,
		g_ascii_formatd(text, sizeof(text), "%.2f", number));
}

/* Begins a link around what is printed next; its area is given, so that it
 * is as high as the line and not as its ink. */
static void
begin_link(struct press *press, const char *link, double x, double y,
	double width, double height)
{
	bool inside = link[0] == '#';

	g_string_assign(press->attributes, inside ? "dest=" : "uri=");
	append_quoted(press->attributes, inside ? link + 1 : link);
	g_string_append(press->attributes, " rect=[");
	append_number(press->attributes, x);
	append_number(press->attributes, y);
	append_number(press->attributes, width);
	append_number(press->attributes, height);
	g_string_append(press->attributes, "]");
	cairo_tag_begin(press->cairo, CAIRO_TAG_LINK, press->attributes->str);
}

static bool
leads_somewhere(const struct press *press, const char *link)
{
	return link != NULL &&
		(link[0] != '#' ||
			places_find(press->places, link + 1) != NULL);
}

static bool
same_link(const struct piece *one, const struct piece *two)
{
	return one->link == two->link ||
		(one->link != NULL && two->link != NULL &&
			strcmp(one->link, two->link) == 0);
}

/* Prints pieces of one element and one link. */
static void
print_pieces(struct press *press, const struct piece *pieces, uint32_t count,
	double x, double y)
{
	const struct piece *piece;
	double px, py;
	uint32_t i = 0;

	while (i < count) {
		piece = &pieces[i];
		px = x + (double)piece->x;
		py = y + (double)piece->y;
		switch (piece->kind) {
		case PIECE_WORD:
			i += print_words(press, piece, count - i, x, y);
			continue;
		case PIECE_PAGE:
			print_page(press, piece, px, py);
			break;
		case PIECE_FILL:
			set_ink(press, piece->ink);
			cairo_rectangle(press->cairo, px, py,
				(double)piece->width, (double)piece->size);
			cairo_fill(press->cairo);
			break;
		case PIECE_DRAWING:
			print_drawing(press, piece, px, py);
			break;
		case PIECE_LEADER:
			print_leader(press, piece, px, py);
			break;
		}
		i++;
	}
}

/* Prints pieces of one element: all that share a link are one area. */
static void
print_chain(struct press *press, const struct piece *pieces, uint32_t count,
	double x, double y, bool mixed)
{
	const struct piece *first, *last;
	uint32_t i, from = 0;
	double size;
	bool link;

	for (i = 1; i <= count; i++) {
		first = &pieces[from];
		last = &pieces[i - 1];
		if (i < count && same_link(first, &pieces[i]) &&
			first->y == pieces[i].y)
			continue;
		link = leads_somewhere(press, first->link);
		size = (double)first->size;
		if (link)
			begin_link(press, first->link, x + (double)first->x,
				y + (double)first->y - 0.85 * size,
				(double)(last->x + last->width - first->x),
				1.15 * size);
		else if (mixed)
			cairo_tag_begin(press->cairo, "Span", NULL);
		print_pieces(press, first, i - from, x, y);
		if (link || mixed)
			cairo_tag_end(press->cairo,
				link ? CAIRO_TAG_LINK : "Span");
		from = i;
	}
}

/* Rules and leaders belong to whatever they stand beside. */
static bool
has_element(const struct piece *piece)
{
	return piece->kind != PIECE_FILL && piece->kind != PIECE_LEADER;
}

void
press_slug(struct press *press, const struct slug *slug, double x, double y)
{
	const struct element *element = slug->element, *next;
	const struct piece *pieces = slug->pieces;
	uint32_t i, from = 0;

	if (press->why != NULL)
		return;
	for (i = 0; i <= slug->piece_count; i++) {
		next = element;
		if (i < slug->piece_count && has_element(&pieces[i]))
			next = pieces[i].element != NULL ? pieces[i].element :
							   slug->element;
		if (i < slug->piece_count && next == element)
			continue;
		if (i > from) {
			set_element(press, element);
			print_chain(press, &pieces[from], i - from, x, y,
				element != NULL && element->mixed);
		}
		element = next;
		from = i;
	}
}

void
press_anchor(struct press *press, const char *name, double x, double y)
{
	g_string_assign(press->attributes, "name=");
	append_quoted(press->attributes, name);
	g_string_append(press->attributes, " x=");
	append_number(press->attributes, x);
	g_string_append(press->attributes, " y=");
	append_number(press->attributes, y);
	cairo_tag_begin(press->cairo, CAIRO_TAG_DEST, press->attributes->str);
	cairo_tag_end(press->cairo, CAIRO_TAG_DEST);
}

void
press_outline(struct press *press, const char *title, const char *anchor,
	unsigned level)
{
	int parent = CAIRO_PDF_OUTLINE_ROOT;

	level = CLAMP(level, 1, LEVELS - 1);
	if (level > 1)
		parent = press->outline[level - 1];
	g_string_assign(press->attributes, "dest=");
	append_quoted(press->attributes, anchor);
	press->outline[level] = cairo_pdf_surface_add_outline(press->surface,
		parent, title, press->attributes->str, 0);
}
