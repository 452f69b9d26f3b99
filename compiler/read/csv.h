/*
 * Spreadsheets saved as CSV, by libcsv (RFC 4180, strictly): rows of cells
 * that know where they stand. Commas, semicolons or tabs stand between cells;
 * which, is found out from the first row.
 */
#ifndef READ_CSV_H
#define READ_CSV_H

#include "base/arena.h"
#include "diag/diag.h"

struct csv_cell {
	const char *text;	/* without quotes, and blanks around it */
	struct span span;	/* of that text */
};

struct csv_row {
	struct csv_cell *cells;
	uint32_t count;
	struct span span;
};

struct csv_table {
	char between;			/* what stands between cells */
	struct csv_row *rows;		/* those that hold anything */
	size_t count;
};

/*
 * Reads file number `file` of `sources` into `arena`. NULL after reporting
 * what is wrong with it; nothing of the file is then to be used.
 */
struct csv_table *
read_csv(const struct sources *sources, uint32_t file, struct arena *arena,
	struct diags *diags);

#endif
