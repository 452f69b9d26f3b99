/*
 * How many there are: for each subject the evidence, the method that the rule
 * chooses, what population reports and other people say, and for an anomaly
 * what share of the pieces it is. All outputs print what stands here.
 */
#ifndef STUDY_RECKON_H
#define STUDY_RECKON_H

#include "model/quoted.h"
#include "study/certified.h"
#include "study/estimate/choose.h"
#include "study/estimate/share.h"
#include "study/evidence.h"
#include "study/pools.h"

/* Of the pieces that could be an anomaly, those that are. */
struct risk_share {
	unsigned affected;
	unsigned all;		/* 0: nothing was seen, or no anomaly */
	struct range wilson;
	struct range exact;	/* Clopper and Pearson */
	struct figure number;	/* the share of how many of the pairing there
				   are; FIGURE_NONE where there is no number */
};

/* What a pairing or combination may borrow from its market. */
struct borrowed {
	const struct record *market;	/* NULL: nothing */
	struct pool pool;
	struct figure figure;		/* with that rate */
};

struct reckoning {
	struct subject subject;
	const struct evidence *evidence;
	struct choice choice;	/* never below the pieces known */
	bool asked;		/* the method was asked for by name */
	struct choice widest;	/* with all that may belong; else no sums */
	struct borrowed borrowed;
	struct certified_list reports;
	struct quoted_list quoted;
	struct risk_share share;	/* of an anomaly */
};

struct reckonings;

/*
 * Gathers what is needed for any subject; nothing is estimated yet. It lives
 * in `arena`; `model` and `seen` must outlive it.
 */
struct reckonings *
reckonings_gather(const struct model *model, const struct seen *seen,
	struct arena *arena);

/*
 * Estimates all subjects, so that reckon() need not. From then on it may be
 * asked from several threads, each with its own arena.
 */
void
reckonings_work(struct reckonings *reckonings);

const struct evidences *
reckonings_evidences(const struct reckonings *reckonings);

/* All subjects, in order of reading; reckonings_at() takes their place. */
const struct subject *
reckonings_subjects(const struct reckonings *reckonings, unsigned *count);

/* One subject, in `arena`. */
struct reckoning *
reckon(const struct reckonings *reckonings, struct subject subject,
	struct arena *arena);

/* The figure alone, if reckonings_work() was called: nothing is gathered. */
const struct choice *
reckon_choice(const struct reckonings *reckonings,
	const struct subject *subject);

/*
 * One method, asked for by name; false if the data are not of the kind it
 * needs.
 */
bool
reckon_by(const struct evidence *evidence, enum method method,
	struct figure *figure);

/* What the rule chooses on evidence; never below the pieces known. */
struct choice
reckon_choose(const struct evidence *evidence);

/* Whether its figures are the least there should be, and no more. */
static inline bool
reckon_is_bound(enum method method)
{
	return method == METHOD_CHAO || method == METHOD_CHAO_CLASSIC;
}

/* Puts that method in the place of the one that the rule chose; likewise. */
bool
reckon_again(struct reckoning *reckoning, enum method method);

/* Of the pieces of a pairing that count, those that are the anomaly. */
struct risk_share
reckon_share(const struct reckonings *reckonings,
	const struct record *anomaly, const struct record *pairing);

#endif
