/*
 * Inside of the galley, for the files that set one kind of block each.
 */
#ifndef WRITE_HANDBOOK_SETTING_H
#define WRITE_HANDBOOK_SETTING_H

#include "write/handbook/galley.h"

struct galley {
	struct arena *arena;
	struct fonts *fonts;
	const struct format *format;
	struct paragraph paragraph;
	GArray *slugs; /* struct slug: the flow being set */
	GArray *complaints;
	struct flow *first, **end;
	double x; /* where the column being set begins */
	double width;
	unsigned columns;
	const struct anchor *anchors; /* for the next matter; last first */
	const char *guide;
	const char *here;	       /* the last anchor */
	const struct head *head;       /* of the table being set */
	const struct element *element; /* what is being set belongs to it */
};

/* The style of a block. */
const struct style_spec *
setting_spec(const struct galley *galley, enum style style);

/* Height of the baseline below the top of a line. */
double
setting_baseline(const struct style_spec *spec);

/* Adds a slug; matter takes the anchors and guide word that wait. */
struct slug *
setting_slug(struct galley *galley, enum slug_kind kind, double height,
	float cost);

/* Adds space, which takes over the break cost of what stands above it. */
void
setting_space(struct galley *galley, double height);

/* Of parting the first or last item from its list. */
#define COST_LONE_ITEM 1500.0f
/* Of a page break within what is better kept together; and where that is more
 * than half a page. */
#define COST_PARTED 260.0f
#define COST_PARTED_LARGE 100.0f

/* Takes over the anchor and guide word of a block. */
void
setting_marks(struct galley *galley, const struct block *block);

/* Sets a block and what is in it. */
void
setting_block(struct galley *galley, const struct block *block);

void
setting_blocks(struct galley *galley, const struct block *first);

/*
 * Sets a block's runs as lines of one element. `first` is the indent of the
 * first line; the others are indented by the block's `hang`.
 */
void
setting_lines(struct galley *galley, const struct block *block, double first,
	const char *tag);

void
setting_table(struct galley *galley, const struct block *table);

/* A new element below the one being set. */
struct element *
setting_element(const struct galley *galley, const char *tag);

/* Puts a piece into the slug with that index, before what is there. */
void
setting_add(struct galley *galley, guint index, struct piece piece);

void
setting_complain(struct galley *galley, const char *text);

/* The piece of a rectangle. */
struct piece
setting_fill(double x, double y, double width, double height, enum ink ink);

#endif
