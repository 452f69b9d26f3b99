/*
 * Records that are there but could not be read: a reference to one is no
 * mistake of its own. For this folder alone.
 */
#ifndef LINK_LOST_H
#define LINK_LOST_H

#include "link/names.h"

struct lost_names;

/* Gathers the names that what was lost may have had; free with lost_free. */
struct lost_names *
lost_new(const struct records *records, const struct sources *sources);

/*
 * Whether `id` may be the name of a lost record of that kind (NULL: of any).
 * Counts the references that it was asked for and said yes to.
 */
bool
lost_may_have(struct lost_names *names, const struct kind *kind,
	const char *id);

/* Adds notes of those counts to the messages that said what was lost. */
void
lost_note(const struct lost_names *names);

void
lost_free(struct lost_names *names);

#endif
