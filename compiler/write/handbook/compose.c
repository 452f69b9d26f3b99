/*
 * The passes. A chapter is set again only where a page number it prints needs
 * more or less room than it was given; pages are broken anew in every pass.
 * Nothing is printed before all numbers are settled.
 */
#include "write/handbook/compose.h"

#include <string.h>
#include <time.h>

#include "base/arena.h"
#include "write/handbook/galley.h"
#include "write/handbook/hyphens.h"
#include "write/handbook/mentions.h"
#include "write/handbook/pages.h"
#include "write/handbook/places.h"

/* From this pass on page numbers are only given more room, never less. */
#define PASS_GROW 3
#define PASS_LIMIT 20

struct chapter {
	struct block *block;
	struct arena *arena; /* of its flows */
	struct galley *galley;
	struct flow *flows;
	GPtrArray *used; /* struct spot: page numbers it prints */
	unsigned tab;	 /* its place in the thumb index, from 1 */
};

struct composer {
	struct arena *arena;
	struct arena *page_arena;
	const struct format *format;
	struct fonts *fonts;
	struct hyphens *hyphens;
	struct places places;
	struct pages pages;
	GArray *chapters; /* struct chapter */
	GString *complaints;
	struct mentions mentions; /* as of the last pass */
	struct mentions named;	  /* while pages are looked through */
	bool mentions_moved;
	struct press *press;
	struct paragraph line; /* for running heads */
	const struct page *page;
	uint32_t index; /* of the page, from 0 */
};

static bool
is_recto(uint32_t index)
{
	return index % 2 == 0;
}

/* Where the type area begins. */
static double
left_of(const struct format *format, uint32_t index)
{
	return is_recto(index) ? format->inner : format->outer;
}

static void
declare_anchors(struct composer *composer, const struct block *block)
{
	for (; block != NULL; block = block->next) {
		if (block->anchor != NULL &&
			!places_declare(&composer->places, block->anchor))
			g_string_append_printf(composer->complaints,
				"\"%s\" stands in the book twice\n",
				block->anchor);
		declare_anchors(composer, block->first);
	}
}

static void
find_chapters(struct composer *composer, const struct block *book)
{
	struct block *block;
	struct chapter chapter;
	unsigned tabs = 0;

	for (block = book->first; block != NULL; block = block->next) {
		chapter = (struct chapter){.block = block};
		chapter.used = g_ptr_array_new();
		if (block->tab != NULL)
			chapter.tab = ++tabs;
		g_array_append_val(composer->chapters, chapter);
	}
}

static bool
must_set(const struct composer *composer, const struct chapter *chapter)
{
	const struct spot *spot;
	guint i;

	if (chapter->flows == NULL ||
		(chapter->block->late != NULL && composer->mentions_moved))
		return true;
	for (i = 0; i < chapter->used->len; i++) {
		spot = g_ptr_array_index(chapter->used, i);
		if (spot->moved)
			return true;
	}
	return false;
}

static void
forget(struct chapter *chapter)
{
	if (chapter->galley != NULL)
		galley_free(chapter->galley);
	arena_free(chapter->arena);
	chapter->galley = NULL;
	chapter->arena = NULL;
	g_ptr_array_set_size(chapter->used, 0);
}

static void
set_chapters(struct composer *composer)
{
	struct chapter *chapter;
	guint i;

	for (i = 0; i < composer->chapters->len; i++) {
		chapter = &g_array_index(composer->chapters, struct chapter, i);
		if (!must_set(composer, chapter))
			continue;
		forget(chapter);
		chapter->arena = arena_new();
		chapter->galley = galley_new(chapter->arena, composer->fonts,
			composer->hyphens, &composer->places, composer->format);
		if (chapter->block->late != NULL)
			chapter->block->late(chapter->block->closure,
				chapter->block, chapter->arena,
				&composer->mentions, &composer->places);
		composer->places.used = chapter->used;
		chapter->flows = galley_set(chapter->galley, chapter->block);
	}
	composer->places.used = NULL;
}

static void
note_spot(void *closure, const struct slug *slug, double x, double y,
	bool again)
{
	struct composer *composer = closure;
	const struct anchor *anchor;
	struct spot *spot;

	if (again)
		return;
	if (composer->page->chapter->late == NULL)
		mentions_add(&composer->named, slug, composer->index);
	for (anchor = slug->anchors; anchor != NULL; anchor = anchor->next) {
		spot = places_find(&composer->places, anchor->name);
		spot->label = composer->page->label;
		spot->page = composer->index;
		spot->x = (float)(left_of(composer->format, composer->index) +
			x);
		spot->y = (float)(composer->format->top + y);
	}
}

