/*
 * Fonts of the handbook. They are a fixed list of files of Debian packages,
 * opened by path: no setting of a user, a locale or a machine chooses others.
 * Each distinct word is shaped once and kept, at one em; whoever sets it
 * multiplies by the size.
 */
#ifndef WRITE_HANDBOOK_FONTS_H
#define WRITE_HANDBOOK_FONTS_H

#include <hb.h>
#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

struct arena;

enum face {
	FACE_TEXT,
	FACE_TEXT_ITALIC,
	FACE_TEXT_BOLD,
	FACE_TEXT_BOLD_ITALIC,
	FACE_TEXT_CAPS, /* true small capitals */
	FACE_LABEL,
	FACE_LABEL_ITALIC,
	FACE_LABEL_BOLD,
	FACE_LABEL_CAPS,
	FACE_COUNT
};

/* One glyph; lengths are in ems, x from the word's start, y downwards. */
struct glyph {
	uint32_t id;
	float x;
	float y;
};

/* How many bytes of the text become how many glyphs. */
struct cluster {
	uint16_t bytes;
	uint16_t glyphs;
};

struct shaped {
	const char *text; /* UTF-8, NUL-terminated */
	uint32_t size;	  /* bytes of it */
	uint32_t hash;
	uint32_t index; /* among all words, from 0 */
	float width; /* ems */
	uint16_t glyph_count;
	uint16_t cluster_count;
	const struct glyph *glyphs;
	const struct cluster *clusters;
	const char *language; /* interned, or NULL */
	enum face asked;
	enum face face; /* the face it is set in */
	bool backward;	/* right to left */
	bool missing;	/* a character has no glyph in any face */
};

struct fonts;

/*
 * Opens the fonts. All memory of words comes from `arena`, which must outlive
 * the fonts. On failure returns NULL and sets *why to a text in `arena` that
 * names the package to install.
 */
struct fonts *
fonts_open(struct arena *arena, const char **why);

/* NULL is allowed. Words stay valid as long as the arena. */
void
fonts_close(struct fonts *fonts);

/*
 * The word of `size` bytes at `text`, which is valid UTF-8, in `face` and in
 * `language`, a BCP 47 tag or NULL. The same arguments give the same pointer.
 * A word that lacks a glyph in a face is set in the face that stands in.
 */
const struct shaped *
fonts_word(struct fonts *fonts, enum face face, const char *language,
	const char *text, size_t size);

/* The part of a word from byte `from` on that is at most `width` ems wide, at
 * least one cluster: how many bytes it has. */
size_t
fonts_fit(const struct shaped *word, size_t from, double width);

/* Width of the space of a face, in ems, and its glyph. */
double
fonts_space(const struct fonts *fonts, enum face face, uint32_t *glyph);

/* How many files the faces are read from, and the one of a face, from 0. */
unsigned
fonts_files(void);
unsigned
fonts_file(enum face face);

/* The font of a file; it stays the fonts'. */
hb_font_t *
fonts_font(const struct fonts *fonts, unsigned file);

#endif
