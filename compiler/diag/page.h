/*
 * The page that explains a code: what it means and what to do, a record that
 * raises it, the record mended, and why the rule exists. Pages are the folders
 * of tests/codes, which the tests compile: what is shown here is what is
 * tested. They come along with an installed program.
 */
#ifndef DIAG_PAGE_H
#define DIAG_PAGE_H

#include "base/arena.h"
#include "diag/diag.h"

/* One file of a sample, without the marks that tests need. */
struct diag_sample {
	const char *name;	/* NULL where there is one file alone */
	const char *text;	/* UTF-8; NULL where the file cannot be read */
};

struct diag_samples {
	struct diag_sample *items;
	unsigned count;
};

struct diag_page {
	const char *says;	/* CommonMark, without the heading */
	const char *why;	/* CommonMark */
	struct diag_samples failing;
	struct diag_samples mended;
};

/*
 * Reads the page of `code` from the folder of all pages, into `arena`.
 * Returns NULL where the page is missing.
 */
const struct diag_page *
diag_page_read(const char *folder, enum diag_code code, struct arena *arena);

#endif
