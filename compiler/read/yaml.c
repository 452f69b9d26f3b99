/*
 * libyaml's events turned into a tree. libyaml counts characters where spans
 * count bytes, so files that are not plain ASCII get a map from one to the
 * other, made once and dropped with the reading.
 */
#include "read/yaml.h"

#include <glib.h>
#include <string.h>
#include <yaml.h>

#include "read/feature.h"

/* Deeper than any record could mean; also bounds our recursion. */
enum { DEEPEST = 32 };

struct reading {
	const struct source *source;
	uint32_t file;
	struct arena *arena;
	struct diags *diags;
	yaml_parser_t parser;
	uint32_t start;		/* bytes of a byte order mark */
	uint32_t *bytes;	/* byte of each character; NULL: the same */
	size_t characters;
	uint32_t passed;	/* where the last event ended */
	bool failed;
};

static uint32_t
byte_at(const struct reading *reading, size_t character)
{
	if (reading->bytes == NULL)
		return MIN(reading->start + (uint32_t)character,
			reading->source->size);
	return reading->bytes[MIN(character, reading->characters)];
}

static struct span
span_of(const struct reading *reading, yaml_mark_t from, yaml_mark_t to)
{
	return (struct span){reading->file, byte_at(reading, from.index),
		byte_at(reading, to.index)};
}

static struct span
event_span(const struct reading *reading, const yaml_event_t *event)
{
	return span_of(reading, event->start_mark, event->end_mark);
}

static void
map_characters(struct reading *reading)
{
	const struct source *source = reading->source;
	const unsigned char *bytes = (const unsigned char *)source->bytes;
	uint32_t i;
	bool ascii = true;

	for (i = 0; i < source->size && ascii; i++)
		ascii = bytes[i] < 0x80;
	if (ascii)
		return;
	reading->bytes = g_new(uint32_t, source->size + 1);
	for (i = reading->start; i < source->size; i++)
		if ((bytes[i] & 0xC0) != 0x80)
			reading->bytes[reading->characters++] = i;
	reading->bytes[reading->characters] = source->size;
}

/* One character, or nothing at the end of the file. */
static struct span
character_span(const struct reading *reading, uint32_t byte)
{
	const char *bytes = reading->source->bytes;
	struct span span = {reading->file, byte, byte};

	if (byte < reading->source->size)
		span.to = (uint32_t)(g_utf8_next_char(bytes + byte) - bytes);
	return span;
}

static void
report_syntax(struct reading *reading)
{
	const yaml_parser_t *parser = &reading->parser;
	struct syntax_error error = {
		.problem = parser->problem,
		.context = parser->context,
	};
	uint32_t byte = byte_at(reading, parser->problem_mark.index);

	if (parser->error == YAML_MEMORY_ERROR)
		g_error("out of memory");
	/* Where characters cannot be read, libyaml counts bytes. */
	if (parser->error == YAML_READER_ERROR)
		byte = reading->start + (uint32_t)parser->problem_offset;
	error.span = character_span(reading, byte);
	error.context_span = character_span(reading, byte_at(reading,
		parser->context_mark.index));
	syntax_report(reading->diags, reading->source, &error);
}

/* The next event, or false: then reading stops and all was said. */
static bool
next_event(struct reading *reading, yaml_event_t *event)
{
	struct span gap;

	if (reading->failed)
		return false;
	if (yaml_parser_parse(&reading->parser, event) == 0) {
		reading->failed = true;
		report_syntax(reading);
		return false;
	}
	gap = event_span(reading, event);
	gap.to = gap.from;
	gap.from = reading->passed;
	reading->passed = MAX(gap.from, event_span(reading, event).to);
	if (feature_check_gap(reading->diags, reading->source, gap))
		return true;
	yaml_event_delete(event);
	reading->failed = true;
	return false;
}

static struct node *
new_node(struct reading *reading, enum node_kind kind, struct span span)
{
	struct node *node = arena_one(reading->arena, struct node);

	node->kind = kind;
	node->span = span;
	return node;
}

static void
refuse(struct reading *reading, struct span span, const char *what,
	const char *instead)
{
	feature_refuse(reading->diags, span, &(struct feature){what, instead});
}

