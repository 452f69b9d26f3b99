/*
 * The many ways in which collectors write the label of a card back.
 */
#ifndef SEARCH_LABEL_H
#define SEARCH_LABEL_H

#include <glib.h>
#include <stdint.h>

/*
 * Appends the ways of writing `label`, given by some scheme to a card back
 * that pictures `number` figures, with "; " between them: "18B; 18-back B;
 * 18back B". Read as tokens, these also match "18 back b" and "18b".
 */
void
search_append_label(GString *out, int64_t number, const char *label);

/*
 * Takes a token that someone typed as one word apart, where it is a label
 * written with "back": "24backb" and "backb" give "24", "back", "b". Returns
 * the parts, ended by NULL, or NULL for any other token. Free with g_strfreev.
 */
char **
search_split_label(const char *token);

#endif
