/*
 * What the commands that look things up in a finished guide share: its
 * database, and lines of a terminal.
 */
#ifndef COMMAND_GUIDE_H
#define COMMAND_GUIDE_H

#include "command/command.h"
#include "store/store.h"

/* Columns of a terminal that we write for. */
enum { LINE_WIDTH = 80 };

/*
 * Opens the database of the guide at the options' OUT, for reading. Where
 * there is none, or one of another layout, says what to do, sets *status and
 * returns NULL. End it with store_close.
 */
struct store *
guide_open(const struct options *options, int *status);

/* Says on standard error what failed, frees it, and returns EXIT_SYSTEM. */
int
guide_failed(GError *error);

/*
 * Prints `text` with blanks between words, broken before LINE_WIDTH columns.
 * The first line is thought to have `at` columns already; the others begin
 * with `indent` blanks. Ends with a line end.
 */
void
guide_wrap(const char *text, int at, int indent);

/* How many columns of a terminal a text takes. */
int
guide_width(const char *text);

#endif
