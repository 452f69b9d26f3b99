/*
 * A key's page is its steps in order, each with a place of its own: links lead
 * from lead to step and from step back, and need nothing but a browser. Ids
 * have no dots, so key/to.KIND.ID.html meets no page of a record.
 */
#include "write/site/keys.h"

#include <string.h>

#include "base/sort.h"
#include "study/key_group.h"
#include "write/site/parts.h"

enum {
	MOST_DOORS = 6,
	MOST_IN_LINE = 12,
	MOST_LISTED = 60,
	MOST_NAME = 200,	/* bytes of a file's name before its end */
	KEY_SURE = 2,		/* the first word of reliability that will do */
};

struct site_keys {
	struct keys *keys;
	GHashTable *by_record;	/* GPtrArray of struct key_group */
};

static void
note_record(struct site_keys *keys, const struct record *record,
	const struct key_group *group)
{
	GPtrArray *list = g_hash_table_lookup(keys->by_record, record);

	if (list == NULL) {
		list = g_ptr_array_new();
		g_hash_table_insert(keys->by_record,
			(gpointer)(uintptr_t)record, list);
	}
	g_ptr_array_add(list, (gpointer)(uintptr_t)group);
}

static void
free_list(gpointer list)
{
	g_ptr_array_free(list, TRUE);
}

struct site_keys *
site_keys_new(const struct model *model, const struct seen *seen,
	struct arena *arena)
{
	struct site_keys *keys = arena_one(arena, struct site_keys);
	unsigned i, j;

	keys->keys = keys_gather(model, seen, arena);
	keys->by_record = g_hash_table_new_full(NULL, NULL, NULL, free_list);
	for (i = 0; i < keys->keys->groups.count; i++) {
		const struct key_group *group = &keys->keys->groups.items[i];

		for (j = 0; j < group->of_count; j++)
			note_record(keys, group->of[j], group);
		for (j = 0; j < group->count; j++)
			note_record(keys, group->items[j], group);
	}
	return keys;
}

bool
site_keys_any(const struct site_keys *keys)
{
	return keys->keys->groups.count > 0;
}

void
site_keys_free(struct site_keys *keys)
{
	g_hash_table_destroy(keys->by_record);
}

/* Several long ids would be too much for the name of a file. */
static char *
key_path(const struct key_group *group)
{
	char *sum = g_compute_checksum_for_string(G_CHECKSUM_SHA256,
		group->path, -1);
	char *path = g_strdup_printf("key/to.%s.html",
		strlen(group->path) > MOST_NAME ? sum : group->path);

	g_strdelimit(path + strlen("key/"), "/", '.');
	g_free(sum);
	return path;
}

static void
link_key(struct page *page, const struct key_group *group, const char *before)
{
	char *path = key_path(group);

	html_put(page->out, "<a href=\"%s%s\">%s%s</a>", page->up, path,
		before, group->name);
	g_free(path);
}

/* A list of links, each with how many records its key is of. */
static void
list_keys(struct page *page, const struct key_group *const *groups,
	unsigned count)
{
	unsigned i;

	g_string_append(page->out, "<ul class=\"names\">\n");
	for (i = 0; i < count; i++) {
		g_string_append(page->out, "<li>");
		link_key(page, groups[i], "");
		html_put(page->out, " <small>%u</small></li>\n",
			groups[i]->count);
	}
	g_string_append(page->out, "</ul>\n");
}

void
keys_section(struct page *page)
{
	const GPtrArray *list = g_hash_table_lookup(
		page->site->keys->by_record, page->record);
	GPtrArray *below = g_ptr_array_new();
	guint i;

	for (i = 0; list != NULL && i < list->len; i++) {
		const struct key_group *group = g_ptr_array_index(list, i);

		if (group->kind != page->record->kind) {
			g_ptr_array_add(below, (gpointer)(uintptr_t)group);
			continue;
		}
		g_string_append(page->out, "<p class=\"note\">To tell it from "
			"others: ");
		link_key(page, group, "the key to ");
		g_string_append(page->out, ".</p>\n");
	}
	if (below->len > 0) {
		g_string_append(page->out, "<section>\n");
		page_heading(page, "keys", "Which one is it? Step by step");
		list_keys(page, (const struct key_group *const *)below->pdata,
			MIN(below->len, MOST_LISTED));
		if (below->len > MOST_LISTED)
			html_put(page->out, "<p><a href=\"%skeys.html\">All "
				"keys</a></p>\n", page->up);
		g_string_append(page->out, "</section>\n");
	}
	g_ptr_array_free(below, TRUE);
}

