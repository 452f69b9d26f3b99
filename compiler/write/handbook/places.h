/*
 * Where the anchors of the book are: known for certain only once all pages are
 * broken, and until then as the pass before had them. A page number is given
 * room for as many letters as it had then; passes are repeated until that is
 * right. From the third on the room only grows, so that they come to an end.
 */
#ifndef WRITE_HANDBOOK_PLACES_H
#define WRITE_HANDBOOK_PLACES_H

#include <glib.h>
#include <stdbool.h>
#include <stdint.h>

struct arena;

struct spot {
	const char *name;
	const char *label; /* the page's, as printed; NULL before a pass */
	const char *room;  /* a text as wide as the label may be */
	uint32_t page;	   /* from 0 */
	float x, y;	   /* on the page */
	bool moved;	   /* the last pass changed `room` */
};

struct places {
	struct arena *arena;
	GHashTable *spots; /* name -> struct spot */
	GPtrArray *used;   /* spots asked for; NULL: nobody listens */
};

void
places_init(struct places *places, struct arena *arena);

void
places_release(struct places *places);

/* Makes a name known. False when it was before. */
bool
places_declare(struct places *places, const char *name);

/* The spot of a declared name, or NULL. */
struct spot *
places_find(const struct places *places, const char *name);

/* The same, for setting its page number; notes that it was asked for. */
struct spot *
places_use(struct places *places, const char *name);

/*
 * Compares the room of each spot with its label. Returns how many moved.
 * `grow`: room is only ever made larger.
 */
unsigned
places_settle(struct places *places, bool grow);

#endif
