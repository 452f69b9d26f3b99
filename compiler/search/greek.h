/*
 * Greek words in Latin letters by ISO 843:1997, so that somebody without a
 * Greek keyboard finds them. The tables are from memory, as the standard was
 * not at hand: type 1 (transliteration, letter by letter) and type 2
 * (transcription, by sound) for modern Greek, in lower case and without the
 * macrons and accents, which no search looks at. Breathings are passed over.
 */
#ifndef SEARCH_GREEK_H
#define SEARCH_GREEK_H

#include <glib.h>
#include <stdbool.h>

enum greek_type {
	GREEK_TYPE_1,
	GREEK_TYPE_2,
	GREEK_TYPES
};

/*
 * Appends a token (see search/tokens.h) in Latin letters; what is not Greek
 * in it stays. Returns whether there was any Greek letter.
 */
bool
search_append_greek(GString *out, const char *token, enum greek_type type);

#endif
