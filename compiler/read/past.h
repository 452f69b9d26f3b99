/*
 * The ids that an earlier edition of a corpus had. Nothing else of it is read:
 * it was sound when it was published, and is only held against.
 */
#ifndef READ_PAST_H
#define READ_PAST_H

#include <stdbool.h>

#include "base/arena.h"
#include "diag/diag.h"

struct past_id {
	const char *kind;	/* as its folder or heading says */
	const char *id;
	struct span span;
	bool retired;		/* it was withdrawn by then */
	const char *later;	/* it was a former id of this one; or NULL */
};

struct past {
	const char *edition;	/* the name of its folder */
	struct past_id *ids;
	size_t count;
};

/*
 * The ids of the latest edition in the folder `past` of the corpus at `path`,
 * by the natural order of their names. No edition: none of them. What cannot
 * be read is reported.
 */
struct past
read_past(const char *path, struct sources *sources, struct arena *arena,
	struct diags *diags);

#endif
