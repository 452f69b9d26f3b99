/*
 * A paper as headings, rows and sentences, set as text of 78 columns or as one
 * HTML page that needs nothing beside it; for this folder alone.
 */
#ifndef WRITE_PIECES_PAPER_H
#define WRITE_PIECES_PAPER_H

#include <glib.h>
#include <stdbool.h>

struct paper {
	GString *out;
	const char *look;	/* the style sheet of a page; NULL: text */
	bool rows;		/* rows are being put down */
	bool items;		/* or items of a list */
};

/* Begins a paper in `out`. The caller keeps `out` and `look`. */
struct paper
paper_begin(GString *out, const char *look, const char *title);

void
paper_end(struct paper *paper);

void
paper_heading(struct paper *paper, const char *words);

/* A heading of one of many things alike. */
void
paper_thing(struct paper *paper, const char *words);

void
paper_say(struct paper *paper, const char *words);

/* A label with what belongs to it; nothing where that is empty or NULL. */
void
paper_row(struct paper *paper, const char *label, const char *words);

void
paper_item(struct paper *paper, const char *words);

#endif
