/*
 * Comments, which libyaml drops, found again and given their places. Outside
 * of scalars, whose spans are known, every # begins one; inside, only the
 * header of a block scalar can hold one.
 */
#include "write/tidy/things.h"

#include <string.h>

struct found {
	uint32_t from;
	uint32_t to;
};

struct placing {
	const char *bytes;
	uint32_t size;
	struct arena *arena;
	struct thing *root;
	GArray *scalars;	/* struct span, in order */
	GArray *found;		/* struct found, in order */
	/* The last comment that had a line of its own. */
	const struct thing *above;
	uint32_t level;
};

static bool
is_blank(char c)
{
	return c == ' ' || c == '\t';
}

/* Bytes of the line break at `at`; 0: there is none. YAML 1.1 has five. */
static uint32_t
break_size(const struct placing *placing, uint32_t at)
{
	const char *bytes = placing->bytes + at;

	if (at >= placing->size)
		return 0;
	if (*bytes == '\n' || *bytes == '\r')
		return 1;
	if (strncmp(bytes, "\xC2\x85", 2) == 0)
		return 2;
	if (strncmp(bytes, "\xE2\x80\xA8", 3) == 0 ||
		strncmp(bytes, "\xE2\x80\xA9", 3) == 0)
		return 3;
	return 0;
}

static uint32_t
line_end(const struct placing *placing, uint32_t at)
{
	while (at < placing->size && break_size(placing, at) == 0)
		at++;
	return at;
}

/* The first byte of the line that holds `at`. */
static uint32_t
line_start(const struct placing *placing, uint32_t at)
{
	while (at > 0) {
		uint32_t size = 0, back;

		for (back = 1; back <= 3 && back <= at && size == 0; back++)
			if (break_size(placing, at - back) == back)
				size = back;
		if (size > 0)
			break;
		at--;
	}
	if (at == 0 && strncmp(placing->bytes, "\xEF\xBB\xBF", 3) == 0)
		return 3;
	return at;
}

static bool
same_line(const struct placing *placing, uint32_t from, uint32_t to)
{
	return line_end(placing, from) >= to;
}

/* Whether nothing but blanks stands between the start of its line and it. */
static bool
begins_line(const struct placing *placing, uint32_t at)
{
	uint32_t start = line_start(placing, at);

	while (start < at && is_blank(placing->bytes[start]))
		start++;
	return start == at;
}

/* Whether the line above is empty, or the mark that begins a document. */
static bool
blank_above(const struct placing *placing, uint32_t at)
{
	uint32_t start = line_start(placing, at), above, end;

	if (line_start(placing, 0) == start)
		return false;
	end = start - 1;
	if (placing->bytes[end] == '\n' && end > 0 &&
		placing->bytes[end - 1] == '\r')
		end--;
	above = line_start(placing, end);
	if (strncmp(placing->bytes + above, "---", 3) == 0)
		return true;
	while (above < end && is_blank(placing->bytes[above]))
		above++;
	return above >= end || break_size(placing, above) > 0;
}

/* Where the line of a list's item begins to be its own: at its dash. */
static uint32_t
dash_before(const struct placing *placing, uint32_t at)
{
	uint32_t dash = at;

	while (dash > 0 && strchr(" \t\r\n", placing->bytes[dash - 1]) != NULL)
		dash--;
	return dash > 0 && placing->bytes[dash - 1] == '-' ? dash - 1 : at;
}

static void
fill_thing(struct placing *placing, struct thing *thing)
{
	const struct node *node = thing->node;
	uint32_t i;

	thing->from = node->span.from;
	thing->to = node->span.to;
	if (thing->key != NULL) {
		thing->from = thing->key_span.from;
		g_array_append_val(placing->scalars, thing->key_span);
	}
	if (node->kind == NODE_SCALAR) {
		g_array_append_val(placing->scalars, node->span);
		return;
	}
	thing->bracketed = node->span.from < placing->size &&
		strchr("[{", placing->bytes[node->span.from]) != NULL;
	if (!thing->bracketed)
		thing->column = node->span.from -
			line_start(placing, node->span.from);
	thing->count = node->kind == NODE_LIST || node->kind == NODE_MAP ?
		node->count : 0;
	thing->items = arena_array(placing->arena, struct thing, thing->count);
	for (i = 0; i < thing->count; i++) {
		struct thing *item = &thing->items[i];
		uint32_t start;

		if (node->kind == NODE_LIST)
			item->node = node->items[i];
		else {
			item->key = node->entries[i].key;
			item->key_span = node->entries[i].key_span;
			item->node = node->entries[i].value;
		}
		fill_thing(placing, item);
		start = item->key == NULL && !thing->bracketed ?
			dash_before(placing, item->from) : item->from;
		item->blank = !thing->bracketed && blank_above(placing, start);
	}
	if (!thing->bracketed && thing->count > 0)
		thing->to = thing->items[thing->count - 1].to;
}

