/*
 * What the codes of countries and languages stand for, in English, from the
 * data within ICU's library: the same words whatever the locale.
 */
#ifndef BASE_CODE_NAMES_H
#define BASE_CODE_NAMES_H

#include <stdbool.h>
#include <stddef.h>

struct code_names;

/* May be asked from several threads at once. Never NULL. */
struct code_names *
code_names_new(void);

/* NULL is allowed. */
void
code_names_free(struct code_names *names);

/*
 * Put the name of an ISO 3166-1 code, or of a withdrawn one of ISO 3166-3, or
 * of a BCP 47 tag, into `name`; false where there is none to give.
 */
bool
code_names_country(const struct code_names *names, const char *code,
	char *name, size_t size);
bool
code_names_language(const struct code_names *names, const char *tag,
	char *name, size_t size);

#endif
