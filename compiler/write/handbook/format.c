/*
 * The formats. A5 is the default: it is the size of a book that goes into a
 * bag and lies open beside a table full of cards, it prints two to a sheet on
 * the A4 paper people have, and its measure of about seventy letters reads
 * well without columns. Sizes of paper are those of ISO 216.
 */
#include "write/handbook/format.h"

#include <string.h>

#define MM(length) ((length)*72.0 / 25.4)

static const struct format
	formats[] =
		{
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
				.styles =
					{
						[STYLE_BODY] = {FAMILY_TEXT,
							PLAIN, 9.4, 12, 0, 0,
							INK_BLACK, true},
						[STYLE_SMALL] = {FAMILY_TEXT,
							PLAIN, 8.2, 10, 0, 0,
							INK_BLACK, false},
						[STYLE_TABLE] = {FAMILY_LABEL,
							PLAIN, 8.2, 10, 0, 0,
							INK_BLACK, false},
						[STYLE_TABLE_HEAD] =
							{FAMILY_LABEL, BOLD,
								7.4, 10, 0, 0,
								INK_BLACK,
								false},
						[STYLE_CAPTION] = {FAMILY_TEXT,
							ITALIC, 9, 12, 6, 0,
							INK_BLACK, false},
						[STYLE_CALLOUT] = {FAMILY_TEXT,
							PLAIN, 9, 12, 0, 0,
							INK_BLACK, false},
						[STYLE_CODE] =
							{FAMILY_TEXT, CODE,
								7.4, 10, 0, 0,
								INK_BLACK, false},
						[STYLE_CONTENTS] =
							{FAMILY_TEXT, PLAIN,
								10, 12, 6, 0,
								INK_BLACK, false},
						[STYLE_CONTENTS_2] =
							{FAMILY_TEXT, PLAIN,
								8.8, 12, 0, 0,
								INK_BLACK,
								false},
						[STYLE_KICKER] =
							{FAMILY_LABEL, CAPS,
								10, 12, 0, 12,
								INK_ACCENT, false},
						[STYLE_CHAPTER] =
							{FAMILY_TEXT, PLAIN,
								25, 28, 0, 20,
								INK_BLACK,
								false},
						[STYLE_HEAD_1] =
							{FAMILY_TEXT, PLAIN,
								15, 18, 24, 6,
								INK_BLACK,
								false},
						[STYLE_HEAD_2] =
							{FAMILY_LABEL, BOLD,
								11.5, 14, 16, 6,
								INK_BLACK,
								false},
						[STYLE_HEAD_3] =
							{FAMILY_TEXT,
								ITALIC, 9.4, 12,
								6, 0, INK_BLACK,
								false},
						[STYLE_TITLE] = {FAMILY_TEXT,
							PLAIN, 34, 38, 0, 12,
							INK_BLACK, false},
						[STYLE_SUBTITLE] =
							{FAMILY_TEXT,
								ITALIC, 13,
								18, 0, 0,
								INK_BLACK,
								false},
						[STYLE_IMPRINT] =
							{FAMILY_LABEL, PLAIN,
								9, 12, 0, 0,
								INK_BLACK, false},
						[STYLE_RUNNING] =
							{FAMILY_LABEL, PLAIN,
								8, 10, 0, 0,
								INK_BLACK, false},
						[STYLE_GUIDE] = {FAMILY_LABEL,
							BOLD, 8.4, 10, 0, 0,
							INK_BLACK, false},
						[STYLE_FOLIO] = {FAMILY_LABEL,
							BOLD, 9, 10, 0, 0,
							INK_BLACK, false},
						[STYLE_TAB] =
							{FAMILY_LABEL, BOLD,
								10, 12, 0, 0,
								INK_PAPER,
								false},
					},
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