/* The keys of a kind; freed by the caller. */
static GPtrArray *
find_keys(const struct site *site, const struct kind *kind)
{
	const struct key_groups *groups = &site->keys->keys->groups;
	GPtrArray *list = g_ptr_array_new();
	unsigned i;

	for (i = 0; i < groups->count; i++)
		if (groups->items[i].kind == kind)
			g_ptr_array_add(list, &groups->items[i]);
	return list;
}

void
keys_of_kind(struct page *page, const struct kind *kind)
{
	GPtrArray *list = find_keys(page->site, kind);
	guint i;

	if (list->len > 0)
		g_string_append(page->out, "<p class=\"note\">Which one is "
			"it? Step by step, with a key: ");
	for (i = 0; i < list->len && i < MOST_IN_LINE; i++) {
		g_string_append(page->out, i == 0 ? "" : "; ");
		link_key(page, g_ptr_array_index(list, i), "");
	}
	if (list->len > MOST_IN_LINE)
		html_put(page->out, "; <a href=\"%skeys.html\">all keys</a>",
			page->up);
	if (list->len > 0)
		g_string_append(page->out, ".</p>\n");
	g_ptr_array_free(list, TRUE);
}

/* The largest first; they lie in one array, in their order. */
static int
compare_sizes(const void *a, const void *b)
{
	const struct key_group *left = *(const struct key_group *const *)a;
	const struct key_group *right = *(const struct key_group *const *)b;

	if (left->count != right->count)
		return left->count > right->count ? -1 : 1;
	return (left > right) - (left < right);
}

void
keys_door(struct page *page)
{
	const struct key_groups *groups = &page->site->keys->keys->groups;
	GPtrArray *list = g_ptr_array_new();
	unsigned i;

	for (i = 0; i < groups->count; i++)
		g_ptr_array_add(list, &groups->items[i]);
	if (list->len > 0) {
		sort_items(list->pdata, list->len, sizeof(*list->pdata),
			compare_sizes);
		g_string_append(page->out, "<section class=\"door\">\n"
			"<h3>Not sure which? Step by step</h3>\n<p>A key asks "
			"for one thing at a time and ends at one of:</p>\n");
		list_keys(page, (const struct key_group *const *)list->pdata,
			MIN(list->len, MOST_DOORS));
		g_string_append(page->out, "<p><a href=\"keys.html\">All keys"
			"</a></p>\n</section>\n");
	}
	g_ptr_array_free(list, TRUE);
}

/* A key while its page is made. */
struct drawing {
	struct page *page;
	const struct keyed *keyed;
};

static void
show_end(const struct drawing *drawing, const struct key_lead *lead)
{
	struct page *page = drawing->page;
	unsigned i;

	if (lead->count > 1)
		g_string_append(page->out, lead->given_up ?
			"too little is recorded to go on: " :
			"nothing recorded tells apart: ");
	for (i = 0; i < lead->count; i++) {
		g_string_append(page->out, i == 0 ? "" : "; ");
		page_link(page, drawing->keyed->group->items[lead->items[i]]);
	}
}

static void
show_lead(const struct drawing *drawing, const struct key_step *step,
	unsigned i)
{
	const struct key_lead *lead = &step->leads[i];
	const struct model *model = drawing->page->site->model;
	GString *out = drawing->page->out, *words = g_string_new(NULL);
	unsigned j;

	keyed_say_lead(model, drawing->keyed, step, i, words);
	html_put(out, "<li><span>%s", words->str);
	for (j = 0; j < step->also_count; j++) {
		g_string_truncate(words, 0);
		keyed_say_also(model, drawing->keyed, &step->also[j], i,
			words);
		html_put(out, "<small>; %s</small>", words->str);
	}
	g_string_append(out, "</span> <b>");
	if (lead->step != NULL)
		html_put(out, "<a href=\"#_%u\">go to %u</a>",
			lead->step->number, lead->step->number);
	else
		show_end(drawing, lead);
	g_string_append(out, "</b></li>\n");
	g_string_free(words, TRUE);
}

