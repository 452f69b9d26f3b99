/*
 * Pages, and slugs on them: what belongs together is printed in one go, with
 * one mark and one link.
 */
#include "write/handbook/press.h"

#include <string.h>

#include "write/handbook/pressing.h"
#include "write/pdf/write.h"

struct press *
press_open(FILE *out, struct fonts *fonts, const struct format *format,
	const struct places *places, const struct imprint *imprint,
	const struct printing *how)
{
	struct press *press = g_new0(struct press, 1);
	unsigned file;

	press->how = *how;

	press->pdf = pdf_open(out);
	press->tree = pdf_tree_new(press->pdf);
	press->words = fonts;
	press->format = format;
	press->places = places;
	press->imprint = imprint;
	press->shift = how->marks ? MARGIN : 0;
	press->resources = pdf_reserve(press->pdf);
	press->page_tree = pdf_reserve(press->pdf);
	press->fonts = g_new0(struct pdf_font *, fonts_files());
	for (file = 0; file < fonts_files(); file++)
		press->fonts[file] = pdf_font_new(press->pdf,
			fonts_font(fonts, file));
	press->drawings = g_hash_table_new(g_direct_hash, g_direct_equal);
	press->nodes = g_hash_table_new(g_direct_hash, g_direct_equal);
	press->coded = g_ptr_array_new();
	press->content = g_string_new(NULL);
	press->scratch = g_string_new(NULL);
	press->notes = g_array_new(FALSE, FALSE, sizeof(unsigned));
	press->pages = g_array_new(FALSE, FALSE, sizeof(unsigned));
	press->labels = g_ptr_array_new();
	press->anchors = g_array_new(FALSE, FALSE, sizeof(struct goal));
	press->outline = g_array_new(FALSE, FALSE,
		sizeof(struct outline_item));
	return press;
}

const char *
press_close(struct press *press)
{
	unsigned info, catalog = pressing_finish(press, &info);
	const char *why = pdf_close(press->pdf, catalog, info);

	if (press->why != NULL)
		why = press->why;
	pressing_forget_words(press);
	g_free(press->fonts);
	g_hash_table_destroy(press->drawings);
	g_hash_table_destroy(press->nodes);
	g_string_free(press->content, TRUE);
	g_string_free(press->scratch, TRUE);
	g_array_free(press->notes, TRUE);
	g_array_free(press->pages, TRUE);
	if (press->sides != NULL)
		g_array_free(press->sides, TRUE);
	g_ptr_array_free(press->labels, TRUE);
	g_array_free(press->anchors, TRUE);
	g_array_free(press->outline, TRUE);
	g_free(press);
	return why;
}

double
pressing_y(const struct press *press, double y)
{
	return press->format->height - y;
}

void
press_begin(struct press *press, const char *label)
{
	press->page = pdf_reserve(press->pdf);
	g_array_append_val(press->pages, press->page);
	g_ptr_array_add(press->labels, (gpointer)(uintptr_t)label);
	g_string_truncate(press->content, 0);
	g_array_set_size(press->notes, 0);
	press->parents = pdf_tree_page(press->tree, press->page);
	press->inked = false;
	press->font = 0;
	if (press->how.marks)
		pressing_crop_marks(press);
}

/* Trim and bleed are told to the printer's programs (14.11.2). */
static void
append_boxes(struct press *press, GString *body)
{
	double width = press->format->width, height = press->format->height;

	g_string_append(body, "/MediaBox");
	pressing_box(body, 0, 0, width + 2 * press->shift,
		height + 2 * press->shift);
	if (!press->how.marks)
		return;
	g_string_append(body, "/BleedBox");
	pressing_box(body, press->shift - BLEED, press->shift - BLEED,
		width + 2 * BLEED, height + 2 * BLEED);
	g_string_append(body, "/TrimBox");
	pressing_box(body, press->shift, press->shift, width, height);
}

void
press_end(struct press *press)
{
	GString *body = press->scratch;
	unsigned content;
	guint i;

	pressing_close_mark(press);
	if (press->how.booklet) {
		pressing_keep_side(press);
		return;
	}
	content = pdf_reserve(press->pdf);
	pdf_put_stream(press->pdf, content, "", press->content->str,
		press->content->len);
	g_string_assign(body, "<</Type/Page/Parent");
	pdf_reference(body, press->page_tree);
	append_boxes(press, body);
	g_string_append(body, "/Resources");
	pdf_reference(body, press->resources);
	g_string_append(body, "/Contents");
	pdf_reference(body, content);
	if (press->notes->len > 0)
		g_string_append(body, "/Annots[");
	for (i = 0; i < press->notes->len; i++)
		pdf_reference(body, g_array_index(press->notes, unsigned, i));
	g_string_append(body, press->notes->len > 0 ? "]" : "");
	g_string_append_printf(body, "/Tabs/S/StructParents %u>>",
		press->parents);
	pdf_put(press->pdf, press->page, body);
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
			i += pressing_words(press, piece, count - i, x, y);
			continue;
		case PIECE_PAGE:
			pressing_page(press, piece, px, py);
			break;
		case PIECE_FILL:
			pressing_fill(press, piece, px, py);
			break;
		case PIECE_DRAWING:
			pressing_drawing(press, piece, px, py);
			break;
		case PIECE_LEADER:
			pressing_leader(press, piece, px, py);
			break;
		}
		i++;
	}
}

/* Prints pieces of one element: all that share a link are one area. */
static void
print_chain(struct press *press, const struct element *element,
	const struct piece *pieces, uint32_t count, double x, double y)
{
	const struct piece *first, *last;
	uint32_t i, from = 0;
	double size;

	for (i = 1; i <= count; i++) {
		first = &pieces[from];
		last = &pieces[i - 1];
		if (i < count && same_link(first, &pieces[i]) &&
			first->y == pieces[i].y)
			continue;
		size = (double)first->size;
		if (leads_somewhere(press, first->link))
			pressing_link(press, element, first->link,
				x + (double)first->x,
				y + (double)first->y - 0.85 * size,
				(double)(last->x + last->width - first->x),
				1.15 * size);
		else
			pressing_mark(press, element);
		print_pieces(press, first, i - from, x, y);
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

	for (i = 0; i <= slug->piece_count; i++) {
		next = element;
		if (i < slug->piece_count && has_element(&pieces[i]))
			next = pieces[i].element != NULL ? pieces[i].element :
							   slug->element;
		if (i < slug->piece_count && next == element)
			continue;
		if (i > from)
			print_chain(press, element, &pieces[from], i - from, x,
				y);
		element = next;
		from = i;
	}
}

void
press_again(struct press *press, const struct slug *slug, double x, double y)
{
	print_chain(press, NULL, slug->pieces, slug->piece_count, x, y);
}

void
press_anchor(struct press *press, const char *name, double x, double y)
{
	struct goal goal = {name, press->page, x + press->shift,
		pressing_y(press, y) + press->shift};

	g_array_append_val(press->anchors, goal);
}

void
press_outline(struct press *press, const char *title, const char *anchor,
	unsigned level)
{
	struct outline_item item = {title, anchor, level};

	g_array_append_val(press->outline, item);
}
