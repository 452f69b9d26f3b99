/*
 * hangtab check: is the corpus sound? Prints everything that is wrong.
 */
#include <stdio.h>
#include <string.h>

#include "command/mend.h"
#include "write/dump.h"

/* Prints an intermediate form, for tests and for developers. */
static int
dump(const struct run *run, const char *stage)
{
	enum dump_stage wanted = dump_stage_named(stage);

	switch (wanted) {
	case DUMP_READ:
		if (run->raw != NULL)
			dump_read(run->raw, run->sources, stdout);
		break;
	case DUMP_LINK:
		if (run->records != NULL)
			dump_records(run->records, stdout);
		break;
	case DUMP_MODEL:
		if (run->model != NULL)
			dump_model(run->model, stdout);
		break;
	case DUMP_BUYER:
		if (run->model != NULL)
			dump_buyer(run->model, stdout);
		break;
	case DUMP_NONE:
		return command_usage("there is no stage \"%s\" to dump; there "
			"are read, link, model and buyer", stage);
	}
	return EXIT_DONE;
}

static char *mend;
static gboolean mending, diff, strict;

static gboolean
take_mend(const gchar *name, const gchar *value, gpointer data, GError **error)
{
	(void)name;
	(void)data;
	mending = TRUE;
	g_free(mend);
	mend = g_strdup(value == NULL ? "safe" : value);
	if (strcmp(mend, "safe") == 0 || strcmp(mend, "probable") == 0)
		return TRUE;
	g_set_error(error, G_OPTION_ERROR, G_OPTION_ERROR_BAD_VALUE,
		"--mend is safe or probable, not \"%s\"", mend);
	return FALSE;
}

const GOptionEntry check_entries[] = {
	{"mend", 0, G_OPTION_FLAG_OPTIONAL_ARG, G_OPTION_ARG_CALLBACK,
		(gpointer)(uintptr_t)take_mend, "apply the mends that are "
		"safe; --mend=probable also the nearest names", "[=SURE]"},
	{"diff", 0, 0, G_OPTION_ARG_NONE, &diff,
		"show what --mend would change, and change nothing", NULL},
	{"strict", 0, 0, G_OPTION_ARG_NONE, &strict,
		"let warnings fail as errors do", NULL},
	{0},
};

/* Mends as asked, then reports what is left. */
static int
check_mending(const struct options *options)
{
	struct mending how = {MEND_SAFE, diff};
	struct run *run;
	int status, found;

	if (mend != NULL && strcmp(mend, "probable") == 0)
		how.least = MEND_PROBABLE;
	if (diff && options->format != FORMAT_TEXT)
		return command_usage("--diff prints a diff, and no other "
			"format");
	status = mend_corpus(options, how, &run);
	found = run_report(run, options, true);
	run_end(run);
	return status == EXIT_DONE ? found : status;
}

/* Ends a run that was reported; --strict makes warnings count. */
static int
finish(struct run *run, int status)
{
	if (strict && status == EXIT_DONE &&
		diags_count(run->diags, SEVERITY_WARNING) > 0)
		status = EXIT_FINDINGS;
	run_end(run);
	return status;
}

/* A file of holdings alone: what is wrong with the corpus is not said. */
static int
check_private(const struct options *options, char **words)
{
	struct run *run;
	uint32_t before;
	int status;

	if (words[1] != NULL || mending || diff || options->dump != NULL)
		return command_usage("check takes one file of holdings, and "
			"does not mend or dump it; name a corpus with -C");
	if (!g_file_test(words[0], G_FILE_TEST_EXISTS))
		return command_usage("there is no file \"%s\"", words[0]);
	run = run_begin(options);
	before = sources_count(run->sources);
	if (run_sound(run)) {
		run_read_private(run, words[0]);
		diags_keep_after(run->diags, before);
	}
	status = run_report(run, options, true);
	return finish(run, status);
}

int
command_check(const struct options *options, char **words)
{
	struct run *run;
	int status;

	if (words[0] != NULL)
		return check_private(options, words);
	if (mending || diff)
		return check_mending(options);
	run = run_begin(options);
	if (options->dump != NULL) {
		status = dump(run, options->dump);
		if (status == EXIT_DONE)
			status = run_report(run, options, false);
	} else
		status = run_report(run, options, true);
	return finish(run, status);
}
