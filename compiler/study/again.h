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
	unsigned others;	/* pieces beyond these */
};

/*
 * Over possible slots that surely exist; of the `most` pieces alone that may
 * close most, as it takes a while to say what to look at.
 */
struct again_list
study_again(const struct pieces *pieces, struct filling *const *fillings,
	unsigned count, unsigned most, struct arena *arena);

#endif
