/*
 * Names from A to Z: everything that a record is called, in any language and
 * by any scheme, on as few pages as can be, so that a browser's own search
 * finds it.
 */
#include <string.h>

#include "base/order.h"
#include "base/sort.h"
#include "write/site/parts.h"

enum { NAMES_ON_PAGE = 3000 };

struct entry {
	const char *key;
	const char *text;
	const char *language;		/* or NULL */
	const struct record *record;
	const char *place;		/* on the record's page, or NULL */
};

struct gathering {
	const struct site *site;
	struct order *order;
	struct arena *arena;
	GArray *entries;
	const struct record *record;
	const char *place;
};

static void
add_entry(struct gathering *gathering, const char *text, const char *language)
{
	struct entry entry = {
		order_key(gathering->order, text, gathering->arena), text,
		language, gathering->record, gathering->place,
	};

	g_array_append_val(gathering->entries, entry);
}

static void
gather_value(struct gathering *gathering, const struct value *value)
{
	const struct field *field;
	unsigned i;

	if (value == NULL)
		return;
	field = value->field;
	if (!field->exported || field->show == SHOW_NO)
		return;
	if (value->form == VALUE_MANY) {
		for (i = 0; i < value->many.count; i++)
			gather_value(gathering, value->many.items[i]);
		return;
	}
	if (field->type == TYPE_GROUP) {
		/* An old label leads to what became of it. */
		if (field == model_field(gathering->site->model,
			NAME(SCHEME_RELABELS)))
			gathering->place = model_text(gathering->site->model,
				value->group, NAME(SCHEME_RELABEL_KEY));
		for (i = 0; i < field->fields.count; i++)
			gather_value(gathering, value->group[i]);
		gathering->place = NULL;
		return;
	}
	if (field->search != SEARCH_NAME && field->search != SEARCH_LABEL)
		return;
	if (field->type == TYPE_TEXT)
		add_entry(gathering, value->text, NULL);
	for (i = 0; field->type == TYPE_TRANSLATION &&
		i < value->translation.count; i++)
		add_entry(gathering, value->translation.items[i].text,
			value->translation.items[i].language);
}

static int
compare_entries(const void *a, const void *b)
{
	const struct entry *left = a, *right = b;
	int order = strcmp(left->key, right->key);

	if (order != 0)
		return order;
	if (left->record->kind != right->record->kind)
		return left->record->kind->index < right->record->kind->index ?
			-1 : 1;
	if (left->record->index != right->record->index)
		return left->record->index < right->record->index ? -1 : 1;
	return g_strcmp0(left->language, right->language);
}

/* One name of one record in several languages is one entry. */
static void
drop_repeated(GArray *entries)
{
	struct entry *items = (struct entry *)(void *)entries->data;
	unsigned i, kept = 0;

	for (i = 0; i < entries->len; i++)
		if (kept == 0 || items[kept - 1].record != items[i].record ||
			strcmp(items[kept - 1].text, items[i].text) != 0)
			items[kept++] = items[i];
	g_array_set_size(entries, kept);
}

static void
gather_names(struct gathering *gathering)
{
	const struct schema *schema = model_schema(gathering->site->model);
	struct record_list list;
	unsigned i, j, k;

	for (i = 0; i < schema->count; i++) {
		if (!schema->kinds[i].page)
			continue;
		list = model_records(gathering->site->model,
			&schema->kinds[i]);
		for (j = 0; j < list.count; j++) {
			gathering->record = list.items[j];
			for (k = 0; k < schema->kinds[i].fields.count; k++)
				gather_value(gathering,
					list.items[j]->values[k]);
		}
	}
	sort_items(gathering->entries->data, gathering->entries->len,
		sizeof(struct entry), compare_entries);
	drop_repeated(gathering->entries);
}

/* Blanks and punctuation count for nothing in the order, and nothing here. */
static bool
is_passed_over(gunichar c)
{
	switch (g_unichar_type(c)) {
	case G_UNICODE_CONNECT_PUNCTUATION:
	case G_UNICODE_DASH_PUNCTUATION:
	case G_UNICODE_CLOSE_PUNCTUATION:
	case G_UNICODE_FINAL_PUNCTUATION:
	case G_UNICODE_INITIAL_PUNCTUATION:
	case G_UNICODE_OTHER_PUNCTUATION:
	case G_UNICODE_OPEN_PUNCTUATION:
	case G_UNICODE_SPACE_SEPARATOR:
		return true;
	default:
		return false;
	}
}

