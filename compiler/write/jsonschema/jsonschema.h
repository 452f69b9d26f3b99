/*
 * The schema as JSON Schema 2020-12, one file a kind, for editors that
 * complete fields and show what belongs in them. It says what shape/ says: a
 * file is valid here exactly if shaping it finds no fault. What references
 * lead to, and what prose may hold, no JSON Schema could say.
 */
#ifndef WRITE_JSONSCHEMA_JSONSCHEMA_H
#define WRITE_JSONSCHEMA_JSONSCHEMA_H

#include "write/writer.h"

/*
 * Adds schema/KIND.json for a file of records of one kind, schema/mixed.json
 * for one of several kinds, and schema/catalog.json, which says which file is
 * for which.
 */
write_function jsonschema_write;

#endif
