/*
 * The database of a finished guide, and lines of a terminal.
 */
#include "command/guide.h"

#include <stdio.h>
#include <string.h>

#include "write/database/database.h"

int
guide_failed(GError *error)
{
	fprintf(stderr, "hangtab: %s\n", error->message);
	g_error_free(error);
	return EXIT_SYSTEM;
}

/* Whether the database is of the layout that this program reads. */
static bool
is_ours(struct store *store)
{
	struct query *query = store_prepare(store, "SELECT value FROM meta "
		"WHERE key = 'format'", NULL);
	char *format = g_strdup_printf("%d", DATABASE_FORMAT);
	bool ours = query != NULL && query_step(query, NULL) == 1 &&
		strcmp(query_text(query, 0), format) == 0;

	query_free(query);
	g_free(format);
	return ours;
}

struct store *
guide_open(const struct options *options, int *status)
{
	char *path = g_build_filename(options->out, "guide.db", NULL);
	GError *error = NULL;
	struct store *store = NULL;

	if (!g_file_test(path, G_FILE_TEST_EXISTS)) {
		fprintf(stderr, "hangtab: there is no guide at \"%s\"; run "
			"`hangtab build` first, or name its folder with -o\n",
			options->out);
		*status = EXIT_USAGE;
	} else
		store = store_open(path, &error);
	if (error != NULL)
		*status = guide_failed(error);
	if (store != NULL && !is_ours(store)) {
		fprintf(stderr, "hangtab: \"%s\" was not made by this version "
			"of hangtab; run `hangtab build` again\n", path);
		store_close(store);
		store = NULL;
		*status = EXIT_USAGE;
	}
	g_free(path);
	return store;
}

int
guide_width(const char *text)
{
	int width = 0;

	for (; *text != '\0'; text = g_utf8_next_char(text)) {
		gunichar c = g_utf8_get_char(text);

		if (g_unichar_iszerowidth(c))
			continue;
		width += g_unichar_iswide(c) ? 2 : 1;
	}
	return width;
}

void
guide_wrap(const char *text, int at, int indent)
{
	bool first = true;

	for (;;) {
		size_t size;
		char *word;
		int width;

		text += strspn(text, " \t\n");
		size = strcspn(text, " \t\n");
		if (size == 0)
			break;
		word = g_strndup(text, size);
		width = guide_width(word);
		if (!first && at + 1 + width > LINE_WIDTH) {
			printf("\n%*s", indent, "");
			at = indent;
		} else if (!first) {
			putchar(' ');
			at++;
		}
		fputs(word, stdout);
		at += width;
		first = false;
		text += size;
		g_free(word);
	}
	putchar('\n');
}
