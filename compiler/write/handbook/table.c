/*
 * Tables. Each cell is set by itself; then the lines of all cells of a row
 * that stand side by side become one slug, so that a row is a few slugs that
 * stay together. Only a row that would fill a good part of a page may be cut.
 */
#include "write/handbook/setting.h"

#include "base/arena.h"

/* Room above and below the lines of a row, but in a quiet table. */
#define PAD_TOP 1.0
#define PAD_BOTTOM 1.0
#define GUTTER 0.75   /* between columns, in ems */
#define LEAST_SHARE 4 /* of a column that takes what is left, in ems */
#define THIN 0.3
#define THICK 0.7
/* A row of more lines may be cut, with this many left on each side. */
#define TALL 14
#define LEFT_TOGETHER 4
/* Of leaving one row of a table alone; of cutting a tall row. */
#define COST_LONE_ROW 1500.0f
#define COST_CUT_ROW 3000.0f

struct grid {
	const struct block *table;
	double *x; /* of each column, from the table's left edge */
	double *widths;
	unsigned count;
	double em;
};

/* The cell in column `index` of a row, or NULL; one that spans is in its
 * first column. */
static const struct block *
cell_at(const struct block *row, unsigned index)
{
	const struct block *cell;
	unsigned at = 0;

	for (cell = row->first; cell != NULL && at <= index;
		cell = cell->next) {
		if (at == index)
			return cell;
		at += MAX(cell->span, 1u);
	}
	return NULL;
}

/* The widest cell of a column that does not span. */
static double
natural_width(struct galley *galley, const struct block *table, unsigned index)
{
	const struct block *row, *cell;
	double width = 0;

	for (row = table->first; row != NULL; row = row->next) {
		cell = cell_at(row, index);
		if (cell == NULL || cell->span > 1)
			continue;
		paragraph_fill(&galley->paragraph, cell->runs,
			setting_spec(galley, cell->style), galley->width);
		width = MAX(width, paragraph_width(&galley->paragraph));
	}
	/* Sums of floats may come out a little larger in another order; and
	 * one column must not take all. */
	return MIN(width + 0.1, 1.6 * galley->width / table->count);
}

/* Shares of what is left; all are scaled down when that is too little. */
static void
share_out(struct grid *grid, double room, double fixed, double shares)
{
	double rest = room - fixed, scale = 1, least = 0;
	unsigned i;

	for (i = 0; i < grid->count; i++)
		least += grid->widths[i] <= 0 ? LEAST_SHARE * grid->em : 0;
	if (rest < least) {
		rest = least;
		scale = room / (fixed + rest);
	}
	for (i = 0; i < grid->count; i++) {
		if (grid->widths[i] <= 0)
			grid->widths[i] = rest * grid->table->columns[i].share /
				shares;
		grid->widths[i] *= scale;
	}
}

static void
make_grid(struct galley *galley, struct grid *grid)
{
	double room, fixed = 0, shares = 0, x = 0;
	const struct column *column;
	unsigned i;

	grid->count = grid->table->count;
	grid->em = setting_spec(galley, grid->table->style)->size;
	grid->x = arena_array(galley->arena, double, grid->count);
	grid->widths = arena_array(galley->arena, double, grid->count);
	room = galley->width - GUTTER * grid->em * (grid->count - 1);
	for (i = 0; i < grid->count; i++) {
		column = &grid->table->columns[i];
		if (column->width > 0)
			grid->widths[i] = column->width * grid->em;
		else if (column->share > 0)
			shares += column->share;
		else
			grid->widths[i] = natural_width(galley, grid->table, i);
		fixed += grid->widths[i];
	}
	share_out(grid, room, fixed, shares);
	for (i = 0; i < grid->count; i++) {
		grid->x[i] = x;
		x += grid->widths[i] + GUTTER * grid->em;
	}
}

/* Sets one cell of a row by itself. Returns its slugs. */
static GArray *
set_cell(struct galley *galley, const struct grid *grid, unsigned column,
	const struct block *cell, const char *tag)
{
	unsigned last = MIN(column + MAX(cell->span, 1u), grid->count) - 1;
	double x = galley->x, width = galley->width;
	GArray *slugs = galley->slugs, *set;
	struct block block = *cell;

	set = g_array_new(FALSE, TRUE, sizeof(struct slug));
	galley->slugs = set;
	galley->x = x + grid->x[column];
	galley->width = grid->x[last] + grid->widths[last] - grid->x[column];
	if (cell->align == ALIGN_LEFT)
		block.align = grid->table->columns[column].align;
	setting_lines(galley, &block, 0, tag);
	setting_blocks(galley, cell->first);
	galley->slugs = slugs;
	galley->x = x;
	galley->width = width;
	return set;
}

