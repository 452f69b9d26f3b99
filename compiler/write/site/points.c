/*
 * Pointing, grouped. A group shows itself in one of three manners: pairings by
 * card back, records without a page as rows of a table with all they hold,
 * anything else as a list of names.
 */
#include "write/site/points.h"

#include <stdlib.h>
#include <string.h>

#include "write/site/pairs.h"
#include "write/site/rows.h"

/* What a record's page shows of one group, and a page of its own. */
enum { MOST_ROWS = 60, MOST_NAMES = 120, MOST_PAIRS = 400 };
enum { ROWS_ON_PAGE = 200, NAMES_ON_PAGE = 400, PAIRS_ON_PAGE = 600 };

enum sureness { SURELY, PERHAPS, NOT_THIS };

struct group {
	const struct kind *kind;
	const struct field *field;
	enum sureness sureness;
	GPtrArray *pointers;	/* struct pointer */
};

struct points {
	const struct site *site;
	const struct record *record;
	GPtrArray *groups;
};

static enum sureness
sureness_of(const struct pointer *pointer)
{
	const struct value *value;

	if (pointer->certain)
		return SURELY;
	value = pointer->field->parent != NULL ? NULL :
		pointer->from->values[pointer->field->index];
	if (value != NULL && value->form == VALUE_ONE &&
		value->identity.kind == IDENTITY_NOT)
		return NOT_THIS;
	return PERHAPS;
}

static bool
is_visible(const struct field *field)
{
	for (; field != NULL; field = field->parent)
		if (!field->exported || field->show == SHOW_NO)
			return false;
	return true;
}

static struct group *
find_group(struct points *points, const struct pointer *pointer)
{
	enum sureness sureness = sureness_of(pointer);
	struct group *group;
	unsigned i;

	/* There are as many groups as fields that point, which is few. */
	for (i = points->groups->len; i > 0; i--) {
		group = g_ptr_array_index(points->groups, i - 1);
		if (group->field == pointer->field &&
			group->kind == pointer->from->kind &&
			group->sureness == sureness)
			return group;
	}
	group = g_new0(struct group, 1);
	group->kind = pointer->from->kind;
	group->field = pointer->field;
	group->sureness = sureness;
	group->pointers = g_ptr_array_new();
	g_ptr_array_add(points->groups, group);
	return group;
}

static void
free_group(gpointer data)
{
	struct group *group = data;

	g_ptr_array_free(group->pointers, TRUE);
	g_free(group);
}

/* The date a record is ordered by among its like: its first date field. */
static day_number
date_of(const struct record *record)
{
	unsigned i;

	for (i = 0; i < record->kind->fields.count; i++)
		if (record->kind->fields.items[i].type == TYPE_DATE &&
			record->values[i] != NULL &&
			record->values[i]->form == VALUE_ONE)
			return record->values[i]->date.first;
	return G_MAXINT32;
}

static int
compare_rows(gconstpointer a, gconstpointer b)
{
	const struct pointer *left = *(const struct pointer *const *)a;
	const struct pointer *right = *(const struct pointer *const *)b;
	day_number ours = date_of(left->from), theirs = date_of(right->from);

	if (ours != theirs)
		return ours < theirs ? -1 : 1;
	return strcmp(left->from->id, right->from->id);
}

/* Groups by the place of kind and field in the schema. */
static int
compare_groups(gconstpointer a, gconstpointer b)
{
	const struct group *left = *(const struct group *const *)a;
	const struct group *right = *(const struct group *const *)b;

	if (left->kind->chapter != right->kind->chapter)
		return left->kind->chapter < right->kind->chapter ? -1 : 1;
	if (left->kind->index != right->kind->index)
		return left->kind->index < right->kind->index ? -1 : 1;
	if (left->field != right->field)
		return strcmp(left->field->name, right->field->name) != 0 ?
			strcmp(left->field->name, right->field->name) :
			(left->field->parent != NULL) -
				(right->field->parent != NULL);
	return (int)left->sureness - (int)right->sureness;
}

static bool
is_repeated(const struct group *group, const struct pointer *pointer)
{
	const struct pointer *last = group->pointers->len == 0 ? NULL :
		g_ptr_array_index(group->pointers, group->pointers->len - 1);

	return last != NULL && last->from == pointer->from &&
		last->item == pointer->item;
}

