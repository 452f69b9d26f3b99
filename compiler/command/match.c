/*
 * hangtab match: which record each row of a collector's spreadsheet is about,
 * and the spreadsheet again with that beside every row.
 */
#include <stdio.h>
#include <string.h>
#include <unistd.h>

#include "base/output.h"
#include "base/private.h"
#include "command/matches.h"

static gboolean ask;
static char *scheme;

const GOptionEntry match_entries[] = {
	{"ask", 0, 0, G_OPTION_ARG_NONE, &ask,
		"ask at the terminal what divides the candidates of open rows",
		NULL},
	{"scheme", 0, 0, G_OPTION_ARG_STRING, &scheme,
		"the scheme that the labels are of (the one in use)",
		"SCHEME"},
	{0},
};

static const char suffix[] = ".matched.csv";

/* Where the resolved file goes: beside the spreadsheet, or over itself. */
static char *
choose_place(const struct options *options, const char *path,
	const struct matches *matches)
{
	const char *dot = strrchr(path, '.');

	if (options->out_given)
		return g_strdup(options->out);
	if (matches->resolved)
		return g_strdup(path);
	if (dot == NULL || strchr(dot, '/') != NULL)
		return g_strconcat(path, suffix, NULL);
	return g_strdup_printf("%.*s%s", (int)(dot - path), path, suffix);
}

/* Whether what stands at the place may go; says so if it may not. */
static bool
may_replace(const char *place, const char *path, bool resolved)
{
	char *bytes;
	gsize size;
	int edited;

	if (!g_file_test(place, G_FILE_TEST_EXISTS) ||
		(resolved && strcmp(place, path) == 0) ||
		!g_file_get_contents(place, &bytes, &size, NULL))
		return true;
	edited = matches_edited(bytes, size);
	g_free(bytes);
	if (edited == 0)
		return true;
	if (edited < 0)
		fprintf(stderr, "hangtab: \"%s\" is there already, and was "
			"not written by match; name another file with -o\n",
			place);
	else
		fprintf(stderr, "hangtab: in \"%s\" %d %s settled or edited "
			"by hand, and nothing was written over it\n"
			"  hangtab match %s   keeps what you did there\n"
			"  -o FILE            writes another file\n", place,
			edited, edited == 1 ? "row was" : "rows were", place);
	return false;
}

static int
write_matches(const struct options *options, const char *path,
	struct matches *matches)
{
	char *place = choose_place(options, path, matches);
	GError *error = NULL;
	int status = EXIT_DONE;
	GString *text;

	if (!may_replace(place, path, matches->resolved)) {
		g_free(place);
		return EXIT_USAGE;
	}
	text = matches_write(matches);
	if (private_write(place, options->corpus, text->str, text->len, true,
		&error)) {
		matches_print(matches, place, options->format);
	} else {
		fprintf(stderr, "hangtab: %s\n", error->message);
		status = g_error_matches(error, OUTPUT_ERROR, OUTPUT_REFUSED) ?
			EXIT_USAGE : EXIT_SYSTEM;
		g_clear_error(&error);
	}
	g_string_free(text, TRUE);
	g_free(place);
	return status;
}

/* The scheme that labels are to be read in; false if there is none such. */
static bool
find_scheme(const struct run *run, const struct record **found)
{
	const struct kind *kind = schema_kind(run->schema, "scheme");
	struct nearest nearest = nearest_to(scheme == NULL ? "" : scheme);

	*found = NULL;
	if (scheme == NULL)
		return true;
	*found = names_find(run->names, kind, scheme);
	if (*found != NULL)
		return true;
	names_nearest(run->names, kind, &nearest);
	fprintf(stderr, "hangtab: there is no scheme \"%s\"", scheme);
	if (nearest.best != NULL)
		fprintf(stderr, "; did you mean \"%s\"?", nearest.best);
	fputc('\n', stderr);
	return false;
}

static int
match(const struct options *options, const struct run *run, const char *path,
	const struct sheet *sheet)
{
	struct matches matches = {
		.run = run,
		.arena = run->arena,
		.sheet = sheet,
	};
	const struct record *found;
	int status;

	if (!find_scheme(run, &found))
		return EXIT_USAGE;
	matches.matcher = matcher_new(run->model, found, run->arena);
	matches_begin(&matches);
	matches_run(&matches);
	if (ask)
		matches_ask(&matches);
	status = write_matches(options, path, &matches);
	matches_release(&matches);
	matcher_free(matches.matcher);
	return status;
}

int
command_match(const struct options *options, char **words)
{
	GError *error = NULL;
	struct run *run;
	char *bytes;
	gsize size;
	int status;

	if (words[0] == NULL || words[1] != NULL)
		return command_usage("match takes one spreadsheet, saved as "
			"CSV");
	if (ask && isatty(STDIN_FILENO) == 0)
		return command_usage("--ask needs a terminal to ask at");
	if (!g_file_get_contents(words[0], &bytes, &size, &error)) {
		fprintf(stderr, "hangtab: %s\n", error->message);
		g_clear_error(&error);
		return EXIT_USAGE;
	}
	run = run_begin(options);
	if (run_sound(run))
		status = match(options, run, words[0], sheet_read(bytes, size,
			run->arena));
	else
		status = run_report(run, options, false);
	g_free(bytes);
	run_end(run);
	return status;
}
