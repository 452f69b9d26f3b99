/*
 * From a tree of blocks to a printed book: sets and breaks until every page
 * number is true, then prints.
 */
#ifndef WRITE_HANDBOOK_COMPOSE_H
#define WRITE_HANDBOOK_COMPOSE_H

#include <stdio.h>

#include "write/handbook/block.h"
#include "write/handbook/press.h"

/* What is worth knowing afterwards. */
struct composed {
	unsigned pages;
	unsigned passes;
	unsigned overfull;	/* lines and rows that do not fit */
	double set_seconds;	/* processor time of setting and breaking */
	double print_seconds;	/* and of printing */
	const char *complaints; /* one a line, or "" */
};

/*
 * Prints `book`, a BLOCK_BOOK whose children are chapters, to `out`. Texts of
 * `result` live in `arena`. Returns NULL, or what went wrong, in `arena`.
 */
const char *
compose_book(struct arena *arena, const struct block *book,
	const struct format *format, const struct imprint *imprint,
	const struct printing *how, FILE *out, struct composed *result);

#endif
