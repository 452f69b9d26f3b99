/*
 * Paper around the pages: marks for a printer who cuts, and sheets for people
 * who fold. A booklet has two pages on each side of a sheet; sheets that lie
 * inside one another make a gathering, and are folded and stitched together.
 */
#include <string.h>

#include "write/handbook/pressing.h"
#include "write/pdf/write.h"

/* More sheets than these do not fold well at home. */
enum { MOST_SHEETS = 10 };

/* Thickness of ordinary paper, 80 g to the square metre: each sheet pushes the
 * ones inside it out by so much (common practice: a tenth of a millimetre). */
#define CREEP (0.1 * 72 / 25.4)
#define NOTE_SIZE 5.0

void
pressing_box(GString *out, double left, double bottom, double width,
	double height)
{
	g_string_append_c(out, '[');
	pdf_number(out, left);
	pdf_number(out, bottom);
	pdf_number(out, left + width);
	pdf_number(out, bottom + height);
	g_string_append_c(out, ']');
}

static void
append_line(GString *out, double x1, double y1, double x2, double y2)
{
	pdf_number(out, x1);
	pdf_number(out, y1);
	g_string_append(out, " m");
	pdf_number(out, x2);
	pdf_number(out, y2);
	g_string_append(out, " l S\n");
}

void
pressing_crop_marks(struct press *press)
{
	double width = press->format->width, height = press->format->height;
	double near = BLEED + 1.5, far = MARGIN;
	GString *out = press->content;
	int side;

	pressing_mark(press, NULL);
	g_string_append(out, "1 0 0 1");
	pdf_number(out, press->shift);
	pdf_number(out, press->shift);
	g_string_append(out, " cm .25 w\n");
	for (side = 0; side < 2; side++) {
		append_line(out, side * width, -far, side * width, -near);
		append_line(out, side * width, height + near, side * width,
			height + far);
		append_line(out, -far, side * height, -near, side * height);
		append_line(out, width + near, side * height, width + far,
			side * height);
	}
}

void
pressing_keep_side(struct press *press)
{
	GString *entries = press->scratch;

	g_string_assign(entries, "/Type/XObject/Subtype/Form/BBox");
	/* As far as the fold, and to the paper's other edges. */
	pressing_box(entries, 0, 0, press->format->width,
		press->format->height);
	g_string_append(entries, "/Resources");
	pdf_reference(entries, press->resources);
	pdf_put_stream(press->pdf, press->page, entries->str,
		press->content->str, press->content->len);
}

struct side {
	guint left, right; /* pages; beyond the last one: none */
	double creep;	   /* towards the fold */
	const char *note;  /* at its foot, or NULL */
};

static void
append_half(struct press *press, GString *out, guint page, double x)
{
	if (page >= press->sides->len)
		return;
	g_string_append(out, "q 1 0 0 1");
	pdf_number(out, x);
	g_string_append_printf(out, " 0 cm/P%u Do Q\n", page);
}

/* Says at the foot of the fold what belongs together. */
static void
print_note(struct press *press, const char *note)
{
	char **words = g_strsplit(note, " ", 0);
	guint count = g_strv_length(words), i;
	struct piece *pieces = g_new0(struct piece, count);
	uint32_t glyph;
	double x = 0, space = fonts_space(press->words, FACE_LABEL, &glyph);

	for (i = 0; i < count; i++) {
		pieces[i].kind = PIECE_WORD;
		pieces[i].face = FACE_LABEL;
		pieces[i].size = (float)NOTE_SIZE;
		pieces[i].spaced = i + 1 < count;
		pieces[i].word = fonts_word(press->words, FACE_LABEL, NULL,
			words[i], strlen(words[i]));
		pieces[i].x = (float)x;
		pieces[i].width = (float)(pieces[i].word->width * NOTE_SIZE);
		x += (double)pieces[i].width + space * NOTE_SIZE;
	}
	pressing_words(press, pieces, count, press->format->width - x / 2,
		press->format->height - NOTE_SIZE);
	pressing_end_text(press);
	g_free(pieces);
	g_strfreev(words);
}

static void
put_side(struct press *press, const struct side *side)
{
	unsigned object = pdf_reserve(press->pdf);
	unsigned content = pdf_reserve(press->pdf);
	double width = press->format->width;
	GString *out = press->content;

	g_string_truncate(out, 0);
	press->inked = false;
	press->font = 0;
	if (side->note != NULL)
		print_note(press, side->note);
	append_half(press, out, side->left, side->creep);
	append_half(press, out, side->right, width - side->creep);
	pdf_put_stream(press->pdf, content, "", out->str, out->len);
	out = press->scratch;
	g_string_assign(out, "<</Type/Page/Parent");
	pdf_reference(out, press->page_tree);
	g_string_append(out, "/MediaBox");
	pressing_box(out, 0, 0, 2 * width, press->format->height);
	g_string_append(out, "/Resources");
	pdf_reference(out, press->resources);
	g_string_append(out, "/Contents");
	pdf_reference(out, content);
	g_string_append(out, ">>");
	pdf_put(press->pdf, object, out);
	g_array_append_val(press->pages, object);
}

/* Sheets from the outside in: the first page stands on the right of the front
 * of the outermost, and the last one on its left. */
static void
put_gathering(struct press *press, guint first, guint sheets,
	const char *note)
{
	guint last = first + 4 * sheets - 1, i;
	struct side front = {0}, back = {0};

	for (i = 0; i < sheets; i++) {
		front.left = last - 2 * i;
		front.right = first + 2 * i;
		back.left = first + 2 * i + 1;
		back.right = last - 2 * i - 1;
		front.creep = back.creep = i * CREEP;
		front.note = i == 0 ? note : NULL;
		put_side(press, &front);
		put_side(press, &back);
	}
}

void
pressing_sheets(struct press *press)
{
	guint sheets, gatherings, first = 0, i, size;
	char *note;

	press->sides = press->pages;
	press->pages = g_array_new(FALSE, FALSE, sizeof(unsigned));
	sheets = (press->sides->len + 3) / 4;
	gatherings = (sheets + MOST_SHEETS - 1) / MOST_SHEETS;
	for (i = 0; i < gatherings; i++) {
		size = (sheets * (i + 1)) / gatherings -
			(sheets * i) / gatherings;
		note = g_strdup_printf("Gathering %u of %u: this sheet and the "
			"%u that follow it, folded together", i + 1, gatherings,
			size - 1);
		put_gathering(press, first, size, note);
		g_free(note);
		first += 4 * size;
	}
}
