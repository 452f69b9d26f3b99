/*
 * Sums of money by currency; for this folder alone. Different currencies are
 * never added.
 */
#ifndef WRITE_PIECES_MONEY_H
#define WRITE_PIECES_MONEY_H

#include <glib.h>

#include "model/model.h"

struct money {
	GArray *sums;		/* struct sum, by currency */
};

struct money
money_new(void);

void
money_free(struct money *money);

void
money_add(struct money *money, const char *currency, int64_t amount);

/* Adds the amount and currency of a group, where both are there. */
void
money_add_group(struct money *money, const struct model *model,
	struct value *const *group, enum field_name amount,
	enum field_name currency);

/* "12.50 GBP; 3.00 EUR", in the order of the codes; NULL for nothing. */
const char *
money_words(const struct money *money, struct arena *arena);

#endif
