/*
 * What is said of references that lead nowhere, and what is offered instead.
 * For this folder alone.
 */
#ifndef LINK_REPORT_H
#define LINK_REPORT_H

#include "link/names.h"

/* A reference of a kind that its field cannot lead to, or of none. */
void
report_kind(struct linking *linking, const struct field *field,
	const struct reference *reference);

/* A reference whose kind has no such record. */
void
report_record(struct linking *linking, const struct reference *reference);

/* A reference to an item that its record does not have. */
void
report_item(struct linking *linking, const struct reference *reference);

/* A reference that uses a former id of its record. */
void
report_former(struct linking *linking, const struct reference *reference);

/* A link in prose that leads to no record, or does so by a former id. */
void
report_link(struct linking *linking, const struct prose *link);

void
report_former_link(struct linking *linking, const struct prose *link);

#endif
