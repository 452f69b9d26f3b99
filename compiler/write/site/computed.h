/*
 * Computed estimates on pages: the answer, and the working folded away.
 */
#ifndef WRITE_SITE_COMPUTED_H
#define WRITE_SITE_COMPUTED_H

#include "study/evidence.h"
#include "write/site/page.h"

/* Appends a section with answer and working, and what belongs below it: the
   combinations of a pairing, the pairings of an anomaly. */
void
computed_show(struct page *page, struct subject subject);


#endif
