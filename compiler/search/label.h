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

#endif
