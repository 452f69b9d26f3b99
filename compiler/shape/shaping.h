/*
 * What the files of this folder share while trees are shaped; for them alone.
 */
#ifndef SHAPE_SHAPING_H
#define SHAPE_SHAPING_H

#include "shape/value.h"

struct shaping {
	const struct schema *schema;	/* NULL while the schema itself is read */
	const struct sources *sources;
	struct arena *arena;
	struct diags *diags;
};

/*
 * Shapes one value of `field`, or a list where the field says `many`. Returns
 * NULL after reporting what is wrong.
 */
struct value *
shape_value(struct shaping *shaping, const struct field *field,
	const struct node *node);

/*
 * Shapes the entries of a mapping as `fields`: gives an array by field index.
 * `builtin` names a key that is handled elsewhere ("id"), or is NULL; `what`
 * names the thing for messages.
 */
struct value **
shape_fields(struct shaping *shaping, const struct fields *fields,
	const struct node *map, const char *builtin, const char *what);

/* Reads a scalar of a simple type into `value`; false after reporting. */
bool
shape_scalar(struct shaping *shaping, const struct field *field,
	const struct node *node, struct value *value);

/*
 * Offers `text` in place of a scalar as written, keeping its quotes. Nothing
 * is offered where `text` is NULL or would need quotes that are not there.
 */
void
shape_offer(struct diag *diag, const struct node *node, const char *text,
	enum confidence sure);

/* Offers brackets around one value where a list was expected. */
void
shape_offer_list(struct shaping *shaping, struct diag *diag,
	const struct field *field, const struct node *node);

/* Offers to take the brackets from a list of one. */
void
shape_offer_single(struct shaping *shaping, struct diag *diag,
	const struct node *node);

/* Offers a line for a field that a group lacks, its value to be filled in. */
void
shape_offer_field(struct shaping *shaping, struct diag *diag,
	const struct field *field, const struct node *map);

/* Whether a person can see all of a scalar's text; false after reporting. */
bool
shape_printable(struct shaping *shaping, const struct node *node);

/* A scalar's text without blanks and line breaks at its end. */
const char *
shape_trimmed(struct shaping *shaping, const struct node *node);

/* Takes a reference apart: kind, id, key. Whither it leads, link/ finds. */
void
shape_reference(struct shaping *shaping, const struct field *field,
	const struct node *node, struct reference *reference);

#endif
