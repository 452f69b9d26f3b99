/*
 * What an estimator gives: a number with its interval, or only the least that
 * there must be, or nothing. No part of it is ever less than the pieces seen,
 * and none is ever "not a number".
 */
#ifndef STUDY_ESTIMATE_FIGURE_H
#define STUDY_ESTIMATE_FIGURE_H

#include <stdbool.h>

enum figure_state {
	FIGURE_NONE,	/* the data are none, or contradict themselves */
	FIGURE_LEAST,	/* too few: only `low` says something */
	FIGURE_GIVEN,
};

struct figure {
	enum figure_state state;
	double seen;		/* distinct pieces that the data hold */
	double point;		/* where given */
	double variance;	/* of the point; 0 where the method has none */
	double low;		/* 95 % limits */
	double high;		/* INFINITY: open, the data set no limit */
	bool raised;		/* point or limit was below `seen` */
	double raw_point;	/* before it was raised */
	double raw_low;
	double raw_high;
};

/* Nothing but the pieces seen. */
struct figure
figure_least(double seen, double low);

/*
 * A point with its limits, each raised to `seen` where it is below. Limits that
 * leave no width are opened upwards; an upper limit that is not finite or is
 * below the point says nothing, and is opened too.
 */
struct figure
figure_given(double seen, double point, double variance, double low,
	double high);

/* The same against more pieces, known from beside the method's own data. */
void
figure_raise(struct figure *figure, double seen);

/*
 * Chao 1987, the log-normal interval for the unseen: with f = point − seen and
 * K = exp(z √ln(1 + variance/f²)), from seen + f/K to seen + f·K. Open upwards
 * where nothing is unseen.
 */
struct figure
figure_log_normal(double seen, double point, double variance);

#endif
