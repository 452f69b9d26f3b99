/*
 * The formats. A5 is the default: it is the size of a book that goes into a
 * bag and lies open beside a table full of cards, it prints two to a sheet on
 * the A4 paper people have, and its measure of about seventy letters reads
 * well without columns. Sizes of paper are those of ISO 216.
 */
#include "write/handbook/format.h"

#include <string.h>

#define MM(length) ((length)*72.0 / 25.4)

#define TEXT FAMILY_TEXT
#define LABEL FAMILY_LABEL
#define BLACK INK_BLACK
#define ACCENT INK_ACCENT
#define PAPER INK_PAPER

/* clang-format off */
static const struct style_spec a5[STYLE_COUNT] = {
	/*                    family  emphasis size leading before after
	 *                    ink    justified  rule */
	[STYLE_BODY] =       {TEXT,  PLAIN,   9.4,  12,    0,   0, BLACK, true, 0},
	[STYLE_SMALL] =      {TEXT,  PLAIN,   8.2,  10,    0,   0, BLACK, false, 0},
	[STYLE_DETAILS] =    {LABEL, PLAIN,   7.6,  10,    2,   2, BLACK, false, 0},
	[STYLE_TABLE] =      {LABEL, PLAIN,   8.2,  10,    0,   0, BLACK, false, 0},
	[STYLE_TABLE_HEAD] = {LABEL, BOLD,    7.4,  10,    0,   0, BLACK, false, 0},
	[STYLE_CAPTION] =    {TEXT,  ITALIC,  9,    12,    6,   0, BLACK, false, 0},
	[STYLE_CALLOUT] =    {TEXT,  PLAIN,   9,    12,    0,   0, BLACK, false, 0},
	[STYLE_CODE] =       {LABEL, PLAIN,   7.8,  10,    0,   0, BLACK, false, 0},
	[STYLE_CONTENTS] =   {TEXT,  PLAIN,  10,    12,    1,   0, BLACK, false, 0},
	[STYLE_CONTENTS_2] = {LABEL, PLAIN,   8,    10,    0,   0, BLACK, false, 0},
	[STYLE_KICKER] =     {LABEL, CAPS,   10,    12,    0,  12, ACCENT, false, 0},
	[STYLE_CHAPTER] =    {TEXT,  PLAIN,  25,    28,    0,  20, BLACK, false, 0},
	[STYLE_ENTRY] =      {LABEL, BOLD,   13,    20,   14,   2, BLACK, false, 0.5},
	[STYLE_HEAD_1] =     {TEXT,  PLAIN,  15,    18,   24,   6, BLACK, false, 0},
	[STYLE_HEAD_2] =     {LABEL, BOLD,   11,    14,   16,   6, BLACK, false, 0},
	[STYLE_HEAD_3] =     {TEXT,  ITALIC,  9.4,  12,    6,   0, BLACK, false, 0},
	[STYLE_TITLE] =      {TEXT,  PLAIN,  34,    38,    0,  12, BLACK, false, 0},
	[STYLE_SUBTITLE] =   {TEXT,  ITALIC, 13,    18,    0,   0, BLACK, false, 0},
	[STYLE_IMPRINT] =    {LABEL, PLAIN,   9,    12,    0,   0, BLACK, false, 0},
	[STYLE_RUNNING] =    {LABEL, PLAIN,   8,    10,    0,   0, BLACK, false, 0},
	[STYLE_GUIDE] =      {LABEL, BOLD,    8.4,  10,    0,   0, BLACK, false, 0},
	[STYLE_FOLIO] =      {LABEL, BOLD,    9,    10,    0,   0, BLACK, false, 0},
	[STYLE_TAB] =        {LABEL, BOLD,   10,    12,    0,   0, PAPER, false, 0},
};
/* clang-format on */

static const struct format formats[] = {
	{
		.name = "a5",
		.width = MM(148),
		.height = MM(210),
		.inner = MM(18),
		.outer = MM(16),
		.top = MM(21.5),
		.grid = 12,
		.lines = 40,
		.gap = 14,
		.running = MM(14.6),
		.folio = MM(200),
		.tab_width = MM(6.5),
		.tab_height = MM(13),
		.styles = a5,
	},
};

const struct format *
format_find(const char *name)
{
	size_t i;

	for (i = 0; i < sizeof(formats) / sizeof(*formats); i++) {
		if (strcmp(formats[i].name, name) == 0)
			return &formats[i];
	}
	return NULL;
}

const struct format *
format_default(void)
{
	return &formats[0];
}

double
format_measure(const struct format *format)
{
	return format->width - format->inner - format->outer;
}

double
format_depth(const struct format *format)
{
	return format->grid * format->lines;
}

enum face
format_face(const struct style_spec *spec, unsigned emphasis)
{
	unsigned all = spec->emphasis | emphasis;

	/* Italic within italic stands out by standing upright. */
	if ((spec->emphasis & ITALIC) && (emphasis & ITALIC))
		all &= ~(unsigned)ITALIC;
	if (all & CODE)
		return FACE_LABEL;
	if (all & CAPS)
		return spec->family == FAMILY_TEXT ? FACE_TEXT_CAPS :
						     FACE_LABEL_CAPS;
	if (spec->family == FAMILY_LABEL) {
		if (all & BOLD)
			return FACE_LABEL_BOLD;
		return all & ITALIC ? FACE_LABEL_ITALIC : FACE_LABEL;
	}
	if (all & BOLD)
		return all & ITALIC ? FACE_TEXT_BOLD_ITALIC : FACE_TEXT_BOLD;
	return all & ITALIC ? FACE_TEXT_ITALIC : FACE_TEXT;
}
