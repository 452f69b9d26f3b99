/*
 * Tokens: what of a text is a word to be searched, for database, site and
 * terminal alike. They are those of SQLite's tokenizer "unicode61
 * remove_diacritics 2" (SEARCH_TOKENIZER), character for character: letters
 * and digits of Unicode 6.1, folded, Latin ones without their marks.
 *
 * That tokenizer leaves the accents of other scripts alone, and so would not
 * find a Greek name typed in capitals, which are written without them. The
 * plain form of a token has no marks in any script, and spells out letters
 * such as "ø" and "ß". What is indexed holds both forms (search_append_plain);
 * what is asked for is asked for in its plain form.
 */
#ifndef SEARCH_TOKENS_H
#define SEARCH_TOKENS_H

#include <glib.h>
#include <stdbool.h>
#include <stdint.h>

#define SEARCH_TOKENIZER "unicode61 remove_diacritics 2"

/* Takes a token and the data given. */
typedef void search_token_function(void *data, const char *token);

/* Calls `function` for each token of UTF-8 `text`, in order. */
void
search_tokens(const char *text, search_token_function *function, void *data);

/* Appends the plain form of a token. */
void
search_append_folded(GString *out, const char *token);

/*
 * Appends to a token of Greek letters, each after a blank, its forms in Latin
 * letters (see search/greek.h); nothing to any other.
 */
void
search_append_latin(GString *out, const char *token);

/*
 * Appends, each after a blank, the plain form of each token of `text` that
 * has another plain form, and its forms in Latin letters, so that an index
 * over `out` finds all.
 */
void
search_append_plain(GString *out, const char *text);

/*
 * The tokens of a text in plain form, with their forms in Latin letters, a
 * blank before and behind each; to be freed.
 */
char *
search_joined(const char *text);

/*
 * What the tokenizer makes of a character: 0 where it ends a token, the
 * character it stands for otherwise. Marks that are passed over within a
 * token are SEARCH_PASSED. For tests.
 */
#define SEARCH_PASSED UINT32_MAX
uint32_t
search_fold(uint32_t character);

#endif
