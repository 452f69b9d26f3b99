/*
 * A page is made as ever and its marks are then rewritten. All text is escaped
 * by html.c, so each "<" begins a mark of our own.
 */
#include "write/site/fold.h"

#include <string.h>

#include "write/site/record.h"
#include "write/site/page.h"

struct folding {
	GHashTable *inside;	/* "KIND/ID" of what is folded in */
	const char *home;	/* of the page at hand */
	GString *out;
	bool dropped;		/* the link that is open was */
};

/* The value of an attribute and where it is; NULL if the mark has none. */
static char *
attribute(const char *mark, size_t size, const char *name, size_t *at)
{
	char *text = g_strndup(mark, size);
	char *start = strstr(text, name), *end, *value = NULL;

	if (start != NULL) {
		start += strlen(name);
		end = strchr(start, '"');
		if (end != NULL) {
			*at = (size_t)(start - text);
			value = g_strndup(start, (size_t)(end - start));
		}
	}
	g_free(text);
	return value;
}

/* Where a link leads in the one file; NULL if nowhere. */
static char *
lead(const struct folding *folding, const char *href)
{
	const char *page = g_str_has_prefix(href, "../") ? href + 3 : href;
	const char *end = strstr(page, ".html");
	char *key, *place = NULL;

	if (href[0] == '#')
		return g_strdup_printf("#%s.%s", folding->home, href + 1);
	if (end == NULL || strchr(page, ':') != NULL)
		return NULL;
	key = g_strndup(page, (size_t)(end - page));
	if (g_hash_table_contains(folding->inside, key))
		place = end[5] == '#' ? g_strdup_printf("#%s.%s", key,
			end + 6) : g_strdup_printf("#%s", key);
	g_free(key);
	return place;
}

static void
put_changed(struct folding *folding, const char *mark, size_t size, size_t at,
	size_t length, const char *value)
{
	g_string_append_len(folding->out, mark, (gssize)at);
	g_string_append(folding->out, value);
	g_string_append_len(folding->out, mark + at + length,
		(gssize)(size - at - length));
}

static void
put_link(struct folding *folding, const char *mark, size_t size)
{
	size_t at = 0;
	char *href = attribute(mark, size, " href=\"", &at), *to;

	to = href == NULL ? NULL : lead(folding, href);
	folding->dropped = to == NULL;
	if (to != NULL)
		put_changed(folding, mark, size, at, strlen(href), to);
	g_free(to);
	g_free(href);
}

static bool
is_mark(const char *mark, const char *name)
{
	size_t size = strlen(name);

	return strncmp(mark + 1, name, size) == 0 &&
		(mark[1 + size] == ' ' || mark[1 + size] == '>');
}

/* Headings go one level down: the file has a title of its own. */
static void
put_heading(struct folding *folding, GString *mark)
{
	size_t at = mark->str[1] == '/' ? 3 : 2;

	if (mark->str[at - 1] == 'h' && mark->str[at] >= '1' &&
		mark->str[at] <= '5' && !g_ascii_isalnum(mark->str[at + 1]))
		mark->str[at]++;
	g_string_append_len(folding->out, mark->str, (gssize)mark->len);
}

static void
put_mark(struct folding *folding, const char *mark, size_t size)
{
	GString *changed;
	size_t at = 0;
	char *id;

	if (is_mark(mark, "img") || is_mark(mark, "link") ||
		is_mark(mark, "script"))
		return;
	if (is_mark(mark, "a")) {
		put_link(folding, mark, size);
		return;
	}
	if (is_mark(mark, "/a")) {
		if (!folding->dropped)
			g_string_append_len(folding->out, mark, (gssize)size);
		return;
	}
	changed = g_string_new_len(mark, (gssize)size);
	id = attribute(mark, size, " id=\"", &at);
	if (id != NULL) {
		char *own = g_strdup_printf("%s.", folding->home);

		g_string_insert(changed, (gssize)at, own);
		g_free(own);
	}
	put_heading(folding, changed);
	g_string_free(changed, TRUE);
	g_free(id);
}

static void
fold_page(struct folding *folding, const struct site *site,
	const struct record *record)
{
	GString *page = g_string_new(NULL);
	const char *at, *mark, *end;
	char *home = g_strdup_printf("%s/%s", record->kind->name, record->id);

	folding->home = home;
	record_fold(site, record, page);
	html_put(folding->out, "<section class=\"folded %s\" id=\"%s\">\n",
		chapter_ink(record->kind->chapter), home);
	for (at = page->str; *at != '\0'; at = end) {
		mark = strchr(at, '<');
		if (mark == NULL)
			mark = at + strlen(at);
		g_string_append_len(folding->out, at, mark - at);
		end = *mark == '\0' ? mark : strchr(mark, '>') + 1;
		if (*mark != '\0')
			put_mark(folding, mark, (size_t)(end - mark));
	}
	g_string_append(folding->out, "</section>\n");
	g_string_free(page, TRUE);
	g_free(home);
}

void
site_fold(const struct write_job *job, const struct record *const *records,
	unsigned count, GString *out)
{
	struct folding folding = {
		.inside = g_hash_table_new_full(g_str_hash, g_str_equal,
			g_free, NULL),
		.out = out,
	};
	struct site site;
	unsigned i;

	site_begin(&site, job);
	for (i = 0; i < count; i++)
		g_hash_table_add(folding.inside, g_strdup_printf("%s/%s",
			records[i]->kind->name, records[i]->id));
	for (i = 0; i < count; i++)
		fold_page(&folding, &site, records[i]);
	site_end(&site);
	g_hash_table_destroy(folding.inside);
}
