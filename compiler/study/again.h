/*
 * One's own pieces to look at again: what each look may settle.
 */
#ifndef STUDY_AGAIN_H
#define STUDY_AGAIN_H

#include "study/fill.h"

struct again {
	unsigned piece;
	const char *look_at;	/* in words */
	unsigned gaps;		/* slots that it may fill, over all fillings */
};

struct again_list {
	const struct again *items;	/* the most gaps first */
	unsigned count;
};

/* Over possible slots that surely exist. */
struct again_list
study_again(const struct pieces *pieces, struct filling *const *fillings,
	unsigned count, struct arena *arena);

#endif
