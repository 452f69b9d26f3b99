/*
 * Places inside scalars. libyaml says where a scalar begins and ends, not
 * which bytes its text came from: quotes, escapes, indentation and folding lie
 * between. So the written form is walked again, one unit at a time, counting
 * the bytes of text that each unit stands for.
 */
#include "read/node.h"

#include <glib.h>
#include <string.h>

const struct node *
node_get(const struct node *map, const char *key)
{
	uint32_t i;

	if (map == NULL || map->kind != NODE_MAP)
		return NULL;
	for (i = 0; i < map->count; i++)
		if (strcmp(map->entries[i].key, key) == 0)
			return map->entries[i].value;
	return NULL;
}

struct walk {
	enum scalar_style style;
	const char *bytes;
	uint32_t at;
	uint32_t end;
	uint32_t indent;	/* of block scalars */
	bool more_indented;	/* the current folded line begins with blanks */
	bool begun;		/* some of a block scalar's text is behind */
};

static bool
is_blank(char c)
{
	return c == ' ' || c == '\t';
}

/* What YAML takes for a line break: as written, and as it is in the text. */
struct line_break {
	const char *bytes;
	uint32_t written;
	uint32_t text;
};

static const struct line_break line_breaks[] = {
	{"\r\n", 2, 1}, {"\n", 1, 1}, {"\r", 1, 1}, {"\xC2\x85", 2, 1},
	{"\xE2\x80\xA8", 3, 3}, {"\xE2\x80\xA9", 3, 3},
};

/* The line break that `text` of `size` bytes begins with, or NULL. */
static const struct line_break *
find_break(const char *text, uint32_t size)
{
	size_t i;

	for (i = 0; i < G_N_ELEMENTS(line_breaks); i++)
		if (line_breaks[i].written <= size &&
			text[0] == line_breaks[i].bytes[0] &&
			memcmp(text, line_breaks[i].bytes,
				line_breaks[i].written) == 0)
			return &line_breaks[i];
	return NULL;
}

static const struct line_break *
break_at(const struct walk *walk, uint32_t at)
{
	return at < walk->end ? find_break(walk->bytes + at, walk->end - at) :
		NULL;
}

/*
 * Passes line breaks and the blanks around them in a flow scalar. Returns the
 * bytes of text that they stand for: a single break is folded to a blank, of
 * several the first is dropped, but the wide ones always stay. Returns 0, and
 * `at` stays, if there are none.
 */
static uint32_t
pass_breaks(struct walk *walk)
{
	const struct line_break *here, *first = NULL;
	uint32_t at = walk->at, more = 0;

	for (;;) {
		while (at < walk->end && is_blank(walk->bytes[at]))
			at++;
		here = break_at(walk, at);
		if (here == NULL)
			break;
		at += here->written;
		if (first == NULL)
			first = here;
		else
			more += here->text;
	}
	if (first == NULL)
		return 0;
	walk->at = at;
	if (first->text > 1)
		return first->text + more;
	return more > 0 ? more : 1;
}

static uint32_t
utf8_length(uint32_t c)
{
	return c < 0x80 ? 1 : c < 0x800 ? 2 : c < 0x10000 ? 3 : 4;
}

/* An escaped line break stands for nothing, but all behind it for themselves. */
static uint32_t
pass_escaped_breaks(struct walk *walk)
{
	const struct line_break *here = break_at(walk, walk->at);
	uint32_t text = 0;

	walk->at += here->written;
	for (;;) {
		while (walk->at < walk->end && is_blank(walk->bytes[walk->at]))
			walk->at++;
		here = break_at(walk, walk->at);
		if (here == NULL)
			return text;
		walk->at += here->written;
		text += here->text;
	}
}

/* Passes one escape of a double-quoted scalar; returns its bytes of text. */
static uint32_t
pass_escape(struct walk *walk)
{
	static const struct { char letter; uint32_t digits; } hex[] = {
		{'x', 2}, {'u', 4}, {'U', 8},
	};
	char letter, digits[9] = "";
	size_t i;

	walk->at++;
	if (walk->at >= walk->end)
		return 0;
	if (break_at(walk, walk->at) != NULL)
		return pass_escaped_breaks(walk);
	letter = walk->bytes[walk->at++];
	for (i = 0; i < G_N_ELEMENTS(hex); i++) {
		if (hex[i].letter != letter ||
			walk->at + hex[i].digits > walk->end)
			continue;
		memcpy(digits, walk->bytes + walk->at, hex[i].digits);
		walk->at += hex[i].digits;
		return utf8_length((uint32_t)g_ascii_strtoull(digits, NULL,
			16));
	}
	if (letter == 'N' || letter == '_')
		return 2;
	return letter == 'L' || letter == 'P' ? 3 : 1;
}

static uint32_t
step_flow(struct walk *walk)
{
	char c = walk->bytes[walk->at];
	uint32_t folded;

	if (is_blank(c) || break_at(walk, walk->at) != NULL) {
		folded = pass_breaks(walk);
		if (folded > 0)
			return folded;
	}
	if (walk->style == SCALAR_DOUBLE && c == '\\')
		return pass_escape(walk);
	walk->at++;
	if (walk->style == SCALAR_SINGLE && c == '\'')
		walk->at++;
	return 1;
}

