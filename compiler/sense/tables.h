/*
 * Codes of the standards, as tables made by tests/outside/make-code-tables.py;
 * codes.c and language.c look them up. All are in byte order.
 */
#ifndef SENSE_TABLES_H
#define SENSE_TABLES_H

#include <stddef.h>

/*
 * A code may stand for several countries in turn. `last` is the date of its
 * withdrawal, which may be partial, or NULL while it is in force.
 */
struct country {
	char code[3];		/* ISO 3166 alpha-2 */
	char three[4];		/* alpha-3 */
	const char *last;
	const char *name;
};

extern const struct country countries[];
extern const size_t countries_count;

/* `last` as above; "" where it is withdrawn and nobody says when. */
struct currency {
	char code[4];
	const char *last;
	const char *name;	/* or "" */
};

extern const struct currency currencies[];
extern const size_t currencies_count;

/* Subtags of language tags, written as the registry writes them. */
extern const char languages2[][3];
extern const size_t languages2_count;

/* Two letters, and all those that may follow: "aabc" is aab and aac. */
extern const char *const languages3[];
extern const size_t languages3_count;

struct language_pair {
	char code[4];
	char other[4];
};

/* Codes of ISO 639-2 for which BCP 47 takes the two letters of `other`. */
extern const struct language_pair longer_languages[];
extern const size_t longer_languages_count;

/* Extended languages; `other` is the language that each stands behind. */
extern const struct language_pair extended_languages[];
extern const size_t extended_languages_count;

extern const char scripts[][5];
extern const size_t scripts_count;

extern const char regions[][4];
extern const size_t regions_count;

extern const char *const language_variants[];
extern const size_t language_variants_count;

/* Whole tags from before the rules, in lower case. */
extern const char *const old_language_tags[];
extern const size_t old_language_tags_count;

#endif
