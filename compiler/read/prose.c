/*
 * cmark's tree copied into ours. cmark says on which line of the text a block
 * begins, and not reliably where an inline stands, so a link is found again by
 * its address, from the start of its paragraph onwards.
 */
#include "read/prose.h"

#include <cmark.h>
#include <glib.h>
#include <string.h>

#include "read/address.h"

/* Deeper than any prose needs; writers recurse on it. */
enum { DEEPEST = 32 };

/* Searches that find nothing read to the end of the text: not too often. */
enum { MOST_MISSES = 20 };

struct reading {
	const struct node *scalar;
	const struct sources *sources;
	struct arena *arena;
	struct diags *diags;
	uint32_t *lines;	/* where each line of the text begins */
	int line_count;
	uint32_t cursor;	/* places before it are behind us */
	struct node_places *places;
	unsigned misses;
	bool too_deep;		/* and reported */
};

static const enum prose_kind kinds[] = {
	[CMARK_NODE_DOCUMENT] = PROSE_DOCUMENT,
	[CMARK_NODE_BLOCK_QUOTE] = PROSE_QUOTE,
	[CMARK_NODE_LIST] = PROSE_BULLETS,
	[CMARK_NODE_ITEM] = PROSE_ITEM,
	[CMARK_NODE_CODE_BLOCK] = PROSE_CODE_BLOCK,
	[CMARK_NODE_HTML_BLOCK] = PROSE_CODE_BLOCK,
	[CMARK_NODE_PARAGRAPH] = PROSE_PARAGRAPH,
	[CMARK_NODE_HEADING] = PROSE_HEADING,
	[CMARK_NODE_THEMATIC_BREAK] = PROSE_RULE,
	[CMARK_NODE_TEXT] = PROSE_TEXT,
	[CMARK_NODE_SOFTBREAK] = PROSE_SOFT_BREAK,
	[CMARK_NODE_LINEBREAK] = PROSE_LINE_BREAK,
	[CMARK_NODE_CODE] = PROSE_CODE,
	[CMARK_NODE_HTML_INLINE] = PROSE_CODE,
	[CMARK_NODE_EMPH] = PROSE_EMPHASIS,
	[CMARK_NODE_STRONG] = PROSE_STRONG,
	[CMARK_NODE_LINK] = PROSE_LINK,
	[CMARK_NODE_IMAGE] = PROSE_EMPHASIS,
};

static void
find_lines(struct reading *reading)
{
	const char *text = reading->scalar->text;
	GArray *lines = g_array_new(FALSE, FALSE, sizeof(uint32_t));
	uint32_t i, start = 0;

	g_array_append_val(lines, start);
	for (i = 0; i < reading->scalar->count; i++) {
		start = i + 1;
		if (text[i] == '\n' ||
			(text[i] == '\r' && text[i + 1] != '\n'))
			g_array_append_val(lines, start);
	}
	reading->line_count = (int)lines->len;
	reading->lines = (uint32_t *)(void *)g_array_free(lines, FALSE);
}

static struct span
take(struct reading *reading, size_t from, size_t to)
{
	reading->cursor = (uint32_t)to;
	return node_places_span(reading->places, (uint32_t)from,
		(uint32_t)to);
}

/* Where the address next stands in the text; the whole scalar if it doesn't. */
static struct span
find_address(struct reading *reading, const char *address)
{
	size_t from, to;

	if (reading->misses < MOST_MISSES &&
		address_find(reading->scalar->text, reading->cursor, address,
			&from, &to))
		return take(reading, from, to);
	reading->misses++;
	return reading->scalar->span;
}

/* The same for the first line of some words. */
static struct span
find_words(struct reading *reading, const char *words)
{
	const char *text = reading->scalar->text, *at = NULL;
	char *line = g_strndup(words, strcspn(words, "\r\n"));
	size_t size = strlen(line);

	if (reading->misses < MOST_MISSES && size > 0)
		at = strstr(text + reading->cursor, line);
	g_free(line);
	if (at != NULL)
		return take(reading, (size_t)(at - text),
			(size_t)(at - text) + size);
	reading->misses++;
	return reading->scalar->span;
}