static void
break_pages(struct composer *composer)
{
	const struct chapter *chapter;
	guint i;

	pages_release(&composer->pages);
	arena_free(composer->page_arena);
	composer->page_arena = arena_new();
	pages_init(&composer->pages, composer->page_arena, composer->format);
	for (i = 0; i < composer->chapters->len; i++) {
		chapter = &g_array_index(composer->chapters, struct chapter, i);
		pages_add(&composer->pages, chapter->block, chapter->flows);
	}
	mentions_init(&composer->named);
	for (i = 0; i < composer->pages.all->len; i++) {
		composer->page = &g_array_index(composer->pages.all,
			struct page, i);
		composer->index = i;
		g_ptr_array_add(composer->named.labels,
			g_strdup(composer->page->label));
		pages_walk(composer->page, composer->format, note_spot,
			composer);
	}
	composer->mentions_moved = !mentions_equal(&composer->mentions,
		&composer->named);
	mentions_release(&composer->mentions);
	composer->mentions = composer->named;
}

static unsigned
settle(struct composer *composer)
{
	unsigned pass = 0;

	pages_init(&composer->pages, composer->page_arena, composer->format);
	mentions_init(&composer->mentions);
	do {
		set_chapters(composer);
		break_pages(composer);
		pass++;
	} while ((places_settle(&composer->places, pass >= PASS_GROW) > 0 ||
			composer->mentions_moved) &&
		pass < PASS_LIMIT);
	if (pass == PASS_LIMIT)
		g_string_append(composer->complaints,
			"page numbers do not settle\n");
	return pass;
}

static void
print_furniture(struct composer *composer, const struct piece *pieces,
	uint32_t count, double x, double y)
{
	struct slug slug = {.pieces = pieces, .piece_count = count};

	press_slug(composer->press, &slug, x, y);
}

/* Sets one line of text in a style; returns its width. */
static double
set_line(struct composer *composer, struct paragraph *paragraph,
	enum style style, const char *text)
{
	struct run run = {.kind = RUN_TEXT, .text = text};

	run.size = strlen(text);
	paragraph_fill(paragraph, &run, &composer->format->styles[style],
		composer->format->width);
	return paragraph_width(paragraph);
}

/* So much of a text as ends with a whole word, if that is most of it. */
static size_t
end_of_words(const char *text, size_t size)
{
	size_t at = size;

	while (at > size / 2 && text[at] != ' ')
		at--;
	if (at <= size / 2)
		return size;
	while (at > 0 && strchr(" ,;:(", text[at - 1]) != NULL)
		at--;
	return at;
}

/* The text, or as many of its first words as fit, with an ellipsis. */
static const char *
fit_text(struct composer *composer, enum style style, const char *text,
	double room)
{
	struct paragraph *paragraph = &composer->line;
	double width = set_line(composer, paragraph, style, text);
	const char *fits = text, *end;
	size_t size = strlen(text);

	while (width > room && size > 0) {
		size = (size_t)((double)size * MIN(room / width, 0.95));
		g_utf8_validate(text, (gssize)size, &end);
		size = (size_t)(end - text);
		fits = arena_print(composer->page_arena, "%.*s…",
			(int)end_of_words(text, size), text);
		width = set_line(composer, paragraph, style, fits);
	}
	return fits;
}

/* Prints one line of text in a style: running heads and folios. */
static void
print_line(struct composer *composer, enum style style, const char *text,
	double x, double y, enum align align)
{
	struct paragraph *paragraph = &composer->line;
	const struct piece *pieces;
	struct line line = {0};
	uint32_t count;

	line.width = (float)set_line(composer, paragraph, style, text);
	line.to = paragraph->atoms->len;
	if (align != ALIGN_LEFT)
		x -= (double)line.width / (align == ALIGN_CENTRE ? 2 : 1);
	pieces = paragraph_line(paragraph, &line, x, y, 0, ALIGN_LEFT, &count);
	print_furniture(composer, pieces, count, 0, 0);
}

