/*
 * What the making of relations shares; for this folder alone.
 */
#ifndef WRITE_RELATIONS_INSIDE_H
#define WRITE_RELATIONS_INSIDE_H

#include "write/relations/relations.h"

/* A column of a computed relation, as its table says it. */
struct computed_column {
	const char *name;
	const char *title;
	enum cell_form form;
	bool required;
	const char *to;		/* the relation it leads to, or NULL */
};

/* A computed relation: `key_count` first columns are its key. */
struct computed {
	const char *name;
	const char *title;
	const char *says;
	unsigned key_count;
	relation_compute *compute;
	const struct computed_column *columns;	/* ends without a name */
};

/* Before you buy, in a file of its own. */
relation_compute compute_buyer;
extern const struct computed_column buyer_columns[];

/* Population reports, likewise. */
relation_compute compute_census_rank, compute_census_line,
	compute_census_words;
extern const struct computed_column census_rank_columns[];
extern const struct computed_column census_line_columns[];
extern const struct computed_column census_words_columns[];

/* What is still unseen, likewise. */
relation_compute compute_unseen, compute_discovery;
extern const struct computed_column unseen_columns[];
extern const struct computed_column discovery_columns[];

static inline struct cell
cell_null(void)
{
	return (struct cell){.form = CELL_NULL};
}

/* NULL for NULL. */
static inline struct cell
cell_text(const char *text)
{
	struct cell cell = {.form = text == NULL ? CELL_NULL : CELL_TEXT};

	cell.text = text;
	return cell;
}

static inline struct cell
cell_whole(int64_t number)
{
	return (struct cell){.form = CELL_WHOLE, .whole = number};
}

static inline struct cell
cell_real(double number)
{
	return (struct cell){.form = CELL_REAL, .real = number};
}

/* Computed estimates, likewise. */
relation_compute compute_estimates;
extern const struct computed_column estimate_columns[];

/* All of them; ends with one without a name. */
extern const struct computed computed_relations[];

/* Columns that lead to a kind, or with a NULL kind to any record. */
struct lead {
	unsigned from;
	const struct kind *kind;
	bool keyed;
};

struct draft {
	struct relation relation;
	GArray *columns;	/* struct column */
	GArray *leads;		/* struct lead */
};

struct drafting {
	const struct schema *schema;
	struct arena *arena;
	GPtrArray *drafts;
	GHashTable *names;	/* of all relations */
	struct draft *record;
	struct draft **of_kind;	/* by kind; NULL where it is private */
};

/* Whether records of the kind are in a corpus, and so in a guide. */
static inline bool
kind_is_public(const struct kind *kind)
{
	return kind->chapter != CHAPTER_PRIVATE;
}

/*
 * Draws up a draft for each relation, owners before what is theirs. Columns
 * that lead somewhere are not joined yet.
 */
void
relations_lay_out(struct drafting *drafting);

#endif
