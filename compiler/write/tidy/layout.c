/*
 * The layout itself. Records are written in blocks, a line a field. A list of
 * words is filled into lines between brackets. Other lists and groups stand
 * between brackets where they fit on their line and none of their texts needs
 * quotes there; else they are blocks too. Whatever holds a comment is a block,
 * since a comment ends its line.
 */
#include "write/tidy/tidy.h"

#include <string.h>

#include "read/yaml.h"
#include "write/tidy/scalar.h"
#include "write/tidy/things.h"

struct layout {
	GString *out;
	bool kept;	/* blank lines here would belong to the text above */
};

static const char *
text_of(const struct thing *thing)
{
	return thing->node->text;
}

static bool
is_scalar(const struct thing *thing)
{
	return thing->node->kind == NODE_SCALAR;
}

/* Nothing at all where a value should be: a blank to fill in. */
static bool
is_blank(const struct thing *thing)
{
	return is_scalar(thing) && thing->node->count == 0 &&
		thing->node->style == SCALAR_PLAIN;
}

/* A word stands in brackets as it is, and is never broken. */
static bool
is_word(const struct thing *thing)
{
	return is_scalar(thing) && strchr(text_of(thing), ' ') == NULL &&
		tidy_is_plain(text_of(thing), TIDY_FLOW);
}

static bool
is_word_list(const struct thing *thing)
{
	uint32_t i;

	if (thing->node->kind != NODE_LIST || thing->count == 0)
		return false;
	for (i = 0; i < thing->count; i++)
		if (!is_word(&thing->items[i]))
			return false;
	return true;
}

/* Whether it may stand between brackets, if it fits there. */
static bool
can_flow(const struct thing *thing)
{
	uint32_t i;

	if (thing->remarked)
		return false;
	if (is_scalar(thing))
		return tidy_is_plain(text_of(thing), TIDY_FLOW);
	for (i = 0; i < thing->count; i++) {
		const struct thing *item = &thing->items[i];

		if (!can_flow(item) || (thing->node->kind == NODE_LIST &&
			!is_scalar(item)))
			return false;
	}
	return true;
}

static void
append_flow(const struct thing *thing, GString *out)
{
	bool list = thing->node->kind == NODE_LIST;
	uint32_t i;

	if (is_scalar(thing)) {
		tidy_append_line(out, text_of(thing), TIDY_FLOW);
		return;
	}
	g_string_append_c(out, list ? '[' : '{');
	for (i = 0; i < thing->count; i++) {
		if (i > 0)
			g_string_append(out, ", ");
		if (!list) {
			tidy_append_line(out, thing->items[i].key, TIDY_FLOW);
			g_string_append(out, ": ");
		}
		append_flow(&thing->items[i], out);
	}
	g_string_append_c(out, list ? ']' : '}');
}

static bool
fits_flow(const struct thing *thing, int column)
{
	GString *text;
	bool fits;

	if (!can_flow(thing))
		return false;
	text = g_string_new(NULL);
	append_flow(thing, text);
	fits = column + tidy_columns(text->str) <= TIDY_WIDTH;
	g_string_free(text, TRUE);
	return fits;
}

/* Ends a line, with what is said behind it. */
static void
end_line(struct layout *layout, const struct remarks *behind)
{
	if (behind != NULL && behind->first != NULL)
		g_string_append_printf(layout->out, "  %s",
			behind->first->text);
	g_string_append_c(layout->out, '\n');
	layout->kept = false;
}

static void
append_indent(struct layout *layout, int indent)
{
	g_string_append_printf(layout->out, "%*s", indent, "");
}

static void
append_blank(struct layout *layout, bool *first)
{
	if (!*first && !layout->kept)
		g_string_append_c(layout->out, '\n');
}

