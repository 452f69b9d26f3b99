/*
 * Sample queries: the files of queries/ beside the style sheet. The comment
 * lines at the head of a file say what it answers.
 */
#include <string.h>

#include "base/sort.h"
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
	sort_items(names->pdata, names->len, sizeof(gpointer), compare_names);
	g_ptr_array_add(names, NULL);
	return (char **)(void *)g_ptr_array_free(names, FALSE);
}

/* One line of comment, without its mark; moves on to the next line. */
static char *
next_comment(const char **text)
{
	const char *end;
	char *line;

	if (!g_str_has_prefix(*text, "--"))
		return NULL;
	end = strchrnul(*text, '\n');
	line = g_strstrip(g_strndup(*text + 2, (gsize)(end - *text - 2)));
	*text = *end == '\0' ? end : end + 1;
	return line;
}

/* The first comment line is the question, the others say more of it. */
static void
show_query(struct page *page, const char *name, const char *text)
{
	char *question = next_comment(&text), *line;
	GString *says = g_string_new(NULL);

	for (line = next_comment(&text); line != NULL;
		line = next_comment(&text)) {
		if (says->len > 0 && *line != '\0')
			g_string_append_c(says, ' ');
		g_string_append(says, line);
		g_free(line);
	}
	g_string_append(page->out, "<section>\n<h2 id=\"");
	html_place(page->out, name);
	html_put(page->out, "\">%s</h2>\n",
		question == NULL ? name : question);
	if (says->len > 0)
		html_put(page->out, "<p class=\"note\">%s</p>\n", says->str);
	html_put(page->out, "<pre tabindex=\"0\"><code>%s</code></pre>\n"
		"</section>\n", text + strspn(text, "\n"));
	g_string_free(says, TRUE);
	g_free(question);
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
