/*
 * A spreadsheet as somebody keeps it, saved as CSV by whatever program: its
 * encoding and what stands between its cells are found out, and a row that
 * can't be taken apart spoils no other. read/csv.h is for tables that have to
 * be right.
 */
#ifndef READ_SHEET_H
#define READ_SHEET_H

#include "base/arena.h"
#include "read/decode.h"

struct sheet_row {
	char **cells;		/* as they were, blanks and all */
	unsigned count;
	unsigned line;		/* where it begins, from 1 */
	const char *wrong;	/* why it can't be read, or NULL; it then has
				   one cell, the line as it stands */
};

struct sheet {
	enum encoding encoding;
	char between;		/* a comma, semicolon, tab or bar; 0: there is
				   one column */
	struct sheet_row *rows;	/* all but blank lines */
	unsigned count;
};

/*
 * Reads the bytes of a file into `arena`. Every line that is not blank is part
 * of exactly one row. A guard that base/csv.h puts before formulas is taken
 * off again.
 */
struct sheet *
sheet_read(const char *bytes, size_t size, struct arena *arena);

#endif
