/*
 * hangtab new: a record to fill in. It goes to standard output, or into its
 * place in the corpus, where nothing is ever written over.
 */
#include <errno.h>
#include <stdio.h>
#include <string.h>

#include "command/new.h"
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

bool
new_is_free(const struct newcomer *new, const char *id)
{
	const struct past *past = new->past;
	size_t i;

	if (new->run->names != NULL &&
		names_find(new->run->names, new->kind, id) != NULL)
		return false;
	for (i = 0; i < past->count; i++)
		if (strcmp(past->ids[i].kind, new->kind->name) == 0 &&
			strcmp(past->ids[i].id, id) == 0)
			return false;
	return true;
}

/* The wanted id, or that with the first number that makes it free. */
static const char *
free_id(const struct newcomer *new, const char *wanted)
{
	const char *id = wanted;
	unsigned number;

	for (number = 2; !new_is_free(new, id); number++)
		id = arena_print(new->run->arena, "%s-%u", wanted, number);
	return id;
}

/* The id to use; NULL after saying what is wrong with the one given. */
static const char *
choose_id(const struct newcomer *new, const char *given)
{
	struct arena *arena = new->run->arena;
	enum confidence sure;
	const char *meant;

	if (given == NULL)
		return free_id(new, arena_print(arena, "new-%s",
			new->kind->name));
	if (!shape_is_id(given, strlen(given))) {
		meant = forms_id(arena, given, &sure);
		command_usage("\"%s\" cannot be an id: use lower-case letters, "
			"digits and hyphens%s%s", given, meant == NULL ? "" :
			", such as ", meant == NULL ? "" : meant);
		return NULL;
	}
	if (new_is_free(new, given))
		return given;
	command_usage("there is, or was, a %s \"%s\"; \"%s\" is free",
		new->kind->title, given, free_id(new, given));
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

int
new_put(const struct newcomer *new, const char *name, const GString *text)
{
	char *path;
	int status;

	if (!new->into_corpus) {
		fwrite(text->str, 1, text->len, stdout);
		return EXIT_DONE;
	}
	path = g_strdup_printf("%s/%s/%s.%s", new->options->corpus,
		new->kind->name, name, is_essay(new->kind) ? "md" : "yaml");
	status = write_new(path, text);
	g_free(path);
	return status;
}

static int
make_blank(const struct newcomer *new, const char *given)
{
	bool own = new->kind->chapter == CHAPTER_PRIVATE;
	const char *id = choose_id(new, given);
	GString *text;
	int status;

	if (id == NULL)
		return EXIT_USAGE;
	text = g_string_new(NULL);
	if (own)
		g_string_append_printf(text, "%s:\n", new->kind->name);
	if (is_essay(new->kind))
		g_string_append(text, "# Title\n\nText.\n");
	else
		draft_record(new->kind, id, own, text);
	status = new_put(new, id, text);
	g_string_free(text, TRUE);
	return status;
}

static int
make(const struct run *run, const struct options *options, char **words)
{
	const struct kind *kind = schema_kind(run->schema, words[0]);
	struct newcomer new = {run, options, kind, NULL, into_corpus};
	struct past past;

	if (kind == NULL)
		return say_unknown(run->schema, words[0]);
	if (into_corpus && kind->chapter == CHAPTER_PRIVATE)
		return command_usage("\"%s\" is private and has no place in a "
			"corpus; leave out -w, and keep it in a file of your "
			"own", kind->name);
	if (from != NULL && is_essay(kind))
		return command_usage("essays are written in files of their "
			"own, not in a spreadsheet");
	past = read_past(options->corpus, run->sources, run->arena,
		run->diags);
	new.past = &past;
	return from == NULL ? make_blank(&new, words[1]) :
		new_rows(&new, from);
}

int
command_new(const struct options *options, char **words)
{
	struct run *run;
	int status;

	if (words[0] == NULL || (words[1] != NULL && words[2] != NULL))
		return command_usage("new takes a kind of record, such as "
			"cardback, and perhaps an id");
	if (from != NULL && words[1] != NULL)
		return command_usage("with --from, ids are made of the names "
			"in the spreadsheet, or stand in a column \"id\"");
	run = run_begin(options);
	/* Errors in the corpus keep nobody from adding to it. */
	if (run->raw != NULL && run->raw->found)
		status = make(run, options, words);
	else
		status = run_report(run, options, false);
	run_end(run);
	return status;
}