static bool
good_address(const char *address)
{
	return g_str_has_prefix(address, "ref:") ||
		g_str_has_prefix(address, "https://") ||
		g_str_has_prefix(address, "http://") ||
		g_str_has_prefix(address, "mailto:");
}

/* "kind/id": a link to a record that lacks its scheme. */
static bool
lacks_scheme(const char *address)
{
	static const char letters[] = "abcdefghijklmnopqrstuvwxyz";
	static const char of_id[] = "abcdefghijklmnopqrstuvwxyz0123456789-.";
	size_t kind = strspn(address, letters);
	const char *id = address + kind + 1;

	return kind > 0 && address[kind] == '/' && *id != '\0' &&
		id[strspn(id, of_id)] == '\0';
}

/* Offers to put `scheme` before an address that stands as it reads. */
static void
offer_scheme(struct reading *reading, const struct prose *prose,
	struct diag *diag, const char *scheme)
{
	const struct source *source = sources_get(reading->sources,
		prose->span.file);
	size_t size = strlen(prose->text);
	struct span at = prose->span;

	if (source == NULL || at.to - at.from != size ||
		memcmp(source->bytes + at.from, prose->text, size) != 0)
		return;
	at.to = at.from;
	diag_mend(diag, at, scheme, MEND_PROBABLE);
}

static void
check_link(struct reading *reading, struct prose *prose)
{
	struct diag *diag;

	prose->span = find_address(reading, prose->text);
	if (good_address(prose->text))
		return;
	diag = diag_report(reading->diags, DIAG_PROSE_LINK, prose->span,
		"a guide cannot follow the link to \"%s\"", prose->text);
	diag_help(diag, "link to a record as ref:kind/id, or to an address "
		"that begins with https://, http:// or mailto:");
	if (lacks_scheme(prose->text))
		offer_scheme(reading, prose, diag, "ref:");
	else if (g_str_has_prefix(prose->text, "www."))
		offer_scheme(reading, prose, diag, "https://");
}

static void
check_allowed(struct reading *reading, cmark_node *from)
{
	const char *literal = cmark_node_get_literal(from);
	struct diag *diag;

	switch (cmark_node_get_type(from)) {
	case CMARK_NODE_HTML_BLOCK:
	case CMARK_NODE_HTML_INLINE:
		diag = diag_report(reading->diags, DIAG_PROSE_HTML,
			find_words(reading, literal),
			"prose cannot hold HTML");
		diag_help(diag, "use CommonMark, or put \"\\\" before a "
			"\"<\" that is meant as itself");
		break;
	case CMARK_NODE_IMAGE:
		diag = diag_report(reading->diags, DIAG_PROSE_IMAGE,
			find_address(reading, cmark_node_get_url(from)),
			"prose cannot hold pictures");
		diag_help(diag, "describe what is to be seen");
		break;
	default:
		break;
	}
}

static void
set_details(struct reading *reading, struct prose *prose, cmark_node *from)
{
	const char *text = cmark_node_get_literal(from);

	if (prose->kind == PROSE_LINK)
		text = cmark_node_get_url(from);
	if (text != NULL)
		prose->text = arena_text(reading->arena, text, strlen(text));
	if (prose->kind == PROSE_LINK)
		check_link(reading, prose);
	if (prose->kind == PROSE_HEADING)
		prose->level = cmark_node_get_heading_level(from);
	if (prose->kind == PROSE_BULLETS) {
		prose->tight = cmark_node_get_list_tight(from) != 0;
		if (cmark_node_get_list_type(from) == CMARK_ORDERED_LIST) {
			prose->kind = PROSE_NUMBERS;
			prose->level = cmark_node_get_list_start(from);
		}
	}
	check_allowed(reading, from);
}

/* Moves the cursor to the line a block begins on. */
static void
move_to_block(struct reading *reading, cmark_node *block)
{
	int line = cmark_node_get_start_line(block);

	if (cmark_node_get_type(block) >= CMARK_NODE_FIRST_INLINE)
		return;
	if (line > 0 && line <= reading->line_count)
		reading->cursor = MAX(reading->cursor,
			reading->lines[line - 1]);
}

