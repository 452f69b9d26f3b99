/*
 * Parts of YAML that records do not use, told from plain mistakes; for this
 * folder alone.
 */
#ifndef READ_FEATURE_H
#define READ_FEATURE_H

#include "read/node.h"
#include "read/syntax.h"

/* What is not used, as "records do not use ..." goes on, and what to do. */
struct feature {
	const char *what;
	const char *instead;
};

extern const struct feature feature_directive;
extern const struct feature feature_documents;

/* Says that records do not use the feature at `span`. */
void
feature_refuse(struct diags *diags, struct span span,
	const struct feature *feature);

/*
 * The part of YAML at which libyaml gave up, since it does not know it or
 * records do not use it, or NULL where it is a mistake.
 */
const struct feature *
feature_behind(const struct source *source, const struct syntax_error *error);

/*
 * Looks at how a scalar is written, which libyaml takes for more than YAML
 * does. Returns false after reporting.
 */
bool
feature_check_scalar(struct diags *diags, const struct source *source,
	const struct node *scalar);

/*
 * Looks at the bytes between two values, where libyaml is more lenient than
 * YAML: comments without a blank before them, and "?" before a text. Returns
 * false after reporting.
 */
bool
feature_check_gap(struct diags *diags, const struct source *source,
	struct span gap);

#endif
