/*
 * Puts together what the other files of this folder find of one subject.
 */
#include "study/reckon.h"

#include <glib.h>
#include <math.h>

struct reckonings {
	const struct model *model;
	struct arena *arena;
	struct evidences *evidences;
	struct certificates *certificates;
	struct pools *pools;
	struct choice *choices;		/* by subject, once worked; or NULL */
	struct choice *widest;
};

struct reckonings *
reckonings_gather(const struct model *model, const struct seen *seen,
	struct arena *arena)
{
	struct reckonings *all = arena_one(arena, struct reckonings);

	all->model = model;
	all->arena = arena;
	all->evidences = evidences_gather(model, seen, arena);
	all->certificates = certificates_gather(model, seen, arena);
	all->pools = pools_gather(model, seen, all->evidences, arena);
	return all;
}

const struct evidences *
reckonings_evidences(const struct reckonings *all)
{
	return all->evidences;
}

const struct subject *
reckonings_subjects(const struct reckonings *all, unsigned *count)
{
	return evidences_subjects(all->evidences, count);
}

static bool
has_caveat(const struct choice *choice, enum caveat caveat)
{
	unsigned i;

	for (i = 0; i < choice->caveat_count; i++)
		if (choice->caveats[i] == caveat)
			return true;
	return false;
}

/* Pieces without a dated sighting are known all the same. */
static struct choice
choose(const struct history *history, unsigned known)
{
	struct choice choice = estimate_choose(history);

	if (choice.figure.state == FIGURE_NONE && known > 0)
		choice.figure = figure_least(known, known);
	figure_raise(&choice.figure, known);
	if (choice.figure.raised && !has_caveat(&choice, CAVEAT_RAISED) &&
		choice.caveat_count < CAVEATS)
		choice.caveats[choice.caveat_count++] = CAVEAT_RAISED;
	return choice;
}

struct choice
reckon_choose(const struct evidence *evidence)
{
	return choose(&evidence->history, evidence->known);
}

static struct choice
choose_widest(const struct evidence *evidence)
{
	if (evidence->widest.pieces == 0)
		return (struct choice){.figure = {.state = FIGURE_NONE}};
	return choose(&evidence->widest, evidence->known +
		evidence->possible);
}

bool
reckon_by(const struct evidence *evidence, enum method method,
	struct figure *figure)
{
	bool fits = estimate_by(method, &evidence->history, figure);

	figure_raise(figure, evidence->known);
	return fits;
}

bool
reckon_again(struct reckoning *reckoning, enum method method)
{
	struct choice *choice = &reckoning->choice;
	struct figure figure;

	if (!reckon_by(reckoning->evidence, method, &figure))
		return false;
	reckoning->asked = true;
	choice->method = method;
	choice->figure = figure;
	choice->caveat_count = 0;
	if (figure.state == FIGURE_GIVEN)
		choice->caveats[choice->caveat_count++] =
			reckon_is_bound(method) ? CAVEAT_LOWER_BOUND :
			CAVEAT_EQUAL;
	if (choice->test.done && choice->test.uneven < EQUAL_DOUBT)
		choice->caveats[choice->caveat_count++] = CAVEAT_UNEQUAL;
	if (figure.raised)
		choice->caveats[choice->caveat_count++] = CAVEAT_RAISED;
	if (isinf(figure.high))
		choice->caveats[choice->caveat_count++] = CAVEAT_OPEN;
	return true;
}

void
reckonings_work(struct reckonings *all)
{
	unsigned count, i;
	const struct subject *subjects = reckonings_subjects(all, &count);
	struct choice *choices = arena_array(all->arena, struct choice,
		count);

	all->widest = arena_array(all->arena, struct choice, count);
	for (i = 0; i < count; i++) {
		struct arena *arena = arena_new();
		struct evidence *evidence = evidence_of(all->evidences,
			subjects[i], arena);

		choices[i] = choose(&evidence->history, evidence->known);
		all->widest[i] = choose_widest(evidence);
		arena_free(arena);
	}
	all->choices = choices;
}

