/*
 * hangtab tidy: files of records in their canonical layout. Each file is read,
 * laid out and written by itself, so that one with errors keeps no other from
 * being tidied.
 */
#include <stdio.h>
#include <string.h>
#include <sys/stat.h>

#include "base/difference.h"
#include "command/upgrade.h"
#include "shape/shape.h"
#include "write/tidy/tidy.h"

static gboolean only_check;
static gboolean show_diff;
static gboolean upgrade;

const GOptionEntry tidy_entries[] = {
	{"check", 0, 0, G_OPTION_ARG_NONE, &only_check,
		"name the files that are not tidy, and write nothing", NULL},
	{"diff", 0, 0, G_OPTION_ARG_NONE, &show_diff,
		"show what would change, and write nothing", NULL},
	{"upgrade", 0, 0, G_OPTION_ARG_NONE, &upgrade,
		"bring a corpus of an older format up to this one", NULL},
	{0},
};

struct tidying {
	const struct options *options;
	const struct schema *schema;
	unsigned files;
	unsigned differ;
	unsigned left;		/* alone, because of errors */
	bool failed;		/* the system did */
};

static struct bytes
bytes_of(const char *bytes, size_t size)
{
	return (struct bytes){bytes, size};
}

/* Says or writes how a file differs from its layout. */
static void
settle(struct tidying *tidying, const struct source *source,
	const GString *text)
{
	struct bytes old = bytes_of(source->bytes, source->size);
	struct bytes new = bytes_of(text->str, text->len);
	char *why = NULL;

	if (old.size == new.size && memcmp(old.bytes, new.bytes, old.size) == 0)
		return;
	tidying->differ++;
	if (show_diff) {
		difference_print(source->path, old, new, stdout);
		return;
	}
	if (!only_check && !replace_file(source->path, old, new, &why)) {
		fprintf(stderr, "hangtab: \"%s\" cannot be written: %s\n",
			source->path, why);
		g_free(why);
		tidying->failed = true;
		return;
	}
	printf("%s\n", source->path);
}

static void
tidy_file(struct tidying *tidying, const struct corpus_file *file,
	struct sources *sources, struct arena *arena, struct diags *diags)
{
	struct raw_corpus *raw;
	const char *why = NULL;
	GString *text;

	raw = read_corpus_file(file, sources, arena, diags);
	shape_corpus(raw, tidying->schema, true, sources, arena, diags);
	if (diags_count(diags, SEVERITY_ERROR) > 0) {
		fprintf(stderr, "%s: left alone, since it has errors:\n",
			file->path);
		diags_sort(diags);
		diags_print_text(diags, (struct diag_style){
			tidying->options->colour, 3}, stderr);
		tidying->left++;
		return;
	}
	if (raw->root == NULL)
		return;
	text = tidy_layout(file, raw->root, sources, tidying->schema, &why);
	if (text == NULL) {
		fprintf(stderr, "%s: left alone, since tidying would change "
			"%s\n", file->path, why);
		tidying->left++;
		return;
	}
	settle(tidying, sources_get(sources, raw->root->span.file), text);
	g_string_free(text, TRUE);
}

/* Essays are prose, and have no layout but their own. */
static void
tidy_one(struct tidying *tidying, const struct corpus_file *file)
{
	struct arena *arena;
	struct sources *sources;
	struct diags *diags;

	if (corpus_file_is_essay(file))
		return;
	arena = arena_new();
	sources = sources_new();
	diags = diags_new(sources);
	tidying->files++;
	tidy_file(tidying, file, sources, arena, diags);
	diags_free(diags);
	sources_free(sources);
	arena_free(arena);
}

static bool
is_folder(const char *path)
{
	struct stat info;

	return stat(path, &info) == 0 && S_ISDIR(info.st_mode);
}

static int
say_no_corpus(const char *path)
{
	return command_usage("there is no folder \"%s\"; name the corpus with "
		"-C, or files", path);
}

static void
tidy_all(struct tidying *tidying, struct corpus_files files)
{
	size_t i;

	for (i = 0; i < files.count; i++)
		tidy_one(tidying, &files.items[i]);
}

/* The files and folders named, or else the corpus. */
static void
tidy_files(struct tidying *tidying, char **words, struct arena *arena,
	struct diags *diags)
{
	const char *corpus = tidying->options->corpus;
	struct corpus_file file;
	size_t i;

	if (words[0] == NULL)
		tidy_all(tidying, corpus_files(corpus, arena, diags));
	for (i = 0; words[i] != NULL; i++) {
		if (is_folder(words[i])) {
			tidy_all(tidying, corpus_files_in(words[i], corpus,
				arena, diags));
			continue;
		}
		file = corpus_file_at(words[i], corpus, arena);
		tidy_one(tidying, &file);
	}
}

static int
conclude(const struct tidying *tidying)
{
	bool dry = only_check || show_diff;

	if (tidying->differ > 0 || tidying->left > 0 || !show_diff)
		fprintf(stderr, "%u file%s, %u %s, %u left alone\n",
			tidying->files, tidying->files == 1 ? "" : "s",
			tidying->differ, dry ? "not tidy" : "tidied",
			tidying->left);
	if (tidying->failed)
		return EXIT_SYSTEM;
	return tidying->left > 0 || (dry && tidying->differ > 0) ?
		EXIT_FINDINGS : EXIT_DONE;
}

static int
tidy(const struct options *options, char **words)
{
	struct arena *arena = arena_new();
	struct sources *sources = sources_new();
	struct diags *diags = diags_new(sources);
	struct tidying tidying = {.options = options};
	int status = EXIT_FINDINGS;

	tidying.schema = schema_load(options->schema, sources, arena, diags);
	if (diags_count(diags, SEVERITY_ERROR) == 0) {
		tidy_files(&tidying, words, arena, diags);
		status = conclude(&tidying);
	}
	if (diags_count(diags, SEVERITY_ERROR) > 0) {
		diags_sort(diags);
		diags_print_text(diags, (struct diag_style){options->colour,
			(size_t)options->most_errors}, stderr);
		status = EXIT_FINDINGS;
	}
	diags_free(diags);
	sources_free(sources);
	arena_free(arena);
	return status;
}

int
command_tidy(const struct options *options, char **words)
{
	if (upgrade && words[0] != NULL)
		return command_usage("tidy --upgrade takes a whole corpus, not "
			"files");
	if (words[0] == NULL && !is_folder(options->corpus))
		return say_no_corpus(options->corpus);
	if (upgrade)
		return upgrade_corpus(options, only_check || show_diff);
	return tidy(options, words);
}
