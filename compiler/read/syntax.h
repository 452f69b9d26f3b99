/*
 * What is wrong with a file that is not YAML, in words for people; for this
 * folder alone.
 */
#ifndef READ_SYNTAX_H
#define READ_SYNTAX_H

#include "diag/diag.h"

/* What libyaml says: the problem at one place, while at something begun. */
struct syntax_error {
	const char *problem;
	struct span span;
	const char *context;		/* or NULL */
	struct span context_span;
};

/* Offers what the line at the problem makes likely. */
void
syntax_offer(struct diag *diag, const struct source *source,
	const struct syntax_error *error);

void
syntax_report(struct diags *diags, const struct source *source,
	const struct syntax_error *error);

#endif
