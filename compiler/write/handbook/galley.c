/*
 * Setting each kind of block but tables. A block adds its slugs at the end of
 * the flow; containers narrow the column, set what is in them, and then go
 * over the new slugs once more to hang bars and bullets beside them.
 */
#include "write/handbook/setting.h"

#include <string.h>

#include "base/arena.h"
#include "write/handbook/places.h"

/* How short a ragged line ordinarily is, as a share of the type size. */
#define RAG 6.0
#define BAR_WIDTH 2.0
#define BAR_GAP 9.0

struct galley *
galley_new(struct arena *arena, struct fonts *fonts,
	struct hyphens *hyphens, struct places *places,
	const struct format *format)
{
	struct galley *galley = arena_one(arena, struct galley);

	galley->arena = arena;
	galley->fonts = fonts;
	galley->format = format;
	galley->slugs = g_array_new(FALSE, TRUE, sizeof(struct slug));
	galley->complaints = g_array_new(FALSE, TRUE, sizeof(struct complaint));
	paragraph_init(&galley->paragraph, arena, fonts, hyphens, places,
		format);
	return galley;
}

void
galley_free(struct galley *galley)
{
	g_array_free(galley->slugs, TRUE);
	g_array_free(galley->complaints, TRUE);
	paragraph_release(&galley->paragraph);
}

const GArray *
galley_complaints(const struct galley *galley)
{
	return galley->complaints;
}

const GPtrArray *
galley_missing(const struct galley *galley)
{
	return galley->paragraph.missing;
}

const struct style_spec *
setting_spec(const struct galley *galley, enum style style)
{
	return &galley->format->styles[style];
}

double
setting_baseline(const struct style_spec *spec)
{
	return spec->leading / 2 + 0.32 * spec->size;
}

void
setting_complain(struct galley *galley, const char *text)
{
	struct complaint complaint = {text, galley->here};

	g_array_append_val(galley->complaints, complaint);
}

struct slug *
setting_slug(struct galley *galley, enum slug_kind kind, double height,
	float cost)
{
	struct slug slug = {0};

	slug.kind = kind;
	slug.height = (float)height;
	slug.cost = cost;
	slug.head = galley->head;
	slug.element = galley->element;
	if (kind == SLUG_MATTER) {
		slug.anchors = galley->anchors;
		slug.guide = galley->guide;
		galley->anchors = NULL;
		galley->guide = NULL;
	}
	g_array_append_val(galley->slugs, slug);
	return &g_array_index(galley->slugs, struct slug,
		galley->slugs->len - 1);
}

void
setting_space(struct galley *galley, double height)
{
	if (height > 0 && (galley->slugs->len > 0 || galley->first != NULL))
		setting_slug(galley, SLUG_SPACE, height, BREAK_NEVER);
}

struct piece
setting_fill(double x, double y, double width, double height, enum ink ink)
{
	struct piece piece = {.kind = PIECE_FILL};

	piece.ink = ink;
	piece.x = (float)x;
	piece.y = (float)y;
	piece.width = (float)width;
	piece.size = (float)height;
	return piece;
}

void
setting_add(struct galley *galley, guint index, struct piece piece)
{
	struct slug *slug = &g_array_index(galley->slugs, struct slug, index);
	struct piece *pieces = arena_array(galley->arena, struct piece,
		slug->piece_count + 1);
	uint32_t i;

	pieces[0] = piece;
	for (i = 0; i < slug->piece_count; i++)
		pieces[i + 1] = slug->pieces[i];
	slug->pieces = pieces;
	slug->piece_count++;
}

struct element *
setting_element(const struct galley *galley, const char *tag)
{
	struct element *element = arena_one(galley->arena, struct element);

	element->tag = tag;
	element->parent = galley->element;
	return element;
}

/* No page break after the last slug. */
static void
keep(struct galley *galley)
{
	guint i = galley->slugs->len;
	struct slug *slug;

	while (i > 0) {
		slug = &g_array_index(galley->slugs, struct slug, --i);
		if (slug->kind == SLUG_MATTER) {
			slug->cost = BREAK_NEVER;
			break;
		}
	}
}

/* Page breaks between the slugs from `from` on cost more, but for the end;
 * less so where they are many. */
