/*
 * Mends of values: what is offered in place of bytes as written. A value keeps
 * its quotes, and only text that needs none is ever put where there are none.
 */
#include "shape/shaping.h"

#include <glib.h>
#include <string.h>

/* Whether text can stand unquoted anywhere, within brackets too. */
static bool
is_plain(const char *text)
{
	size_t size = strlen(text);
	size_t good = strspn(text, "abcdefghijklmnopqrstuvwxyz"
		"ABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789-_./ ");

	return size > 0 && good == size && g_ascii_isalnum(text[0]) &&
		text[size - 1] != ' ';
}

static const char *
bytes_of(const struct shaping *shaping, struct span span)
{
	return sources_get(shaping->sources, span.file)->bytes + span.from;
}

static bool
can_replace(const struct node *node)
{
	return node->kind == NODE_SCALAR && (node->style == SCALAR_PLAIN ||
		node->style == SCALAR_SINGLE || node->style == SCALAR_DOUBLE);
}

void
shape_offer(struct diag *diag, const struct node *node, const char *text,
	enum confidence sure)
{
	if (text != NULL && is_plain(text) && can_replace(node))
		diag_mend(diag, node->span, text, sure);
}

/* Whether a comma within a value of the type can only part two values. */
static bool
parts_at_commas(enum type type)
{
	switch (type) {
	case TYPE_WHOLE:
	case TYPE_DATE:
	case TYPE_WORD:
	case TYPE_COUNTRY:
	case TYPE_LANGUAGE:
	case TYPE_CURRENCY:
	case TYPE_BARCODE:
	case TYPE_REFERENCE:
	case TYPE_IDENTITY:
		return true;
	case TYPE_TEXT:
	case TYPE_PROSE:
	case TYPE_QUANTITY:
	case TYPE_AMOUNT:
	case TYPE_YESNO:
	case TYPE_TRANSLATION:
	case TYPE_GROUP:
		break;
	}
	return false;
}

/* Whether a value, put within brackets as it stands, is a list of its type. */
static bool
can_enclose(const struct field *field, const struct node *node)
{
	bool grouped = field->type == TYPE_GROUP ||
		field->type == TYPE_TRANSLATION;
	bool good = false;
	char *bare;

	if (node->kind == NODE_MAP)
		return grouped;
	if (grouped || !can_replace(node))
		return false;
	if (node->style == SCALAR_PLAIN) {
		bare = g_strdelimit(g_strdup(node->text), ",", ' ');
		good = is_plain(bare) && (strchr(node->text, ',') == NULL ||
			parts_at_commas(field->type));
		g_free(bare);
		return good;
	}
	return strchr(node->text, ',') == NULL ||
		!parts_at_commas(field->type);
}

void
shape_offer_list(struct shaping *shaping, struct diag *diag,
	const struct field *field, const struct node *node)
{
	struct span span = node->span;
	const char *bytes = bytes_of(shaping, span);

	if (!can_enclose(field, node) ||
		(node->kind == NODE_MAP && *bytes != '{') ||
		memchr(bytes, '\n', span.to - span.from) != NULL)
		return;
	diag_mend(diag, (struct span){span.file, span.from, span.from}, "[",
		MEND_SAFE);
	diag_mend(diag, (struct span){span.file, span.to, span.to}, "]",
		MEND_SAFE);
}

void
shape_offer_single(struct shaping *shaping, struct diag *diag,
	const struct node *node)
{
	struct span span = node->span, inside;
	const char *bytes = bytes_of(shaping, span);

	if (node->kind != NODE_LIST || node->count != 1 ||
		node->items[0]->kind != NODE_SCALAR || *bytes != '[' ||
		memchr(bytes, '\n', span.to - span.from) != NULL)
		return;
	inside = node->items[0]->span;
	diag_mend(diag, (struct span){span.file, span.from, inside.from}, "",
		MEND_SAFE);
	diag_mend(diag, (struct span){span.file, inside.to, span.to}, "",
		MEND_SAFE);
}

void
shape_offer_field(struct shaping *shaping, struct diag *diag,
	const struct field *field, const struct node *map)
{
	const struct source *source;
	struct span key, at;
	const char *text;

	if (map->kind != NODE_MAP || map->count == 0 ||
		*bytes_of(shaping, map->span) == '{')
		return;
	key = map->entries[0].key_span;
	at = map->entries[0].value->span;
	source = sources_get(shaping->sources, key.file);
	/* Behind the first line, where a comment may follow the value. */
	if (at.file != key.file || memchr(source->bytes + key.from, '\n',
		at.to - key.from) != NULL)
		return;
	at.from = at.to = source_line(source, at.to).to;
	text = arena_print(shaping->arena, "\n%*s%s: ",
		(int)source_place(source, key.from).column - 1, "",
		field->name);
	diag_mend(diag, at, text, MEND_BLANK);
}
