/*
 * The algorithm keeps active nodes: places where a line may end, each with the
 * least demerits of reaching it, one for every fitness class. From each legal
 * break it looks back over them. Nothing is pruned but what is too full, so
 * that there is always a way through.
 */
#include "write/handbook/lines.h"

#include <math.h>
#include <string.h>

/* Demerits as in the paper: for neighbours that differ, and hyphens twice. */
#define CLASH_DEMERITS 3000.0
#define HYPHENS_DEMERITS 6000.0
/* A last line shorter than this share of the measure looks like a mistake. */
#define STUB 0.12
#define STUB_DEMERITS 5000.0

enum fitness { TIGHT, NORMAL, LOOSE, VERY_LOOSE, FITNESS_COUNT };

struct sum {
	double width, stretch, shrink;
};

struct node {
	uint32_t at;	/* the atom of the break */
	uint32_t start; /* first atom of the next line */
	enum fitness fitness;
	bool hyphen;
	uint32_t from; /* index of the node before */
	double demerits;
	float ratio;
};

struct breaker {
	const struct atom *atoms;
	uint32_t count;
	const struct measure *measure;
	struct sum *sums; /* of all atoms before one */
	GArray *nodes;	  /* struct node, all ever made */
	uint32_t first;	  /* nodes from here on are active */
};

#define NODE(breaker, index) g_array_index((breaker)->nodes, struct node, index)

static void
sum_up(struct breaker *breaker)
{
	struct sum sum = {0, 0, 0};
	uint32_t i;

	for (i = 0; i < breaker->count; i++) {
		breaker->sums[i] = sum;
		if (breaker->atoms[i].kind == ATOM_PENALTY)
			continue;
		sum.width += breaker->atoms[i].width;
		sum.stretch += breaker->atoms[i].stretch;
		sum.shrink += breaker->atoms[i].shrink;
	}
	breaker->sums[i] = sum;
}

/* Glue and penalties vanish after a break. */
static uint32_t
skip_discarded(const struct atom *atoms, uint32_t count, uint32_t from)
{
	while (from < count && atoms[from].kind != ATOM_BOX) {
		if (atoms[from].kind == ATOM_PENALTY &&
			atoms[from].penalty <= LINES_ALWAYS)
			break;
		from++;
	}
	return from;
}

static bool
may_break(const struct breaker *breaker, uint32_t at)
{
	const struct atom *atom = &breaker->atoms[at];

	if (atom->kind == ATOM_PENALTY)
		return atom->penalty < LINES_NEVER;
	return atom->kind == ATOM_GLUE && at > 0 &&
		breaker->atoms[at - 1].kind == ATOM_BOX;
}

static enum fitness
class_of(double ratio)
{
	if (ratio < -0.5)
		return TIGHT;
	if (ratio <= 0.5)
		return NORMAL;
	return ratio <= 1 ? LOOSE : VERY_LOOSE;
}

/* A line as it would be from `node` to a break. */
struct attempt {
	double ratio;
	double width;
	bool last;
};

static struct attempt
try_line(const struct breaker *breaker, const struct node *node, uint32_t at,
	bool first)
{
	const struct measure *measure = breaker->measure;
	const struct sum *from = &breaker->sums[node->start];
	const struct sum *to = &breaker->sums[MAX(at, node->start)];
	double room = first ? measure->first : measure->rest, spare, glue;
	struct attempt attempt = {0};

	attempt.width = to->width - from->width;
	attempt.last = at == breaker->count;
	if (!attempt.last && breaker->atoms[at].kind == ATOM_PENALTY) {
		attempt.width += breaker->atoms[at].width;
		attempt.last = breaker->atoms[at].penalty <= LINES_ALWAYS;
	}
	spare = room - attempt.width;
	if (spare < 0) {
		glue = measure->slack > 0 ? 0 : to->shrink - from->shrink;
		/* What rounding takes away must not cost a line. */
		attempt.ratio = spare > -0.01 ? 0 :
			glue > 0	      ? spare / glue :
						-HUGE_VAL;
	} else if (!attempt.last) {
		glue = measure->slack > 0 ? measure->slack :
					    to->stretch - from->stretch;
		attempt.ratio = spare / MAX(glue, 0.1);
	}
	return attempt;
}

static double
weigh(const struct breaker *breaker, const struct node *node, uint32_t at,
	const struct attempt *attempt)
{
	double bad, penalty = 0, demerits, ratio = attempt->ratio;
	bool hyphen = false;

	if (at < breaker->count && breaker->atoms[at].kind == ATOM_PENALTY &&
		!attempt->last) {
		penalty = breaker->atoms[at].penalty;
		hyphen = breaker->atoms[at].width > 0;
	}
	bad = 100 * fabs(ratio * ratio * ratio);
	demerits = (1 + bad + MAX(penalty, 0)) * (1 + bad + MAX(penalty, 0));
	if (penalty < 0)
		demerits -= penalty * penalty;
	if (hyphen && node->hyphen)
		demerits += HYPHENS_DEMERITS;
	if (breaker->measure->slack == 0 &&
		abs((int)class_of(ratio) - (int)node->fitness) > 1)
		demerits += CLASH_DEMERITS;
	if (attempt->last && node->at > 0 &&
		attempt->width < STUB * breaker->measure->rest)
		demerits += STUB_DEMERITS;
	return node->demerits + demerits;
}