static bool
is_leaf(cmark_node *node)
{
	switch (cmark_node_get_type(node)) {
	case CMARK_NODE_HTML_BLOCK:
	case CMARK_NODE_THEMATIC_BREAK:
	case CMARK_NODE_CODE_BLOCK:
	case CMARK_NODE_TEXT:
	case CMARK_NODE_SOFTBREAK:
	case CMARK_NODE_LINEBREAK:
	case CMARK_NODE_CODE:
	case CMARK_NODE_HTML_INLINE:
		return true;
	default:
		return false;
	}
}

static struct prose *
append(struct reading *reading, struct prose *parent, cmark_node *from)
{
	struct prose *prose = arena_one(reading->arena, struct prose);

	prose->kind = kinds[cmark_node_get_type(from)];
	prose->parent = parent;
	if (parent != NULL && parent->last != NULL)
		parent->last->next = prose;
	else if (parent != NULL)
		parent->first = prose;
	if (parent != NULL)
		parent->last = prose;
	move_to_block(reading, from);
	set_details(reading, prose, from);
	return prose;
}

static void
report_depth(struct reading *reading)
{
	if (!reading->too_deep)
		diag_report(reading->diags, DIAG_TOO_DEEP,
			node_places_span(reading->places, reading->cursor,
				reading->cursor + 1),
			"prose is nested more than %d deep", DEEPEST);
	reading->too_deep = true;
}

static struct prose *
copy_tree(struct reading *reading, cmark_node *root)
{
	cmark_iter *iter = cmark_iter_new(root);
	struct prose *document = NULL, *open = NULL, *prose;
	cmark_event_type event;
	int depth = 0;

	for (event = cmark_iter_next(iter); event != CMARK_EVENT_DONE;
		event = cmark_iter_next(iter)) {
		cmark_node *from = cmark_iter_get_node(iter);

		if (event == CMARK_EVENT_EXIT) {
			open = open->parent;
			depth--;
			continue;
		}
		prose = append(reading, open, from);
		if (document == NULL)
			document = prose;
		if (is_leaf(from))
			continue;
		if (depth == DEEPEST) {
			report_depth(reading);
			cmark_iter_reset(iter, from, CMARK_EVENT_EXIT);
			continue;
		}
		open = prose;
		depth++;
	}
	cmark_iter_free(iter);
	return document;
}

struct prose *
read_prose(const struct node *scalar, const struct sources *sources,
	struct arena *arena, struct diags *diags)
{
	struct reading reading = {
		.scalar = scalar,
		.sources = sources,
		.arena = arena,
		.diags = diags,
	};
	cmark_node *root;
	struct prose *document;

	root = cmark_parse_document(scalar->text, scalar->count,
		CMARK_OPT_DEFAULT);
	find_lines(&reading);
	reading.places = node_places_new(scalar, sources);
	document = copy_tree(&reading, root);
	node_places_free(reading.places);
	g_free(reading.lines);
	cmark_node_free(root);
	return document;
}

/* Words of neighbouring blocks must not run into one another. */
static void
separate(const struct prose *prose, GString *out)
{
	bool inside = prose->kind >= PROSE_TEXT &&
		prose->kind != PROSE_SOFT_BREAK &&
		prose->kind != PROSE_LINE_BREAK;

	if (!inside && out->len > 0 && out->str[out->len - 1] != ' ')
		g_string_append_c(out, ' ');
}

void
prose_words(const struct prose *prose, GString *out)
{
	const struct prose *at = prose;

	while (at != NULL) {
		separate(at, out);
		if (at->text != NULL && at->kind != PROSE_LINK)
			g_string_append(out, at->text);
		if (at->first != NULL) {
			at = at->first;
			continue;
		}
		while (at != NULL && at != prose && at->next == NULL)
			at = at->parent;
		if (at == NULL || at == prose)
			break;
		at = at->next;
	}
}
