/*
 * What is still unseen, in sentences.
 */
#include <math.h>

#include "study/unseen.h"

static void
add(struct unseen_words *words, const char *sentence)
{
	words->items[words->count++] = sentence;
}

static void
say_total(struct unseen_words *words, const struct unseen *unseen,
	struct arena *arena)
{
	const struct figure *total = &unseen->total;
	double fresh = rint(total->point - unseen->listed);

	if (total->state == FIGURE_LEAST)
		add(words, "Too few of these were on one list alone, or on "
			"two, to say how many have not been on any.");
	else if (total->state == FIGURE_GIVEN && isinf(total->high))
		add(words, "Too few of these were on more lists than one to "
			"say how many have not been on any.");
	else if (total->state == FIGURE_GIVEN)
		add(words, arena_print(arena, "At least about %.0f can be "
			"found on lists (%.0f to %.0f by Chao2, 95 %%): about "
			"%.0f that no list has shown yet.",
			total->point, floor(total->low), ceil(total->high),
			fresh));
}

static void
say_more(struct unseen_words *words, const struct unseen *unseen,
	struct arena *arena)
{
	const struct figure *more = &unseen->more;
	unsigned unlisted = unseen->recorded - unseen->listed;

	if (more->state == FIGURE_GIVEN && isfinite(more->high))
		add(words, arena_print(arena, "So about %.0f or more are not "
			"recorded yet, between %.0f and %.0f.", more->point,
			floor(more->low), ceil(more->high)));
	else if (unseen->total.state == FIGURE_GIVEN &&
		isfinite(unseen->total.high) && unlisted > 0)
		add(words, arena_print(arena, "%u are recorded that were on "
			"no list, so the lists give no sign of any that are "
			"not recorded.", unlisted));
}

/* Rounded down, so that 100 means all. */
static void
say_coverage(struct unseen_words *words, const struct unseen *unseen,
	struct arena *arena)
{
	double percent = floor(unseen->coverage.value * 100);

	if (!unseen->coverage.given)
		return;
	add(words, arena_print(arena, "Of what a further list shows, about "
		"%.0f in 100 will have been on one of these.", percent));
}

static void
say_again(struct unseen_words *words, const struct unseen *unseen,
	struct arena *arena)
{
	double more = rint(unseen->again.value - unseen->listed);

	if (!unseen->again.given)
		return;
	add(words, arena_print(arena, "As many lists again would show about "
		"%.0f of those.", more));
}

static void
say_last(struct unseen_words *words, const struct unseen *unseen,
	struct arena *arena)
{
	unsigned i = unseen->year_count;

	while (i > 0 && unseen->years[i - 1].fresh == 0)
		i--;
	if (i > 0)
		add(words, arena_print(arena, "The last one new to the lists "
			"was in %d, the last list in %d.",
			unseen->years[i - 1].year,
			unseen->years[unseen->year_count - 1].year));
}

struct unseen_words
unseen_say(const struct unseen *unseen, struct arena *arena)
{
	struct unseen_words words = {{NULL}, 0};

	if (unseen->lists == 0) {
		add(&words, arena_print(arena, "%u pairing%s recorded, none "
			"of them on any list.", unseen->recorded,
			unseen->recorded == 1 ? "" : "s"));
		return words;
	}
	add(&words, arena_print(arena, "%u pairing%s recorded, %u of them on "
		"%u list%s; a list counts anew each year.", unseen->recorded,
		unseen->recorded == 1 ? "" : "s", unseen->listed,
		unseen->lists, unseen->lists == 1 ? "" : "s"));
	say_total(&words, unseen, arena);
	say_again(&words, unseen, arena);
	say_more(&words, unseen, arena);
	say_coverage(&words, unseen, arena);
	say_last(&words, unseen, arena);
	return words;
}
