/*
 * Upgrades are a table: what leads from one format to the next. A step edits
 * the files of the corpus; the number in corpus.yaml is written after it, so
 * that a step that was broken off is begun again, and must bear that.
 */
#include "command/upgrade.h"

#include <errno.h>
#include <limits.h>
#include <stdio.h>
#include <string.h>
#include <sys/stat.h>

#include "base/replace.h"
#include "shape/shape.h"

struct upgrade {
	const char *corpus;
	const char *path;		/* of corpus.yaml */
	bool there;			/* that file */
	struct sources *sources;
	struct arena *arena;
	struct diags *diags;
	const struct node *settings;	/* its tree, or NULL */
};

struct step {
	int from;		/* the format that it leads on by one */
	const char *says;
	/* Edits files; false after a message. NULL: there is no need. */
	bool (*apply)(struct upgrade *upgrade);
};

/* Format 0 is a corpus that does not say which format it is in. */
static const struct step steps[] = {
	{0, "corpus.yaml says in which format the corpus is", NULL},
};

static bool
say_failure(const struct upgrade *upgrade, const char *why)
{
	fprintf(stderr, "hangtab: \"%s\" cannot be written: %s\n",
		upgrade->path, why);
	return false;
}

/* Something that is no number is as strange as a number yet to come. */
static int
format_of(const struct upgrade *upgrade)
{
	const struct node *format = node_get(upgrade->settings, "format");
	size_t digits;

	if (format == NULL)
		return 0;
	if (format->kind != NODE_SCALAR)
		return INT_MAX;
	digits = strspn(format->text, "0123456789");
	if (digits == 0 || digits > 6 || format->text[digits] != '\0')
		return INT_MAX;
	return (int)g_ascii_strtoll(format->text, NULL, 10);
}

/* Reads corpus.yaml, which need not be there. */
static void
read_settings(struct upgrade *upgrade)
{
	struct corpus_file file = {upgrade->path, NULL};
	struct raw_corpus *raw;
	struct stat info;

	upgrade->settings = NULL;
	upgrade->there = lstat(upgrade->path, &info) == 0;
	if (!upgrade->there)
		return;
	raw = read_corpus_file(&file, upgrade->sources, upgrade->arena,
		upgrade->diags);
	upgrade->settings = raw->root;
	/* A newer format, or something else altogether, is reported there. */
	if (format_of(upgrade) > FORMAT_NEWEST)
		shape_corpus(raw, &(struct schema){0}, true, upgrade->sources,
			upgrade->arena, upgrade->diags);
}

/* The settings with another number, or with a line for it. */
static GString *
with_format(const struct upgrade *upgrade, const struct source *source,
	int number)
{
	const struct node *format = node_get(upgrade->settings, "format");
	GString *text = g_string_new_len(source->bytes, source->size);
	struct span span = {0, source->size, source->size};
	const char *before = "format: ", *after = "\n";
	char *written;

	if (format != NULL) {
		span = format->span;
		before = after = "";
	} else if (upgrade->settings != NULL) {
		span.from = span.to = upgrade->settings->span.from;
		if (source->bytes[span.from] == '{') {
			span.from = ++span.to;
			after = ", ";
		}
	}
	written = g_strdup_printf("%s%d%s", before, number, after);
	g_string_erase(text, span.from, (gssize)(span.to - span.from));
	g_string_insert(text, span.from, written);
	g_free(written);
	return text;
}

static bool
write_new(const struct upgrade *upgrade, int number)
{
	FILE *file = fopen(upgrade->path, "wxe");
	bool done = file != NULL &&
		fprintf(file, "format: %d\n", number) > 0;

	if (file != NULL && fclose(file) != 0)
		done = false;
	return done || say_failure(upgrade, g_strerror(errno));
}

static bool
write_format(struct upgrade *upgrade, int number)
{
	const struct source *source;
	GString *text;
	char *why = NULL;
	bool done;

	if (!upgrade->there)
		return write_new(upgrade, number);
	source = sources_get(upgrade->sources,
		sources_count(upgrade->sources));
	text = with_format(upgrade, source, number);
	done = replace_file(upgrade->path, (struct bytes){source->bytes,
		source->size}, (struct bytes){text->str, text->len}, &why);
	if (!done)
		say_failure(upgrade, why);
	g_free(why);
	g_string_free(text, TRUE);
	return done;
}

static const struct step *
step_from(int format)
{
	size_t i;

	for (i = 0; i < G_N_ELEMENTS(steps); i++)
		if (steps[i].from == format)
			return &steps[i];
	return NULL;
}

static int
climb(struct upgrade *upgrade, bool dry)
{
	int format = format_of(upgrade);
	const struct step *step;

	if (format == FORMAT_NEWEST) {
		printf("the corpus is in format %d, the newest: there is "
			"nothing to upgrade\n", format);
		return EXIT_DONE;
	}
	for (; format < FORMAT_NEWEST; format++) {
		step = step_from(format);
		if (step == NULL) {
			fprintf(stderr, "hangtab: there is no way from format "
				"%d\n", format);
			return EXIT_FINDINGS;
		}
		printf("format %d: %s\n", format + 1, step->says);
		if (dry)
			continue;
		if ((step->apply != NULL && !step->apply(upgrade)) ||
			!write_format(upgrade, format + 1))
			return EXIT_SYSTEM;
		read_settings(upgrade);
	}
	return dry ? EXIT_FINDINGS : EXIT_DONE;
}

int
upgrade_corpus(const struct options *options, bool dry)
{
	struct upgrade upgrade = {
		.corpus = options->corpus,
		.sources = sources_new(),
		.arena = arena_new(),
	};
	int status = EXIT_FINDINGS;

	upgrade.diags = diags_new(upgrade.sources);
	upgrade.path = arena_print(upgrade.arena, "%s/corpus.yaml",
		options->corpus);
	read_settings(&upgrade);
	if (diags_count(upgrade.diags, SEVERITY_ERROR) == 0)
		status = climb(&upgrade, dry);
	else
		diags_print_text(upgrade.diags, (struct diag_style){
			options->colour, 0}, stderr);
	diags_free(upgrade.diags);
	sources_free(upgrade.sources);
	arena_free(upgrade.arena);
	return status;
}
