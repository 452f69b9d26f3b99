/*
 * Pairs that nothing tells apart, without holding each against each. A group is
 * split by a feature into those that may show each state; who does not score
 * the feature, or varies, goes into several parts, so that every pair that the
 * feature does not divide is still together somewhere. Parts too small to
 * split, or that no feature splits well, are gone through by pairs; large ones
 * 64 pairs at a time, with a set of bits for each state.
 */
#include <glib.h>
#include <string.h>

#include "sense/alike.h"

enum {
	SMALL = 32,			/* by pairs at once */
	PLACES = MOST_STATES + 1,	/* the last: does not apply */
};

struct finding {
	struct alike *items;
	unsigned features;
	unsigned *sizes;		/* features × PLACES */
	unsigned *known;		/* by feature */
};

/* Who in a part has each state of each feature, and who knows the feature. */
struct bits {
	const struct finding *finding;
	size_t words;
	uint64_t **having;		/* features × PLACES; NULL for nobody */
	uint64_t **knowing;		/* by feature */
	struct arena *arena;
};

bool
alike_divided(const struct alike *a, const struct alike *b)
{
	const struct score *left = a->scores.items;
	const struct score *right = b->scores.items;
	const struct score *left_end = left + a->scores.count;
	const struct score *right_end = right + b->scores.count;

	while (left < left_end && right < right_end) {
		if (left->feature < right->feature) {
			left++;
			continue;
		}
		if (left->feature > right->feature) {
			right++;
			continue;
		}
		if ((left->states & right->states) == 0 &&
			(left->states | right->states) != 0)
			return true;
		left++;
		right++;
	}
	return false;
}

static void
note_pair(struct alike *item, const struct alike *other)
{
	unsigned i;

	for (i = 0; i < item->count; i++)
		if (item->others[i] == other)
			return;
	if (item->count == ALIKE_MOST)
		item->more = true;
	else
		item->others[item->count++] = other;
}

static void
pair_up(struct finding *finding, const unsigned *places, unsigned count)
{
	unsigned i, j;

	for (i = 1; i < count; i++) {
		struct alike *item = &finding->items[places[i]];

		for (j = 0; j < i && !item->more; j++)
			if (!alike_divided(item, &finding->items[places[j]]))
				note_pair(item, &finding->items[places[j]]);
	}
}

/* The states of a score, with one for that it does not apply. */
static bool
has_place(const struct score *score, unsigned place)
{
	return place == MOST_STATES ? score->states == 0 :
		(score->states >> place & 1) != 0;
}

static void
tally(struct finding *finding, const unsigned *places, unsigned count)
{
	unsigned i, j;

	memset(finding->sizes, 0, sizeof(*finding->sizes) * PLACES *
		finding->features);
	memset(finding->known, 0, sizeof(*finding->known) *
		finding->features);
	for (i = 0; i < count; i++) {
		struct score_list list = finding->items[places[i]].scores;

		for (j = 0; j < list.count; j++) {
			unsigned *sizes = finding->sizes + (size_t)PLACES *
				list.items[j].feature;

			state_set left = list.items[j].states;

			finding->known[list.items[j].feature]++;
			sizes[MOST_STATES] += left == 0;
			for (; left != 0; left &= left - 1)
				sizes[__builtin_ctzll(left)]++;
		}
	}
}

static void
set_bit(struct bits *bits, uint64_t **set, unsigned place)
{
	if (*set == NULL)
		*set = arena_array(bits->arena, uint64_t, bits->words);
	(*set)[place / 64] |= (uint64_t)1 << place % 64;
}

static void
fill_bits(struct bits *bits, const unsigned *places, unsigned count)
{
	unsigned i, j;

	for (i = 0; i < count; i++) {
		struct score_list list =
			bits->finding->items[places[i]].scores;

		for (j = 0; j < list.count; j++) {
			unsigned feature = list.items[j].feature;
			uint64_t **having = bits->having + (size_t)PLACES *
				feature;
			state_set left = list.items[j].states;

			set_bit(bits, &bits->knowing[feature], i);
			if (left == 0)
				set_bit(bits, &having[MOST_STATES], i);
			for (; left != 0; left &= left - 1)
				set_bit(bits, &having[__builtin_ctzll(left)],
					i);
		}
	}
}

