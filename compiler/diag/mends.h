/*
 * Mends applied: what the files of a corpus become. Nothing is written here.
 */
#ifndef DIAG_MENDS_H
#define DIAG_MENDS_H

#include <glib.h>

#include "diag/diag.h"

/* A file with its mends in place. */
struct mended {
	uint32_t file;
	GString *bytes;
};

struct mends {
	GArray *files;		/* struct mended, by file */
	unsigned applied;	/* messages whose mends were applied */
	unsigned refused;	/* messages whose mends overlap with others */
};

/*
 * Applies the mends of sorted messages that are at least as sure as `least`,
 * within files whose path is `folder` or lies in it. Of mends that overlap,
 * those of the earlier message are applied. Free with mends_free.
 */
struct mends
mends_apply(const struct diags *diags, enum confidence least,
	const char *folder);

void
mends_free(struct mends *mends);

#endif
