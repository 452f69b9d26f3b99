/*
 * The breaker finds the cheapest chain of breaks through a flow by trying, from
 * each place where a page can begin, all places where it can end. A column is
 * as high as the page, but for those on the first page, which begin below what
 * is there; so a state is a slug and how many columns were filled, up to the
 * number of columns on a page.
 */
#include "write/handbook/pages.h"

#include <math.h>
#include <string.h>

#include "base/arena.h"

/* Cost of each page, and of one whose end is forced through a NEVER. */
#define COST_PAGE 20.0
#define COST_LINE 5.0	/* of each line left empty */
#define COST_STUB 150.0 /* of a last page with a line or two */
#define COST_FORCED 1e7
#define COST_OVERFULL 1e8
/* Columns that begin with less room than this begin on the next page. */
#define LEAST_LINES 5

struct state {
	double cost;
	uint32_t from;	 /* the slug where its column begins */
	unsigned filled; /* columns filled before that one */
	bool known;
};

struct breaker {
	const struct pages *pages;
	const struct slug *slugs;
	uint32_t count;
	unsigned columns;
	double top;	      /* where columns begin on the first page */
	double depth;	      /* where all columns end */
	struct state *states; /* (count + 1) x (columns + 1) */
};

struct cut {
	uint32_t from, to;
};

#define STATE(breaker, at, filled) \
	(breaker)->states[(size_t)(at) * ((breaker)->columns + 1) + (filled)]

double
pages_advance(const struct slug *slug, double y, const struct format *format)
{
	y += (double)slug->height;
	if (slug->snap)
		y = ceil(y / format->grid - 0.01) * format->grid;
	return y;
}

static uint32_t
skip_space(const struct slug *slugs, uint32_t count, uint32_t at)
{
	while (at < count && slugs[at].kind == SLUG_SPACE)
		at++;
	return at;
}

/* A column from `from`, behind `filled` others, may end at `at`. */
static void
offer(struct breaker *breaker, uint32_t at, unsigned filled, uint32_t from,
	double cost)
{
	struct state *state = &STATE(breaker, at,
		MIN(filled + 1, breaker->columns));

	if (!state->known || cost < state->cost)
		*state = (struct state){cost, from, filled, true};
}

/*
 * What it costs to fill a column up to `y` and leave the rest empty. White
 * where something ends does little harm; within a text or a table it looks
 * like a mistake.
 */
static double
cost_of(const struct breaker *breaker, const struct slug *last, double y,
	bool ends)
{
	double lines = (breaker->depth - y) / breaker->pages->format->grid;

	if (ends)
		return COST_PAGE +
			(y < 3 * breaker->pages->format->grid ? COST_STUB : 0);
	return COST_PAGE + (last->closes ? COST_LINE * lines : lines * lines);
}

/* Where the matter of a column begins: below the head it repeats, if any. */
static double
column_top(const struct breaker *breaker, uint32_t start, double top)
{
	if (start < breaker->count && breaker->slugs[start].head != NULL)
		top += breaker->slugs[start].head->height;
	return top;
}

/* Offers all ends of the column that begins at `from`. */
static void
try_column(struct breaker *breaker, uint32_t from, unsigned filled)
{
	const struct format *format = breaker->pages->format;
	double base = STATE(breaker, from, filled).cost, y, next;
	uint32_t start = skip_space(breaker->slugs, breaker->count, from), i;
	uint32_t last = start;
	const struct slug *slug;
	bool found = false, ends = false;

	y = column_top(breaker, start,
		filled < breaker->columns ? breaker->top : 0);
	for (i = start; i < breaker->count && !ends; i++) {
		slug = &breaker->slugs[i];
		next = pages_advance(slug, y, format);
		if (slug->kind == SLUG_MATTER &&
			y + (double)slug->height > breaker->depth + 0.01)
			break;
		y = next;
		ends = i + 1 == breaker->count || slug->kind == SLUG_END;
		if (slug->kind == SLUG_MATTER)
			last = i + 1;
		if (!ends && slug->cost >= BREAK_NEVER)
			continue;
		offer(breaker, i + 1, filled, from,
			base + cost_of(breaker, slug, y, ends) +
				(ends ? 0 : (double)slug->cost));
		found = true;
	}
	if (found)
		return;
	if (last > start)
		offer(breaker, last, filled, from, base + COST_FORCED);
	else
		offer(breaker, MIN(start + 1, breaker->count), filled, from,
			base + COST_OVERFULL);
}