static void
print_tab(struct composer *composer, const struct chapter *chapter)
{
	const struct format *format = composer->format;
	bool recto = is_recto(composer->index);
	double x = recto ? format->width - format->tab_width : 0;
	double y = format->top + (chapter->tab - 1) * format->tab_height;
	struct piece piece = {.kind = PIECE_FILL, .ink = INK_BLACK};

	/* Past the last place the tabs begin at the top again. */
	while (y + format->tab_height > format->top + format_depth(format))
		y -= format_depth(format) - format->tab_height;
	/* Over the edge, where the page is cut. */
	piece.width = (float)(format->tab_width + format->tab_width);
	piece.size = (float)(format->tab_height - 2);
	print_furniture(composer, &piece, 1,
		recto ? x : -format->tab_width, y);
	print_line(composer, STYLE_TAB, chapter->block->tab,
		x + format->tab_width / 2, y + format->tab_height / 2 + 2.2,
		ALIGN_CENTRE);
}

/* First and last guide word of the page, or the only one; NULL without any. */
static const char *
make_guide(struct composer *composer, double room)
{
	const char *first = composer->page->first_guide;
	const char *last = composer->page->last_guide;
	double half = room * 0.47, ours, theirs;

	if (first == NULL)
		return NULL;
	if (last == NULL || strcmp(first, last) == 0)
		return fit_text(composer, STYLE_GUIDE, first, room);
	/* What a short one leaves of its half is the other's. */
	ours = set_line(composer, &composer->line, STYLE_GUIDE, first);
	theirs = set_line(composer, &composer->line, STYLE_GUIDE, last);
	return arena_print(composer->page_arena, "%s – %s",
		fit_text(composer, STYLE_GUIDE, first,
			half + MAX(half - theirs, 0)),
		fit_text(composer, STYLE_GUIDE, last,
			half + MAX(half - ours, 0)));
}

/* The chapter to the inside, guide words to the outside, a rule below. */
static void
print_running_head(struct composer *composer, double left, double right)
{
	const char *running = composer->page->chapter->running;
	bool recto = is_recto(composer->index);
	double y = composer->format->running, width = right - left;
	struct piece rule = {.kind = PIECE_FILL, .ink = INK_BLACK};
	double taken = 0;
	const char *guide;

	if (running != NULL) {
		running = fit_text(composer, STYLE_RUNNING, running,
			width * 0.36);
		taken = set_line(composer, &composer->line, STYLE_RUNNING,
			running);
		print_line(composer, STYLE_RUNNING, running,
			recto ? left : right, y,
			recto ? ALIGN_LEFT : ALIGN_RIGHT);
	}
	guide = make_guide(composer, width * 0.96 - taken);
	if (guide != NULL)
		print_line(composer, STYLE_GUIDE, guide, recto ? right : left,
			y, recto ? ALIGN_RIGHT : ALIGN_LEFT);
	rule.width = (float)width;
	rule.size = 0.4f;
	print_furniture(composer, &rule, 1, left, y + 4);
}

static void
print_backdrop(struct composer *composer, double left)
{
	struct piece piece = {.kind = PIECE_DRAWING, .size = 1};

	piece.drawing = composer->page->chapter->backdrop;
	print_furniture(composer, &piece, 1, left, composer->format->top);
}

static void
print_margins(struct composer *composer)
{
	const struct format *format = composer->format;
	const struct page *page = composer->page;
	double left = left_of(format, composer->index);
	double right = left + format_measure(format);
	bool recto = is_recto(composer->index);
	const struct chapter *chapter;
	guint i;

	if (page->chapter == NULL)
		return;
	if (page->opens && page->chapter->backdrop != NULL)
		print_backdrop(composer, left);
	if (page->chapter->plain)
		return;
	if (!page->opens)
		print_running_head(composer, left, right);
	print_line(composer, STYLE_FOLIO, page->label, recto ? right : left,
		format->folio, recto ? ALIGN_RIGHT : ALIGN_LEFT);
	for (i = 0; i < composer->chapters->len; i++) {
		chapter = &g_array_index(composer->chapters, struct chapter, i);
		if (chapter->block == page->chapter && chapter->tab > 0)
			print_tab(composer, chapter);
	}
}

/* The outline lists the anchors of a slug in the order they were given. */
static void
print_anchors(struct composer *composer, const struct anchor *anchor, double x,
	double y)
{
	if (anchor == NULL)
		return;
	print_anchors(composer, anchor->next, x, y);
	press_anchor(composer->press, anchor->name, x, y);
	if (anchor->outline != NULL)
		press_outline(composer->press, anchor->outline, anchor->name,
			anchor->level);
}

