/*
 * The table of names while it is made; for this folder alone.
 */
#ifndef LINK_NAMES_H
#define LINK_NAMES_H

#include <glib.h>

#include "link/link.h"

struct names {
	const struct names *known;	/* sought after this one, or NULL */
	GHashTable **current;	/* by kind: id → record */
	GHashTable **former;	/* by kind: former id → record */
	unsigned kinds;
};

struct linking {
	const struct schema *schema;
	const struct sources *sources;
	struct names *names;
	struct lost_names *lost;
	struct arena *arena;
	struct diags *diags;
	unsigned guesses;	/* searches for a nearest id so far */
};

/* Enters current and former ids; drops repeated records from `records`. */
void
names_enter(struct linking *linking, struct records *records);

/* Whether the id is current in its kind here or in what is known. */
const struct record *
names_current(const struct names *names, const struct kind *kind,
	const char *id);

/* Whether the record was withdrawn. */
bool
names_is_retired(const struct record *record);

/* Reports values that must be unique and are not. */
void
link_check_unique(struct linking *linking, const struct records *records);

#endif
