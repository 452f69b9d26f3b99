/*
 * What a piece is and what state it is in, in words; for this folder alone.
 * Texts live in the arena they are given.
 */
#ifndef WRITE_PIECES_WORDS_H
#define WRITE_PIECES_WORDS_H

#include "model/model.h"

/* What is known of the piece in one line: "Jory Marl, 11A card back". */
const char *
words_piece(const struct model *model, const struct record *piece,
	struct arena *arena);

/* An identity: a name, "a or b", "not a, not b", "not known"; NULL if none. */
const char *
words_identity(const struct value *identity, struct arena *arena);

/* A value as people read it; NULL for none. */
const char *
words_value(const struct value *value, struct arena *arena);

/* The certificate in force: the last, unless it has ended; or NULL. */
const struct value *
words_certificate(const struct model *model, const struct record *piece);

/* Its grade with qualifiers: "Rung 9, amber"; NULL for none. */
const char *
words_grade(const struct model *model, const struct value *certificate,
	struct arena *arena);

/* The parts of what a piece is, as fields; ends with FIELD_NAME_COUNT. */
extern const enum field_name words_parts[];

#endif
