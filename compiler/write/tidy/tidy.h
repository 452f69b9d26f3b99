/*
 * The canonical layout of a file of records: one way to write each record.
 * What it is, and why, is said in schema/README.md.
 */
#ifndef WRITE_TIDY_TIDY_H
#define WRITE_TIDY_TIDY_H

#include "read/corpus.h"
#include "shape/schema.h"

/*
 * The bytes that `file` should have, given its tree `root`, read without any
 * error. NULL where it cannot be laid out so that it surely means the same and
 * keeps every comment: *why then says what would be lost. Free with
 * g_string_free.
 */
GString *
tidy_layout(const struct corpus_file *file, const struct node *root,
	const struct sources *sources, const struct schema *schema,
	const char **why);

#endif
