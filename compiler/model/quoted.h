/*
 * Quoted estimates: numbers that somebody has published, from the records that
 * carry them.
 */
#ifndef MODEL_QUOTED_H
#define MODEL_QUOTED_H

#include "model/model.h"

enum { QUOTED_NONE = -1 };

struct quoted {
	const struct value *item;	/* the whole entry */
	const struct word *of;		/* made, surviving, known, certified */
	const struct word *form;	/* or NULL: not said */
	int64_t number;			/* or QUOTED_NONE, as the two below */
	int64_t low;
	int64_t high;
	const struct date *date;
	const struct record *source;
	const char *method;		/* or NULL */
};

struct quoted_list {
	const struct quoted *items;	/* as written */
	unsigned count;
};

/*
 * Those of a pairing; or those of an anomaly, for one pairing or, with NULL,
 * for all together. Empty for other kinds. In `arena`.
 */
struct quoted_list
quoted_of(const struct model *model, const struct record *record,
	const struct record *pairing, struct arena *arena);

/* The interval that it allows: a number alone is its own. INT64_MAX: open. */
void
quoted_range(const struct quoted *quoted, int64_t *low, int64_t *high);

#endif