static void
print_slug(void *closure, const struct slug *slug, double x, double y,
	bool again)
{
	struct composer *composer = closure;

	x += left_of(composer->format, composer->index);
	y += composer->format->top;
	if (again) {
		press_again(composer->press, slug, x, y);
		return;
	}
	print_anchors(composer, slug->anchors, x, y);
	press_slug(composer->press, slug, x, y);
}

static const char *
print_pages(struct composer *composer, const struct imprint *imprint,
	const struct printing *how, FILE *out)
{
	uint32_t i;

	paragraph_init(&composer->line, composer->page_arena, composer->fonts,
		composer->hyphens, &composer->places, composer->format);
	composer->press = press_open(out, composer->fonts, composer->format,
		&composer->places, imprint, how);
	for (i = 0; i < composer->pages.all->len; i++) {
		composer->page = &g_array_index(composer->pages.all,
			struct page, i);
		composer->index = i;
		press_begin(composer->press, composer->page->label);
		press_anchor(composer->press,
			arena_print(composer->page_arena, "page/%u", i), 0, 0);
		print_margins(composer);
		pages_walk(composer->page, composer->format, print_slug,
			composer);
		press_end(composer->press);
	}
	paragraph_release(&composer->line);
	return press_close(composer->press);
}

static void
gather_complaints(struct composer *composer, struct composed *result)
{
	const struct complaint *complaint;
	const struct chapter *chapter;
	const GPtrArray *missing;
	const struct shaped *word;
	const GArray *all;
	guint i, k;

	result->overfull = composer->pages.overfull;
	for (i = 0; i < composer->chapters->len; i++) {
		chapter = &g_array_index(composer->chapters, struct chapter, i);
		all = galley_complaints(chapter->galley);
		for (k = 0; k < all->len; k++) {
			complaint = &g_array_index(all, struct complaint, k);
			result->overfull++;
			g_string_append_printf(composer->complaints, "%s: %s\n",
				complaint->anchor ? complaint->anchor :
						    "handbook",
				complaint->text);
		}
		missing = galley_missing(chapter->galley);
		for (k = 0; k < missing->len; k++) {
			word = g_ptr_array_index(missing, k);
			g_string_append_printf(composer->complaints,
				"no font has all letters of \"%s\"\n",
				word->text);
		}
	}
}

static void
release(struct composer *composer)
{
	struct chapter *chapter;
	guint i;

	for (i = 0; i < composer->chapters->len; i++) {
		chapter = &g_array_index(composer->chapters, struct chapter, i);
		forget(chapter);
		g_ptr_array_free(chapter->used, TRUE);
	}
	pages_release(&composer->pages);
	places_release(&composer->places);
	mentions_release(&composer->mentions);
	g_array_free(composer->chapters, TRUE);
	g_string_free(composer->complaints, TRUE);
	arena_free(composer->page_arena);
	fonts_close(composer->fonts);
	hyphens_close(composer->hyphens);
}

static double
seconds(void)
{
	return (double)clock() / CLOCKS_PER_SEC;
}

const char *
compose_book(struct arena *arena, const struct block *book,
	const struct format *format, const struct imprint *imprint,
	const struct printing *how, FILE *out, struct composed *result)
{
	struct composer composer = {.arena = arena, .format = format};
	double start = seconds(), printed;
	const char *why = NULL;

	composer.fonts = fonts_open(arena, &why);
	if (composer.fonts == NULL)
		return why;
	composer.hyphens = hyphens_open(arena);
	places_init(&composer.places, arena);
	composer.chapters = g_array_new(FALSE, FALSE, sizeof(struct chapter));
	composer.complaints = g_string_new(NULL);
	declare_anchors(&composer, book);
	find_chapters(&composer, book);
	result->passes = settle(&composer);
	result->pages = composer.pages.all->len;
	result->set_seconds = seconds() - start;
	printed = seconds();
	if (hyphens_missing(composer.hyphens) != NULL)
		why = arena_print(arena, "a text cannot be hyphenated; install "
			"the package %s", hyphens_missing(composer.hyphens));
	else
		why = print_pages(&composer, imprint, how, out);
	result->print_seconds = seconds() - printed;
	gather_complaints(&composer, result);
	result->complaints = arena_text(arena, composer.complaints->str,
		composer.complaints->len);
	release(&composer);
	return why;
}
