/*
 * A collector's private report in the guide's look: an overview, a page for
 * each run, and one file for the phone. It is no part of a guide. No page asks
 * for anything from outside or needs a script.
 */
#ifndef WRITE_REPORT_REPORT_H
#define WRITE_REPORT_REPORT_H

#include <glib.h>

#include "study/next.h"

struct report {
	const struct model *model;
	const struct pieces *pieces;
	struct filling *const *fillings;
	unsigned count;
	const struct next *next;
	struct rarities *rarities;
	const char *made;	/* when, in words */
	const char *style;	/* the style sheets, as they are */
	struct arena *arena;
};

/* The overview; its links lead to the pages of runs beside it. */
void
report_index(const struct report *report, GString *out);

/* The name of a run's page, "run-ID.html", in the report's arena. */
const char *
report_run_path(const struct report *report, unsigned run);

/* The page of one run. */
void
report_run(const struct report *report, unsigned run, GString *out);

/*
 * The records whose pages of the guide the file for the phone folds in: of the
 * hardest pieces to look for, at most `most`. In the order folded, in the
 * report's arena.
 */
struct record_list
report_folded(const struct report *report, unsigned most);

/* The file for the phone. `folded` are the sections of the guide, as HTML. */
void
report_pocket(const struct report *report, struct record_list list,
	const char *folded, GString *out);

#endif
