/*
 * A file as tidy sees it: the tree of read/, with every comment and blank line
 * at the thing that it stands by. For the files of this folder alone.
 */
#ifndef WRITE_TIDY_THINGS_H
#define WRITE_TIDY_THINGS_H

#include "base/arena.h"
#include "read/corpus.h"
#include "shape/schema.h"

/* One comment, from its # to the last character that is no blank. */
struct remark {
	const char *text;
	bool blank;		/* an empty line stands above it */
	struct remark *next;
};

struct remarks {
	struct remark *first;
	struct remark *last;
};

/* An entry of a mapping, an item of a list, or all that a file holds. */
struct thing {
	const char *key;		/* of an entry, or NULL */
	struct span key_span;
	const struct node *node;
	uint32_t from, to;		/* bytes, comments after it left out */
	uint32_t column;		/* of its entries or items, in a block */
	bool bracketed;			/* a list or mapping in [] or {} */
	bool blank;			/* an empty line stands above it */
	bool remarked;			/* there are comments inside it */
	bool record;			/* it, or each item of it, is a record */
	struct remarks before;		/* each on a line of its own */
	struct remarks behind;		/* on the line of it */
	struct remarks foot;		/* after its last entry or item */
	struct thing *items;
	uint32_t count;
};

/* The tree of a file that was read without error. Never NULL. */
struct thing *
things_of(const struct node *root, const struct source *source,
	struct arena *arena);

/*
 * Once the order is settled: puts comments where the layout has a place for
 * them, and marks what has comments inside.
 */
void
things_settle(struct thing *root);

/*
 * Puts the entries of records and groups into the order of the schema. `file`
 * says what the top of the tree is.
 */
void
things_arrange(struct thing *root, const struct corpus_file *file,
	const struct schema *schema);

/* All comments of a tree's file, sorted by their bytes; free the array. */
GPtrArray *
things_remarks(const struct node *root, const struct source *source,
	struct arena *arena);

void
remarks_append(struct remarks *remarks, struct remark *remark);

#endif