/* Comments on lines of their own, from `remark` on. */
static void
append_remarks(struct layout *layout, const struct remark *remark, int indent,
	bool *first)
{
	for (; remark != NULL; remark = remark->next) {
		if (remark->blank)
			append_blank(layout, first);
		*first = false;
		append_indent(layout, indent);
		g_string_append(layout->out, remark->text);
		end_line(layout, NULL);
	}
}

/* The words of a list, filled into lines between brackets. */
static void
append_filled(struct layout *layout, const struct thing *list, int indent,
	int column)
{
	uint32_t i;

	g_string_append_c(layout->out, '[');
	column++;
	for (i = 0; i < list->count; i++) {
		const char *text = text_of(&list->items[i]);
		int columns = tidy_columns(text) + 1;

		if (i > 0 && column + 1 + columns > TIDY_WIDTH) {
			end_line(layout, NULL);
			append_indent(layout, indent + TIDY_INDENT);
			column = indent + TIDY_INDENT;
		} else if (i > 0) {
			g_string_append_c(layout->out, ' ');
			column++;
		}
		g_string_append(layout->out, text);
		g_string_append_c(layout->out, i + 1 < list->count ? ',' :
			']');
		column += columns;
	}
}

static void
append_block(struct layout *layout, const struct thing *thing, int indent,
	bool begun);

/*
 * A value, after what stands before it on its line: `column` columns with the
 * blank that is yet to be written.
 */
static void
append_value(struct layout *layout, const struct thing *thing, int indent,
	int column, bool flow)
{
	const struct remark *behind = thing->behind.first;

	if (is_blank(thing))
		end_line(layout, &thing->behind);
	else if (is_scalar(thing)) {
		g_string_append_c(layout->out, ' ');
		layout->kept = !tidy_append_text(layout->out, text_of(thing),
			thing->node->style, indent, column,
			behind == NULL ? NULL : behind->text);
	} else if (!thing->remarked && is_word_list(thing)) {
		g_string_append_c(layout->out, ' ');
		append_filled(layout, thing, indent, column);
		end_line(layout, &thing->behind);
	} else if (flow) {
		g_string_append_c(layout->out, ' ');
		append_flow(thing, layout->out);
		end_line(layout, &thing->behind);
	} else {
		end_line(layout, &thing->behind);
		append_block(layout, thing, indent + TIDY_INDENT, false);
	}
}

static void
append_entry(struct layout *layout, const struct thing *entry, int indent)
{
	gsize start = layout->out->len;
	int column;

	tidy_append_line(layout->out, entry->key, TIDY_BLOCK);
	g_string_append_c(layout->out, ':');
	column = indent + 1 + tidy_columns(layout->out->str + start);
	append_value(layout, entry, indent, column, entry->count == 0 ||
		(!entry->record && fits_flow(entry, column)));
}

/* What is said before an item has to stand above its dash. */
static void
append_item(struct layout *layout, const struct thing *item, int indent,
	bool flow)
{
	int column = indent + TIDY_INDENT;

	g_string_append_c(layout->out, '-');
	if (is_scalar(item) || flow || item->count == 0) {
		append_value(layout, item, indent, column, true);
		return;
	}
	g_string_append_c(layout->out, ' ');
	append_block(layout, item, column, true);
}

/* Whether all items of a list of groups fit between braces: all, or none. */
static bool
items_flow(const struct thing *list, int indent)
{
	uint32_t i;

	for (i = 0; i < list->count; i++)
		if (is_scalar(&list->items[i]) || list->items[i].record ||
			!fits_flow(&list->items[i], indent + TIDY_INDENT))
			return false;
	return true;
}

/* The comments that go above an entry or item. */
static void
append_above(struct layout *layout, const struct thing *thing, int indent,
	bool flow, bool *first)
{
	bool block = thing->key == NULL && !is_scalar(thing) && !flow &&
		thing->count > 0;

	append_remarks(layout, thing->before.first, indent, first);
	if (block)
		append_remarks(layout, thing->behind.first, indent, first);
}