struct points *
points_gather(const struct page *page)
{
	struct points *points = g_new0(struct points, 1);
	struct pointer_list list = model_pointing(page->site->model,
		page->record);
	struct group *group;
	size_t i;

	points->site = page->site;
	points->record = page->record;
	points->groups = g_ptr_array_new_with_free_func(free_group);
	for (i = 0; i < list.count; i++) {
		const struct pointer *pointer = &list.items[i];

		if (pointer->from == page->record ||
			page_told_pointer(page, pointer->field) ||
			!is_visible(pointer->field))
			continue;
		group = find_group(points, pointer);
		if (!is_repeated(group, pointer))
			g_ptr_array_add(group->pointers,
				(gpointer)(uintptr_t)pointer);
	}
	g_ptr_array_sort(points->groups, compare_groups);
	for (i = 0; i < points->groups->len; i++) {
		group = g_ptr_array_index(points->groups, i);
		if (!group->kind->page)
			g_ptr_array_sort(group->pointers, compare_rows);
	}
	return points;
}

void
points_free(struct points *points)
{
	g_ptr_array_free(points->groups, TRUE);
	g_free(points);
}

static void
show_pairs(struct page *page, const struct group *group, unsigned from,
	unsigned to)
{
	struct pair *pairs = g_new0(struct pair, group->pointers->len);
	unsigned i;

	for (i = 0; i < group->pointers->len; i++) {
		const struct pointer *pointer = g_ptr_array_index(
			group->pointers, i);

		pairs[i].pairing = pointer->from;
		if (pointer->item != NULL)
			pairs[i].key = pointer->item->group[0]->text;
	}
	pairs_sort(page->site, pairs, group->pointers->len);
	pairs_show(page, pairs + from, to - from,
		page->record == NULL ? 3 : 4);
	g_free(pairs);
}

static void
show_names(struct page *page, const struct group *group, unsigned from,
	unsigned to)
{
	unsigned i;

	g_string_append(page->out, "<ul class=\"names\">\n");
	for (i = from; i < to; i++) {
		const struct pointer *pointer = g_ptr_array_index(
			group->pointers, i);

		g_string_append(page->out, "<li>");
		page_link(page, pointer->from);
		g_string_append(page->out, "</li>\n");
	}
	g_string_append(page->out, "</ul>\n");
}

/*
 * Records without a page: on their own record's page all that they hold, on
 * any other what comes first.
 */
static void
show_rows(struct page *page, const struct group *group, unsigned from,
	unsigned to)
{
	unsigned count = group->pointers->len, i;
	const struct record **items = g_new(const struct record *, count);
	struct rows rows = {
		.kind = group->kind,
		.items = items,
		.count = count,
		.skip = group->field,
	};

	for (i = 0; i < count; i++)
		items[i] = ((const struct pointer *)g_ptr_array_index(
			group->pointers, i))->from;
	rows.full = page->record != NULL &&
		page_home(items[0]) == page->record;
	rows_show(page, &rows, from, to);
	g_free(items);
}

/* How much of a group stands here, and how much on a page of its own. */
struct limits {
	unsigned here;
	unsigned on_page;
};

static struct limits
limits_of(const struct site *site, const struct group *group)
{
	if (group->kind == pairs_kind(site))
		return (struct limits){MOST_PAIRS, PAIRS_ON_PAGE};
	if (!group->kind->page)
		return (struct limits){MOST_ROWS, ROWS_ON_PAGE};
	return (struct limits){MOST_NAMES, NAMES_ON_PAGE};
}

static void
show_members(struct page *page, const struct group *group, unsigned from,
	unsigned to)
{
	if (group->kind == pairs_kind(page->site))
		show_pairs(page, group, from, to);
	else if (!group->kind->page)
		show_rows(page, group, from, to);
	else
		show_names(page, group, from, to);
}

static void
append_field_path(GString *out, const struct field *field, const char *between,
	bool titles)
{
	if (field->parent != NULL) {
		append_field_path(out, field->parent, between, titles);
		g_string_append(out, between);
	}
	g_string_append(out, titles ? field->title : field->name);
}

/* "Pairings that name it under combinations: blister". */
static void
show_group_heading(struct page *page, const struct group *group, int level)
{
	static const char *const words[] = {
		[SURELY] = "that name it under",
		[PERHAPS] = "that may be it by their",
		[NOT_THIS] = "that are not it by their",
	};
	GString *path = g_string_new(NULL);

	append_field_path(path, group->field, ": ", true);
	html_put(page->out, "<h%d>", level);
	page_capital(page, group->kind->titles);
	html_put(page->out, " <small>%s %s</small> <span class=\"count\">%u"
		"</span></h%d>\n", words[group->sureness], path->str,
		group->pointers->len, level);
	g_string_free(path, TRUE);
}

