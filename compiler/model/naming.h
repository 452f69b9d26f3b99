/*
 * What records are called; for this folder alone.
 */
#ifndef MODEL_NAMING_H
#define MODEL_NAMING_H

#include "shape/value.h"

/*
 * Gives the record its name, by the template of its kind; and first the
 * records that its name is made of. Names live in `arena`.
 */
void
name_record(struct record *record, struct arena *arena);

#endif