/* The anchor or tag that begins with `sigil`, of the two that may stand here. */
static struct span
property_span(const struct reading *reading, struct span span, char sigil)
{
	const char *bytes = reading->source->bytes;
	uint32_t at = span.from;

	if (bytes[at] != sigil) {
		at += (uint32_t)strcspn(bytes + at, " \t\r\n");
		at += (uint32_t)strspn(bytes + at, " \t\r\n");
	}
	if (bytes[at] != sigil)
		return span;
	span.from = at;
	span.to = at + (uint32_t)strcspn(bytes + at, " \t\r\n,[]{}");
	return span;
}

/* Says so when the event carries an anchor or a tag. */
static void
refuse_properties(struct reading *reading, const yaml_event_t *event)
{
	const yaml_char_t *anchor = NULL, *tag = NULL;
	struct span span = event_span(reading, event);

	if (event->type == YAML_SCALAR_EVENT) {
		anchor = event->data.scalar.anchor;
		tag = event->data.scalar.tag;
	} else if (event->type == YAML_SEQUENCE_START_EVENT) {
		anchor = event->data.sequence_start.anchor;
		tag = event->data.sequence_start.tag;
	} else if (event->type == YAML_MAPPING_START_EVENT) {
		anchor = event->data.mapping_start.anchor;
		tag = event->data.mapping_start.tag;
	}
	if (anchor != NULL)
		refuse(reading, property_span(reading, span, '&'),
			"YAML anchors (\"&\")", "write the value out; text "
			"that begins with \"&\" needs quotes");
	if (tag != NULL)
		refuse(reading, property_span(reading, span, '!'),
			"YAML tags (\"!\")", "the schema types every value; "
			"text that begins with \"!\" needs quotes");
}

static const enum scalar_style styles[] = {
	[YAML_ANY_SCALAR_STYLE] = SCALAR_PLAIN,
	[YAML_PLAIN_SCALAR_STYLE] = SCALAR_PLAIN,
	[YAML_SINGLE_QUOTED_SCALAR_STYLE] = SCALAR_SINGLE,
	[YAML_DOUBLE_QUOTED_SCALAR_STYLE] = SCALAR_DOUBLE,
	[YAML_LITERAL_SCALAR_STYLE] = SCALAR_LITERAL,
	[YAML_FOLDED_SCALAR_STYLE] = SCALAR_FOLDED,
};

/* Block scalars end where the next token begins: give back the blank lines. */
static void
trim_block(const struct reading *reading, struct span *span)
{
	const char *bytes = reading->source->bytes;

	while (span->to > span->from && strchr(" \t\r\n", bytes[span->to - 1]))
		span->to--;
}

static struct node *
read_scalar(struct reading *reading, const yaml_event_t *event)
{
	struct node *node;
	const char *text = (const char *)event->data.scalar.value;
	size_t size = event->data.scalar.length;

	node = new_node(reading, NODE_SCALAR, event_span(reading, event));
	node->style = styles[event->data.scalar.style];
	if (node->style == SCALAR_LITERAL || node->style == SCALAR_FOLDED)
		trim_block(reading, &node->span);
	node->text = arena_text(reading->arena, text, size);
	node->count = (uint32_t)size;
	if (!feature_check_scalar(reading->diags, reading->source, node))
		node->kind = NODE_BAD;
	if (memchr(text, '\0', size) != NULL) {
		diag_report(reading->diags, DIAG_BAD_TEXT, node->span,
			"text cannot hold the character NUL");
		node->kind = NODE_BAD;
	}
	return node;
}

static struct node *
read_node(struct reading *reading, yaml_event_t *event, int depth);

static struct node *
read_list(struct reading *reading, struct span start, int depth)
{
	struct node *list = new_node(reading, NODE_LIST, start);
	GPtrArray *items = g_ptr_array_new();
	yaml_event_t event;

	while (next_event(reading, &event)) {
		if (event.type == YAML_SEQUENCE_END_EVENT) {
			list->span.to = MAX(list->span.to,
				event_span(reading, &event).to);
			yaml_event_delete(&event);
			break;
		}
		g_ptr_array_add(items, read_node(reading, &event, depth + 1));
	}
	list->count = items->len;
	list->items = arena_array(reading->arena, struct node *, items->len);
	if (items->len > 0)
		memcpy(list->items, items->pdata,
			sizeof(*list->items) * items->len);
	g_ptr_array_free(items, TRUE);
	return list;
}

/* The key as text; NULL for a key that no field could have (reported). */
static bool
read_key(struct reading *reading, yaml_event_t *event,
	struct node_entry *entry, int depth)
{
	struct node *key = read_node(reading, event, depth);