static char *
group_path(const struct points *points, const struct group *group,
	unsigned number)
{
	static const char *const words[] = {"", ".perhaps", ".not"};
	GString *path = g_string_new(NULL);

	g_string_append_printf(path, "%s/%s.%s.", points->record->kind->name,
		points->record->id, group->kind->name);
	append_field_path(path, group->field, ".", false);
	g_string_append_printf(path, "%s.%u.html", words[group->sureness],
		number);
	return g_string_free(path, FALSE);
}

static void
show_group(const struct points *points, struct page *page,
	const struct group *group)
{
	struct limits limits = limits_of(points->site, group);
	unsigned count = group->pointers->len;
	char *path;

	show_group_heading(page, group, 3);
	show_members(page, group, 0, MIN(count, limits.here));
	if (count <= limits.here)
		return;
	path = group_path(points, group, 1);
	html_put(page->out, "<p class=\"more\"><a href=\"%s%s\">All %u %s"
		"</a></p>\n", page->up, path, count, group->kind->titles);
	g_free(path);
}

static void
show_mentions(struct page *page)
{
	const struct record *record = page->record;
	struct record_list list = page->site->mentions[record->kind->index]
		[record->index];
	unsigned i;

	if (list.count == 0)
		return;
	html_put(page->out, "<h3>Mentioned in <span class=\"count\">%u"
		"</span></h3>\n<ul class=\"names\">\n", list.count);
	for (i = 0; i < list.count; i++) {
		g_string_append(page->out, "<li>");
		page_link(page, list.items[i]);
		html_put(page->out, " <small>%s</small></li>\n",
			list.items[i]->kind->title);
	}
	g_string_append(page->out, "</ul>\n");
}

void
points_show(struct points *points, struct page *page)
{
	const struct record *record = page->record;
	unsigned i;

	if (points->groups->len == 0 && page->site->mentions
		[record->kind->index][record->index].count == 0)
		return;
	g_string_append(page->out, "<section class=\"points\">\n");
	page_heading(page, "points", "What points here");
	for (i = 0; i < points->groups->len; i++)
		show_group(points, page, g_ptr_array_index(points->groups, i));
	show_mentions(page);
	g_string_append(page->out, "</section>\n");
}

static void
show_turns(struct page *page, const struct points *points,
	const struct group *group, unsigned number, unsigned last)
{
	char *path;

	if (last == 1)
		return;
	g_string_append(page->out, "<p class=\"turns\">");
	if (number > 1) {
		path = group_path(points, group, number - 1);
		html_put(page->out, "<a rel=\"prev\" href=\"%s%s\">before"
			"</a> ", page->up, path);
		g_free(path);
	}
	html_put(page->out, "page %u of %u", number, last);
	if (number < last) {
		path = group_path(points, group, number + 1);
		html_put(page->out, " <a rel=\"next\" href=\"%s%s\">after"
			"</a>", page->up, path);
		g_free(path);
	}
	g_string_append(page->out, "</p>\n");
}

static bool
write_group_page(const struct points *points, const struct group *group,
	unsigned number, unsigned last, GError **error)
{
	struct page page = {.error = error};
	char *path = group_path(points, group, number);
	char *title = g_strdup_printf("%s: %s", points->record->name,
		group->kind->titles);
	unsigned size = limits_of(points->site, group).on_page;
	unsigned from = (number - 1) * size;

	page_begin(&page, points->site, path, title,
		chapter_ink(points->record->kind->chapter));
	g_string_append(page.out, "<h1>");
	page_link(&page, points->record);
	g_string_append(page.out, "</h1>\n");
	show_group_heading(&page, group, 2);
	show_members(&page, group, from, MIN(group->pointers->len,
		from + size));
	show_turns(&page, points, group, number, last);
	g_free(title);
	g_free(path);
	return page_end(&page);
}

bool
points_continue(const struct points *points, GError **error)
{
	unsigned i, number, last;
	struct limits limits;

	for (i = 0; i < points->groups->len; i++) {
		const struct group *group = g_ptr_array_index(points->groups,
			i);

		limits = limits_of(points->site, group);
		if (group->pointers->len <= limits.here)
			continue;
		last = (group->pointers->len + limits.on_page - 1) /
			limits.on_page;
		for (number = 1; number <= last; number++)
			if (!write_group_page(points, group, number, last,
				error))
				return false;
	}
	return true;
}
