/*
 * The printed handbook, as a PDF file.
 */
#ifndef WRITE_HANDBOOK_HANDBOOK_H
#define WRITE_HANDBOOK_HANDBOOK_H

#include <stdio.h>

#include "model/model.h"
#include "model/seen.h"
#include "write/writer.h"

/* Whether there is such a paper, and for large print where that is wished. */
bool
handbook_has_paper(const struct print_wishes *wishes);

/*
 * Prints the handbook of a model on a paper that there is to `out`, which stays
 * the caller's. The bytes depend on the model and the wishes alone. Returns
 * NULL, or what went wrong: a text in `arena`.
 */
const char *
handbook_print(const struct model *model, const struct seen *seen,
	const struct reckonings *reckonings, const struct print_wishes *wishes,
	struct arena *arena, FILE *out);

/* The writer: adds handbook.pdf to the output. */
bool
handbook_write(const struct write_job *job, GError **error);

#endif
