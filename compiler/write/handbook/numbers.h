/*
 * Computed estimates as runs of text and rows of tables.
 */
#ifndef WRITE_HANDBOOK_NUMBERS_H
#define WRITE_HANDBOOK_NUMBERS_H

#include "study/reckon.h"
#include "write/handbook/book.h"

/* Appends the short answer. */
void
numbers_answer(struct book *book, struct block *cell, struct subject subject);

/* Appends how it was come by, and the share of an anomaly. */
void
numbers_basis(struct book *book, struct block *cell, struct subject subject);

/* Pieces known, as in the answer. */
unsigned
numbers_known(struct book *book, struct subject subject);

/* A row of a table of facts; nothing where no piece is known. */
void
numbers_fact(struct book *book, struct block *table, struct subject subject);

#endif