const struct choice *
reckon_choice(const struct reckonings *all, const struct subject *subject)
{
	unsigned count, place = evidences_place(all->evidences, subject);

	evidences_subjects(all->evidences, &count);
	return all->choices == NULL || place >= count ? NULL :
		&all->choices[place];
}

struct risk_share
reckon_share(const struct reckonings *all, const struct record *anomaly,
	const struct record *pairing)
{
	struct subject part = {SUBJECT_ANOMALY_ON, anomaly, NULL, pairing};
	struct subject whole = {SUBJECT_PAIRING, pairing, NULL, NULL};
	const struct choice *choice = reckon_choice(all, &whole);
	struct risk_share share = {
		.affected = evidence_known(all->evidences, &part),
		.all = evidence_known(all->evidences, &whole),
	};
	struct arena *arena = NULL;

	share_wilson(share.affected, share.all, &share.wilson);
	share_exact(share.affected, share.all, &share.exact);
	if (choice != NULL) {
		share.number = estimate_share_of(&choice->figure,
			share.affected, share.all);
		return share;
	}
	arena = arena_new();
	share.number = estimate_share_of(&reckon(all, whole, arena)
		->choice.figure, share.affected, share.all);
	arena_free(arena);
	return share;
}

/* On all pairings that it is known on together. */
static struct risk_share
share_of_all(const struct reckonings *all, const struct record *anomaly)
{
	unsigned count, i;
	const struct subject *subjects = reckonings_subjects(all, &count);
	struct subject self = {SUBJECT_ANOMALY, anomaly, NULL, NULL};
	struct risk_share share = {0};

	i = evidences_place(all->evidences, &self);
	for (i++; i < count && subjects[i].record == anomaly; i++) {
		struct subject whole = {SUBJECT_PAIRING, subjects[i].pairing,
			NULL, NULL};

		share.affected += evidence_known(all->evidences,
			&subjects[i]);
		share.all += evidence_known(all->evidences, &whole);
	}
	share_wilson(share.affected, share.all, &share.wilson);
	share_exact(share.affected, share.all, &share.exact);
	return share;
}

/* The rate of all pairings of the market on the pieces of one. */
static struct borrowed
borrow(const struct reckonings *all, const struct evidence *evidence)
{
	const struct history *history = &evidence->history;
	struct borrowed borrowed = {.figure = {.state = FIGURE_NONE}};
	unsigned *room;
	struct frequencies found;

	if ((evidence->subject.form != SUBJECT_PAIRING &&
		evidence->subject.form != SUBJECT_COMBINATION) ||
		history->pieces == 0)
		return borrowed;
	borrowed.market = pools_market(all->model, evidence->subject.record);
	borrowed.pool = pools_of(all->pools, borrowed.market);
	if (!borrowed.pool.given)
		return borrowed;
	room = g_new(unsigned, history->occasions + 1);
	found = history_frequencies(history, room);
	borrowed.figure = estimate_pooled(&borrowed.pool, &found);
	figure_raise(&borrowed.figure, evidence->known);
	g_free(room);
	return borrowed;
}

struct reckoning *
reckon(const struct reckonings *all, struct subject subject,
	struct arena *arena)
{
	struct reckoning *one = arena_one(arena, struct reckoning);
	const struct choice *choice = reckon_choice(all, &subject);

	one->subject = subject;
	one->evidence = evidence_of(all->evidences, subject, arena);
	if (choice != NULL) {
		one->choice = *choice;
		one->widest = all->widest[choice - all->choices];
	} else {
		one->choice = choose(&one->evidence->history,
			one->evidence->known);
		one->widest = choose_widest(one->evidence);
	}
	one->borrowed = borrow(all, one->evidence);
	one->reports = certified_of(all->certificates, all->evidences,
		&subject, arena);
	if (subject.form == SUBJECT_PAIRING ||
		subject.form == SUBJECT_ANOMALY ||
		subject.form == SUBJECT_ANOMALY_ON)
		one->quoted = quoted_of(all->model, subject.record,
			subject.pairing, arena);
	if (subject.form == SUBJECT_ANOMALY_ON)
		one->share = reckon_share(all, subject.record,
			subject.pairing);
	if (subject.form == SUBJECT_ANOMALY)
		one->share = share_of_all(all, subject.record);
	return one;
}
