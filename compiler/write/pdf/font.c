/*
 * Fonts are cut by HarfBuzz, which keeps the numbers of glyphs, so that pages
 * can be written before all of them are known. TrueType outlines go in as they
 * are, PostScript ones as their table alone.
 */
#include "write/pdf/font.h"

#include <hb-ot.h>
#include <hb-subset.h>
#include <math.h>
#include <string.h>

#include "write/pdf/write.h"

struct meaning {
	const char *text; /* NULL: the glyph is not used */
	unsigned size;
	int width; /* plus one; 0: not asked yet */
};

struct pdf_font {
	struct pdf *pdf;
	hb_font_t *font;
	hb_face_t *face;
	double unit; /* thousandths of an em to a unit of the font */
	struct meaning *glyphs;
	unsigned count;
	bool used;
	GString *body;
	char name[80];
};

/* Bits of a font's description (table 123). */
enum { FLAG_SYMBOLIC = 4, FLAG_ITALIC = 64 };

struct pdf_font *
pdf_font_new(struct pdf *pdf, hb_font_t *font)
{
	struct pdf_font *made = g_new0(struct pdf_font, 1);

	made->pdf = pdf;
	made->font = font;
	made->face = hb_font_get_face(font);
	made->unit = 1000.0 / hb_face_get_upem(made->face);
	made->count = hb_face_get_glyph_count(made->face);
	made->glyphs = g_new0(struct meaning, made->count);
	made->body = g_string_new(NULL);
	return made;
}

int
pdf_font_width(struct pdf_font *font, unsigned glyph)
{
	struct meaning *meaning = &font->glyphs[glyph];

	if (meaning->width == 0)
		meaning->width = 1 + (int)lround(font->unit *
			hb_font_get_glyph_h_advance(font->font, glyph));
	return meaning->width - 1;
}

bool
pdf_font_use(struct pdf_font *font, unsigned glyph, const char *text,
	size_t size)
{
	struct meaning *meaning = &font->glyphs[glyph];

	font->used = true;
	if (meaning->text == NULL) {
		meaning->text = text;
		meaning->size = (unsigned)size;
	}
	return meaning->size == size && memcmp(meaning->text, text, size) == 0;
}

/* Six letters before the name tell one cut of a font from another (9.6.4). */
static void
make_name(struct pdf_font *font)
{
	unsigned size = 64, i, hash = 2166136261u;
	char name[64] = "";

	for (i = 0; i < font->count; i++) {
		if (font->glyphs[i].text != NULL)
			hash = (hash ^ i) * 16777619u;
	}
	hb_ot_name_get_utf8(font->face, HB_OT_NAME_ID_POSTSCRIPT_NAME,
		HB_LANGUAGE_INVALID, &size, name);
	for (i = 0; i < 6; i++, hash /= 26)
		font->name[i] = (char)('A' + hash % 26);
	g_snprintf(font->name + 6, sizeof(font->name) - 6, "+%s", name);
}

static hb_face_t *
cut(const struct pdf_font *font)
{
	hb_subset_input_t *input = hb_subset_input_create_or_fail();
	hb_face_t *face = NULL;
	hb_set_t *glyphs;
	unsigned i;

	if (input == NULL)
		return NULL;
	hb_subset_input_set_flags(input,
		HB_SUBSET_FLAGS_RETAIN_GIDS | HB_SUBSET_FLAGS_NO_HINTING);
	glyphs = hb_subset_input_glyph_set(input);
	for (i = 0; i < font->count; i++) {
		if (font->glyphs[i].text != NULL)
			hb_set_add(glyphs, i);
	}
	/* Shaping is done: its tables would only pull in more glyphs. */
	hb_set_add(hb_subset_input_set(input, HB_SUBSET_SETS_DROP_TABLE_TAG),
		HB_TAG('G', 'S', 'U', 'B'));
	hb_set_add(hb_subset_input_set(input, HB_SUBSET_SETS_DROP_TABLE_TAG),
		HB_TAG('G', 'P', 'O', 'S'));
	hb_set_add(hb_subset_input_set(input, HB_SUBSET_SETS_DROP_TABLE_TAG),
		HB_TAG('G', 'D', 'E', 'F'));
	face = hb_subset_or_fail(font->face, input);
	hb_subset_input_destroy(input);
	return face;
}

/* The outlines as a stream; *key is the entry of the description for them. */
static unsigned
put_outlines(struct pdf_font *font, hb_face_t *face, bool postscript)
{
	hb_blob_t *blob = postscript ?
		hb_face_reference_table(face, HB_TAG('C', 'F', 'F', ' ')) :
		hb_face_reference_blob(face);
	unsigned object = pdf_reserve(font->pdf), size;
	const char *bytes = hb_blob_get_data(blob, &size);
	char entries[48];

	if (postscript)
		g_strlcpy(entries, "/Subtype/CIDFontType0C", sizeof(entries));
	else
		g_snprintf(entries, sizeof(entries), "/Length1 %u", size);
	pdf_put_stream(font->pdf, object, entries, bytes, size);
	hb_blob_destroy(blob);
	return object;
}

static double
metric(const struct pdf_font *font, hb_ot_metrics_tag_t tag, double other)
{
	hb_position_t position;

	if (!hb_ot_metrics_get_position(font->font, tag, &position))
		return other;
	return position * font->unit;
}