static void
keep_together(struct galley *galley, guint from)
{
	guint i = galley->slugs->len;
	double height = 0;
	struct slug *slug;
	bool end = true;

	for (; i > from; i--)
		height += (double)g_array_index(galley->slugs, struct slug,
			i - 1)
				  .height;
	for (i = galley->slugs->len; i > from; i--) {
		slug = &g_array_index(galley->slugs, struct slug, i - 1);
		if (slug->kind != SLUG_MATTER)
			continue;
		if (!end && slug->cost < BREAK_NEVER)
			slug->cost += height >
					format_depth(galley->format) / 2 ?
				COST_PARTED_LARGE :
				COST_PARTED;
		end = false;
	}
}

/* Text for reading stands on the baseline grid, whatever is above it. */
static void
snap(struct galley *galley, enum style style)
{
	if ((style == STYLE_BODY || style == STYLE_CALLOUT ||
		    style == STYLE_HEAD_3) &&
		galley->columns == 1 && galley->slugs->len > 0)
		g_array_index(galley->slugs, struct slug,
			galley->slugs->len - 1)
			.snap = true;
}

/* Cost of a page break after line `i` of `count`. */
static float
break_cost(guint i, guint count)
{
	if (i + 1 == count)
		return 0;
	if (count <= 2)
		return BREAK_NEVER;
	return i == 0 || i + 2 == count ? BREAK_WIDOW : 0;
}

static struct measure
make_measure(const struct galley *galley, const struct block *block,
	double first)
{
	const struct style_spec *spec = setting_spec(galley, block->style);
	struct measure measure;

	measure.first = galley->width - first;
	measure.rest = galley->width - block->hang * spec->size;
	measure.slack = spec->justify && block->align == ALIGN_LEFT ?
		0 :
		RAG * spec->size;
	return measure;
}

void
setting_lines(struct galley *galley, const struct block *block, double first,
	const char *tag)
{
	const struct style_spec *spec = setting_spec(galley, block->style);
	struct measure measure = make_measure(galley, block, first);
	struct paragraph *paragraph = &galley->paragraph;
	struct element *element = setting_element(galley, tag);
	const struct line *line;
	struct slug *slug;
	double indent;
	guint i, count;

	paragraph_fill(paragraph, block->runs, spec,
		MIN(measure.first, measure.rest));
	paragraph_break(paragraph, &measure);
	count = paragraph->lines->len;
	for (i = 0; i < count; i++) {
		line = &g_array_index(paragraph->lines, struct line, i);
		indent = i == 0 ? first : block->hang * spec->size;
		slug = setting_slug(galley, SLUG_MATTER, spec->leading,
			break_cost(i, count));
		slug->element = element;
		slug->pieces = paragraph_line(paragraph, line,
			galley->x + indent, setting_baseline(spec),
			galley->width - indent, block->align,
			&slug->piece_count);
		if (line->tight)
			setting_complain(galley, "a line is too full");
	}
}

static void
set_paragraph(struct galley *galley, const struct block *block, const char *tag)
{
	const struct style_spec *spec = setting_spec(galley, block->style);
	double indent = block->indent * spec->size + block->inset;
	double narrower = indent + block->inset;

	setting_space(galley, spec->before);
	snap(galley, block->style);
	galley->x += indent;
	galley->width -= narrower;
	setting_lines(galley, block, block->size * spec->size, tag);
	galley->x -= indent;
	galley->width += narrower;
	setting_space(galley, spec->after);
}

static const char *
heading_tag(enum style style)
{
	switch ((int)style) {
	case STYLE_CHAPTER:
		return "H1";
	case STYLE_HEAD_1:
		return "H2";
	case STYLE_HEAD_2:
		return "H3";
	case STYLE_HEAD_3:
		return "H4";
	}
	return "P";
}

/* The first slug with matter from `from` on, or the length. */
static guint
find_matter(const struct galley *galley, guint from)
{
	while (from < galley->slugs->len &&
		g_array_index(galley->slugs, struct slug, from).kind !=
			SLUG_MATTER)
		from++;
	return from;
}