	entry->key_span = key->span;
	if (key->kind != NODE_SCALAR) {
		if (key->kind != NODE_BAD)
			refuse(reading, key->span, "lists or mappings as keys",
				"a key is the name of a field");
		return false;
	}
	if (key->style == SCALAR_PLAIN && strcmp(key->text, "<<") == 0) {
		refuse(reading, key->span, "YAML merge keys (\"<<\")",
			"write the fields out");
		return false;
	}
	entry->key = key->text;
	return true;
}

static void
add_entry(struct reading *reading, GArray *entries, GHashTable *places,
	struct node_entry entry)
{
	const struct node_entry *first;
	gpointer at;
	struct diag *diag;

	at = g_hash_table_lookup(places, entry.key);
	if (at == NULL) {
		g_array_append_val(entries, entry);
		g_hash_table_insert(places, (gpointer)(uintptr_t)entry.key,
			GUINT_TO_POINTER(entries->len));
		return;
	}
	first = &g_array_index(entries, struct node_entry,
		GPOINTER_TO_UINT(at) - 1);
	diag = diag_report(reading->diags, DIAG_DUPLICATE_KEY, entry.key_span,
		"\"%s\" is given twice", entry.key);
	diag_note(diag, first->key_span, "first given here");
	diag_help(diag, "keep one of the two");
}

static void
read_entries(struct reading *reading, struct node *map, GArray *entries,
	GHashTable *places, int depth)
{
	struct node_entry entry;
	yaml_event_t event;
	bool usable;

	while (next_event(reading, &event)) {
		if (event.type == YAML_MAPPING_END_EVENT) {
			map->span.to = MAX(map->span.to,
				event_span(reading, &event).to);
			yaml_event_delete(&event);
			return;
		}
		entry = (struct node_entry){NULL, SPAN_NOWHERE, NULL};
		usable = read_key(reading, &event, &entry, depth + 1);
		if (!next_event(reading, &event))
			return;
		entry.value = read_node(reading, &event, depth + 1);
		map->span.to = MAX(map->span.to, entry.value->span.to);
		if (usable)
			add_entry(reading, entries, places, entry);
		else
			map->partial = true;
	}
}

static struct node *
read_map(struct reading *reading, struct span start, int depth)
{
	struct node *map = new_node(reading, NODE_MAP, start);
	GArray *entries = g_array_new(FALSE, TRUE, sizeof(struct node_entry));
	GHashTable *places = g_hash_table_new(g_str_hash, g_str_equal);

	read_entries(reading, map, entries, places, depth);
	map->count = entries->len;
	map->entries = arena_array(reading->arena, struct node_entry,
		entries->len);
	if (entries->len > 0)
		memcpy(map->entries, entries->data,
			sizeof(struct node_entry) * entries->len);
	g_hash_table_destroy(places);
	g_array_free(entries, TRUE);
	return map;
}

/*
 * Gives up on a file that is nested too deeply: libyaml takes a time by the
 * square of the depth for what is left.
 */
static struct node *
give_up(struct reading *reading, struct span start)
{
	struct diag *diag;

	diag = diag_report(reading->diags, DIAG_TOO_DEEP, start,
		"values are nested more than %d deep", DEEPEST);
	diag_help(diag, "no record is nested as deeply; the rest of the file "
		"was not read");
	reading->failed = true;
	return new_node(reading, NODE_BAD, start);
}

/* Reads the node that `event` begins; frees the event. */
static struct node *
read_node(struct reading *reading, yaml_event_t *event, int depth)
{
	struct span span = event_span(reading, event);
	yaml_event_type_t type = event->type;
	struct node *node = NULL;

	refuse_properties(reading, event);
	if (type == YAML_SCALAR_EVENT)
		node = read_scalar(reading, event);
	else if (type == YAML_ALIAS_EVENT)
		refuse(reading, span, "YAML aliases (\"*\")", "write the "
			"value out; text that begins with \"*\" needs quotes");
	yaml_event_delete(event);
	if (type == YAML_SEQUENCE_START_EVENT)
		node = depth < DEEPEST ? read_list(reading, span, depth) :
			give_up(reading, span);
	if (type == YAML_MAPPING_START_EVENT)
		node = depth < DEEPEST ? read_map(reading, span, depth) :
			give_up(reading, span);
	if (node == NULL)
		node = new_node(reading, NODE_BAD, span);
	return node;
}

