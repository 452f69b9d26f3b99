/*
 * Pages of the guide folded into one file that is no guide: what a record's
 * page says, without its frame and without what points at the record. Links
 * lead to what is folded in, and are plain words otherwise; nothing is asked
 * for from outside.
 */
#ifndef WRITE_SITE_FOLD_H
#define WRITE_SITE_FOLD_H

#include "write/writer.h"

/*
 * Appends the records as sections, in order; each begins at the place
 * "KIND/ID". The job needs neither an output nor its folders.
 */
void
site_fold(const struct write_job *job, const struct record *const *records,
	unsigned count, GString *out);

#endif