static unsigned
put_description(struct pdf_font *font, unsigned outlines, bool postscript)
{
	double ascent = metric(font, HB_OT_METRICS_TAG_HORIZONTAL_ASCENDER,
		800);
	double descent = metric(font, HB_OT_METRICS_TAG_HORIZONTAL_DESCENDER,
		-200);
	double slant = (double)hb_style_get_value(font->font,
		HB_STYLE_TAG_SLANT_ANGLE);
	bool bold = strstr(font->name, "Bold") != NULL ||
		strstr(font->name, "OB") != NULL;
	unsigned object = pdf_reserve(font->pdf);
	GString *body = font->body;

	g_string_printf(body,
		"<</Type/FontDescriptor/FontName/%s/Flags %d/StemV %d"
		"/FontBBox[-500",
		font->name, FLAG_SYMBOLIC | (slant < 0 ? FLAG_ITALIC : 0),
		bold ? 130 : 80);
	pdf_number(body, descent);
	g_string_append(body, " 1500");
	pdf_number(body, ascent);
	g_string_append(body, "]/ItalicAngle");
	pdf_number(body, slant);
	g_string_append(body, "/Ascent");
	pdf_number(body, ascent);
	g_string_append(body, "/Descent");
	pdf_number(body, descent);
	g_string_append(body, "/CapHeight");
	pdf_number(body, metric(font, HB_OT_METRICS_TAG_CAP_HEIGHT, 650));
	g_string_append(body, postscript ? "/FontFile3" : "/FontFile2");
	pdf_reference(body, outlines);
	g_string_append(body, ">>");
	pdf_put(font->pdf, object, body);
	return object;
}

/* Advances of used glyphs, neighbours in one list (9.7.4.3). */
static void
append_widths(struct pdf_font *font)
{
	bool open = false;
	unsigned i;

	g_string_append(font->body, "/W[");
	for (i = 0; i < font->count; i++) {
		if (font->glyphs[i].text == NULL) {
			if (open)
				g_string_append_c(font->body, ']');
			open = false;
			continue;
		}
		if (!open)
			g_string_append_printf(font->body, " %u[", i);
		open = true;
		pdf_number(font->body, pdf_font_width(font, i));
	}
	g_string_append(font->body, open ? "]]" : "]");
}

static unsigned
put_descendant(struct pdf_font *font, unsigned description, bool postscript)
{
	unsigned object = pdf_reserve(font->pdf);

	g_string_printf(font->body,
		"<</Type/Font/Subtype/CIDFontType%d/BaseFont/%s"
		"/CIDSystemInfo<</Registry(Adobe)/Ordering(Identity)"
		"/Supplement 0>>/FontDescriptor %u 0 R%s",
		postscript ? 0 : 2, font->name, description,
		postscript ? "" : "/CIDToGIDMap/Identity");
	append_widths(font);
	g_string_append(font->body, ">>");
	pdf_put(font->pdf, object, font->body);
	return object;
}

/* A hundred lines to a section is the most that a table may have (9.10.3). */
static unsigned
put_meanings(struct pdf_font *font)
{
	unsigned object = pdf_reserve(font->pdf), i, lines = 0;
	GString *section = g_string_new(NULL);

	g_string_assign(font->body,
		"/CIDInit/ProcSet findresource begin\n12 dict begin\n"
		"begincmap\n/CIDSystemInfo<</Registry(Adobe)/Ordering(UCS)"
		"/Supplement 0>>def\n/CMapName/Adobe-Identity-UCS def\n"
		"/CMapType 2 def\n1 begincodespacerange\n<0000><FFFF>\n"
		"endcodespacerange\n");
	for (i = 0; i < font->count; i++) {
		if (font->glyphs[i].text != NULL) {
			g_string_append_printf(section, "<%04X><", i);
			pdf_utf16(section, font->glyphs[i].text,
				font->glyphs[i].size);
			g_string_append(section, ">\n");
			lines++;
		}
		if (lines == 100 || (i + 1 == font->count && lines > 0)) {
			g_string_append_printf(font->body,
				"%u beginbfchar\n%sendbfchar\n", lines,
				section->str);
			g_string_truncate(section, 0);
			lines = 0;
		}
	}
	g_string_append(font->body,
		"endcmap\nCMapName currentdict/CMap defineresource pop\n"
		"end\nend\n");
	pdf_put_stream(font->pdf, object, "", font->body->str,
		font->body->len);
	g_string_free(section, TRUE);
	return object;
}

static unsigned
put_parts(struct pdf_font *font, hb_face_t *face)
{
	hb_blob_t *table = hb_face_reference_table(face,
		HB_TAG('C', 'F', 'F', ' '));
	bool postscript = hb_blob_get_length(table) > 0;
	unsigned object = pdf_reserve(font->pdf), outlines, descendant;
	unsigned meanings;

	hb_blob_destroy(table);
	make_name(font);
	outlines = put_outlines(font, face, postscript);
	descendant = put_descendant(font,
		put_description(font, outlines, postscript), postscript);
	meanings = put_meanings(font);
	g_string_printf(font->body,
		"<</Type/Font/Subtype/Type0/BaseFont/%s%s"
		"/Encoding/Identity-H/DescendantFonts[%u 0 R]"
		"/ToUnicode %u 0 R>>",
		font->name, postscript ? "-Identity-H" : "", descendant,
		meanings);
	pdf_put(font->pdf, object, font->body);
	return object;
}

unsigned
pdf_font_put(struct pdf_font *font, const char **why)
{
	hb_face_t *face = font->used ? cut(font) : NULL;
	unsigned object = 0;

	if (face != NULL)
		object = put_parts(font, face);
	else if (font->used)
		*why = "a font cannot be cut down to what is used";
	hb_face_destroy(face);
	g_free(font->glyphs);
	g_string_free(font->body, TRUE);
	g_free(font);
	return object;
}