/* The letter an entry stands under; digits share a heading, and so do signs. */
static void
initial_of(const char *text, char initial[8])
{
	gunichar parts[8], c;

	while (*text != '\0' && is_passed_over(g_utf8_get_char(text)))
		text = g_utf8_next_char(text);
	c = g_utf8_get_char(text);
	if (!g_unichar_isalpha(c)) {
		g_strlcpy(initial, g_unichar_isalnum(c) ? "0\u20139" :
			"Signs", 8);
		return;
	}
	g_unichar_fully_decompose(c, FALSE, parts, G_N_ELEMENTS(parts));
	initial[g_unichar_to_utf8(g_unichar_toupper(parts[0]), initial)] =
		'\0';
}

static void
show_entry(struct page *page, const struct entry *entry)
{
	g_string_append(page->out, "<li><a href=\"");
	page_href(page, entry->record, entry->place);
	g_string_append(page->out, "\"");
	if (entry->language != NULL)
		html_language(page->out, entry->language);
	html_put(page->out, ">%s</a> <small>", entry->text);
	if (strcmp(entry->text, entry->record->name) != 0)
		html_text(page->out, entry->record->name);
	if (strstr(entry->record->name, entry->record->kind->title) == NULL)
		html_put(page->out, "%s%s", strcmp(entry->text,
			entry->record->name) != 0 ? ", " : "",
			entry->record->kind->title);
	g_string_append(page->out, "</small></li>\n");
}

/* Where the entries of another letter than that of `from` begin. */
static unsigned
next_initial(const struct entry *entries, unsigned count, unsigned from)
{
	char first[8], here[8];
	unsigned i;

	initial_of(entries[from].text, first);
	for (i = from + 1; i < count; i++) {
		initial_of(entries[i].text, here);
		if (strcmp(first, here) != 0)
			break;
	}
	return i;
}

static void
show_initials(struct page *page, const struct entry *entries, unsigned count)
{
	char initial[8];
	unsigned i;

	g_string_append(page->out, "<p class=\"letters\">");
	for (i = 0; i < count; i = next_initial(entries, count, i)) {
		initial_of(entries[i].text, initial);
		html_put(page->out, "<a href=\"#_at-%u\">%s</a> ", i,
			initial);
	}
	g_string_append(page->out, "</p>\n");
}

static void
show_entries(struct page *page, const struct entry *entries, unsigned count)
{
	char initial[8];
	unsigned i = 0, next;

	while (i < count) {
		next = next_initial(entries, count, i);
		initial_of(entries[i].text, initial);
		html_put(page->out, "<h2 id=\"_at-%u\">%s</h2>\n"
			"<ul class=\"names\">\n", i, initial);
		for (; i < next; i++)
			show_entry(page, &entries[i]);
		g_string_append(page->out, "</ul>\n");
	}
}

static bool
write_page(const struct site *site, const GArray *entries, unsigned number,
	unsigned last, GError **error)
{
	struct page page = {.error = error};
	char *path = turn_path("names", number);
	unsigned from = (number - 1) * NAMES_ON_PAGE;
	unsigned count = MIN(entries->len - from, NAMES_ON_PAGE);
	const struct entry *first = &g_array_index(entries, struct entry,
		from);

	page_begin(&page, site, path, "Names A\u2013Z", "known");
	g_string_append(page.out, "<header class=\"sheet-head\"><h1>Names "
		"A\u2013Z</h1>\n<p class=\"lede\">Every name, spelling and "
		"label in this guide, whatever the language or the lettering "
		"scheme. Your browser\u2019s own search (Ctrl+F, or "
		"\u201cFind in page\u201d) finds them here.</p></header>\n");
	show_turns(&page, "names", number, last);
	show_initials(&page, first, count);
	show_entries(&page, first, count);
	show_turns(&page, "names", number, last);
	g_free(path);
	return page_end(&page);
}

bool
names_write(const struct site *site, GError **error)
{
	struct gathering gathering = {
		.site = site,
		.order = order_new(),
		.arena = arena_new(),
		.entries = g_array_new(FALSE, FALSE, sizeof(struct entry)),
	};
	unsigned number, last;
	bool done = true;

	gather_names(&gathering);
	last = MAX(1, (gathering.entries->len + NAMES_ON_PAGE - 1) /
		NAMES_ON_PAGE);
	for (number = 1; done && number <= last; number++)
		done = write_page(site, gathering.entries, number, last,
			error);
	g_array_free(gathering.entries, TRUE);
	arena_free(gathering.arena);
	order_free(gathering.order);
	return done;
}
