/*
 * The site's search: its page, the head of its index, and what each record is
 * called. The rest of the index is in finder_terms.c and finder_fold.c.
 */
#include "write/site/finder.h"

#include <string.h>

#include "base/json.h"
#include "write/site/parts.h"

enum { LONGEST_NAMES = 600 };

/* Names and labels, without the plain forms behind them, to say why. */
static void
append_reasons(GString *out, const struct search_entry *entry)
{
	GString *text = g_string_new(NULL);
	size_t i;

	for (i = 0; i < SEARCH_COLUMN_WORDS; i++) {
		char **pieces = g_strsplit(entry->texts[i]->str, "; ", 0);
		size_t j;

		for (j = 0; pieces[j] != NULL; j++)
			if (text->len + strlen(pieces[j]) < LONGEST_NAMES)
				g_string_append_printf(text, "%s%s",
					text->len == 0 ? "" : "; ", pieces[j]);
		g_strfreev(pieces);
	}
	json_append(out, text->str);
	g_string_free(text, TRUE);
}

/* Id, what it is called, its names, and its page where that is another's. */
static void
append_record(GString *out, const struct site *site,
	const struct record *record, struct search_entry *entry)
{
	const struct record *home = page_home(record);

	search_describe(site->model, record, entry);
	g_string_append(out, out->len == 1 ? "[" : ",\n[");
	json_append(out, record->id);
	g_string_append_c(out, ',');
	json_append(out, record->name);
	g_string_append_c(out, ',');
	append_reasons(out, entry);
	if (home == NULL)
		g_string_append(out, ",0");
	else if (home != record)
		g_string_append_printf(out, ",\"%s/%s\"", home->kind->name,
			home->id);
	g_string_append_c(out, ']');
}

static bool
add_records(const struct site *site, const struct postings *postings,
	GError **error)
{
	struct search_entry entry;
	unsigned i, j;
	bool done = true;

	search_entry_init(&entry);
	for (i = 0; done && i < postings->count; i += FINDER_RECORDS) {
		GString *out = g_string_new("[");
		char *name = g_strdup_printf("d%u", i / FINDER_RECORDS);

		for (j = i; j < MIN(i + FINDER_RECORDS, postings->count); j++)
			append_record(out, site,
				postings->documents[j].record, &entry);
		g_string_append_c(out, ']');
		done = finder_add(site, name, out, true, error);
		g_free(name);
		g_string_free(out, TRUE);
	}
	search_entry_release(&entry);
	return done;
}

/* Each kind with its titles, whether it has pages, and its first record. */
static void
append_kinds(GString *out, const struct site *site)
{
	const struct schema *schema = model_schema(site->model);
	unsigned i, first = 0;

	for (i = 0; i < schema->count; i++) {
		const struct kind *kind = &schema->kinds[i];

		g_string_append(out, i == 0 ? "[" : ",\n[");
		json_append(out, kind->name);
		g_string_append_c(out, ',');
		json_append(out, kind->titles);
		g_string_append_printf(out, ",%d,%u]", kind->page, first);
		first += (unsigned)model_records(site->model, kind).count;
	}
}

static bool
add_head(const struct site *site, const struct postings *postings,
	GError **error)
{
	GString *out = g_string_new(NULL), *text = g_string_new(NULL);
	bool done;
	size_t i;

	g_string_append_printf(out, "{count:%u,words:%" G_GUINT64_FORMAT
		",shard:%d,weights:[", postings->count,
		(guint64)postings->words, FINDER_RECORDS);
	for (i = 0; i < SEARCH_COLUMN_COUNT; i++)
		g_string_append_printf(out, "%s%d", i == 0 ? "" : ",",
			search_columns[i].weight);
	g_string_append(out, "],\nkinds:[");
	append_kinds(out, site);
	done = finder_terms(site, postings, FINDER_NAMES, text, error);
	g_string_append_printf(out, "],\nn:\"%s\"", text->str);
	g_string_truncate(text, 0);
	done = done && finder_terms(site, postings, FINDER_WORDS, text, error);
	g_string_append_printf(out, ",\nw:\"%s\"", text->str);
	g_string_truncate(text, 0);
	done = done && finder_vocabulary(site, postings, text, error);
	g_string_append_printf(out, ",\nv:[%s]}", text->str);
	done = done && finder_add(site, "head", out, true, error);
	g_string_free(out, TRUE);
	g_string_free(text, TRUE);
	return done;
}

static bool
add_page(const struct site *site, GError **error)
{
	struct page page = {.error = error};

	page_begin(&page, site, "search.html", "Search", "known");
	g_string_append(page.out, "<header class=\"sheet-head\"><h1>Search"
		"</h1>\n<p class=\"lede\">Names in any language, labels of any "
		"scheme, abbreviations, and words of a record. Greek may be "
		"typed in Latin letters, accents may be left out, and a slip "
		"of the finger is forgiven.</p></header>\n"
		"<div class=\"seek whole\" role=\"search\"><p>Without scripts, "
		"<a href=\"names.html\">Names A\u2013Z</a> has every name and "
		"label, for your browser\u2019s own search (Ctrl+F, or "
		"\u201cFind in page\u201d).</p></div>\n");
	return page_end(&page);
}

bool
finder_write(const struct site *site, GError **error)
{
	struct postings *postings = postings_make(site->model);
	bool done = add_head(site, postings, error) &&
		add_records(site, postings, error) &&
		finder_folding(site, error) && add_page(site, error);

	postings_free(postings);
	return done;
}
