/*
 * What a message is made of: for the printers in this folder and for the
 * command that applies mends, and for nobody else.
 */
#ifndef DIAG_COLLECT_H
#define DIAG_COLLECT_H

#include <glib.h>

#include "diag/diag.h"

struct diag_note {
	struct span span;
	const char *text;
};

struct diag_mend {
	struct span span;
	const char *text;
	enum confidence confidence;
};

struct diag {
	struct diags *diags;
	enum diag_code code;
	struct span span;
	const char *text;
	const char *help;
	GArray *notes;		/* struct diag_note; NULL when none */
	GArray *mends;		/* struct diag_mend; NULL when none */
};

struct diags {
	const struct sources *sources;
	struct arena *arena;
	GPtrArray *items;	/* struct diag */
	size_t counts[2];
};

#endif
