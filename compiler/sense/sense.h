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

#endif
