/*
 * Sample queries: the files of queries/ beside the style sheet. The comment
 * lines at the head of a file say what it answers.
 */
#include <stdlib.h>
#include <string.h>

#include "write/site/parts.h"

static int
compare_names(const void *a, const void *b)
{
	return strcmp(*(char *const *)a, *(char *const *)b);
}

/* The names of the query files in byte order, ended by NULL. */
static char **
query_names(const char *folder)
{
	GPtrArray *names = g_ptr_array_new();
	GDir *dir = g_dir_open(folder, 0, NULL);
	const char *name;

	for (name = dir == NULL ? NULL : g_dir_read_name(dir); name != NULL;
		name = g_dir_read_name(dir))
		if (g_str_has_suffix(name, ".sql"))
			g_ptr_array_add(names, g_strdup(name));
	if (dir != NULL)
		g_dir_close(dir);
	qsort(names->pdata, names->len, sizeof(gpointer), compare_names);
	g_ptr_array_add(names, NULL);
	return (char **)(void *)g_ptr_array_free(names, FALSE);
}

static void
show_query(struct page *page, const char *name, const char *text)
{
	GString *says = g_string_new(NULL);
	const char *end;

	while (g_str_has_prefix(text, "--")) {
		end = strchr(text, '\n');
		if (end == NULL)
			end = text + strlen(text);
		text += strspn(text, "- ");
		if (says->len > 0)
			g_string_append_c(says, ' ');
		if (end > text)
			g_string_append_len(says, text, end - text);
		text = *end == '\0' ? end : end + 1;
	}
	html_put(page->out, "<section><h2 id=\"_%s\">%s</h2>\n<pre><code>%s"
		"</code></pre></section>\n", name,
		says->len > 0 ? says->str : name, text + strspn(text, "\n"));
	g_string_free(says, TRUE);
}

bool
queries_write(const struct site *site, GError **error)
{
	char *folder = g_build_filename(site->job->assets, "queries", NULL);
	char **names = query_names(folder);
	struct page page = {.error = error};
	bool done = true;
	unsigned i;

	page_begin(&page, site, "queries.html", "Questions to the database",
		"known");
	g_string_append(page.out, "<header class=\"sheet-head\"><h1>Questions "
		"to the database</h1>\n<p class=\"lede\">The guide comes with "
		"a database, <code>guide.db</code>, that any SQLite program "
		"opens: a table for each kind of record, named after it. "
		"These questions can be asked as they stand.</p></header>\n");
	for (i = 0; done && names[i] != NULL; i++) {
		char *path = g_build_filename(folder, names[i], NULL);
		char *text = NULL, *stem;

		done = g_file_get_contents(path, &text, NULL, error);
		stem = g_strndup(names[i], strlen(names[i]) - 4);
		if (done && g_utf8_validate(text, -1, NULL))
			show_query(&page, stem, text);
		g_free(stem);
		g_free(text);
		g_free(path);
	}
	g_strfreev(names);
	g_free(folder);
	return page_end(&page) && done;
}
