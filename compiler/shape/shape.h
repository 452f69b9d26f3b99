/*
 * Shape: trees against the schema. Gives records whose values are typed. A
 * value that does not fit is reported once and left out, so that later stages
 * say no more about it.
 */
#ifndef SHAPE_SHAPE_H
#define SHAPE_SHAPE_H

#include "read/corpus.h"
#include "shape/value.h"

/* A record that is there but could not be taken; what is NULL is not known. */
struct lost {
	const struct kind *kind;
	const char *id;		/* as written */
	uint32_t file;		/* whose bytes may name it; 0: none */
	struct diag *diag;	/* that said why; or NULL */
};

struct records {
	struct record **items;	/* in the order read */
	size_t count;
	struct lost *lost;
	size_t lost_count;
};

/*
 * Shapes the records of a corpus. Records of unknown kinds or without a usable
 * id are reported and left out. `private_kinds` allows kinds of the chapter
 * `private` (holdings), which a corpus must not hold.
 */
struct records *
shape_corpus(const struct raw_corpus *corpus, const struct schema *schema,
	bool private_kinds, const struct sources *sources,
	struct arena *arena, struct diags *diags);

/* The oldest and the newest corpus format this compiler reads. */
enum { FORMAT_OLDEST = 1, FORMAT_NEWEST = 1 };

/* Whether text may be an id: lower-case letters, digits, inner hyphens. */
bool
shape_is_id(const char *text, size_t size);

#endif
