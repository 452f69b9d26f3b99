/*
 * Pages of codes read from their folders. The layout of a sample is that of
 * tests/runner/codes.py: NAME.yaml or a corpus NAME/, and beside it files of
 * the schema in NAME.schema/ or the arguments of the call in NAME.args.
 */
#include "diag/page.h"

#include <glib.h>
#include <string.h>

static const char why_heading[] = "\n## Why\n";

static const char *
pass_blanks(const char *at)
{
	return at + strspn(at, " ");
}

/*
 * Whether a line is a mark: "#", then carets or a place, then a code. The
 * comments of a sample that are not marks belong to it.
 */
static bool
is_mark(const char *line, size_t size)
{
	char *text = g_strndup(line, size);
	const char *at = pass_blanks(text);
	const char *code;
	bool found = false;

	if (*at == '#') {
		at = pass_blanks(at + 1);
		code = strchr(at, ' ');
		if (code != NULL && (at[0] == '^' || (at[0] == '@' &&
			(at[1] == '-' || g_ascii_isdigit(at[1])))))
			found = diag_code_named(g_strchomp(text +
				(code + 1 - text))) != DIAG_COUNT;
	}
	g_free(text);
	return found;
}

/* Controls would play tricks on a terminal: shown as U+FFFD. */
static void
append_shown(GString *out, const char *line, const char *end)
{
	for (; line < end; line = g_utf8_next_char(line)) {
		gunichar c = g_utf8_get_char(line);
		bool hidden = (g_unichar_iscntrl(c) && c != '\t') ||
			g_unichar_type(c) == G_UNICODE_FORMAT;

		g_string_append_unichar(out, hidden ? 0xFFFD : c);
	}
}

static const char *
strip_marks(const char *bytes, size_t size, struct arena *arena)
{
	char *valid = g_utf8_make_valid(bytes, (gssize)size);
	GString *out = g_string_new(NULL);
	const char *line = valid, *end, *copy;

	while (*line != '\0') {
		end = strchr(line, '\n');
		if (end == NULL)
			end = line + strlen(line);
		if (!is_mark(line, (size_t)(end - line))) {
			append_shown(out, line, end);
			g_string_append_c(out, '\n');
		}
		line = *end == '\0' ? end : end + 1;
	}
	copy = arena_text(arena, out->str, out->len);
	g_string_free(out, TRUE);
	g_free(valid);
	return copy;
}

static void
add_file(GArray *samples, const char *path, const char *name,
	struct arena *arena)
{
	struct diag_sample sample = {name, NULL};
	char *bytes = NULL;
	gsize size;

	if (g_file_get_contents(path, &bytes, &size, NULL))
		sample.text = strip_marks(bytes, size, arena);
	g_free(bytes);
	g_array_append_val(samples, sample);
}

static int
compare_names(gconstpointer a, gconstpointer b)
{
	return strcmp(*(const char *const *)a, *(const char *const *)b);
}

/* Adds the files below a folder, in byte order, under names with `prefix`. */
static void
add_folder(GArray *samples, const char *folder, const char *prefix,
	struct arena *arena)
{
	GDir *dir = g_dir_open(folder, 0, NULL);
	GPtrArray *names = g_ptr_array_new_with_free_func(g_free);
	const char *name;
	guint i;

	for (name = dir == NULL ? NULL : g_dir_read_name(dir); name != NULL;
		name = g_dir_read_name(dir))
		g_ptr_array_add(names, g_strdup(name));
	if (dir != NULL)
		g_dir_close(dir);
	g_ptr_array_sort(names, compare_names);
	for (i = 0; i < names->len; i++) {
		name = g_ptr_array_index(names, i);
		char *path = g_build_filename(folder, name, NULL);
		const char *shown = arena_print(arena, "%s%s", prefix, name);

		if (g_file_test(path, G_FILE_TEST_IS_DIR))
			add_folder(samples, path, arena_print(arena, "%s/",
				shown), arena);
		else
			add_file(samples, path, shown, arena);
		g_free(path);
	}
	g_ptr_array_free(names, TRUE);
}

/* The call itself, where the mistake is in how hangtab was called. */
static void
add_call(GArray *samples, const char *path, const char *end, const char *call,
	struct arena *arena)
{
	struct diag_sample sample = {NULL, NULL};
	char *file = g_strconcat(path, end, NULL), *bytes = NULL;

	if (g_file_get_contents(file, &bytes, NULL, NULL)) {
		sample.text = arena_print(arena, "hangtab %s%s", call, bytes);
		g_array_append_val(samples, sample);
	}
	g_free(bytes);
	g_free(file);
}

static struct diag_samples
read_samples(const char *folder, const char *name, struct arena *arena)
{
	GArray *samples = g_array_new(FALSE, TRUE, sizeof(struct diag_sample));
	char *path = g_strdup_printf("%s/%s", folder, name);
	char *yaml = g_strdup_printf("%s.yaml", path);
	char *schema = g_strdup_printf("%s.schema", path);
	bool beside = g_file_test(schema, G_FILE_TEST_IS_DIR);
	struct diag_samples all;

	if (beside)
		add_folder(samples, schema, "schema/", arena);
	if (g_file_test(yaml, G_FILE_TEST_EXISTS))
		add_file(samples, yaml, beside ? "corpus.yaml" : NULL, arena);
	add_folder(samples, path, "", arena);
	add_call(samples, path, ".args", "check ", arena);
	add_call(samples, path, ".command", "", arena);
	all.count = samples->len;
	all.items = arena_array(arena, struct diag_sample, all.count);
	if (all.count > 0)
		memcpy(all.items, samples->data,
			sizeof(*all.items) * all.count);
	g_array_free(samples, TRUE);
	g_free(path);
	g_free(yaml);
	g_free(schema);
	return all;
}

/* Text without the blank lines around it, ending in one line break. */
static const char *
trimmed(struct arena *arena, const char *text, size_t size)
{
	while (size > 0 && text[size - 1] == '\n')
		size--;
	while (size > 0 && *text == '\n') {
		text++;
		size--;
	}
	return arena_print(arena, "%.*s\n", (int)size, text);
}

const struct diag_page *
diag_page_read(const char *folder, enum diag_code code, struct arena *arena)
{
	char *inside = g_build_filename(folder, diag_info(code)->code, NULL);
	char *path = g_build_filename(inside, "page.md", NULL);
	struct diag_page *page = NULL;
	const char *says, *why;
	char *text = NULL;

	if (g_file_get_contents(path, &text, NULL, NULL)) {
		page = arena_one(arena, struct diag_page);
		says = text + strcspn(text, "\n");
		why = strstr(says, why_heading);
		if (why == NULL)
			why = says + strlen(says);
		page->says = trimmed(arena, says, (size_t)(why - says));
		if (*why != '\0')
			why += strlen(why_heading);
		page->why = trimmed(arena, why, strlen(why));
		page->failing = read_samples(inside, "failing", arena);
		page->mended = read_samples(inside, "mended", arena);
	}
	g_free(text);
	g_free(path);
	g_free(inside);
	return page;
}