/* Copies the pieces of a slug, `down` points lower. */
static void
merge(struct piece *pieces, uint32_t *count, const struct slug *slug,
	double down)
{
	uint32_t i;

	for (i = 0; i < slug->piece_count; i++) {
		pieces[*count] = slug->pieces[i];
		pieces[*count].y += (float)down;
		if (pieces[*count].element == NULL)
			pieces[*count].element = slug->element;
		(*count)++;
	}
}

/*
 * Makes one slug of the lines from `from` up to `to` of all cells, cell by
 * cell: that is the order in which they are read.
 */
static void
merge_lines(struct galley *galley, GArray *const *cells, unsigned count,
	guint from, guint to, double pad)
{
	uint32_t room = 0, used = 0;
	double deepest = pad, y;
	struct piece *pieces;
	struct slug *slug;
	unsigned i;
	guint k;

	for (i = 0; i < count; i++) {
		for (k = from; cells[i] && k < MIN(to, cells[i]->len); k++)
			room += g_array_index(cells[i], struct slug, k)
					.piece_count;
	}
	pieces = arena_array(galley->arena, struct piece, room);
	for (i = 0; i < count; i++) {
		y = pad;
		for (k = from; cells[i] && k < MIN(to, cells[i]->len); k++) {
			slug = &g_array_index(cells[i], struct slug, k);
			merge(pieces, &used, slug, y);
			y += (double)slug->height;
		}
		deepest = MAX(deepest, y);
	}
	slug = setting_slug(galley, SLUG_MATTER, deepest, BREAK_NEVER);
	slug->pieces = pieces;
	slug->piece_count = used;
}

static void
rule_below(struct galley *galley, double width, enum ink ink)
{
	guint last = galley->slugs->len - 1;
	struct slug *slug = &g_array_index(galley->slugs, struct slug, last);

	slug->height += (float)PAD_BOTTOM;
	setting_add(galley, last,
		setting_fill(galley->x, (double)slug->height - width,
			galley->width, width, ink));
}

static guint
count_lines(GArray *const *cells, unsigned count)
{
	guint lines = 0;
	unsigned i;

	for (i = 0; i < count; i++) {
		if (cells[i] != NULL)
			lines = MAX(lines, cells[i]->len);
	}
	return lines;
}

/* A tall row is cut into lines, and may be parted some way from its ends. */
static void
merge_row(struct galley *galley, GArray *const *cells, unsigned count,
	double pad)
{
	guint lines = count_lines(cells, count), line;

	if (lines <= TALL) {
		merge_lines(galley, cells, count, 0, lines, pad);
		return;
	}
	for (line = 0; line < lines; line++) {
		merge_lines(galley, cells, count, line, line + 1,
			line == 0 ? pad : 0);
		if (line + 1 >= LEFT_TOGETHER &&
			line + 1 + LEFT_TOGETHER <= lines)
			g_array_index(galley->slugs, struct slug,
				galley->slugs->len - 1)
				.cost = COST_CUT_ROW;
	}
}

/* Anchors and guide words of a row go to its first slug. */
static void
set_row(struct galley *galley, const struct grid *grid, const struct block *row,
	float cost)
{
	GArray **cells = arena_array(galley->arena, GArray *, grid->count);
	const struct element *outer = galley->element;
	const struct anchor *anchors;
	const struct block *cell;
	const char *guide;
	unsigned i;

	setting_marks(galley, row);
	anchors = galley->anchors;
	guide = galley->guide;
	galley->element = setting_element(galley, "TR");
	for (i = 0; i < grid->count; i++) {
		cell = cell_at(row, i);
		if (cell != NULL)
			cells[i] = set_cell(galley, grid, i, cell,
				row->row == ROW_BODY ? "TD" : "TH");
	}
	galley->anchors = anchors;
	galley->guide = guide;
	merge_row(galley, cells, grid->count, grid->table->quiet ? 0 : PAD_TOP);
	for (i = 0; i < grid->count; i++) {
		if (cells[i] != NULL)
			g_array_free(cells[i], TRUE);
	}
	if (!grid->table->quiet)
		rule_below(galley, row->row == ROW_HEAD ? THICK : THIN,
			row->row == ROW_HEAD ? INK_BLACK : INK_PALE);
	g_array_index(galley->slugs, struct slug, galley->slugs->len - 1)
		.cost = cost;
	galley->element = outer;
}

