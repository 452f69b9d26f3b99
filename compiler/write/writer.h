/*
 * What a guide consists of: one writer for each part, in one table. A writer
 * reads the model and adds files to the output; it changes nothing else.
 */
#ifndef WRITE_WRITER_H
#define WRITE_WRITER_H

#include <glib.h>

#include "base/output.h"
#include "model/model.h"
#include "model/seen.h"

struct reckonings;

/* How the handbook is wished to be. */
struct print_wishes {
	const char *paper;	/* a4, a5, letter, half-letter; NULL: a5 */
	bool large;		/* large print, on a4 or letter */
	bool black;		/* in black alone */
	bool marks;		/* with bleed and crop marks */
	bool booklet;		/* as sheets to fold and stitch */
};

struct write_job {
	const struct model *model;
	const struct seen *seen;
	const struct reckonings *reckonings;	/* worked */
	struct output *out;
	struct print_wishes print;
	const char *assets;	/* folder of the site's own files */
	const char *codes;	/* folder of the pages of messages */
	int jobs;		/* threads to use at most; at least 1 */
};

typedef bool write_function(const struct write_job *job, GError **error);

struct writer {
	const char *name;		/* as --only takes it */
	const char *paths;		/* what it leaves in OUT, for people */
	write_function *write;
};

/* All writers, in the order they run; ends with one without a name. */
extern const struct writer writers[];

#endif