/* Entries or items at `indent`; `begun`: the first stands behind a dash. */
static void
append_block(struct layout *layout, const struct thing *thing, int indent,
	bool begun)
{
	bool list = thing->node->kind == NODE_LIST, first = true;
	bool flow = list && items_flow(thing, indent);
	uint32_t i;

	for (i = 0; i < thing->count; i++) {
		const struct thing *item = &thing->items[i];

		if (!begun || i > 0) {
			append_above(layout, item, indent, flow, &first);
			if (item->blank)
				append_blank(layout, &first);
			append_indent(layout, indent);
		}
		first = false;
		if (list)
			append_item(layout, item, indent, flow);
		else
			append_entry(layout, item, indent);
	}
	append_remarks(layout, thing->foot.first, indent, &first);
}

static GString *
lay_out(const struct thing *root)
{
	struct layout layout = {g_string_new(NULL), false};
	bool first = true;

	append_remarks(&layout, root->before.first, 0, &first);
	append_remarks(&layout, root->behind.first, 0, &first);
	if (!first && root->count > 0 && root->blank)
		g_string_append_c(layout.out, '\n');
	if (root->count > 0)
		append_block(&layout, root, 0, false);
	else {
		append_flow(root, layout.out);
		g_string_append_c(layout.out, '\n');
		append_remarks(&layout, root->foot.first, 0, &first);
	}
	return layout.out;
}

/* Whether two trees say the same; the second may have another order. */
static bool
same_meaning(const struct thing *thing, const struct node *node)
{
	uint32_t i;

	if (thing->node->kind != node->kind ||
		thing->node->count != node->count)
		return false;
	if (node->kind == NODE_SCALAR)
		return memcmp(text_of(thing), node->text, node->count) == 0;
	for (i = 0; i < thing->count; i++) {
		const struct thing *item = &thing->items[i];

		if (item->key != NULL &&
			strcmp(item->key, node->entries[i].key) != 0)
			return false;
		if (!same_meaning(item, item->key == NULL ? node->items[i] :
			node->entries[i].value))
			return false;
	}
	return true;
}

static bool
same_remarks(const GPtrArray *left, const GPtrArray *right)
{
	guint i;

	if (left->len != right->len)
		return false;
	for (i = 0; i < left->len; i++)
		if (strcmp(g_ptr_array_index(left, i),
			g_ptr_array_index(right, i)) != 0)
			return false;
	return true;
}

/* Reads the new text again; NULL, or what was lost. */
static const char *
find_loss(const struct thing *root, const struct source *source,
	const GString *text, struct arena *arena)
{
	struct sources *sources = sources_new();
	struct diags *diags = diags_new(sources);
	uint32_t file = sources_add(sources, source->path,
		g_strndup(text->str, text->len), (uint32_t)text->len);
	const struct node *read = read_yaml(sources, file, arena, diags);
	GPtrArray *old = things_remarks(root->node, source, arena), *new;
	const char *loss = NULL;

	if (read == NULL || diags_count(diags, SEVERITY_ERROR) > 0 ||
		!same_meaning(root, read))
		loss = "what it says";
	else {
		new = things_remarks(read, sources_get(sources, file), arena);
		if (!same_remarks(old, new))
			loss = "a comment";
		g_ptr_array_free(new, TRUE);
	}
	g_ptr_array_free(old, TRUE);
	diags_free(diags);
	sources_free(sources);
	return loss;
}

GString *
tidy_layout(const struct corpus_file *file, const struct node *root,
	const struct sources *sources, const struct schema *schema,
	const char **why)
{
	const struct source *source = sources_get(sources, root->span.file);
	struct arena *arena = arena_new();
	struct thing *things = things_of(root, source, arena);
	GString *text;

	things_arrange(things, file, schema);
	things_settle(things);
	text = lay_out(things);
	*why = find_loss(things, source, text, arena);
	arena_free(arena);
	if (*why == NULL)
		return text;
	g_string_free(text, TRUE);
	return NULL;
}