/* The breaks of the cheapest chain, in order; returns its cost. */
static double
trace(const struct breaker *breaker, GArray *cuts)
{
	const struct state *state, *best = NULL;
	uint32_t at = breaker->count;
	struct cut cut;
	unsigned filled, i;

	for (i = 1; i <= breaker->columns; i++) {
		state = &STATE(breaker, at, i);
		if (state->known && (best == NULL || state->cost < best->cost))
			best = state;
	}
	g_array_set_size(cuts, 0);
	for (state = best; at > 0; state = &STATE(breaker, at, filled)) {
		cut = (struct cut){state->from, at};
		g_array_prepend_val(cuts, cut);
		at = state->from;
		filled = state->filled;
	}
	return best->cost;
}

static double
break_flow(struct breaker *breaker, GArray *cuts)
{
	uint32_t at;
	unsigned filled;
	double cost;

	breaker->states = g_new0(struct state,
		((size_t)breaker->count + 1) * (breaker->columns + 1));
	STATE(breaker, 0, 0).known = true;
	for (at = 0; at < breaker->count; at++) {
		for (filled = 0; filled <= breaker->columns; filled++) {
			if (STATE(breaker, at, filled).known)
				try_column(breaker, at, filled);
		}
	}
	cost = trace(breaker, cuts);
	g_free(breaker->states);
	return cost;
}

/* Fills columns from `top` to `bottom` one after the other. Returns how far
 * they reach. */
static uint32_t
fill_columns(const struct breaker *breaker, uint32_t from, double top,
	double bottom, struct cut *cuts, unsigned *used)
{
	const struct format *format = breaker->pages->format;
	uint32_t at = from, i, end;
	const struct slug *slug;
	double y;

	for (*used = 0; *used < breaker->columns && at < breaker->count;
		(*used)++) {
		i = skip_space(breaker->slugs, breaker->count, at);
		end = at;
		y = column_top(breaker, i, top);
		for (; i < breaker->count; i++) {
			slug = &breaker->slugs[i];
			if (slug->kind == SLUG_MATTER &&
				y + (double)slug->height > bottom + 0.01)
				break;
			y = pages_advance(slug, y, format);
			if (slug->cost < BREAK_WIDOW || i + 1 == breaker->count)
				end = i + 1;
		}
		cuts[*used] = (struct cut){at, end};
		if (end == at)
			break;
		at = end;
	}
	return at;
}

/* Makes the columns of the flow's last page, from cut `first` on, as equal as
 * they get. */
static void
balance(const struct breaker *breaker, GArray *cuts, guint first, double top)
{
	uint32_t from = g_array_index(cuts, struct cut, first).from, i;
	double grid = breaker->pages->format->grid, bottom = 0;
	struct cut tried[8];
	unsigned used;

	if (breaker->columns < 2 || breaker->columns > G_N_ELEMENTS(tried))
		return;
	for (i = from; i < breaker->count; i++)
		bottom += (double)breaker->slugs[i].height;
	bottom = top + floor(bottom / breaker->columns / grid) * grid;
	for (; bottom <= breaker->depth + 0.01; bottom += grid / 2) {
		if (fill_columns(breaker, from, top, bottom, tried, &used) <
			breaker->count)
			continue;
		g_array_set_size(cuts, first);
		g_array_append_vals(cuts, tried, used);
		return;
	}
}

void
pages_init(struct pages *pages, struct arena *arena,
	const struct format *format)
{
	memset(pages, 0, sizeof(*pages));
	pages->arena = arena;
	pages->format = format;
	pages->all = g_array_new(FALSE, TRUE, sizeof(struct page));
	pages->stacks = g_array_new(FALSE, TRUE, sizeof(struct stack));
}

void
pages_release(struct pages *pages)
{
	g_array_free(pages->all, TRUE);
	g_array_free(pages->stacks, TRUE);
}