static void
set_caption(struct galley *galley, const struct block *table, bool again)
{
	struct block caption = {.style = STYLE_CAPTION};
	const struct run *run;

	for (run = table->runs; run != NULL; run = run->next) {
		block_text(galley->arena, &caption, run->emphasis, run->text);
		caption.last_run->link = run->link;
		caption.last_run->language = run->language;
	}
	if (again && table->again != NULL && table->runs == NULL)
		block_text(galley->arena, &caption, PLAIN, table->again);
	if (again)
		block_text(galley->arena, &caption, PLAIN,
			caption.runs == NULL ? "continued" : ", continued");
	if (caption.runs == NULL)
		return;
	setting_lines(galley, &caption, 0, "Caption");
}

/* Sets caption and head rows; each slug is kept with the next. */
static void
set_head(struct galley *galley, const struct grid *grid, bool again)
{
	guint from = galley->slugs->len;
	const struct block *row;

	set_caption(galley, grid->table, again);
	for (row = grid->table->first; row != NULL; row = row->next) {
		if (row->row == ROW_HEAD)
			set_row(galley, grid, row, BREAK_NEVER);
	}
	for (; from < galley->slugs->len; from++)
		g_array_index(galley->slugs, struct slug, from)
			.cost = BREAK_NEVER;
}

/* The head for pages that go on with the table. */
static const struct head *
make_head(struct galley *galley, const struct grid *grid)
{
	struct head *head = arena_one(galley->arena, struct head);
	GArray *slugs = galley->slugs;
	struct slug *copy;
	guint i;

	galley->slugs = g_array_new(FALSE, TRUE, sizeof(struct slug));
	set_head(galley, grid, true);
	head->count = galley->slugs->len;
	copy = arena_array(galley->arena, struct slug, head->count);
	for (i = 0; i < head->count; i++) {
		copy[i] = g_array_index(galley->slugs, struct slug, i);
		head->height += (double)copy[i].height;
	}
	head->slugs = copy;
	g_array_free(galley->slugs, TRUE);
	galley->slugs = slugs;
	return head;
}

/* A table without a caption or head rows is a list, and goes on as one. */
static bool
has_head(const struct block *table)
{
	const struct block *row;

	for (row = table->first; row != NULL; row = row->next) {
		if (row->row == ROW_HEAD)
			return true;
	}
	return table->runs != NULL;
}

static float
row_cost(const struct block *row, unsigned before)
{
	if (row->next == NULL)
		return 0;
	if (row->row == ROW_GROUP || row->keep)
		return BREAK_NEVER;
	if (before == 0 || row->next->next == NULL)
		return COST_LONE_ROW;
	return 0;
}

void
setting_table(struct galley *galley, const struct block *table)
{
	const struct anchor *anchors = galley->anchors;
	const char *guide = galley->guide;
	struct grid grid = {.table = table};
	const struct block *row;
	const struct head *head = NULL;
	const struct element *outer = galley->element;
	unsigned rows = 0;

	if (table->count == 0 || table->first == NULL)
		return;
	galley->element = setting_element(galley, "Table");
	make_grid(galley, &grid);
	if (!table->quiet)
		setting_space(galley,
			setting_spec(galley, STYLE_CAPTION)->before);
	galley->anchors = NULL;
	galley->guide = NULL;
	if (has_head(table))
		head = make_head(galley, &grid);
	galley->anchors = anchors;
	galley->guide = guide;
	set_head(galley, &grid, false);
	galley->head = head;
	for (row = table->first; row != NULL; row = row->next) {
		if (row->row == ROW_HEAD)
			continue;
		set_row(galley, &grid, row, row_cost(row, rows));
		rows++;
	}
	galley->head = NULL;
	galley->element = outer;
	setting_space(galley, galley->format->grid / (table->quiet ? 4 : 2));
}
