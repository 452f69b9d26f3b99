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
	struct span line = source_line(source, 0);
	struct span title = {file, 2, line.to};

	if (line.to < 3 || memcmp(source->bytes, "# ", 2) != 0)
		title = (struct span){file, 0, 0};
	return title;
}

/* An essay is a record whose fields are a heading and what follows it. */
static void
read_essay(struct reading *reading, const char *path)
{
	uint32_t file = read_file(reading, path);
	const struct source *source;
	struct raw_record record = {.kind = "essay", .file = file};
	struct span title, text;
	struct diag *diag;
	const char *bad;
	char *name;

	name = g_path_get_basename(path);
	record.essay_id = arena_text(reading->arena, name, strlen(name) - 3);
	g_free(name);
	if (file == 0) {
		lose(reading, record.kind, record.essay_id, file);
		return;
	}
	source = sources_get(reading->sources, file);
	if (!g_utf8_validate_len(source->bytes, source->size, &bad)) {
		text = (struct span){file, (uint32_t)(bad - source->bytes), 0};
		text.to = text.from + 1;
		diag_report(reading->diags, DIAG_NOT_UTF8, text,
			"the essay is not UTF-8 text");
		lose(reading, record.kind, record.essay_id, file);
		return;
	}
	title = find_heading(source, file);
	if (title.to == 0) {
		text = source_line(source, 0);
		text.file = file;
		diag = diag_report(reading->diags, DIAG_ESSAY_HEADING, text,
			"an essay begins with its title");
		diag_help(diag, "write \"# \" and the title on the first line");
		lose(reading, record.kind, record.essay_id, file);
		return;
	}
	text = (struct span){file, title.to, source->size};
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
	struct corpus_files files = {&alone, 1};
	size_t before = diags_count(diags, SEVERITY_ERROR), i;
	struct stat info;

	reading.corpus->found = stat(path, &info) == 0;
	if (!reading.corpus->found) {
		report_missing(&reading, path);
		return end(&reading);
	}
	if (S_ISDIR(info.st_mode))
		files = corpus_files(path, arena, diags);
	if (diags_count(diags, SEVERITY_ERROR) > before)
		lose(&reading, NULL, NULL, 0);
	for (i = 0; i < files.count; i++)
		read_one(&reading, &files.items[i]);
	reading.corpus->root = NULL;
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