static void
show_step(const struct drawing *drawing, const struct key_step *step)
{
	struct page *page = drawing->page;
	const struct record *feature = drawing->keyed->features[
		step->feature]->record;
	const struct model *model = page->site->model;
	const struct value *cost = model_get(model, feature->values,
		NAME(FEATURE_COST));
	const struct value *sure = model_get(model, feature->values,
		NAME(FEATURE_RELIABILITY));
	unsigned i;

	html_put(page->out, "<h2 id=\"_%u\">%u. ", step->number, step->number);
	page_link(page, feature);
	if (cost != NULL)
		html_put(page->out, " <small>%s</small>", cost->word->title);
	if (sure != NULL && sure->word->index < KEY_SURE)
		html_put(page->out, " <small>(%s: look at something else too)"
			"</small>", sure->word->title);
	if (step->from != 0)
		html_put(page->out, " <small><a href=\"#_%u\">from %u</a>"
			"</small>", step->from, step->from);
	g_string_append(page->out, "</h2>\n<ul>\n");
	for (i = 0; i < step->count; i++)
		show_lead(drawing, step, i);
	g_string_append(page->out, "</ul>\n");
}

static void
show_key(const struct drawing *drawing)
{
	struct page *page = drawing->page;
	const struct keyed *keyed = drawing->keyed;
	GString *words = g_string_new(NULL);
	unsigned i;

	html_put(page->out, "<header class=\"sheet-head\"><h1>Key to %s</h1>\n"
		"<p class=\"lede\">Begin at 1: look, take the line that fits, "
		"and go where it leads. If none fits, what you hold may not be "
		"recorded yet, or may be altered or an imitation.</p>\n",
		keyed->group->name);
	if (keyed->group->of_count > 0)
		g_string_append(page->out, "<p class=\"note\">See also: ");
	for (i = 0; i < keyed->group->of_count; i++) {
		g_string_append(page->out, i == 0 ? "" : "; ");
		page_link(page, keyed->group->of[i]);
	}
	g_string_append(page->out, keyed->group->of_count > 0 ?
		"</p>\n</header>\n<div class=\"key\">\n" :
		"</header>\n<div class=\"key\">\n");
	for (i = 0; i < keyed->key->count; i++)
		show_step(drawing, keyed->key->steps[i]);
	keyed_say_report(keyed, words);
	html_put(page->out, "</div>\n<p class=\"note\">%s</p>\n", words->str);
	g_string_free(words, TRUE);
}

static bool
write_key(const struct site *site, const struct key_group *group,
	GError **error)
{
	struct arena *arena = arena_new();
	struct page page = {.error = error};
	struct drawing drawing = {&page, keys_make(site->keys->keys, group,
		arena)};
	char *title = g_strdup_printf("Key to %s", group->name);
	char *path = key_path(group);
	bool done;

	page_begin(&page, site, path, title, chapter_ink(group->kind->chapter));
	show_key(&drawing);
	done = page_end(&page);
	g_free(path);
	g_free(title);
	arena_free(arena);
	return done;
}

static void
show_all(struct page *page)
{
	const struct key_groups *groups = &page->site->keys->keys->groups;
	const struct kind *kind = NULL;
	unsigned i;

	for (i = 0; i < groups->count; i++) {
		GPtrArray *list;

		if (groups->items[i].kind == kind)
			continue;
		kind = groups->items[i].kind;
		list = find_keys(page->site, kind);
		g_string_append(page->out, "<h2>");
		page_capital(page, kind->titles);
		g_string_append(page->out, "</h2>\n");
		list_keys(page, (const struct key_group *const *)list->pdata,
			list->len);
		g_ptr_array_free(list, TRUE);
	}
}

bool
keys_write(const struct site *site, GError **error)
{
	const struct key_groups *groups = &site->keys->keys->groups;
	struct page page = {.error = error};
	bool done;
	unsigned i;

	if (groups->count == 0)
		return true;
	page_begin(&page, site, "keys.html", "Keys", "home");
	g_string_append(page.out, "<header class=\"sheet-head\"><h1>Keys</h1>\n"
		"<p class=\"lede\">A key asks for one thing at a time, and what "
		"you see leads to the next, until one is left.</p></header>\n");
	show_all(&page);
	done = page_end(&page);
	for (i = 0; done && i < groups->count; i++)
		done = write_key(site, &groups->items[i], error);
	return done;
}
