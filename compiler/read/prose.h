/*
 * Prose: CommonMark (0.30) by cmark, as a tree of our own that writers walk
 * without knowing cmark. Raw HTML and pictures are refused; links lead to
 * records (ref:kind/id) or to http, https and mailto addresses.
 */
#ifndef READ_PROSE_H
#define READ_PROSE_H

#include "base/arena.h"
#include "diag/diag.h"
#include "read/node.h"

enum prose_kind {
	/* blocks */
	PROSE_DOCUMENT,
	PROSE_PARAGRAPH,
	PROSE_HEADING,		/* level */
	PROSE_QUOTE,
	PROSE_BULLETS,		/* tight */
	PROSE_NUMBERS,		/* tight, level: first number */
	PROSE_ITEM,
	PROSE_CODE_BLOCK,	/* text */
	PROSE_RULE,
	/* inside blocks */
	PROSE_TEXT,		/* text */
	PROSE_CODE,		/* text */
	PROSE_SOFT_BREAK,
	PROSE_LINE_BREAK,
	PROSE_EMPHASIS,
	PROSE_STRONG,
	PROSE_LINK,		/* text: address; record, key once linked */
};

struct record;

struct prose {
	enum prose_kind kind;
	bool tight;
	int level;
	const char *text;
	struct span span;		/* of a link's address */
	const struct record *record;	/* of a ref: link, after linking */
	const char *key;		/* the part after the dot, or NULL */
	struct prose *parent;
	struct prose *first;
	struct prose *last;
	struct prose *next;
};

/*
 * Parses the text of a scalar. Never NULL. Findings go to `diags`, each at its
 * own characters in the file.
 */
struct prose *
read_prose(const struct node *scalar, const struct sources *sources,
	struct arena *arena, struct diags *diags);

/* The words of a tree, without markup, appended to `out` (a GString). */
struct _GString;
void
prose_words(const struct prose *prose, struct _GString *out);

#endif
