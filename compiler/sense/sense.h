/*
 * Sense: the rules of the trade, over a model whose records are all in shape
 * and linked. What is impossible is an error; what the trade would not expect
 * is a warning, which a stated, sourced exception in the record quiets.
 */
#ifndef SENSE_SENSE_H
#define SENSE_SENSE_H

#include "diag/diag.h"
#include "model/model.h"

/* Applies every rule and reports into `diags`. */
void
sense_check(const struct model *model, struct diags *diags);

/*
 * The same for records that are no part of the model but linked to it: a
 * collector's holdings.
 */
void
sense_check_private(const struct model *model, const struct records *records,
	struct diags *diags);

/*
 * For surprises that later stages find: whether an exception in `record`
 * excuses one, and a report of exceptions to it where there was none.
 */
bool
sense_excuses(const struct model *model, const struct record *record,
	enum diag_code code);
void
sense_unused(const struct model *model, const struct record *record,
	enum diag_code code, struct diags *diags);

/*
 * Helps with a surprise: `mend` says how it may be mended, and the rest how it
 * is excused in `record`.
 */
void
sense_help(struct diag *diag, const struct record *record, const char *mend);

#endif
