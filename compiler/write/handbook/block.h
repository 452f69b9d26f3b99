/*
 * What the book says, as a tree of blocks, before anything has a size: both
 * prose and records are turned into it, and the galley is made from it. Texts
 * are UTF-8; the tree and all in it live in one arena.
 */
#ifndef WRITE_HANDBOOK_BLOCK_H
#define WRITE_HANDBOOK_BLOCK_H

#include <stdbool.h>
#include <stddef.h>

#include "write/handbook/drawing.h"
#include "write/handbook/format.h"

struct arena;
struct mentions;
struct places;
struct record;

enum run_kind {
	RUN_TEXT,
	RUN_PAGE, /* the page of the anchor `text`; nothing if none */
	RUN_SYMBOL,
	RUN_BREAK, /* a new line */
};

/* A piece of text, all of one look. */
struct run {
	struct run *next;
	enum run_kind kind;
	unsigned emphasis;
	const char *text;     /* of a symbol: what is read aloud for it */
	size_t size;	      /* bytes of it */
	const char *link;     /* "#" and an anchor, or an address; or NULL */
	const char *language; /* BCP 47, or NULL */
	const struct record *about; /* what the index should know; or NULL */
	enum symbol symbol;
};

enum block_kind {
	BLOCK_BOOK,    /* holds chapters */
	BLOCK_CHAPTER, /* begins a page */
	BLOCK_GROUP,   /* holds blocks */
	BLOCK_HEADING, /* kept with what follows */
	BLOCK_PARAGRAPH,
	BLOCK_LIST, /* holds items */
	BLOCK_ITEM,
	BLOCK_CALLOUT, /* a group with a bar beside it */
	BLOCK_COLUMNS, /* a group set in columns at least `size` ems wide */
	BLOCK_TABLE,   /* holds rows; its runs are the caption */
	BLOCK_ROW,     /* holds cells */
	BLOCK_CELL,
	BLOCK_ENTRY, /* a line of the contents */
	BLOCK_RULE,
	BLOCK_SPACE, /* `size` points, none at the top of a page */
	BLOCK_DROP,  /* `size` points down from the page's top */
	BLOCK_BREAK, /* a new page */
	BLOCK_FIGURE,
};

enum align { ALIGN_LEFT, ALIGN_CENTRE, ALIGN_RIGHT };

enum row_kind {
	ROW_BODY,
	ROW_HEAD,  /* repeated where the table goes on */
	ROW_GROUP, /* a head for the rows below, kept with them */
};

enum numbering { NUMBERS_ARABIC, NUMBERS_ROMAN };

/*
 * A column of a table: `width` in ems of the table's style; or, where that is
 * 0, a share of what is left; or, where that is 0 too, as wide as its widest
 * cell set in one line.
 */
struct column {
	double width;
	double share;
	enum align align;
};

struct block {
	enum block_kind kind;
	enum style style;
	struct block *first, *last, *next;
	struct run *runs, *last_run;
	const char *anchor;  /* what links and page numbers point at */
	const char *guide;   /* guide word in running heads from here on */
	const char *outline; /* title in the PDF's outline, or NULL */
	unsigned level;	     /* of a heading or outline, from 1 */
	enum align align;
	double indent; /* of all lines, in ems */
	double hang;   /* of all but the first */
	double inset;  /* of paragraphs, on both sides, in points */
	double size;   /* see the kinds; of a paragraph's first indent,
				 * in ems */
	bool keep;     /* no page break after it */
	bool together; /* better no page break within it */
	union {
		struct {		     /* BLOCK_CHAPTER */
			const char *running; /* in running heads; or NULL */
			const char *tab;     /* thumb index; or NULL */
			enum numbering numbering;
			bool plain; /* no running head or folio */
			bool recto; /* begins on a right page */
			/* printed behind its first page; or NULL */
			const struct drawing *backdrop;
			/* fills the chapter in each pass, when it is known
			 * which pages name what; or NULL */
			void (*late)(void *closure, struct block *chapter,
				struct arena *arena,
				const struct mentions *mentions,
				struct places *places);
			void *closure;
		};
		struct { /* BLOCK_TABLE, BLOCK_COLUMNS */
			const struct column *columns;
			unsigned count;
			bool quiet; /* no rules, no room between rows */
			/* what it is called where it goes on; or NULL */
			const char *again;
		};
		struct {		 /* BLOCK_LIST, BLOCK_ITEM */
			unsigned number; /* first number; 0: bullets */
			bool tight;
		};
		enum row_kind row;
		unsigned span;	    /* BLOCK_CELL: columns, 0 as 1 */
		const char *target; /* BLOCK_ENTRY: an anchor */
		const struct drawing *drawing;
	};
};

/* A new block at the end of `parent`, which may be NULL. */
struct block *
block_new(struct arena *arena, struct block *parent, enum block_kind kind,
	enum style style);

/* Adds a run of text; `text` is kept, not copied. */
struct run *
block_text(struct arena *arena, struct block *block, unsigned emphasis,
	const char *text);

/* Adds a symbol; `says` is read aloud for it, and kept. */
struct run *
block_symbol(struct arena *arena, struct block *block, enum symbol symbol,
	const char *says);

/* Adds the number of the page where `anchor` is, which is kept. */
struct run *
block_page(struct arena *arena, struct block *block, const char *anchor);

/* A new block with one run of text. */
struct block *
block_say(struct arena *arena, struct block *parent, enum block_kind kind,
	enum style style, const char *text);

#endif