/* Finds comments from `at` to `end`, where no scalar stands. */
static void
find_in_gap(struct placing *placing, uint32_t at, uint32_t end)
{
	struct found found;

	for (; at < end; at++) {
		if (placing->bytes[at] != '#')
			continue;
		found.from = at;
		at = line_end(placing, at);
		found.to = at;
		while (is_blank(placing->bytes[found.to - 1]))
			found.to--;
		g_array_append_val(placing->found, found);
	}
}

static void
find_remarks(struct placing *placing)
{
	uint32_t at = 0;
	guint i;

	for (i = 0; i < placing->scalars->len; i++) {
		struct span span;

		span = g_array_index(placing->scalars, struct span, i);
		find_in_gap(placing, at, span.from);
		if (span.to > span.from &&
			strchr("|>", placing->bytes[span.from]) != NULL)
			find_in_gap(placing, span.from,
				line_end(placing, span.from));
		at = span.to;
	}
	find_in_gap(placing, at, placing->size);
}

void
remarks_append(struct remarks *remarks, struct remark *remark)
{
	remark->next = NULL;
	if (remarks->last == NULL)
		remarks->first = remark;
	else
		remarks->last->next = remark;
	remarks->last = remark;
}

/* The last thing in `parent` that begins before `at`, or NULL. */
static struct thing *
child_before(const struct thing *parent, uint32_t at)
{
	uint32_t low = 0, high = parent->count;

	while (low < high) {
		uint32_t middle = low + (high - low) / 2;

		if (parent->items[middle].from <= at)
			low = middle + 1;
		else
			high = middle;
	}
	return low == 0 ? NULL : &parent->items[low - 1];
}

static bool
is_open(const struct thing *thing)
{
	return !thing->bracketed && thing->count > 0;
}

static struct thing *
last_of(const struct thing *thing)
{
	return &thing->items[thing->count - 1];
}

/* A comment in `parent` before all that stands in it. */
static struct remarks *
place_first(struct placing *placing, struct thing *parent, uint32_t at)
{
	if (parent != placing->root && parent->bracketed &&
		same_line(placing, parent->node->span.from, at))
		return &parent->behind;
	return parent->count > 0 ? &parent->items[0].before : &parent->foot;
}

/* A comment between a key and its value. */
static struct remarks *
place_between(const struct placing *placing, struct thing *thing, uint32_t at)
{
	if (same_line(placing, thing->key_span.to, at))
		return &thing->behind;
	return is_open(thing) ? &thing->items[0].before : &thing->before;
}

/*
 * A comment on a line of its own, after `child`. One that is indented as the
 * lines of a block that ends there belongs to the end of that block; but not
 * after one that was less indented.
 */
static struct remarks *
place_own_line(struct placing *placing, struct thing *parent,
	struct thing *child, uint32_t at)
{
	uint32_t level = at - line_start(placing, at);
	struct thing *ended = NULL, *open;

	if (placing->above == child && placing->level < level)
		level = placing->level;
	placing->above = child;
	placing->level = level;
	if (!parent->bracketed)
		for (open = child; is_open(open); open = last_of(open))
			if (open->column <= level && level > parent->column)
				ended = open;
	if (ended != NULL)
		return &ended->foot;
	return child == last_of(parent) ? &parent->foot : &child[1].before;
}

static struct remarks *
place_after(struct placing *placing, struct thing *parent, struct thing *child,
	uint32_t at)
{
	if (begins_line(placing, at))
		return place_own_line(placing, parent, child, at);
	if (!same_line(placing, child->to, at))
		return child == last_of(parent) ? &parent->foot :
			&child[1].before;
	while (is_open(child))
		child = last_of(child);
	return &child->behind;
}

/* Where the comment at byte `at` belongs. */
static struct remarks *
place(struct placing *placing, uint32_t at)
{
	struct thing *parent = placing->root, *child;

	for (;;) {
		child = child_before(parent, at);
		if (child == NULL)
			return place_first(placing, parent, at);
		if (at >= child->to)
			return place_after(placing, parent, child, at);
		if (child->key != NULL && at < child->node->span.from)
			return place_between(placing, child, at);
		if (child->count == 0)
			return &child->behind;
		parent = child;
	}
}

/* What tells an editor how to treat the file belongs to its top. */
static bool
is_for_editors(const struct remark *remark)
{
	return strstr(remark->text, "yaml-language-server:") != NULL ||
		strstr(remark->text, "-*-") != NULL ||
		strstr(remark->text, "vim:") != NULL;
}

