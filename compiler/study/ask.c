/*
 * The shortest list is a smallest hitting set: each alternative is the set of
 * requests that divide it from the target, and a list must hit every one. It
 * is found by search: for lists of one, two, three... requests, branch on the
 * requests of the alternative that has the fewest, and bound by the best cost
 * so far. Alternatives whose requests include another's are covered by that
 * one and left out first.
 */
#include "study/ask.h"

#include <stdlib.h>
#include <string.h>

typedef uint64_t request_set;

enum { MOST_REQUESTS = 64 };

struct asking {
	const struct features *features;
	struct arena *arena;
	struct request *requests;
	int costs[MOST_REQUESTS];
	unsigned count;
	request_set *needs;	/* a set for each alternative, smallest kept */
	unsigned need_count;
	request_set best;
	int best_cost;
};

static int
compare_requests(const void *a, const void *b, void *data)
{
	const struct features *features = data;
	const struct feature *left = features_get(features,
		*(const unsigned *)a);
	const struct feature *right = features_get(features,
		*(const unsigned *)b);

	if (left->cost != right->cost)
		return left->cost - right->cost;
	if (left->reliability != right->reliability)
		return right->reliability - left->reliability;
	return *(const unsigned *)a < *(const unsigned *)b ? -1 : 1;
}

/* The request of a feature among those known; adds it when it is new. */
static void
add_request(struct asking *asking, const struct feature *feature)
{
	struct request *request;
	unsigned i;

	for (i = 0; i < asking->count; i++)
		if (strcmp(asking->requests[i].text, feature->ask) == 0)
			break;
	if (i == MOST_REQUESTS)
		return;
	request = &asking->requests[i];
	if (i == asking->count) {
		asking->count++;
		request->text = feature->ask;
		request->features = arena_array(asking->arena,
			const struct record *,
			features_count(asking->features));
		asking->costs[i] = feature->cost;
	}
	request->features[request->count++] = feature->record;
}

/* Whether a feature divides the target from anything. */
static bool
is_useful(const struct asking *asking, unsigned feature,
	const struct situation *target, const struct situation *others,
	unsigned other_count)
{
	unsigned i;

	if (features_get(asking->features, feature)->ask == NULL)
		return false;
	for (i = 0; i < other_count; i++)
		if (features_divide(asking->features, feature, target,
			&others[i]))
			return true;
	return false;
}

/* Requests that divide anything, in order of cost, surest first, each once. */
static void
gather_requests(struct asking *asking, const struct situation *target,
	const struct situation *others, unsigned other_count)
{
	unsigned count = features_count(asking->features), i, used = 0;
	unsigned *order = g_new(unsigned, count + 1);

	asking->requests = arena_array(asking->arena, struct request,
		MOST_REQUESTS + 1);
	for (i = 0; i < count; i++)
		if (is_useful(asking, i, target, others, other_count))
			order[used++] = i;
	g_qsort_with_data(order, (gint)used, sizeof(*order), compare_requests,
		(gpointer)(uintptr_t)asking->features);
	for (i = 0; i < used; i++)
		add_request(asking, features_get(asking->features, order[i]));
	g_free(order);
}

/* The requests that divide two situations, and the surest feature of them. */
static request_set
divide(const struct asking *asking, const struct situation *target,
	const struct situation *other, const struct record **surest)
{
	request_set set = 0;
	int best = -1;
	unsigned i, j;

	*surest = NULL;
	for (i = 0; i < asking->count; i++)
		for (j = 0; j < asking->requests[i].count; j++) {
			unsigned f = asking->requests[i].features[j]->index;
			const struct feature *feature = features_get(
				asking->features, f);

			if (!features_divide(asking->features, f, target,
				other))
				continue;
			set |= (request_set)1 << i;
			if (feature->reliability > best) {
				best = feature->reliability;
				*surest = feature->record;
			}
		}
	return set;
}

/* Keeps a need unless one that is kept asks no less of the list. */
static void
add_need(struct asking *asking, request_set need)
{
	unsigned i, kept = 0;

	for (i = 0; i < asking->need_count; i++)
		if ((asking->needs[i] & need) == asking->needs[i])
			return;
	for (i = 0; i < asking->need_count; i++)
		if ((asking->needs[i] & need) != need)
			asking->needs[kept++] = asking->needs[i];
	asking->needs[kept++] = need;
	asking->need_count = kept;
}

/* Of the needs that a list does not meet, the one with fewest requests. */
static request_set
narrowest_open(const struct asking *asking, request_set list)
{
	request_set narrowest = 0;
	int fewest = MOST_REQUESTS + 1;
	unsigned i;

	for (i = 0; i < asking->need_count; i++) {
		int size = __builtin_popcountll(asking->needs[i]);

		if ((asking->needs[i] & list) == 0 && size < fewest) {
			narrowest = asking->needs[i];
			fewest = size;
		}
	}
	return narrowest;
}

/* Lists come in order, so that of two as short and cheap the first stays. */
static void
search(struct asking *asking, request_set list, int cost, unsigned left)
{
	request_set open = narrowest_open(asking, list);
	unsigned i;

	if (open == 0) {
		if (cost < asking->best_cost) {
			asking->best = list;
			asking->best_cost = cost;
		}
		return;
	}
	if (left == 0 || cost >= asking->best_cost)
		return;
	for (i = 0; i < asking->count; i++)
		if ((open >> i & 1) != 0)
			search(asking, list | (request_set)1 << i,
				cost + asking->costs[i], left - 1);
}

static void
find_shortest(struct asking *asking)
{
	unsigned size;

	asking->best_cost = INT32_MAX;
	for (size = 0; size <= asking->count; size++) {
		search(asking, 0, 0, size);
		if (asking->best_cost < INT32_MAX)
			return;
	}
}

static void
gather_needs(struct asking *asking, struct questions *questions,
	const struct situation *target, const struct situation *others,
	unsigned count)
{
	unsigned i;

	questions->alternatives = arena_array(asking->arena,
		struct alternative, count);
	questions->alternative_count = count;
	asking->needs = arena_array(asking->arena, request_set, count + 1);
	for (i = 0; i < count; i++) {
		struct alternative *one = &questions->alternatives[i];
		request_set set;

		set = divide(asking, target, &others[i], &one->feature);
		one->situation = &others[i];
		one->divided = set != 0;
		if (set != 0)
			add_need(asking, set);
		else
			questions->undivided++;
	}
}

struct questions *
study_ask(const struct features *features, const struct situation *target,
	const struct situation *others, unsigned count, struct arena *arena)
{
	struct questions *questions = arena_one(arena, struct questions);
	struct asking asking = {.features = features, .arena = arena};
	struct request *list;
	unsigned i;

	gather_requests(&asking, target, others, count);
	gather_needs(&asking, questions, target, others, count);
	find_shortest(&asking);
	list = arena_array(arena, struct request, asking.count);
	for (i = 0; i < asking.count; i++)
		if ((asking.best >> i & 1) != 0)
			list[questions->request_count++] = asking.requests[i];
	questions->requests = list;
	return questions;
}