static const char *
make_label(struct pages *pages)
{
	static const struct {
		unsigned value;
		const char *text;
	} romans[] = {
		{100, "c"},
		{90, "xc"},
		{50, "l"},
		{40, "xl"},
		{10, "x"},
		{9, "ix"},
		{5, "v"},
		{4, "iv"},
		{1, "i"},
	};
	unsigned rest = pages->number;
	const char *label = "";
	size_t i;

	if (pages->numbering == NUMBERS_ARABIC)
		return arena_print(pages->arena, "%u", pages->number);
	for (i = 0; i < G_N_ELEMENTS(romans); i++) {
		for (; rest >= romans[i].value; rest -= romans[i].value)
			label = arena_print(pages->arena, "%s%s", label,
				romans[i].text);
	}
	return label;
}

struct guides {
	struct page *page;
	const char *before; /* the guide word that was in force */
	bool begun;
};

static void
note_guide(void *closure, const struct slug *slug, double x, double y,
	bool again)
{
	struct guides *guides = closure;

	(void)x;
	(void)y;
	(void)again;
	if (slug->kind != SLUG_MATTER)
		return;
	if (!guides->begun)
		guides->page->first_guide = slug->guide != NULL ?
			slug->guide :
			guides->before;
	guides->begun = true;
	if (slug->guide == NULL)
		return;
	if (guides->page->first_guide == NULL)
		guides->page->first_guide = slug->guide;
	guides->page->last_guide = slug->guide;
}

/* Ends the page being filled; without stacks it is an empty one. */
static void
end_page(struct pages *pages, const struct block *chapter)
{
	struct page page = {.chapter = chapter};
	struct guides guides = {&page, pages->guide, false};
	struct stack *stacks;

	pages->number++;
	page.label = make_label(pages);
	page.count = pages->stacks->len;
	page.opens = chapter != pages->chapter;
	stacks = arena_array(pages->arena, struct stack, page.count);
	if (page.count > 0)
		memcpy(stacks, pages->stacks->data,
			sizeof(struct stack) * page.count);
	page.stacks = stacks;
	page.last_guide = pages->guide;
	pages_walk(&page, pages->format, note_guide, &guides);
	pages->guide = page.last_guide;
	pages->chapter = chapter;
	pages->y = 0;
	g_array_set_size(pages->stacks, 0);
	g_array_append_val(pages->all, page);
}

/* Puts slugs into the page. Returns where they end. */
static double
put_stack(struct pages *pages, const struct slug *slugs, uint32_t from,
	uint32_t to, double x, double y)
{
	struct stack stack = {0};
	uint32_t i;

	from = skip_space(slugs, to, from);
	stack.slugs = slugs + from;
	stack.count = to - from;
	stack.x = (float)x;
	stack.y = (float)y;
	if (from < to)
		stack.head = slugs[from].head;
	g_array_append_val(pages->stacks, stack);
	if (stack.head != NULL)
		y += stack.head->height;
	for (i = from; i < to; i++)
		y = pages_advance(&slugs[i], y, pages->format);
	if (to > from && slugs[to - 1].kind == SLUG_END)
		y = format_depth(pages->format);
	return y;
}

/* Puts the columns that were cut onto this page and the next ones. */
static void
put_columns(struct pages *pages, const struct block *chapter,
	const struct breaker *breaker, const GArray *cuts)
{
	double top = pages->y, deepest = top, y, pitch;
	const struct cut *cut;
	guint i;

	pitch = (format_measure(pages->format) + pages->format->gap) /
		breaker->columns;
	for (i = 0; i < cuts->len; i++) {
		cut = &g_array_index(cuts, struct cut, i);
		if (i > 0 && i % breaker->columns == 0) {
			end_page(pages, chapter);
			top = deepest = 0;
		}
		y = put_stack(pages, breaker->slugs, cut->from, cut->to,
			pitch * (i % breaker->columns), top);
		deepest = MAX(deepest, y);
	}
	pages->y = deepest;
}

/* What stands above a flow and must not be parted from it. */
struct lead {
	const struct slug *slugs;
	uint32_t count;
	double space; /* above it, if it is not on top of a page */
	double height;
};

static void
put_flow(struct pages *pages, const struct block *chapter,
	struct breaker *breaker, const struct lead *lead)
{
	double least = LEAST_LINES * pages->format->grid;
	GArray *cuts = g_array_new(FALSE, FALSE, sizeof(struct cut));
	double cost = COST_OVERFULL;
	guint before;

