/*
 * The tree that a file of the corpus is read into. Every key and every value
 * knows where it stands. Scalars are text here: what they mean is decided by
 * the schema, in shape/.
 */
#ifndef READ_NODE_H
#define READ_NODE_H

#include <stdbool.h>
#include <stdint.h>

#include "base/source.h"

/* NODE_BAD stands where a message was already given: say no more about it. */
enum node_kind { NODE_BAD, NODE_SCALAR, NODE_LIST, NODE_MAP };

/* How a scalar is written; it decides how its bytes map to its text. */
enum scalar_style {
	SCALAR_PLAIN,
	SCALAR_SINGLE,
	SCALAR_DOUBLE,
	SCALAR_LITERAL,
	SCALAR_FOLDED,
	SCALAR_RAW,	/* the bytes are the text: an essay's file */
};

struct node;

struct node_entry {
	const char *key;
	struct span key_span;
	struct node *value;
};

struct node {
	enum node_kind kind;
	enum scalar_style style;
	bool partial;		/* of a map: an entry was refused */
	struct span span;	/* as written, quotes included */
	uint32_t count;		/* items, entries, or bytes of text */
	union {
		const char *text;
		struct node **items;
		struct node_entry *entries;
	};
};

/* The value under `key` of a mapping, or NULL. */
const struct node *
node_get(const struct node *map, const char *key);

/*
 * The bytes of the file that bytes `from` to `to` of a scalar's text were read
 * from: for pointing inside a scalar, whatever its style.
 */
struct span
node_span_within(const struct node *scalar, const struct sources *sources,
	uint32_t from, uint32_t to);

/*
 * The same for many places of one scalar, which cost one pass over it as long
 * as they are asked for in order. Free it with node_places_free.
 */
struct node_places;

struct node_places *
node_places_new(const struct node *scalar, const struct sources *sources);

struct span
node_places_span(struct node_places *places, uint32_t from, uint32_t to);

void
node_places_free(struct node_places *places);

#endif