/* Draws a rule along the top of the first matter from `at` on. */
static void
rule_above(struct galley *galley, guint at, double depth)
{
	at = find_matter(galley, at);
	if (depth > 0 && at < galley->slugs->len)
		setting_add(galley, at,
			setting_fill(galley->x, 0, galley->width, depth,
				INK_BLACK));
}

/* Tells what stands above a heading that something ends there. */
static void
close_above(struct galley *galley, enum style style)
{
	guint i = galley->slugs->len;

	if (i == 0)
		return;
	if (galley->columns == 1 &&
		(style == STYLE_HEAD_1 || style == STYLE_HEAD_2))
		g_array_index(galley->slugs, struct slug, i - 1).snap = true;
	while (i > 0 &&
		g_array_index(galley->slugs, struct slug, i - 1).kind !=
			SLUG_MATTER)
		i--;
	if (i > 0)
		g_array_index(galley->slugs, struct slug, i - 1).closes = true;
}

/* The lines of a heading stay together and with what follows. */
static void
set_heading(struct galley *galley, const struct block *block)
{
	guint i = galley->slugs->len;

	close_above(galley, block->style);
	set_paragraph(galley, block, heading_tag(block->style));
	rule_above(galley, i, setting_spec(galley, block->style)->rule);
	for (; i < galley->slugs->len; i++)
		g_array_index(galley->slugs, struct slug, i).cost = BREAK_NEVER;
}

static void
hang_bullet(struct galley *galley, const struct style_spec *spec, guint at,
	unsigned number, double room, const struct element *element)
{
	char text[16] = "•";
	struct piece piece = {.kind = PIECE_WORD};

	if (at >= galley->slugs->len)
		return;
	if (number > 0)
		g_snprintf(text, sizeof(text), "%u.", number);
	piece.element = element;
	piece.ink = spec->ink;
	piece.size = (float)spec->size;
	piece.word = fonts_word(galley->fonts, format_face(spec, PLAIN), NULL,
		text, strlen(text));
	piece.face = piece.word->face;
	piece.width = (float)(piece.word->width * spec->size);
	piece.x = (float)(galley->x +
		(number > 0 ? room - piece.width - 0.35 * spec->size :
			      0.15 * spec->size));
	piece.y = (float)setting_baseline(spec);
	setting_add(galley, at, piece);
}

/* Makes a page break after the last matter dearer. */
static void
raise_cost(struct galley *galley, float cost)
{
	guint i = galley->slugs->len;
	struct slug *slug;

	while (i > 0) {
		slug = &g_array_index(galley->slugs, struct slug, --i);
		if (slug->kind != SLUG_MATTER)
			continue;
		if (slug->cost < BREAK_NEVER)
			slug->cost += cost;
		return;
	}
}

/* Whether what stands above is matter that is not bound to what follows. */
static bool
is_loose(const struct galley *galley)
{
	const struct slug *slug;

	if (galley->slugs->len == 0)
		return false;
	slug = &g_array_index(galley->slugs, struct slug,
		galley->slugs->len - 1);
	return slug->kind == SLUG_MATTER && slug->cost < BREAK_NEVER;
}

static void
set_list(struct galley *galley, const struct block *list)
{
	const struct style_spec *spec = setting_spec(galley, list->style);
	double room = spec->size * (list->number > 0 ? 1.7 : 1.1);
	const struct element *outer = galley->element, *element, *bullet;
	const struct block *item;
	unsigned number = list->number;
	guint at;

	element = setting_element(galley, "L");
	if (is_loose(galley))
		setting_space(galley, galley->format->grid / 2);
	for (item = list->first; item != NULL; item = item->next) {
		if (!list->tight && item != list->first)
			setting_space(galley, spec->leading / 2);
		at = galley->slugs->len;
		galley->x += room;
		galley->width -= room;
		galley->element = element;
		galley->element = setting_element(galley, "LI");
		bullet = setting_element(galley, "Lbl");
		galley->element = setting_element(galley, "LBody");
		setting_blocks(galley, item->first);
		galley->x -= room;
		galley->width += room;
		hang_bullet(galley, spec, find_matter(galley, at), number, room,
			bullet);
		if (item == list->first ||
			(item->next != NULL && item->next->next == NULL))
			raise_cost(galley, COST_LONE_ITEM);
		if (number > 0)
			number++;
	}
	galley->element = outer;
	setting_space(galley, galley->format->grid / 2);
}

