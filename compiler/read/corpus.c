/*
 * Walks a corpus folder in byte order of names, so that the order of records
 * never depends on the file system, and reads each file. Hidden files, files
 * that are neither YAML nor essays, and folders with a corpus.yaml of their
 * own (earlier editions) are passed by.
 */
#include "read/corpus.h"

#include <errno.h>
#include <string.h>
#include <sys/stat.h>

#include "read/yaml.h"

/* A link that leads back up would otherwise be followed for ever. */
enum { DEEPEST_FOLDER = 8 };

struct reading {
	struct sources *sources;
	struct arena *arena;
	struct diags *diags;
	struct raw_corpus *corpus;
	GArray *records;
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

static uint32_t
read_file(struct reading *reading, const char *path)
{
	struct span span = SPAN_NOWHERE;
	char *why = NULL;
	uint32_t file;

	file = sources_read(reading->sources, path, path, &why);
	if (file == 0) {
		diag_report(reading->diags, DIAG_UNREADABLE_FILE, span,
			"\"%s\" cannot be read: %s", path, why);
		g_free(why);
	}
	return file;
}

static void
add_record(struct reading *reading, struct raw_record record)
{
	g_array_append_val(reading->records, record);
}

/* Adds what stands in a file or under a heading: one record or a list. */
static void
add_records(struct reading *reading, struct raw_record record)
{
	struct node *node = record.node;
	struct diag *diag;
	uint32_t i;

	if (node->kind == NODE_MAP) {
		add_record(reading, record);
		return;
	}
	if (node->kind == NODE_SCALAR) {
		diag = diag_report(reading->diags, DIAG_NOT_RECORDS,
			node->span, "expected a record or a list of records");
		diag_help(diag, "a record is a list of lines like \"id: "
			"amber\"; see schema/README.md");
	}
	for (i = 0; node->kind == NODE_LIST && i < node->count; i++) {
		record.node = node->items[i];
		add_record(reading, record);
	}
}

/* A file of several kinds: kind, then its records. */
static void
read_mixed(struct reading *reading, uint32_t file, struct node *root)
{
	uint32_t i;

	if (root->kind != NODE_MAP) {
		diag_report(reading->diags, DIAG_NOT_RECORDS, root->span,
			"expected kinds of record, each with a list under it");
		return;
	}
	for (i = 0; i < root->count; i++) {
		struct node_entry *entry = &root->entries[i];

		if (strcmp(entry->key, "format") == 0 ||
			strcmp(entry->key, "title") == 0) {
			reading->corpus->settings = root;
			continue;
		}
		add_records(reading, (struct raw_record){
			.kind = entry->key,
			.kind_span = entry->key_span,
			.file = file,
			.node = entry->value,
		});
	}
}

static void
read_kind_file(struct reading *reading, const char *path, const char *kind)
{
	uint32_t file = read_file(reading, path);
	struct node *root;

	if (file == 0)
		return;
	root = read_yaml(reading->sources, file, reading->arena,
		reading->diags);
	if (root == NULL)
		return;
	add_records(reading, (struct raw_record){
		.kind = kind,
		.file = file,
		.node = root,
	});
}

static void
read_root_file(struct reading *reading, const char *path, const char *name)
{
	uint32_t file = read_file(reading, path);
	struct node *root;

	if (file == 0)
		return;
	root = read_yaml(reading->sources, file, reading->arena,
		reading->diags);
	if (root == NULL)
		return;
	if (strcmp(name, "corpus.yaml") == 0)
		reading->corpus->settings = root;
	else
		read_mixed(reading, file, root);
}

static struct node *
text_node(struct reading *reading, struct span span, const char *text,
	size_t size)
{
	struct node *node = arena_one(reading->arena, struct node);

	node->kind = NODE_SCALAR;
	node->style = SCALAR_RAW;
	node->span = span;
	node->text = arena_text(reading->arena, text, size);
	node->count = (uint32_t)size;
	return node;
}

/* The first line's heading: its text within the line, or an empty span. */
static struct span
find_heading(const struct source *source, uint32_t file)
{
	struct span line = source_line(source, 0);
	struct span title = {file, 2, line.to};

	if (line.to < 3 || memcmp(source->bytes, "# ", 2) != 0)
		title = (struct span){file, 0, 0};
	return title;
}

/* An essay is a record whose fields are a heading and what follows it. */
static void
read_essay(struct reading *reading, const char *path, const char *name)
{
	uint32_t file = read_file(reading, path);
	const struct source *source;
	struct raw_record record = {.kind = "essay", .file = file};
	struct span title, text;
	struct diag *diag;
	const char *bad;

	if (file == 0)
		return;
	source = sources_get(reading->sources, file);
	if (!g_utf8_validate_len(source->bytes, source->size, &bad)) {
		text = (struct span){file, (uint32_t)(bad - source->bytes), 0};
		text.to = text.from + 1;
		diag_report(reading->diags, DIAG_NOT_UTF8, text,
			"the essay is not UTF-8 text");
		return;
	}
	title = find_heading(source, file);
	if (title.to == 0) {
		text = source_line(source, 0);
		text.file = file;
		diag = diag_report(reading->diags, DIAG_ESSAY_HEADING, text,
			"an essay begins with its title");
		diag_help(diag, "write \"# \" and the title on the first line");
		return;
	}
	text = (struct span){file, title.to, source->size};
	record.essay_id = arena_text(reading->arena, name, strlen(name) - 3);
	record.node = arena_one(reading->arena, struct node);
	record.node->kind = NODE_MAP;
	record.node->span = (struct span){file, 0, source->size};
	record.node->count = 2;
	record.node->entries = arena_array(reading->arena, struct node_entry,
		2);
	record.node->entries[0] = (struct node_entry){"title", title,
		text_node(reading, title, source->bytes + title.from,
			title.to - title.from)};
	record.node->entries[1] = (struct node_entry){"text", text,
		text_node(reading, text, source->bytes + text.from,
			text.to - text.from)};
	add_record(reading, record);
}

static int
compare_names(gconstpointer a, gconstpointer b)
{
	return strcmp(*(const char *const *)a, *(const char *const *)b);
}

/* The names in a folder in byte order; NULL and a message if unreadable. */
static GPtrArray *
list_folder(struct reading *reading, const char *path)
{
	GError *error = NULL;
	GDir *dir = g_dir_open(path, 0, &error);
	GPtrArray *names;
	const char *name;

	if (dir == NULL) {
		diag_report(reading->diags, DIAG_UNREADABLE_FILE, SPAN_NOWHERE,
			"the folder \"%s\" cannot be read: %s", path,
			g_strerror(errno));
		g_error_free(error);
		return NULL;
	}
	names = g_ptr_array_new();
	for (name = g_dir_read_name(dir); name != NULL;
		name = g_dir_read_name(dir))
		if (name[0] != '.')
			g_ptr_array_add(names, arena_text(reading->arena, name,
				strlen(name)));
	g_dir_close(dir);
	g_ptr_array_sort(names, compare_names);
	return names;
}

static void
read_folder(struct reading *reading, const char *path, const char *kind,
	int depth);

static void
read_entry(struct reading *reading, const char *path, const char *name,
	const char *kind, int depth)
{
	bool folder = g_file_test(path, G_FILE_TEST_IS_DIR);

	if (folder && (depth >= DEEPEST_FOLDER || g_file_test(join(
		reading->arena, path, "corpus.yaml"), G_FILE_TEST_EXISTS)))
		return;
	if (folder && strcmp(name, "past") == 0 && kind == NULL)
		return;
	if (folder)
		read_folder(reading, path, kind == NULL ? name : kind,
			depth + 1);
	else if (kind == NULL && is_yaml(name))
		read_root_file(reading, path, name);
	else if (kind != NULL && is_yaml(name))
		read_kind_file(reading, path, kind);
	else if (kind != NULL && strcmp(kind, "essay") == 0 &&
		g_str_has_suffix(name, ".md"))
		read_essay(reading, path, name);
}

static void
read_folder(struct reading *reading, const char *path, const char *kind,
	int depth)
{
	GPtrArray *names = list_folder(reading, path);
	guint i;

	if (names == NULL)
		return;
	for (i = 0; i < names->len; i++) {
		const char *name = g_ptr_array_index(names, i);

		read_entry(reading, join(reading->arena, path, name), name,
			kind, depth);
	}
	g_ptr_array_free(names, TRUE);
}

static void
report_missing(struct reading *reading, const char *path)
{
	struct diag *diag;

	diag = diag_report(reading->diags, DIAG_MISSING_CORPUS, SPAN_NOWHERE,
		"there is no corpus at \"%s\": %s", path, g_strerror(errno));
	diag_help(diag, "name the folder of the corpus with -C");
}

struct raw_corpus *
read_corpus(const char *path, struct sources *sources, struct arena *arena,
	struct diags *diags)
{
	struct reading reading = {
		.sources = sources,
		.arena = arena,
		.diags = diags,
		.corpus = arena_one(arena, struct raw_corpus),
		.records = g_array_new(FALSE, TRUE, sizeof(struct raw_record)),
	};
	struct raw_corpus *corpus = reading.corpus;
	struct stat info;
	size_t size;

	corpus->folder = arena_text(arena, path, strlen(path));
	if (stat(path, &info) != 0)
		report_missing(&reading, path);
	else if (S_ISDIR(info.st_mode))
		read_folder(&reading, path, NULL, 0);
	else
		read_root_file(&reading, path, "");
	corpus->found = stat(path, &info) == 0;
	corpus->count = reading.records->len;
	size = sizeof(struct raw_record) * corpus->count;
	corpus->records = arena_alloc(arena, size);
	if (size > 0)
		memcpy(corpus->records, reading.records->data, size);
	g_array_free(reading.records, TRUE);
	return corpus;
}
