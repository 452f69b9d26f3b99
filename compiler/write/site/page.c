/*
 * The frame of every page, and links between pages. A record's page is
 * KIND/ID.html and a kind's list KIND.html; ids have neither dots nor
 * slashes, so pages never meet the guide's other files.
 */
#include "write/site/page.h"

#include <string.h>

static const char policy[] =
	"default-src 'none'; script-src 'self'; style-src 'self'; "
	"img-src 'self' data:; connect-src 'self'; manifest-src 'self'; "
	"worker-src 'self'; base-uri 'none'; form-action 'none'";

/* Kinds that have a place in every page's banner, where the schema has them. */
static const char *const banner_kinds[] = {
	"character", "cardback", "anomaly", "run",
};

const char *
chapter_ink(enum chapter chapter)
{
	static const char *const inks[] = {
		[CHAPTER_LINE] = "line",
		[CHAPTER_MADE] = "made",
		[CHAPTER_SEEN] = "seen",
		[CHAPTER_KNOWN] = "known",
		[CHAPTER_READER] = "reader",
		[CHAPTER_PRIVATE] = "known",
	};

	return inks[chapter];
}

const char *
chapter_title(enum chapter chapter)
{
	static const char *const titles[] = {
		[CHAPTER_LINE] = "The line and its trade",
		[CHAPTER_MADE] = "What was made",
		[CHAPTER_SEEN] = "What was seen",
		[CHAPTER_KNOWN] = "How we know",
		[CHAPTER_READER] = "For readers",
		[CHAPTER_PRIVATE] = "Private",
	};

	return titles[chapter];
}

char *
list_path(const struct kind *kind, unsigned number)
{
	static const char *const own[] = {
		"index", "names", "search", "glossary", "cautions", "about",
		"queries", "everything", "words", "fields", "narrow", NULL,
	};
	const char *guard = g_strv_contains(own, kind->name) ? "kind." : "";

	if (number > 1)
		return g_strdup_printf("%s%s.%u.html", guard, kind->name,
			number);
	return g_strdup_printf("%s%s.html", guard, kind->name);
}

static void
append_banner(struct page *page)
{
	const struct model *model = page->site->model;
	const struct kind *kind;
	char *path;
	size_t i;

	html_put(page->out, "<body>\n<a class=\"skip\" href=\"#_main\">"
		"Skip to the content</a>\n<header class=\"banner\">\n"
		"<a class=\"brand\" href=\"%sindex.html\">"
		"<img src=\"%slook/tab.svg\" alt=\"\" width=\"26\" "
		"height=\"26\"> %s</a>\n<nav aria-label=\"Main\">"
		"<a href=\"%snames.html\">Names A\u2013Z</a> ",
		page->up, page->up, model_title(model), page->up);
	for (i = 0; i < G_N_ELEMENTS(banner_kinds); i++) {
		kind = schema_kind(model_schema(model), banner_kinds[i]);
		if (kind == NULL || model_records(model, kind).count == 0)
			continue;
		path = list_path(kind, 1);
		html_put(page->out, "<a href=\"%s%s\">", page->up, path);
		page_capital(page, kind->titles);
		g_string_append(page->out, "</a> ");
		g_free(path);
	}
	html_put(page->out, "<a href=\"%sglossary.html\">Glossary</a> "
		"<a href=\"%severything.html\">Everything</a></nav>\n"
		"<div class=\"seek\" role=\"search\"><a href=\"%ssearch.html\">"
		"Search</a></div>\n</header>\n", page->up, page->up, page->up);
}

void
page_begin(struct page *page, const struct site *site, const char *path,
	const char *title, const char *ink)
{
	*page = (struct page){
		.site = site,
		.out = g_string_sized_new(16384),
		.up = strchr(path, '/') == NULL ? "" : "../",
		.path = g_strdup(path),
		.error = page->error,
		.record = page->record,
	};
	html_put(page->out, "<!DOCTYPE html>\n<html lang=\"en\" "
		"class=\"%s\">\n<head>\n<meta charset=\"utf-8\">\n"
		"<title>%s \u00b7 %s</title>\n"
		"<meta http-equiv=\"Content-Security-Policy\" content=\"",
		ink, title, model_title(site->model));
	g_string_append(page->out, policy);
	html_put(page->out, "\">\n<meta name=\"referrer\" "
		"content=\"no-referrer\">\n<meta name=\"viewport\" "
		"content=\"width=device-width, initial-scale=1\">\n"
		"<meta name=\"color-scheme\" content=\"light dark\">\n"
		"<link rel=\"stylesheet\" href=\"%slook/hangtab.css\">\n"
		"<link rel=\"icon\" type=\"image/svg+xml\" "
		"href=\"%slook/tab.svg\">\n<script defer "
		"src=\"%slook/search.js\"></script>\n</head>\n", page->up,
		page->up, page->up);
	append_banner(page);
	g_string_append(page->out, "<main id=\"_main\">\n");
}

static void
append_footer(struct page *page)
{
	const struct site *site = page->site;
	const struct record *edition = site->edition;
	const char *text;

	html_put(page->out, "</main>\n<footer class=\"foot\">\n"
		"<p><b>%s</b>", edition == NULL ? model_title(site->model) :
		edition->name);
	text = edition == NULL ? NULL : model_text(site->model,
		edition->values, NAME(EDITION_LICENCE));
	if (text != NULL)
		html_put(page->out, " \u00b7 %s", text);
	text = edition == NULL ? NULL : model_text(site->model,
		edition->values, NAME(EDITION_CORRECT));
	if (text != NULL)
		html_put(page->out, " \u00b7 corrections to %s", text);
	html_put(page->out, " \u00b7 <a href=\"%sabout.html\">about this "
		"guide</a></p>\n<p>Old plastics and paints may carry lead, "
		"cadmium or phthalates: not for children. An estimate is no "
		"appraisal and no authentication. "
		"<a href=\"%scautions.html\">All cautions</a></p>\n"
		"</footer>\n</body>\n</html>\n", page->up, page->up);
}