	breaker->depth = format_depth(pages->format);
	breaker->top = pages->y + lead->space + lead->height;
	if (pages->y > 0 && breaker->top + least <= breaker->depth)
		cost = break_flow(breaker, cuts);
	if (cost >= COST_FORCED) {
		if (pages->y > 0)
			end_page(pages, chapter);
		breaker->top = lead->height;
		cost = break_flow(breaker, cuts);
	}
	if (cost >= COST_OVERFULL)
		pages->overfull++;
	if (pages->y > 0)
		pages->y += lead->space;
	if (lead->count > 0)
		put_stack(pages, lead->slugs, 0, lead->count, 0, pages->y);
	pages->y = breaker->top;
	before = (cuts->len - 1) / breaker->columns * breaker->columns;
	balance(breaker, cuts, before, before == 0 ? breaker->top : 0);
	put_columns(pages, chapter, breaker, cuts);
	g_array_free(cuts, TRUE);
}

/* How many slugs of a flow are not bound to the end of it. */
static uint32_t
find_lead(const struct pages *pages, const struct flow *flow, struct lead *lead)
{
	uint32_t end = flow->count, i;

	while (end > 0 &&
		(flow->slugs[end - 1].kind != SLUG_MATTER ||
			flow->slugs[end - 1].cost >= BREAK_NEVER) &&
		flow->slugs[end - 1].kind != SLUG_END)
		end--;
	lead->slugs = flow->slugs + end;
	lead->count = flow->count - end;
	lead->height = lead->space = 0;
	for (i = 0; i < skip_space(lead->slugs, lead->count, 0); i++)
		lead->space += (double)lead->slugs[i].height;
	for (; i < lead->count; i++)
		lead->height = pages_advance(&lead->slugs[i], lead->height,
			pages->format);
	return end;
}

/* Takes the spaces off the beginning of a flow. Returns how high they are. */
static double
take_spaces(struct breaker *breaker)
{
	uint32_t skip = skip_space(breaker->slugs, breaker->count, 0), i;
	double height = 0;

	for (i = 0; i < skip; i++)
		height += (double)breaker->slugs[i].height;
	breaker->slugs += skip;
	breaker->count -= skip;
	return height;
}

static void
begin_chapter(struct pages *pages, const struct block *chapter)
{
	bool turns = pages->all->len > 0 &&
		chapter->numbering != pages->numbering;

	pages->guide = NULL;
	if ((turns || chapter->recto) && pages->all->len % 2 == 1)
		end_page(pages, NULL);
	if (turns || pages->all->len == 0) {
		pages->numbering = chapter->numbering;
		pages->number = 0;
	}
}

void
pages_add(struct pages *pages, const struct block *chapter,
	const struct flow *flows)
{
	struct lead lead = {0}, none = {0};
	struct breaker breaker = {.pages = pages};
	const struct flow *flow;
	struct lead own;

	begin_chapter(pages, chapter);
	for (flow = flows; flow != NULL; flow = flow->next) {
		breaker.slugs = flow->slugs;
		breaker.count = flow->count;
		breaker.columns = flow->columns;
		own = lead;
		lead = none;
		if (flow->next != NULL && flow->columns == 1)
			breaker.count = find_lead(pages, flow, &lead);
		own.space += take_spaces(&breaker);
		while (breaker.count > 0 &&
			breaker.slugs[breaker.count - 1].kind == SLUG_SPACE)
			breaker.count--;
		if (breaker.count > 0)
			put_flow(pages, chapter, &breaker, &own);
	}
	end_page(pages, chapter);
}

void
pages_walk(const struct page *page, const struct format *format,
	void (*visit)(void *closure, const struct slug *slug, double x,
		double y, bool again),
	void *closure)
{
	const struct stack *stack;
	uint32_t i, k;
	double y;

	for (i = 0; i < page->count; i++) {
		stack = &page->stacks[i];
		y = (double)stack->y;
		for (k = 0; stack->head != NULL && k < stack->head->count;
			k++) {
			visit(closure, &stack->head->slugs[k], (double)stack->x,
				y, true);
			y += (double)stack->head->slugs[k].height;
		}
		for (k = 0; k < stack->count; k++) {
			visit(closure, &stack->slugs[k], (double)stack->x, y,
				false);
			y = pages_advance(&stack->slugs[k], y, format);
		}
	}
}
