/*
 * What the model is made of; for this folder alone.
 */
#ifndef MODEL_INSIDE_H
#define MODEL_INSIDE_H

#include "model/model.h"

struct model {
	const struct schema *schema;
	const struct names *names;
	const struct sources *sources;
	const char *title;
	char digest[65];
	const struct field *fields[FIELD_NAME_COUNT];
	struct record_list *lists;		/* by kind */
	struct pointer_list **pointers;		/* by kind, then record */
};

/* Fills the lists of what points at each record. */
void
model_turn_round(struct model *model, struct arena *arena);

#endif
