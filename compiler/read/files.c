/*
 * Walks a corpus folder in byte order of names, so that the order of records
 * never depends on the file system.
 */
#include "read/files.h"

#include <errno.h>
#include <glib.h>
#include <string.h>
#include <sys/stat.h>

/* No folder of a corpus needs to lie deeper. */
enum { DEEPEST_FOLDER = 8 };

static const char settings_name[] = "corpus.yaml";

struct walk {
	struct arena *arena;
	struct diags *diags;
	GArray *files;
	GPtrArray *tables;
	GArray *strays;
	bool incomplete;
	struct stat around[DEEPEST_FOLDER + 1];	/* the folders we are in */
};

static const char *
join(struct arena *arena, const char *folder, const char *name)
{
	size_t length = strlen(folder);
	bool slash = length > 0 && folder[length - 1] == '/';

	return arena_print(arena, "%s%s%s", folder, slash ? "" : "/", name);
}

static bool
is_yaml(const char *name)
{
	return g_str_has_suffix(name, ".yaml") ||
		g_str_has_suffix(name, ".yml");
}

bool
file_is_table(const char *path)
{
	const char *dot = strrchr(path, '.');

	return dot != NULL && (g_ascii_strcasecmp(dot, ".csv") == 0 ||
		g_ascii_strcasecmp(dot, ".tsv") == 0);
}

static bool
is_corpus(struct arena *arena, const char *folder)
{
	return g_file_test(join(arena, folder, settings_name),
		G_FILE_TEST_EXISTS);
}

static const char *
name_of(const struct corpus_file *file)
{
	const char *slash = strrchr(file->path, '/');

	return slash == NULL ? file->path : slash + 1;
}

bool
corpus_file_is_settings(const struct corpus_file *file)
{
	return file->kind == NULL && strcmp(name_of(file), settings_name) == 0;
}

bool
corpus_file_is_essay(const struct corpus_file *file)
{
	return file->kind != NULL && strcmp(file->kind, "essay") == 0 &&
		g_str_has_suffix(file->path, ".md");
}

static int
compare_names(gconstpointer a, gconstpointer b)
{
	return strcmp(*(const char *const *)a, *(const char *const *)b);
}

/* The names in a folder in byte order; NULL and a message if unreadable. */
static GPtrArray *
list_folder(struct walk *walk, const char *path)
{
	GError *error = NULL;
	GDir *dir = g_dir_open(path, 0, &error);
	GPtrArray *names;
	const char *name;

	if (dir == NULL) {
		diag_report(walk->diags, DIAG_UNREADABLE_FILE, SPAN_NOWHERE,
			"the folder \"%s\" cannot be read: %s", path,
			g_strerror(errno));
		g_error_free(error);
		walk->incomplete = true;
		return NULL;
	}
	names = g_ptr_array_new();
	for (name = g_dir_read_name(dir); name != NULL;
		name = g_dir_read_name(dir))
		if (name[0] != '.')
			g_ptr_array_add(names, arena_text(walk->arena, name,
				strlen(name)));
	g_dir_close(dir);
	g_ptr_array_sort(names, compare_names);
	return names;
}

/* Copies that editors keep, what systems litter, and notes on a folder. */
static bool
is_expected(const char *name)
{
	static const char *const endings[] = {"~", "#", ".bak", ".orig",
		".rej", ".swp", ".tmp"};
	static const char *const names[] = {"Thumbs.db", "desktop.ini"};
	size_t i;

	for (i = 0; i < G_N_ELEMENTS(endings); i++)
		if (g_str_has_suffix(name, endings[i]))
			return true;
	for (i = 0; i < G_N_ELEMENTS(names); i++)
		if (g_ascii_strcasecmp(name, names[i]) == 0)
			return true;
	return g_str_has_prefix(name, "README");
}

static void
walk_folder(struct walk *walk, const char *path, const char *kind, int depth);

static void
walk_entry(struct walk *walk, const char *path, const char *name,
	const char *kind, int depth)
{
	struct corpus_file file = {path, kind};

	if (!g_file_test(path, G_FILE_TEST_IS_DIR)) {
		if (is_yaml(name) || corpus_file_is_essay(&file)) {
			g_array_append_val(walk->files, file);
			return;
		}
		if (file_is_table(name))
			g_ptr_array_add(walk->tables,
				(gpointer)(uintptr_t)path);
		if (kind != NULL && !is_expected(name))
			g_array_append_val(walk->strays, file);
		return;
	}
	if (depth >= DEEPEST_FOLDER || is_corpus(walk->arena, path) ||
		(strcmp(name, "past") == 0 && kind == NULL))
		return;
	walk_folder(walk, path, kind == NULL ? name : kind, depth + 1);
}