bool
page_end(struct page *page)
{
	bool done;

	append_footer(page);
	done = output_add(page->site->job->out, page->path, page->out->str,
		page->out->len, page->error);
	g_string_free(page->out, TRUE);
	g_free(page->path);
	g_free(page->told);
	if (page->told_pointers != NULL)
		g_ptr_array_free(page->told_pointers, TRUE);
	return done;
}

static const struct record *
first_target(const struct value *value)
{
	if (value == NULL || value->form == VALUE_MANY)
		return NULL;
	if (value->field->type == TYPE_REFERENCE)
		return value->reference.record;
	if (value->field->type == TYPE_IDENTITY &&
		value->identity.kind == IDENTITY_KNOWN)
		return value->identity.items[0].record;
	return NULL;
}

const struct record *
page_home(const struct record *record)
{
	const struct record *target;
	unsigned i;

	if (record->kind->page)
		return record;
	for (i = 0; i < record->kind->fields.count; i++) {
		target = first_target(record->values[i]);
		if (target != NULL && target->kind->page)
			return target;
	}
	return NULL;
}

void
page_href(struct page *page, const struct record *record, const char *key)
{
	g_string_append_printf(page->out, "%s%s/%s.html", page->up,
		record->kind->name, record->id);
	if (key != NULL) {
		g_string_append_c(page->out, '#');
		html_place(page->out, key);
	}
}

void
name_language(struct page *page, const struct record *record)
{
	const char *called = record->kind->called;
	const struct field *field;
	const struct value *value;
	const char *tag;
	char *path;

	if (called == NULL || called[0] != '{' ||
		strchr(called, '}') != called + strlen(called) - 1)
		return;
	path = g_strndup(called + 1, strlen(called) - 2);
	field = fields_find(&record->kind->fields, path);
	g_free(path);
	value = field == NULL ? NULL : record->values[field->index];
	if (value == NULL || value->form == VALUE_MANY ||
		field->type != TYPE_TRANSLATION)
		return;
	tag = value->translation.items[0].language;
	if (strcmp(tag, "en") != 0 && !g_str_has_prefix(tag, "en-"))
		html_language(page->out, tag);
}

void
page_link_words(struct page *page, const struct record *record,
	const char *key, const char *words)
{
	const struct record *home = page_home(record);

	if (home == NULL || home == page->record) {
		html_text(page->out, words);
		return;
	}
	g_string_append(page->out, "<a href=\"");
	page_href(page, home, home == record ? key : NULL);
	g_string_append_c(page->out, '"');
	if (words == record->name)
		name_language(page, record);
	html_put(page->out, ">%s</a>", words);
}

void
page_link(struct page *page, const struct record *record)
{
	page_link_words(page, record, NULL, record->name);
}

void
page_capital(struct page *page, const char *text)
{
	char *first = g_utf8_substring(text, 0, *text == '\0' ? 0 : 1);
	char *upper = g_utf8_strup(first, -1);

	html_put(page->out, "%s%s", upper, text + strlen(first));
	g_free(upper);
	g_free(first);
}

void
page_tell(struct page *page, enum field_name name)
{
	page->told[model_field(page->site->model, name)->index] = true;
}

void
page_tell_pointer(struct page *page, enum field_name name)
{
	page_tell_pointer_of(page, model_field(page->site->model, name));
}

void
page_tell_pointer_of(struct page *page, const struct field *field)
{
	if (page->told_pointers == NULL)
		page->told_pointers = g_ptr_array_new();
	g_ptr_array_add(page->told_pointers, (gpointer)(uintptr_t)field);
}

bool
page_told_pointer(const struct page *page, const struct field *field)
{
	return page->told_pointers != NULL &&
		g_ptr_array_find(page->told_pointers, field, NULL);
}

void
page_heading(struct page *page, const char *place, const char *words)
{
	html_put(page->out, "<h2 id=\"_%s\">", place);
	page_capital(page, words);
	g_string_append(page->out, "</h2>\n");
}

const char *
cardback_label(const struct site *site, const struct record *cardback)
{
	const struct value *labels = model_get(site->model, cardback->values,
		NAME(CARDBACK_LABELS));
	const char *label = NULL;

	if (value_count(labels) > 0)
		label = model_text(site->model, value_item(labels, 0)->group,
			NAME(CARDBACK_LABELS_LABEL));
	return label == NULL ? cardback->name : label;
}

static void
append_neighbour(struct page *page, const struct record *record,
	name_function *name, const char *rel)
{
	if (record == NULL)
		return;
	html_put(page->out, "<a rel=\"%s\" href=\"", rel);
	page_href(page, record, NULL);
	html_put(page->out, "\">%s</a> ", name(page->site, record));
}

void
page_neighbours(struct page *page, const struct record *before,
	const struct record *after, name_function *name)
{
	if (before == NULL && after == NULL)
		return;
	g_string_append(page->out, "<p class=\"turns\">");
	append_neighbour(page, before, name, "prev");
	append_neighbour(page, after, name, "next");
	g_string_append(page->out, "</p>\n");
}