/* Of 64 things, those that a score does not divide from its own. */
static uint64_t
not_divided(const struct bits *bits, const struct score *score, size_t word)
{
	uint64_t **having = bits->having + (size_t)PLACES * score->feature;
	uint64_t fitting = ~bits->knowing[score->feature][word];
	state_set left = score->states;

	if (left == 0)
		return fitting | having[MOST_STATES][word];
	for (; left != 0; left &= left - 1)
		fitting |= having[__builtin_ctzll(left)][word];
	return fitting;
}

static void
pair_one(const struct bits *bits, const unsigned *places, unsigned place)
{
	struct alike *items = bits->finding->items;
	struct alike *item = &items[places[place]];
	size_t word;
	unsigned i;

	for (word = 0; word <= place / 64 && !item->more; word++) {
		uint64_t left = ~(uint64_t)0;

		if (word == place / 64)
			left = ((uint64_t)1 << place % 64) - 1;
		for (i = 0; i < item->scores.count && left != 0; i++)
			left &= not_divided(bits, &item->scores.items[i],
				word);
		for (; left != 0 && !item->more; left &= left - 1)
			note_pair(item, &items[places[word * 64 +
				(unsigned)__builtin_ctzll(left)]]);
	}
}

static void
pair_up_many(struct finding *finding, const unsigned *places, unsigned count)
{
	struct bits bits = {
		.finding = finding,
		.words = count / 64 + 1,
		.arena = arena_new(),
	};
	unsigned i;

	bits.having = arena_array(bits.arena, uint64_t *, (size_t)PLACES *
		finding->features);
	bits.knowing = arena_array(bits.arena, uint64_t *, finding->features);
	fill_bits(&bits, places, count);
	for (i = 1; i < count; i++)
		pair_one(&bits, places, i);
	arena_free(bits.arena);
}

/* The feature whose parts hold the fewest pairs; false if all hold too many. */
static bool
best_split(struct finding *finding, const unsigned *places, unsigned count,
	unsigned *best)
{
	double least = 0.5 * count * count;
	bool found = false;
	unsigned i, j;

	tally(finding, places, count);
	for (i = 0; i < finding->features; i++) {
		const unsigned *sizes = finding->sizes + (size_t)PLACES * i;
		double wild = count - finding->known[i], pairs = 0;

		for (j = 0; j < PLACES; j++)
			if (sizes[j] > 0)
				pairs += (sizes[j] + wild) *
					(sizes[j] + wild);
		if (finding->known[i] == 0 || pairs >= least)
			continue;
		least = pairs;
		*best = i;
		found = true;
	}
	return found;
}

static void
find_within(struct finding *finding, const unsigned *places, unsigned count)
{
	unsigned feature, part, i, used;
	unsigned *inside;

	if (count <= SMALL) {
		pair_up(finding, places, count);
		return;
	}
	if (!best_split(finding, places, count, &feature)) {
		pair_up_many(finding, places, count);
		return;
	}
	inside = g_new(unsigned, count);
	for (part = 0; part < PLACES; part++) {
		bool any = false;

		used = 0;
		for (i = 0; i < count; i++) {
			const struct score *score = score_list_on(
				&finding->items[places[i]].scores, feature);

			if (score != NULL && !has_place(score, part))
				continue;
			any = any || score != NULL;
			inside[used++] = places[i];
		}
		if (any)
			find_within(finding, inside, used);
	}
	g_free(inside);
}

void
alike_find(struct alike *items, unsigned count, unsigned features)
{
	struct finding finding = {
		.items = items,
		.features = features,
		.sizes = g_new(unsigned, (size_t)PLACES * features + 1),
		.known = g_new(unsigned, features + 1),
	};
	unsigned *places = g_new(unsigned, count + 1);
	unsigned i;

	for (i = 0; i < count; i++)
		places[i] = i;
	find_within(&finding, places, count);
	g_free(places);
	g_free(finding.sizes);
	g_free(finding.known);
}