/* A bar beside all that is in it, which goes on over a page break. */
static void
set_callout(struct galley *galley, const struct block *block)
{
	double x = galley->x;
	guint i, from, first;
	struct slug *slug;

	setting_space(galley, galley->format->grid);
	from = galley->slugs->len;
	galley->x += BAR_GAP;
	galley->width -= BAR_GAP;
	setting_blocks(galley, block->first);
	galley->x -= BAR_GAP;
	galley->width += BAR_GAP;
	first = find_matter(galley, from);
	for (i = first; i < galley->slugs->len; i++) {
		slug = &g_array_index(galley->slugs, struct slug, i);
		if (slug->kind == SLUG_MATTER || i + 1 < galley->slugs->len)
			setting_add(galley, i,
				setting_fill(x, 0, BAR_WIDTH, slug->height,
					INK_ACCENT));
	}
}

static void
set_entry(struct galley *galley, const struct block *block)
{
	const struct style_spec *spec = setting_spec(galley, block->style);
	struct spot *spot = places_use(galley->paragraph.places, block->target);
	double right = galley->x + galley->width, end, room;
	struct slug *slug;
	struct piece page = {.kind = PIECE_PAGE}, dots = {0}, *pieces;
	guint from = galley->slugs->len, i;

	galley->width -= 3 * spec->size;
	set_paragraph(galley, block, "TOCI");
	galley->width += 3 * spec->size;
	for (i = from; i + 1 < galley->slugs->len; i++)
		g_array_index(galley->slugs, struct slug, i).cost = BREAK_NEVER;
	if (spot == NULL || galley->slugs->len == from)
		return;
	slug = &g_array_index(galley->slugs, struct slug,
		galley->slugs->len - 1);
	page.ink = dots.ink = INK_BLACK;
	page.size = dots.size = (float)spec->size;
	page.face = dots.face = format_face(spec, PLAIN);
	page.y = dots.y = (float)setting_baseline(spec);
	page.anchor = spot->name;
	page.link = arena_print(galley->arena, "#%s", spot->name);
	page.right = true;
	room = 2.2 * spec->size;
	page.x = (float)(right - room);
	page.width = (float)room;
	end = slug->piece_count == 0 ?
		galley->x :
		(double)slug->pieces[slug->piece_count - 1].x +
			(double)slug->pieces[slug->piece_count - 1].width;
	dots.kind = PIECE_LEADER;
	dots.x = (float)(end + 0.5 * spec->size);
	dots.width = (float)(right - room) - dots.x;
	/* The number is read after the line. */
	pieces = arena_array(galley->arena, struct piece,
		slug->piece_count + 2);
	memcpy(pieces, slug->pieces, sizeof(*pieces) * slug->piece_count);
	if (dots.width > 0)
		pieces[slug->piece_count++] = dots;
	pieces[slug->piece_count++] = page;
	slug->pieces = pieces;
}

static void
set_figure(struct galley *galley, const struct block *block)
{
	struct piece piece = {.kind = PIECE_DRAWING, .ink = INK_BLACK};
	const struct drawing *drawing = block->drawing;
	double spare = galley->width - drawing->width;

	piece.element = setting_element(galley, "Figure");
	setting_slug(galley, SLUG_MATTER, drawing->height,
		block->runs == NULL ? 0 : BREAK_NEVER);
	piece.drawing = drawing;
	piece.size = 1;
	piece.width = (float)drawing->width;
	piece.x = (float)(galley->x +
		(block->align == ALIGN_LEFT		     ? 0 :
				block->align == ALIGN_CENTRE ? spare / 2 :
							       spare));
	setting_add(galley, galley->slugs->len - 1, piece);
	if (block->runs != NULL)
		set_paragraph(galley, block, "Caption");
}

static void
set_rule(struct galley *galley, const struct block *block)
{
	double depth = block->size > 0 ? block->size : 0.5;

	setting_space(galley, galley->format->grid / 2);
	setting_slug(galley, SLUG_MATTER, depth, BREAK_NEVER);
	setting_add(galley, galley->slugs->len - 1,
		setting_fill(galley->x, 0, galley->width, depth, INK_BLACK));
	setting_space(galley, galley->format->grid / 2 - depth);
}

