/*
 * hangtab build: compile the corpus into the guide. Nothing is written unless
 * the corpus is sound, and the folder changes all at once.
 */
#include <stdio.h>
#include <string.h>

#include "base/place.h"
#include "command/run.h"
#include "model/seen.h"
#include "write/handbook/handbook.h"
#include "study/reckon.h"
#include "write/writer.h"

static char *only;
static struct {
	char *paper;
	gboolean large, black, marks, booklet;
} print;

const GOptionEntry build_entries[] = {
	{"only", 0, 0, G_OPTION_ARG_STRING, &only,
		"write these parts alone (site,handbook,database,tables)",
		"PARTS"},
	{"paper", 0, 0, G_OPTION_ARG_STRING, &print.paper,
		"the handbook's: a5, a4, letter or half-letter (a5)", "P"},
	{"large-print", 0, 0, G_OPTION_ARG_NONE, &print.large,
		"the handbook in letters of 18 points, on a4 or letter", NULL},
	{"black", 0, 0, G_OPTION_ARG_NONE, &print.black,
		"the handbook in black alone", NULL},
	{"crop-marks", 0, 0, G_OPTION_ARG_NONE, &print.marks,
		"the handbook for a printer: bleed, and marks to cut by", NULL},
	{"booklet", 0, 0, G_OPTION_ARG_NONE, &print.booklet,
		"the handbook on sheets to print on both sides and fold", NULL},
	{0},
};

static struct print_wishes
read_wishes(void)
{
	return (struct print_wishes){
		.paper = print.paper,
		.large = print.large,
		.black = print.black,
		.marks = print.marks,
		.booklet = print.booklet,
	};
}

static bool
is_wanted(char *const *parts, const struct writer *writer)
{
	return parts == NULL ||
		g_strv_contains((const char *const *)parts, writer->name);
}

/*
 * The writer whose `name` at the top of OUT is: that of the writer's own path,
 * or else the site's.
 */
static const struct writer *
owner_of(const char *name)
{
	const struct writer *writer, *site = NULL;
	size_t size = strlen(name);

	for (writer = writers; writer->name != NULL; writer++) {
		if (strcmp(writer->name, "site") == 0)
			site = writer;
		if (strncmp(writer->paths, name, size) == 0 &&
			strchr("/", writer->paths[size]) != NULL)
			return writer;
	}
	return site;
}

/* With --only, the parts that are not written stay as they were. */
static bool
keep_others(const struct write_job *job, char *const *parts, GError **error)
{
	char **names = output_earlier(job->out);
	bool kept = true;
	char **name;

	for (name = names; kept && *name != NULL; name++) {
		const struct writer *owner = owner_of(*name);

		if (owner != NULL && !is_wanted(parts, owner))
			kept = output_keep(job->out, *name, error);
	}
	g_strfreev(names);
	return kept;
}

static bool
write_parts(const struct write_job *job, char *const *parts, GError **error)
{
	const struct writer *writer;

	for (writer = writers; writer->name != NULL; writer++)
		if (is_wanted(parts, writer) && !writer->write(job, error))
			return false;
	return keep_others(job, parts, error);
}

/* The first word of --only that names no part, or NULL. */
static const char *
find_stranger(char *const *parts)
{
	const struct writer *writer;

	for (; parts != NULL && *parts != NULL; parts++) {
		for (writer = writers; writer->name != NULL; writer++)
			if (strcmp(writer->name, *parts) == 0)
				break;
		if (writer->name == NULL)
			return *parts;
	}
	return NULL;
}

static int
report_failure(GError *error)
{
	int status = EXIT_SYSTEM;

	if (g_error_matches(error, OUTPUT_ERROR, OUTPUT_REFUSED))
		status = EXIT_USAGE;
	fprintf(stderr, "hangtab: %s\n", error->message);
	g_error_free(error);
	return status;
}

static void
print_result(const struct options *options, char *const *parts)
{
	const struct writer *writer;

	printf("the guide is ready\n");
	for (writer = writers; writer->name != NULL; writer++)
		if (is_wanted(parts, writer))
			printf("  %-10s %s/%s\n", writer->name, options->out,
				writer->paths);
	if (print.booklet)
		printf("Print the handbook on both sides of the paper, turned "
			"at the short edge,\nat its true size. At the foot of "
			"the fold it says which sheets lie inside one\n"
			"another: fold those together, stitch them through the "
			"fold, and lay the\ngatherings one upon the other.\n");
}

static int
write_guide(const struct run *run, const struct options *options,
	char *const *parts)
{
	char *assets = place_data("site");
	char *codes = place_data("codes");
	struct seen *seen = seen_gather(run->model, run->arena);
	struct reckonings *reckonings = reckonings_gather(run->model, seen,
		run->arena);
	struct write_job job = {
		.model = run->model,
		.seen = seen,
		.reckonings = reckonings,
		.assets = assets,
		.codes = codes,
		.print = read_wishes(),
		.jobs = options->jobs > 0 ? options->jobs :
			(int)g_get_num_processors(),
	};
	GError *error = NULL;

	if (assets == NULL || codes == NULL) {
		fprintf(stderr, "hangtab: the %s folder that belongs to the "
			"program is missing\n", assets == NULL ? "site" :
			"codes");
		seen_free(seen);
		g_free(assets);
		g_free(codes);
		return EXIT_SYSTEM;
	}
	reckonings_work(reckonings);
	job.out = output_open(options->out, &error);
	if (job.out != NULL && !write_parts(&job, parts, &error)) {
		output_abandon(job.out);
		job.out = NULL;
	}
	if (job.out != NULL)
		output_commit(job.out, &error);
	seen_free(seen);
	g_free(assets);
	g_free(codes);
	if (error != NULL)
		return report_failure(error);
	print_result(options, parts);
	return EXIT_DONE;
}

int
command_build(const struct options *options, char **words)
{
	char **parts = only == NULL ? NULL : g_strsplit(only, ",", 0);
	const char *stranger = find_stranger(parts);
	const struct print_wishes wishes = read_wishes();
	struct run *run;
	int status;

	if (!handbook_has_paper(&wishes)) {
		g_strfreev(parts);
		return command_usage("there is no %shandbook on \"%s\": papers "
			"are %s", print.large ? "large-print " : "",
			print.paper, print.large ? "a4 and letter" :
			"a5, a4, letter and half-letter");
	}
	if (words[0] != NULL || stranger != NULL) {
		status = command_usage("build does not know \"%s\"",
			words[0] != NULL ? words[0] : stranger);
		g_strfreev(parts);
		return status;
	}
	run = run_begin(options);
	status = run_report(run, options, false);
	if (status == EXIT_DONE)
		status = write_guide(run, options, parts);
	run_end(run);
	g_strfreev(parts);
	return status;
}
