/*
 * Reads the files of a corpus, by what each is: records of one kind, of
 * several, or an essay.
 */
#include "read/corpus.h"

#include <errno.h>
#include <string.h>
#include <sys/stat.h>

#include "read/yaml.h"

struct reading {
	struct sources *sources;
	struct arena *arena;
	struct diags *diags;
	struct raw_corpus *corpus;
	GArray *records;
	GArray *lost;
};

/* Notes what the message just reported has cost us. */
static void
lose(struct reading *reading, const char *kind, const char *id, uint32_t file)
{
	struct raw_lost lost = {kind, id, file, diags_last(reading->diags)};

	g_array_append_val(reading->lost, lost);
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

/* What stands in a YAML file, by where the file is. */
static void
read_records(struct reading *reading, const struct corpus_file *which)
{
	size_t before = diags_count(reading->diags, SEVERITY_ERROR);
	uint32_t file = read_file(reading, which->path);
	struct node *root = NULL;

	if (file != 0)
		root = read_yaml(reading->sources, file, reading->arena,
			reading->diags);
	reading->corpus->root = root;
	if (root == NULL &&
		diags_count(reading->diags, SEVERITY_ERROR) > before)
		lose(reading, which->kind, NULL, file);
	if (root == NULL)
		return;
	if (corpus_file_is_settings(which))
		reading->corpus->settings = root;
	else if (which->kind == NULL)
		read_mixed(reading, file, root);
	else
		add_records(reading, (struct raw_record){
			.kind = which->kind,
			.file = file,
			.node = root,
		});
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
	bool marked = source->size >= 3 &&
		memcmp(source->bytes, "\xEF\xBB\xBF", 3) == 0;
	uint32_t from = marked ? 3 : 0;
	struct span title = {file, 0, 0};
	const char *at = source->bytes + from;

	if (strncmp(at, "# ", 2) != 0)
		return title;
	title.from = from + 2 + (uint32_t)strspn(at + 2, " ");
	title.to = source_line(source, 0).to;
	while (title.to > title.from &&
		strchr(" \t\r", source->bytes[title.to - 1]) != NULL)
		title.to--;
	if (title.to <= title.from)
		title.from = title.to = 0;
	return title;
}

/* What keeps a file from being an essay, or nothing; its title in *title. */
static bool
check_essay(struct reading *reading, const struct source *source,
	uint32_t file, struct span *title)
{
	struct span span = {file, 0, source_line(source, 0).to};
	struct diag *diag;
	const char *bad;

	if (!g_utf8_validate_len(source->bytes, source->size, &bad)) {
		span.from = (uint32_t)(bad - source->bytes);
		span.to = span.from + 1;
		diag = diag_report(reading->diags, DIAG_NOT_UTF8, span,
			"the file is not UTF-8 text: byte 0x%02X cannot stand "
			"here", (unsigned char)*bad);
		diag_help(diag, "save the file as UTF-8 in your editor");
		return false;
	}
	*title = find_heading(source, file);
	if (title->to > 0)
		return true;
	diag = diag_report(reading->diags, DIAG_ESSAY_HEADING, span,
		"an essay begins with its title");
	diag_help(diag, "write \"# \" and the title on the first line");
	return false;
}

static void
set_entry(struct reading *reading, struct node_entry *entry, const char *key,
	const struct source *source, struct span span)
{
	*entry = (struct node_entry){key, span, text_node(reading, span,
		source->bytes + span.from, span.to - span.from)};
}

/* An essay is a record whose fields are a heading and what follows it. */
static struct node *
essay_node(struct reading *reading, const struct source *source,
	struct span title)
{
	struct node *node = arena_one(reading->arena, struct node);

	node->kind = NODE_MAP;
	node->span = (struct span){title.file, 0, source->size};
	node->count = 2;
	node->entries = arena_array(reading->arena, struct node_entry, 2);
	set_entry(reading, &node->entries[0], "title", source, title);
	set_entry(reading, &node->entries[1], "text", source,
		(struct span){title.file, title.to, source->size});
	return node;
}

static void
read_essay(struct reading *reading, const char *path)
{
	uint32_t file = read_file(reading, path);
	const struct source *source = sources_get(reading->sources, file);
	struct raw_record record = {.kind = "essay", .file = file};
	char *name = g_path_get_basename(path);
	struct span title;

	record.essay_id = arena_text(reading->arena, name, strlen(name) - 3);
	g_free(name);
	if (source == NULL ||
		!check_essay(reading, source, file, &title)) {
		lose(reading, record.kind, record.essay_id, file);
		return;
	}
	record.node = essay_node(reading, source, title);
	add_record(reading, record);
}

static void
report_missing(struct reading *reading, const char *path)
{
	struct diag *diag;

	diag = diag_report(reading->diags, DIAG_MISSING_CORPUS, SPAN_NOWHERE,
		"there is no corpus at \"%s\": %s", path, g_strerror(errno));
	diag_help(diag, "name the folder of the corpus with -C");
}

static void
read_one(struct reading *reading, const struct corpus_file *file)
{
	if (corpus_file_is_essay(file))
		read_essay(reading, file->path);
	else
		read_records(reading, file);
}

static struct reading
begin(const char *path, struct sources *sources, struct arena *arena,
	struct diags *diags)
{
	struct reading reading = {
		.sources = sources,
		.arena = arena,
		.diags = diags,
		.corpus = arena_one(arena, struct raw_corpus),
		.records = g_array_new(FALSE, TRUE, sizeof(struct raw_record)),
		.lost = g_array_new(FALSE, TRUE, sizeof(struct raw_lost)),
	};

	reading.corpus->folder = arena_text(arena, path, strlen(path));
	return reading;
}

/* An array's items as they are to stay, in the arena. */
static void *
settle(struct arena *arena, GArray *array, size_t *count)
{
	size_t size = array->len * (size_t)g_array_get_element_size(array);
	void *items = arena_alloc(arena, size);

	*count = array->len;
	if (size > 0)
		memcpy(items, array->data, size);
	g_array_free(array, TRUE);
	return items;
}

static struct raw_corpus *
end(struct reading *reading)
{
	struct raw_corpus *corpus = reading->corpus;

	corpus->records = settle(reading->arena, reading->records,
		&corpus->count);
	corpus->lost = settle(reading->arena, reading->lost,
		&corpus->lost_count);
	return corpus;
}

struct raw_corpus *
read_corpus(const char *path, struct sources *sources, struct arena *arena,
	struct diags *diags)
{
	struct reading reading = begin(path, sources, arena, diags);
	struct corpus_file alone = {path, NULL};
	struct corpus_files files = {.items = &alone, .count = 1};
	struct stat info;
	size_t i;

	reading.corpus->found = stat(path, &info) == 0;
	if (!reading.corpus->found) {
		report_missing(&reading, path);
		return end(&reading);
	}
	if (S_ISDIR(info.st_mode))
		files = corpus_files(path, arena, diags);
	if (files.incomplete)
		lose(&reading, NULL, NULL, 0);
	for (i = 0; i < files.count; i++)
		read_one(&reading, &files.items[i]);
	reading.corpus->root = NULL;
	reading.corpus->tables = files.tables;
	reading.corpus->table_count = files.table_count;
	reading.corpus->strays = files.strays;
	reading.corpus->stray_count = files.stray_count;
	return end(&reading);
}

struct raw_corpus *
read_corpus_file(const struct corpus_file *file, struct sources *sources,
	struct arena *arena, struct diags *diags)
{
	struct reading reading = begin(file->path, sources, arena, diags);

	read_one(&reading, file);
	reading.corpus->found = true;
	return end(&reading);
}