/*
 * Comments at the top of a file up to the last empty line speak of the file,
 * whatever comes to stand first in it. Above its first entry, `blank` of the
 * root says whether that line is there.
 */
static void
split_head(struct thing *root)
{
	struct thing *first = root->count > 0 ? &root->items[0] : NULL;
	struct remark *remark, *last = NULL;

	if (first == NULL)
		return;
	for (remark = first->before.first; remark != NULL;
		remark = remark->next) {
		bool blank = remark->next == NULL ? first->blank :
			remark->next->blank;

		if (!blank && !is_for_editors(remark))
			continue;
		last = remark;
		root->blank = blank;
	}
	if (last == NULL)
		return;
	root->before.first = first->before.first;
	root->before.last = last;
	first->before.first = last->next;
	if (last->next == NULL) {
		first->before.last = NULL;
		first->blank = false;
	}
	last->next = NULL;
}

/* Only one comment can stand behind a thing; others are put above it. */
static void
move_behind(struct thing *thing)
{
	struct remark *remark, *next;

	if (thing->behind.first == NULL)
		return;
	for (remark = thing->behind.first->next; remark != NULL;
		remark = next) {
		next = remark->next;
		remarks_append(&thing->before, remark);
	}
	thing->behind.last = thing->behind.first;
	thing->behind.first->next = NULL;
}

/* Above the first entry of an item is above the item: a dash is between. */
static void
move_above(struct thing *item)
{
	struct remarks *inside;

	if (item->key != NULL || item->count == 0)
		return;
	inside = &item->items[0].before;
	if (inside->first == NULL)
		return;
	if (item->before.last == NULL)
		item->before.first = inside->first;
	else
		item->before.last->next = inside->first;
	item->before.last = inside->last;
	*inside = (struct remarks){NULL, NULL};
}

static void
move_all(struct thing *thing)
{
	uint32_t i;

	for (i = 0; i < thing->count; i++) {
		move_behind(&thing->items[i]);
		move_all(&thing->items[i]);
		move_above(&thing->items[i]);
	}
}

static bool
mark(struct thing *thing)
{
	uint32_t i;

	thing->remarked = thing->foot.first != NULL;
	for (i = 0; i < thing->count; i++)
		if (mark(&thing->items[i]))
			thing->remarked = true;
	return thing->remarked || thing->before.first != NULL ||
		thing->behind.first != NULL;
}

void
things_settle(struct thing *root)
{
	move_all(root);
	mark(root);
}

static struct placing
begin(const struct node *root, const struct source *source,
	struct arena *arena)
{
	struct placing placing = {
		.bytes = source->bytes,
		.size = source->size,
		.arena = arena,
		.root = arena_one(arena, struct thing),
		.scalars = g_array_new(FALSE, FALSE, sizeof(struct span)),
		.found = g_array_new(FALSE, FALSE, sizeof(struct found)),
	};

	placing.root->node = root;
	fill_thing(&placing, placing.root);
	find_remarks(&placing);
	return placing;
}

static void
end(struct placing *placing)
{
	g_array_free(placing->scalars, TRUE);
	g_array_free(placing->found, TRUE);
}

struct thing *
things_of(const struct node *root, const struct source *source,
	struct arena *arena)
{
	struct placing placing = begin(root, source, arena);
	struct remark *remark;
	guint i;

	for (i = 0; i < placing.found->len; i++) {
		struct found found;

		found = g_array_index(placing.found, struct found, i);
		remark = arena_one(arena, struct remark);
		remark->text = arena_text(arena, source->bytes + found.from,
			found.to - found.from);
		remark->blank = begins_line(&placing, found.from) &&
			blank_above(&placing, found.from);
		remarks_append(place(&placing, found.from), remark);
	}
	split_head(placing.root);
	end(&placing);
	return placing.root;
}

static int
compare_texts(gconstpointer a, gconstpointer b)
{
	return strcmp(*(const char *const *)a, *(const char *const *)b);
}

GPtrArray *
things_remarks(const struct node *root, const struct source *source,
	struct arena *arena)
{
	struct placing placing = begin(root, source, arena);
	GPtrArray *texts = g_ptr_array_new();
	guint i;

	for (i = 0; i < placing.found->len; i++) {
		struct found found;

		found = g_array_index(placing.found, struct found, i);
		g_ptr_array_add(texts, arena_text(arena,
			source->bytes + found.from, found.to - found.from));
	}
	g_ptr_array_sort(texts, compare_texts);
	end(&placing);
	return texts;
}
