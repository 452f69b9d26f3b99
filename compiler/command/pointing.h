/*
 * What points at a record, counted in the database of a guide.
 */
#ifndef COMMAND_POINTING_H
#define COMMAND_POINTING_H

#include "command/describing.h"

/*
 * Appends a struct pointing (see command/showing.h) for each field by which
 * some record points at this one.
 */
void
pointing_count(struct store *store, const struct description *description,
	const char *kind, const char *id, struct arena *arena,
	GArray *pointing, GError **error);

#endif
