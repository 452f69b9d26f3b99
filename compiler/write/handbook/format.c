/*
 * The formats, each laid out for itself: a larger page has larger type and more
 * columns and not a larger picture of the same. A5 is the default: it is the
 * size of a book that goes into a bag and lies open beside a table full of
 * cards, it prints two to a sheet on the A4 paper people have, and its measure
 * of about seventy letters reads well without columns. Sizes of paper are those
 * of ISO 216, and of ANSI/ASME Y14.1 for letter (from memory), which is cut in
 * half for the smaller one.
 */
#include "write/handbook/format.h"

#include <string.h>

#define MM(length) ((length)*72.0 / 25.4)
#define INCH(length) ((length)*72.0)

#define TEXT FAMILY_TEXT
#define LABEL FAMILY_LABEL
#define BLACK INK_BLACK
#define ACCENT INK_ACCENT
#define PAPER INK_PAPER

/* clang-format off */
static const struct style_spec small[STYLE_COUNT] = {
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

/* For pages twice as large. */
static const struct style_spec medium[STYLE_COUNT] = {
	/*                    family  emphasis size leading before after
	 *                    ink    justified  rule */
	[STYLE_BODY] =       {TEXT, PLAIN,  10.4, 13.5,     0,   0, BLACK, true, 0},
	[STYLE_SMALL] =      {TEXT, PLAIN,     9,  11,     0,   0, BLACK, false, 0},
	[STYLE_DETAILS] =    {LABEL, PLAIN,   8.6,  11,     2,   2, BLACK, false, 0},
	[STYLE_TABLE] =      {LABEL, PLAIN,     9,  11,     0,   0, BLACK, false, 0},
	[STYLE_TABLE_HEAD] = {LABEL, BOLD,    8.2,  11,     0,   0, BLACK, false, 0},
	[STYLE_CAPTION] =    {TEXT, ITALIC,   10, 13.5,     7,   0, BLACK, false, 0},
	[STYLE_CALLOUT] =    {TEXT, PLAIN,    10, 13.5,     0,   0, BLACK, false, 0},
	[STYLE_CODE] =       {LABEL, PLAIN,   8.8,  11,     0,   0, BLACK, false, 0},
	[STYLE_CONTENTS] =   {TEXT, PLAIN,  11.5, 13.5,     1,   0, BLACK, false, 0},
	[STYLE_CONTENTS_2] = {LABEL, PLAIN,     9,  11,     0,   0, BLACK, false, 0},
	[STYLE_KICKER] =     {LABEL, CAPS,     11, 13.5,     0, 13.5, ACCENT, false, 0},
	[STYLE_CHAPTER] =    {TEXT, PLAIN,    32,  36,     0, 22.5, BLACK, false, 0},
	[STYLE_ENTRY] =      {LABEL, BOLD,     15, 22.5,    16,   2, BLACK, false, 0.5},
	[STYLE_HEAD_1] =     {TEXT, PLAIN,    18,  22,    27,   7, BLACK, false, 0},
	[STYLE_HEAD_2] =     {LABEL, BOLD,   12.5,  16,    18,   7, BLACK, false, 0},
	[STYLE_HEAD_3] =     {TEXT, ITALIC, 10.4, 13.5,     7,   0, BLACK, false, 0},
	[STYLE_TITLE] =      {TEXT, PLAIN,    46,  50,     0, 13.5, BLACK, false, 0},
	[STYLE_SUBTITLE] =   {TEXT, ITALIC,   16,  22,     0,   0, BLACK, false, 0},
	[STYLE_IMPRINT] =    {LABEL, PLAIN,    10, 13.5,     0,   0, BLACK, false, 0},
	[STYLE_RUNNING] =    {LABEL, PLAIN,     9,  11,     0,   0, BLACK, false, 0},
	[STYLE_GUIDE] =      {LABEL, BOLD,    9.4,  11,     0,   0, BLACK, false, 0},
	[STYLE_FOLIO] =      {LABEL, BOLD,     10,  11,     0,   0, BLACK, false, 0},
	[STYLE_TAB] =        {LABEL, BOLD,     12,  14,     0,   0, PAPER, false, 0},
};

/* Nothing smaller than 18 points, and ragged: so few words to a line cannot be
 * justified well. */
static const struct style_spec huge[STYLE_COUNT] = {
	/*                    family  emphasis size leading before after
	 *                    ink    justified  rule */
	[STYLE_BODY] =       {TEXT, PLAIN,    18,  23,     0,   0, BLACK, false, 0},
	[STYLE_SMALL] =      {TEXT, PLAIN,    18,  22,     0,   0, BLACK, false, 0},
	[STYLE_DETAILS] =    {LABEL, PLAIN,    18,  22,     3,   3, BLACK, false, 0},
	[STYLE_TABLE] =      {LABEL, PLAIN,    18,  22,     0,   0, BLACK, false, 0},
	[STYLE_TABLE_HEAD] = {LABEL, BOLD,     18,  22,     0,   0, BLACK, false, 0},
	[STYLE_CAPTION] =    {TEXT, ITALIC,   18,  23,    10,   0, BLACK, false, 0},
	[STYLE_CALLOUT] =    {TEXT, PLAIN,    18,  23,     0,   0, BLACK, false, 0},
	[STYLE_CODE] =       {LABEL, PLAIN,    18,  22,     0,   0, BLACK, false, 0},
	[STYLE_CONTENTS] =   {TEXT, PLAIN,    18,  23,     2,   0, BLACK, false, 0},
	[STYLE_CONTENTS_2] = {LABEL, PLAIN,    18,  22,     0,   0, BLACK, false, 0},
	[STYLE_KICKER] =     {LABEL, CAPS,     18,  22,     0,  19, ACCENT, false, 0},
	[STYLE_CHAPTER] =    {TEXT, PLAIN,    34,  40,     0,  32, BLACK, false, 0},
	[STYLE_ENTRY] =      {LABEL, BOLD,     24,  32,    22,   3, BLACK, false, 0.5},
	[STYLE_HEAD_1] =     {TEXT, PLAIN,    26,  32,    38,  10, BLACK, false, 0},
	[STYLE_HEAD_2] =     {LABEL, BOLD,     21,  26,    26,  10, BLACK, false, 0},
	[STYLE_HEAD_3] =     {TEXT, ITALIC,   18,  23,    10,   0, BLACK, false, 0},
	[STYLE_TITLE] =      {TEXT, PLAIN,    46,  52,     0,  19, BLACK, false, 0},
	[STYLE_SUBTITLE] =   {TEXT, ITALIC,   22,  28,     0,   0, BLACK, false, 0},
	[STYLE_IMPRINT] =    {LABEL, PLAIN,    18,  22,     0,   0, BLACK, false, 0},
	[STYLE_RUNNING] =    {LABEL, PLAIN,    18,  22,     0,   0, BLACK, false, 0},
	[STYLE_GUIDE] =      {LABEL, BOLD,     18,  22,     0,   0, BLACK, false, 0},
	[STYLE_FOLIO] =      {LABEL, BOLD,     18,  22,     0,   0, BLACK, false, 0},
	[STYLE_TAB] =        {LABEL, BOLD,     20,  24,     0,   0, PAPER, false, 0},
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
		.styles = small,
	},
	{
		.name = "half-letter",
		.width = INCH(5.5),
		.height = INCH(8.5),
		.inner = MM(17),
		.outer = MM(15),
		.top = MM(21.5),
		.grid = 12,
		.lines = 41,
		.gap = 14,
		.running = MM(14.6),
		.folio = MM(205.5),
		.tab_width = MM(6.5),
		.tab_height = MM(13),
		.styles = small,
	},
	{
		.name = "a4",
		.width = MM(210),
		.height = MM(297),
		.inner = MM(24),
		.outer = MM(28),
		.top = MM(26.5),
		.grid = 13.5,
		.lines = 52,
		.gap = 18,
		.running = MM(18.5),
		.folio = MM(284),
		.tab_width = MM(9),
		.tab_height = MM(18),
		.styles = medium,
	},
	{
		.name = "letter",
		.width = INCH(8.5),
		.height = INCH(11),
		.inner = MM(25),
		.outer = MM(29),
		.top = MM(26.5),
		.grid = 13.5,
		.lines = 48,
		.gap = 18,
		.running = MM(18.5),
		.folio = MM(266.5),
		.tab_width = MM(9),
		.tab_height = MM(18),
		.styles = medium,
	},
	{
		.name = "a4",
		.large = true,
		.width = MM(210),
		.height = MM(297),
		.inner = MM(22),
		.outer = MM(20),
		.top = MM(28),
		.grid = 23,
		.lines = 30,
		.gap = 24,
		.running = MM(19.5),
		.folio = MM(285),
		.tab_width = MM(11),
		.tab_height = MM(18),
		.styles = huge,
	},
	{
		.name = "letter",
		.large = true,
		.width = INCH(8.5),
		.height = INCH(11),
		.inner = MM(23),
		.outer = MM(21),
		.top = MM(28),
		.grid = 23,
		.lines = 28,
		.gap = 24,
		.running = MM(19.5),
		.folio = MM(268),
		.tab_width = MM(11),
		.tab_height = MM(18),
		.styles = huge,
	},
};

const struct format *
format_find(const char *name, bool large)
{
	size_t i;

	for (i = 0; i < sizeof(formats) / sizeof(*formats); i++) {
		if (formats[i].large == large &&
			(name == NULL || strcmp(formats[i].name, name) == 0))
			return &formats[i];
	}
	return NULL;
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
