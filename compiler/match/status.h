/*
 * Whether a row says that the piece is not, or not yet, at hand.
 */
#ifndef MATCH_STATUS_H
#define MATCH_STATUS_H

#include <stdbool.h>

/*
 * The word for it in the vocabulary of holdings, as "wanted" or "sold", if a
 * cell begins with such a word in some language: "Wanted: Kedge", "sold 2019".
 * NULL for any other cell.
 */
const char *
match_status(const char *cell);

#endif
