/*
 * What output.c and output_ends.c share: the output itself, the step at which
 * a test may make the system fail, and how errors are put. No one else
 * includes this.
 */
#ifndef BASE_OUTPUT_INSIDE_H
#define BASE_OUTPUT_INSIDE_H

#include "base/output.h"

enum entry { ENTRY_NONE, ENTRY_RESERVED, ENTRY_DONE };

struct output {
	const struct output_fault *fault;
	char *shown;	 /* OUT as it was given, for messages */
	char *name;	 /* its last part */
	char *temporary; /* the temporary's name beside it */
	char *place;	 /* the temporary's absolute path */
	int parent;
	int folder;	     /* the temporary */
	int earlier;	     /* OUT as it was found, or -1 */
	int written;	     /* atomic: whether anything new was written */
	GMutex lock;	     /* of what follows */
	GHashTable *entries; /* path → enum entry */
	GHashTable *folders; /* paths of folders made in the temporary */
	unsigned unsettled;
};

/* Whether `step` is to fail, by the test's word; errno is then set. */
bool
output_fails(const struct output *out, const char *step);

/* Both set the error and return false. The first takes errno. */
bool
output_failed(const struct output *out, const char *verb, const char *what,
	GError **error);
bool
output_refused(const char *shown, const char *why, GError **error);

/* Write a file that is not there yet, without entering it. */
bool
output_put(struct output *out, const char *path, const void *bytes, size_t size,
	GError **error);

#endif