static void
end_flow(struct galley *galley)
{
	struct flow *flow;

	if (galley->slugs->len == 0)
		return;
	flow = arena_one(galley->arena, struct flow);
	flow->columns = galley->columns;
	flow->count = galley->slugs->len;
	flow->slugs = arena_array(galley->arena, struct slug, flow->count);
	memcpy((void *)(guintptr)flow->slugs, galley->slugs->data,
		sizeof(struct slug) * flow->count);
	g_array_set_size(galley->slugs, 0);
	*galley->end = flow;
	galley->end = &flow->next;
}

/* As many columns as the block allows. */
static unsigned
count_columns(const struct galley *galley, const struct block *block)
{
	double least = block->size * setting_spec(galley, block->style)->size;
	double gap = galley->format->gap;

	if (galley->width < least)
		return 1;
	return (unsigned)((galley->width + gap) / (least + gap));
}

static void
set_columns(struct galley *galley, const struct block *block)
{
	double width = galley->width;

	end_flow(galley);
	galley->columns = count_columns(galley, block);
	galley->width = (width - galley->format->gap * (galley->columns - 1)) /
		galley->columns;
	setting_blocks(galley, block->first);
	end_flow(galley);
	galley->columns = 1;
	galley->width = width;
}

void
setting_marks(struct galley *galley, const struct block *block)
{
	struct anchor *anchor;

	if (block->guide != NULL)
		galley->guide = block->guide;
	if (block->anchor == NULL)
		return;
	anchor = arena_one(galley->arena, struct anchor);
	anchor->next = galley->anchors;
	anchor->name = block->anchor;
	anchor->outline = block->outline;
	anchor->level = block->level;
	galley->anchors = anchor;
	galley->here = block->anchor;
}

static void
set_kind(struct galley *galley, const struct block *block)
{
	switch (block->kind) {
	case BLOCK_BOOK:
	case BLOCK_CHAPTER:
	case BLOCK_GROUP:
	case BLOCK_ITEM:
	case BLOCK_ROW:
	case BLOCK_CELL:
		setting_blocks(galley, block->first);
		break;
	case BLOCK_HEADING:
		set_heading(galley, block);
		break;
	case BLOCK_PARAGRAPH:
		set_paragraph(galley, block, "P");
		break;
	case BLOCK_LIST:
		set_list(galley, block);
		break;
	case BLOCK_CALLOUT:
		set_callout(galley, block);
		break;
	case BLOCK_COLUMNS:
		set_columns(galley, block);
		break;
	case BLOCK_TABLE:
		setting_table(galley, block);
		break;
	case BLOCK_ENTRY:
		set_entry(galley, block);
		break;
	case BLOCK_RULE:
		set_rule(galley, block);
		break;
	case BLOCK_SPACE:
		setting_space(galley, block->size);
		break;
	case BLOCK_DROP:
		setting_slug(galley, SLUG_MATTER, block->size, BREAK_NEVER);
		break;
	case BLOCK_BREAK:
		setting_slug(galley, SLUG_END, 0, 0);
		break;
	case BLOCK_FIGURE:
		set_figure(galley, block);
		break;
	}
}

void
setting_block(struct galley *galley, const struct block *block)
{
	guint from = galley->slugs->len;

	setting_marks(galley, block);
	set_kind(galley, block);
	if (block->together)
		keep_together(galley, from);
	if (block->keep)
		keep(galley);
}

void
setting_blocks(struct galley *galley, const struct block *first)
{
	const struct block *block;

	for (block = first; block != NULL; block = block->next)
		setting_block(galley, block);
}

struct flow *
galley_set(struct galley *galley, const struct block *chapter)
{
	galley->first = NULL;
	galley->end = &galley->first;
	galley->x = 0;
	galley->width = format_measure(galley->format);
	galley->columns = 1;
	galley->here = chapter->anchor;
	galley->element = NULL;
	galley->element = setting_element(galley, "Sect");
	setting_block(galley, chapter);
	if (galley->anchors != NULL)
		setting_slug(galley, SLUG_MATTER, 0, 0);
	end_flow(galley);
	return galley->first;
}