static void
add_node(struct breaker *breaker, uint32_t at, uint32_t from, double demerits,
	double ratio)
{
	struct node node = {0};

	node.at = at;
	node.start = at == breaker->count ?
		at :
		skip_discarded(breaker->atoms, breaker->count, at + 1);
	node.fitness = class_of(ratio);
	node.hyphen = at < breaker->count && breaker->atoms[at].width > 0 &&
		breaker->atoms[at].kind == ATOM_PENALTY;
	node.from = from;
	node.demerits = demerits;
	node.ratio = (float)ratio;
	g_array_append_val(breaker->nodes, node);
}

struct best {
	double demerits;
	double ratio;
	uint32_t from;
};

/* The best ways to end a line at `at`, one a fitness class. */
static void
look_back(struct breaker *breaker, uint32_t at, struct best *best)
{
	struct attempt attempt;
	enum fitness fitness;
	double demerits;
	uint32_t i;

	for (i = breaker->first; i < breaker->nodes->len; i++) {
		attempt = try_line(breaker, &NODE(breaker, i), at, i == 0);
		if (attempt.ratio < -1)
			continue;
		demerits = weigh(breaker, &NODE(breaker, i), at, &attempt);
		fitness = class_of(attempt.ratio);
		if (demerits < best[fitness].demerits)
			best[fitness] = (struct best){demerits, attempt.ratio,
				i};
	}
}

static void
visit_break(struct breaker *breaker, uint32_t at)
{
	bool forced = at == breaker->count ||
		(breaker->atoms[at].kind == ATOM_PENALTY &&
			breaker->atoms[at].penalty <= LINES_ALWAYS);
	uint32_t active = breaker->nodes->len;
	struct best best[FITNESS_COUNT];
	struct attempt attempt;
	int fitness;

	for (fitness = 0; fitness < FITNESS_COUNT; fitness++)
		best[fitness].demerits = HUGE_VAL;
	look_back(breaker, at, best);
	for (fitness = 0; fitness < FITNESS_COUNT; fitness++) {
		if (best[fitness].demerits < HUGE_VAL)
			add_node(breaker, at, best[fitness].from,
				best[fitness].demerits, best[fitness].ratio);
	}
	/* Nodes are in order of place: those too far back stand in front. */
	while (breaker->first < active) {
		attempt = try_line(breaker, &NODE(breaker, breaker->first), at,
			breaker->first == 0);
		if (attempt.ratio >= -1 && !forced)
			break;
		if (attempt.ratio < -1 && breaker->first + 1 == active &&
			breaker->nodes->len == active)
			/* One word is wider than the line: let it stick out. */
			add_node(breaker, at, breaker->first,
				NODE(breaker, breaker->first).demerits, -2);
		breaker->first++;
	}
}

static void
collect(const struct breaker *breaker, GArray *lines)
{
	uint32_t index = breaker->nodes->len - 1, first = lines->len, i, n;
	const struct node *node, *from;
	struct line line, *all;

	for (i = breaker->first; i < breaker->nodes->len; i++) {
		if (NODE(breaker, i).demerits < NODE(breaker, index).demerits)
			index = i;
	}
	for (; index > 0; index = node->from) {
		node = &NODE(breaker, index);
		from = &NODE(breaker, node->from);
		line = (struct line){.from = from->start,
			.to = MAX(node->at, from->start)};
		line.width = (float)try_line(breaker, from, node->at,
			node->from == 0)
				     .width;
		line.tight = node->ratio < -1;
		line.broken = node->at < breaker->count &&
			breaker->atoms[node->at].kind == ATOM_PENALTY;
		if (breaker->measure->slack == 0)
			line.ratio = line.tight ? -1 : node->ratio;
		g_array_append_val(lines, line);
	}
	all = &g_array_index(lines, struct line, first);
	n = lines->len - first;
	for (i = 0; i < n / 2; i++) {
		line = all[i];
		all[i] = all[n - 1 - i];
		all[n - 1 - i] = line;
	}
}

/* Most cells and many paragraphs need no thought. */
static bool
is_one_line(const struct breaker *breaker, GArray *lines)
{
	struct line line = {0};
	uint32_t i;

	line.from = skip_discarded(breaker->atoms, breaker->count, 0);
	for (i = 0; i < breaker->count; i++) {
		if (breaker->atoms[i].penalty <= LINES_ALWAYS)
			return false;
	}
	line.to = breaker->count;
	line.width = (float)(breaker->sums[line.to].width -
		breaker->sums[line.from].width);
	if (line.width > breaker->measure->first)
		return false;
	g_array_append_val(lines, line);
	return true;
}

void
lines_break(const struct atom *atoms, uint32_t count,
	const struct measure *measure, GArray *lines)
{
	struct breaker breaker = {atoms, count, measure, NULL, NULL, 0};
	struct node start = {0};
	uint32_t at;

	while (count > 0 && atoms[count - 1].kind != ATOM_BOX)
		count--;
	breaker.count = count;
	if (count == 0)
		return;
	breaker.sums = g_new(struct sum, (gsize)count + 1);
	sum_up(&breaker);
	if (!is_one_line(&breaker, lines)) {
		breaker.nodes = g_array_new(FALSE, FALSE, sizeof(struct node));
		start.start = skip_discarded(atoms, count, 0);
		start.fitness = NORMAL;
		g_array_append_val(breaker.nodes, start);
		for (at = start.start + 1; at < count; at++) {
			if (may_break(&breaker, at))
				visit_break(&breaker, at);
		}
		visit_break(&breaker, count);
		collect(&breaker, lines);
		g_array_free(breaker.nodes, TRUE);
	}
	g_free(breaker.sums);
}
