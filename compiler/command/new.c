/*
 * hangtab new: a record to fill in. It goes to standard output, or into its
 * place in the corpus, where nothing is ever written over.
 */
#include <errno.h>
#include <stdio.h>
#include <string.h>

#include "command/run.h"
#include "read/past.h"
#include "shape/forms.h"
#include "shape/nearest.h"
#include "write/draft.h"

static gboolean into_corpus;
static char *from;

const GOptionEntry new_entries[] = {
	{"write", 'w', 0, G_OPTION_ARG_NONE, &into_corpus,
		"write it into its folder of the corpus", NULL},
	{"from", 0, 0, G_OPTION_ARG_FILENAME, &from,
		"make records of the rows of a spreadsheet", "FILE.csv"},
	{0},
};

static int
say_unknown(const struct schema *schema, const char *name)
{
	struct nearest nearest = nearest_to(name);
	enum confidence sure;
	const char *found;
	unsigned i;

	for (i = 0; i < schema->count; i++)
		nearest_offer(&nearest, schema->kinds[i].name);
	found = nearest_found(&nearest, &sure);
	if (found != NULL)
		return command_usage("there is no kind of record \"%s\"; did "
			"you mean \"%s\"?", name, found);
	return command_usage("there is no kind of record \"%s\"; the kinds "
		"are the files of schema/", name);
}

/* Whether an id is free: now, formerly, and in the last edition. */
static bool
is_free(const struct run *run, const struct past *past,
	const struct kind *kind, const char *id)
{
	size_t i;

	if (run->names != NULL && names_find(run->names, kind, id) != NULL)
		return false;
	for (i = 0; i < past->count; i++)
		if (strcmp(past->ids[i].kind, kind->name) == 0 &&
			strcmp(past->ids[i].id, id) == 0)
			return false;
	return true;
}

/* The wanted id, or that with the first number that makes it free. */
static const char *
free_id(const struct run *run, const struct past *past,
	const struct kind *kind, const char *wanted)
{
	const char *id = wanted;
	unsigned number;

	for (number = 2; !is_free(run, past, kind, id); number++)
		id = arena_print(run->arena, "%s-%u", wanted, number);
	return id;
}

/* The id to use; NULL after saying what is wrong with the one given. */
static const char *
choose_id(const struct run *run, const struct kind *kind, const char *given,
	const struct past *past)
{
	enum confidence sure;
	const char *meant;

	if (given == NULL)
		return free_id(run, past, kind, arena_print(run->arena,
			"new-%s", kind->name));
	if (!shape_is_id(given, strlen(given))) {
		meant = forms_id(run->arena, given, &sure);
		command_usage("\"%s\" cannot be an id: use lower-case letters, "
			"digits and hyphens%s%s", given, meant == NULL ? "" :
			", such as ", meant == NULL ? "" : meant);
		return NULL;
	}
	if (is_free(run, past, kind, given))
		return given;
	command_usage("there is, or was, a %s \"%s\"; \"%s\" is free",
		kind->title, given, free_id(run, past, kind, given));
	return NULL;
}

static bool
is_essay(const struct kind *kind)
{
	return strcmp(kind->name, "essay") == 0;
}

static int
write_new(const char *path, const GString *text)
{
	char *folder = g_path_get_dirname(path);
	FILE *file = NULL;
	bool done;

	if (g_mkdir_with_parents(folder, 0777) == 0)
		file = fopen(path, "wxe");
	g_free(folder);
	if (file == NULL && errno == EEXIST)
		return command_usage("\"%s\" is there already, and nothing "
			"is written over", path);
	done = file != NULL && fwrite(text->str, 1, text->len, file) ==
		text->len;
	if (file != NULL && fclose(file) != 0)
		done = false;
	if (done) {
		printf("%s\n", path);
		return EXIT_DONE;
	}
	fprintf(stderr, "hangtab: \"%s\" cannot be written: %s\n", path,
		g_strerror(errno));
	return EXIT_SYSTEM;
}

/* Into KIND/NAME of the corpus, or to standard output. */
static int
put(const struct options *options, const struct kind *kind, const char *name,
	const GString *text)
{
	char *path;
	int status;

	if (!into_corpus) {
		fwrite(text->str, 1, text->len, stdout);
		return EXIT_DONE;
	}
	path = g_strdup_printf("%s/%s/%s.%s", options->corpus, kind->name,
		name, is_essay(kind) && from == NULL ? "md" : "yaml");
	status = write_new(path, text);
	g_free(path);
	return status;
}

static int
make_blank(const struct run *run, const struct options *options,
	const struct kind *kind, const char *given)
{
	struct past past = read_past(options->corpus, run->sources,
		run->arena, run->diags);
	const char *id = choose_id(run, kind, given, &past);
	GString *text;
	int status;

	if (id == NULL)
		return EXIT_USAGE;
	text = g_string_new(NULL);
	if (is_essay(kind))
		g_string_append(text, "# Title\n\nText.\n");
	else if (kind->chapter == CHAPTER_PRIVATE) {
		g_string_append_printf(text, "%s:\n", kind->name);
		draft_record(kind, id, true, text);
	} else
		draft_record(kind, id, false, text);
	status = put(options, kind, id, text);
	g_string_free(text, TRUE);
	return status;
}

static int
make(const struct run *run, const struct options *options, char **words)
{
	const struct kind *kind = schema_kind(run->schema, words[0]);

	if (kind == NULL)
		return say_unknown(run->schema, words[0]);
	if (into_corpus && kind->chapter == CHAPTER_PRIVATE)
		return command_usage("\"%s\" is private and has no place in a "
			"corpus; leave out -w, and keep it in a file of your "
			"own", kind->name);
	return make_blank(run, options, kind, words[1]);
}

int
command_new(const struct options *options, char **words)
{
	struct run *run;
	int status;

	if (words[0] == NULL || (words[1] != NULL && words[2] != NULL))
		return command_usage("new takes a kind of record, such as "
			"cardback, and perhaps an id");
	run = run_begin(options);
	/* Errors in the corpus keep nobody from adding to it. */
	if (run->raw != NULL && run->raw->found)
		status = make(run, options, words);
	else
		status = run_report(run, options, false);
	run_end(run);
	return status;
}