static void
refuse_directives(struct reading *reading, const yaml_event_t *event)
{
	struct span span = event_span(reading, event);
	const char *bytes = reading->source->bytes;

	if (event->data.document_start.version_directive == NULL &&
		event->data.document_start.tag_directives.start ==
		event->data.document_start.tag_directives.end)
		return;
	span.to = span.from + (uint32_t)strcspn(bytes + span.from, "\r\n");
	feature_refuse(reading->diags, span, &feature_directive);
}

/* The one document of a file; nothing but comments is no document. */
static struct node *
read_first(struct reading *reading, yaml_event_t *event)
{
	struct node *root = read_node(reading, event, 0);

	if (root->kind == NODE_SCALAR && root->style == SCALAR_PLAIN &&
		root->count == 0)
		return NULL;
	return root;
}

static struct node *
read_documents(struct reading *reading)
{
	struct node *root = NULL;
	yaml_event_t event;
	bool more = true;
	unsigned count = 0;

	while (more && next_event(reading, &event)) {
		switch (event.type) {
		case YAML_SCALAR_EVENT:
		case YAML_ALIAS_EVENT:
		case YAML_SEQUENCE_START_EVENT:
		case YAML_MAPPING_START_EVENT:
			root = read_first(reading, &event);
			continue;
		case YAML_DOCUMENT_START_EVENT:
			refuse_directives(reading, &event);
			if (++count == 1)
				break;
			feature_refuse(reading->diags,
				event_span(reading, &event),
				&feature_documents);
			more = false;
			break;
		case YAML_STREAM_END_EVENT:
			more = false;
			break;
		case YAML_NO_EVENT:
		case YAML_STREAM_START_EVENT:
		case YAML_DOCUMENT_END_EVENT:
		case YAML_SEQUENCE_END_EVENT:
		case YAML_MAPPING_END_EVENT:
			break;
		}
		yaml_event_delete(&event);
	}
	return root;
}

static bool
check_utf8(struct reading *reading)
{
	const struct source *source = reading->source;
	const char *end;
	struct span span = {reading->file, 0, 0};
	struct diag *diag;

	if (g_utf8_validate_len(source->bytes, source->size, &end))
		return true;
	span.from = (uint32_t)(end - source->bytes);
	span.to = span.from + 1;
	diag = diag_report(reading->diags, DIAG_NOT_UTF8, span,
		"the file is not UTF-8 text: byte 0x%02X cannot stand here",
		(unsigned char)*end);
	diag_help(diag, "save the file as UTF-8 in your editor");
	return false;
}

/*
 * A copy with a line break more, or NULL: libyaml loses blanks that are a last
 * line of their own and end without one.
 */
static char *
close_line(const struct source *source)
{
	struct span line = source_line(source, source->size);
	uint32_t at = line.from;
	char *copy;

	while (at < source->size && (source->bytes[at] == ' ' ||
		source->bytes[at] == '\t'))
		at++;
	if (at < source->size || line.from == source->size)
		return NULL;
	copy = g_malloc(source->size + 1);
	memcpy(copy, source->bytes, source->size);
	copy[source->size] = '\n';
	return copy;
}

struct node *
read_yaml(const struct sources *sources, uint32_t file, struct arena *arena,
	struct diags *diags)
{
	struct reading reading = {
		.source = sources_get(sources, file),
		.file = file,
		.arena = arena,
		.diags = diags,
	};
	const struct source *source = reading.source;
	size_t size = source->size;
	struct node *root;
	char *closed;

	if (!check_utf8(&reading))
		return NULL;
	if (source->size >= 3 && memcmp(source->bytes, "\xEF\xBB\xBF", 3) == 0)
		reading.start = 3;
	map_characters(&reading);
	if (yaml_parser_initialize(&reading.parser) == 0)
		g_error("out of memory");
	yaml_parser_set_encoding(&reading.parser, YAML_UTF8_ENCODING);
	closed = close_line(source);
	size += closed != NULL;
	yaml_parser_set_input_string(&reading.parser, (const unsigned char *)
		(closed == NULL ? source->bytes : closed) + reading.start,
		size - reading.start);
	root = read_documents(&reading);
	yaml_parser_delete(&reading.parser);
	g_free(closed);
	g_free(reading.bytes);
	return reading.failed ? NULL : root;
}