static void
pass_indent(struct walk *walk)
{
	uint32_t i;

	for (i = 0; i < walk->indent && walk->at < walk->end; i++) {
		if (walk->bytes[walk->at] != ' ')
			break;
		walk->at++;
	}
}

/* Whether the line that the walk is at the start of is indented further. */
static bool
is_more_indented(const struct walk *walk)
{
	return walk->at < walk->end && is_blank(walk->bytes[walk->at]);
}

static uint32_t
step_block(struct walk *walk)
{
	const struct line_break *first = break_at(walk, walk->at), *here;
	bool was_more = walk->more_indented;
	uint32_t more = 0;

	if (first == NULL) {
		walk->begun = true;
		walk->at++;
		return 1;
	}
	walk->at += first->written;
	pass_indent(walk);
	walk->more_indented = is_more_indented(walk);
	/* What lies before the text is not folded. */
	if (walk->style == SCALAR_LITERAL || !walk->begun)
		return first->text;
	for (here = break_at(walk, walk->at); here != NULL;
		here = break_at(walk, walk->at)) {
		walk->at += here->written;
		pass_indent(walk);
		more += here->text;
	}
	walk->more_indented = is_more_indented(walk);
	if (was_more || walk->more_indented || first->text > 1)
		return first->text + more;
	return more > 0 ? more : 1;
}

/* Leading blanks of the first line of text that has anything else on it. */
static uint32_t
leading_blanks(const char *text, uint32_t size)
{
	const struct line_break *here;
	uint32_t at = 0, count = 0;

	while (at < size) {
		here = find_break(text + at, size - at);
		if (here == NULL && text[at] != ' ')
			break;
		count = here != NULL ? 0 : count + 1;
		at += here != NULL ? here->written : 1;
	}
	return count;
}

/* Places the walk behind the header of a block scalar, on its first text. */
static void
enter_block(struct walk *walk, const struct node *scalar)
{
	uint32_t written, meant;

	while (walk->at < walk->end && break_at(walk, walk->at) == NULL)
		walk->at++;
	if (walk->at < walk->end)
		walk->at += break_at(walk, walk->at)->written;
	written = leading_blanks(walk->bytes + walk->at,
		walk->end - walk->at);
	meant = leading_blanks(scalar->text, scalar->count);
	walk->indent = written > meant ? written - meant : 0;
	pass_indent(walk);
	walk->more_indented = is_more_indented(walk);
}

static struct walk
begin_walk(const struct node *scalar, const struct source *source)
{
	struct walk walk = {
		.style = scalar->style,
		.bytes = source->bytes,
		.at = scalar->span.from,
		.end = scalar->span.to,
	};

	switch (scalar->style) {
	case SCALAR_SINGLE:
	case SCALAR_DOUBLE:
		walk.at++;
		walk.end--;
		break;
	case SCALAR_LITERAL:
	case SCALAR_FOLDED:
		enter_block(&walk, scalar);
		break;
	case SCALAR_PLAIN:
	case SCALAR_RAW:
		break;
	}
	return walk;
}

static uint32_t
step(struct walk *walk)
{
	switch (walk->style) {
	case SCALAR_PLAIN:
	case SCALAR_SINGLE:
	case SCALAR_DOUBLE:
		return step_flow(walk);
	case SCALAR_LITERAL:
	case SCALAR_FOLDED:
		return step_block(walk);
	case SCALAR_RAW:
		break;
	}
	walk->at++;
	return 1;
}

struct node_places {
	const struct node *scalar;
	const struct source *source;
	struct walk walk;
	uint32_t text;		/* bytes of text behind the walk */
};

static struct node_places
begin_places(const struct node *scalar, const struct sources *sources)
{
	struct node_places places = {.scalar = scalar};

	places.source = sources_get(sources, scalar->span.file);
	if (places.source != NULL)
		places.walk = begin_walk(scalar, places.source);
	return places;
}

/* Walks until `text` bytes of text are behind. */
static void
go_to(struct node_places *places, uint32_t text)
{
	while (places->text < text && places->walk.at < places->walk.end)
		places->text += step(&places->walk);
}

/* Passes what stands for no text, such as an escaped line break. */
static void
pass_nothing(struct node_places *places)
{
	struct walk next = places->walk;

	while (next.at < next.end && step(&next) == 0)
		places->walk = next;
}

struct span
node_places_span(struct node_places *places, uint32_t from, uint32_t to)
{
	struct span span = places->scalar->span;
	struct node_places end;

	if (places->source == NULL)
		return span;
	if (places->text > from) {
		places->walk = begin_walk(places->scalar, places->source);
		places->text = 0;
	}
	go_to(places, from);
	if (to > from)
		pass_nothing(places);
	end = *places;
	go_to(&end, to);
	span.from = places->walk.at;
	span.to = MAX(end.walk.at, span.from);
	return span;
}

struct node_places *
node_places_new(const struct node *scalar, const struct sources *sources)
{
	struct node_places *places = g_new(struct node_places, 1);

	*places = begin_places(scalar, sources);
	return places;
}

void
node_places_free(struct node_places *places)
{
	g_free(places);
}

struct span
node_span_within(const struct node *scalar, const struct sources *sources,
	uint32_t from, uint32_t to)
{
	struct node_places places = begin_places(scalar, sources);

	return node_places_span(&places, from, to);
}
