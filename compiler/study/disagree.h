/*
 * Quoted estimates held against computed ones. Disagreement is a surprise: the
 * guide then says both, and the record may state why.
 */
#ifndef STUDY_DISAGREE_H
#define STUDY_DISAGREE_H

#include "diag/diag.h"
#include "study/reckon.h"

enum agreement {
	AGREEMENT_NONE,		/* not of the same thing, or no number */
	AGREEMENT_AGREES,	/* the intervals meet */
	AGREEMENT_MORE,		/* more is quoted than the limits allow */
	AGREEMENT_FEWER,
	AGREEMENT_OVERTAKEN,	/* fewer than were told apart since */
};

/*
 * Computed are surviving carded pieces that are not altered. What survives is
 * held against both limits, widened by the altered pieces known; what was made
 * cannot be fewer, what is known cannot be more. A lower bound has no upper
 * limit that anything could be above.
 */
enum agreement
study_agreement(const struct quoted *quoted, const struct evidence *evidence,
	const struct choice *choice);

/*
 * A stage, after the rules of the trade: reports what disagrees, and exceptions
 * to that where nothing does.
 */
void
study_check(const struct model *model, struct diags *diags);

#endif