/* Whether the folder, `depth` below the corpus, is one of those around it. */
static bool
leads_back(struct walk *walk, const char *path, int depth)
{
	struct stat *here = &walk->around[depth];
	struct diag *diag;
	int i;

	if (stat(path, here) != 0)
		return false;
	for (i = 0; i < depth; i++)
		if (walk->around[i].st_dev == here->st_dev &&
			walk->around[i].st_ino == here->st_ino)
			break;
	if (i == depth)
		return false;
	diag = diag_report(walk->diags, DIAG_UNREADABLE_FILE, SPAN_NOWHERE,
		"\"%s\" leads back to a folder around it", path);
	diag_help(diag, "take the link out of the corpus");
	return true;
}

static void
walk_folder(struct walk *walk, const char *path, const char *kind, int depth)
{
	GPtrArray *names;
	guint i;

	if (leads_back(walk, path, depth))
		return;
	names = list_folder(walk, path);
	if (names == NULL)
		return;
	for (i = 0; i < names->len; i++) {
		const char *name = g_ptr_array_index(names, i);

		walk_entry(walk, join(walk->arena, path, name), name, kind,
			depth);
	}
	g_ptr_array_free(names, TRUE);
}

/* What the array holds, in `arena`; frees the array. */
static struct corpus_file *
keep_files(GArray *array, struct arena *arena, size_t *count)
{
	struct corpus_file *items = arena_array(arena, struct corpus_file,
		array->len);

	*count = array->len;
	if (array->len > 0)
		memcpy(items, array->data, sizeof(*items) * array->len);
	g_array_free(array, TRUE);
	return items;
}

/* The files below a folder that belongs to `kind`, or is a corpus. */
static struct corpus_files
files_below(const char *path, const char *kind, struct arena *arena,
	struct diags *diags)
{
	struct walk walk = {
		.arena = arena,
		.diags = diags,
		.files = g_array_new(FALSE, FALSE, sizeof(struct corpus_file)),
		.tables = g_ptr_array_new(),
		.strays = g_array_new(FALSE, FALSE,
			sizeof(struct corpus_file)),
	};
	struct corpus_files files;

	walk_folder(&walk, path, kind, 0);
	files.incomplete = walk.incomplete;
	files.items = keep_files(walk.files, arena, &files.count);
	files.strays = keep_files(walk.strays, arena, &files.stray_count);
	files.table_count = walk.tables->len;
	files.tables = arena_array(arena, const char *, files.table_count);
	if (files.table_count > 0)
		memcpy(files.tables, walk.tables->pdata,
			sizeof(*files.tables) * files.table_count);
	g_ptr_array_free(walk.tables, TRUE);
	return files;
}

struct corpus_files
corpus_files(const char *path, struct arena *arena, struct diags *diags)
{
	return files_below(path, NULL, arena, diags);
}

/* The kind of a file by its path within its corpus. */
static const char *
kind_within(const char *inside, struct arena *arena)
{
	const char *slash;

	while (*inside == '/')
		inside++;
	slash = strchr(inside, '/');
	if (slash == NULL)
		return NULL;
	return arena_text(arena, inside, (size_t)(slash - inside));
}

struct corpus_file
corpus_file_at(const char *path, const char *corpus, struct arena *arena)
{
	struct corpus_file file = {arena_text(arena, path, strlen(path)),
		NULL};
	char *whole = g_canonicalize_filename(path, NULL);
	char *known = g_canonicalize_filename(corpus, NULL);
	char *folder = g_path_get_dirname(whole);
	bool found = false;

	while (!found && strcmp(folder, "/") != 0) {
		char *above;

		found = is_corpus(arena, folder) || strcmp(folder, known) == 0;
		if (found)
			break;
		above = g_path_get_dirname(folder);
		g_free(folder);
		folder = above;
	}
	if (found)
		file.kind = kind_within(whole + strlen(folder), arena);
	g_free(folder);
	g_free(known);
	g_free(whole);
	return file;
}

struct corpus_files
corpus_files_in(const char *path, const char *corpus, struct arena *arena,
	struct diags *diags)
{
	struct corpus_file inside = corpus_file_at(join(arena, path, "any"),
		corpus, arena);

	return files_below(path, inside.kind, arena, diags);
}
