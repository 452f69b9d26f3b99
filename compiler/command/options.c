/*
 * Options by GLib's parser: those of every command, and those of the one that
 * was named. The command is the first word that is no option.
 */
#include "command/options.h"

#include <stdarg.h>
#include <stdio.h>
#include <string.h>
#include <unistd.h>

#include "base/place.h"

struct given {
	char *corpus;
	char *out;
	char *schema;
	char *format;
	char *colour;
	char *dump;
	int jobs;
	int errors;
	gboolean help;
	gboolean version;
	char **words;
};

static const char *const purposes[] = {
	[LOOK_UP] = "look up",
	[MY_PIECES] = "my pieces",
	[EDIT] = "edit",
	[PUBLISH] = "publish",
};

int
command_usage(const char *format, ...)
{
	va_list args;

	fputs("hangtab: ", stderr);
	va_start(args, format);
	vfprintf(stderr, format, args);
	va_end(args);
	fputs("\nhangtab --help lists the commands\n", stderr);
	return EXIT_USAGE;
}

static void
print_help(FILE *stream)
{
	const struct command *command;
	size_t i;

	fputs("usage: hangtab COMMAND [OPTIONS] [WORDS]\n", stream);
	for (i = 0; i < G_N_ELEMENTS(purposes); i++) {
		bool any = false;

		for (command = commands; command->name != NULL; command++) {
			char *call;

			if (command->purpose != i)
				continue;
			if (!any)
				fprintf(stream, "\n%s\n", purposes[i]);
			any = true;
			call = g_strdup_printf("%s %s", command->name,
				command->arguments);
			fprintf(stream, "  %-26s %s\n", call,
				command->summary);
			g_free(call);
		}
	}
	fputs("\noptions everywhere\n"
		"  -C CORPUS       the corpus's folder (corpus)\n"
		"  -o OUT          where the guide is (build/guide)\n"
		"  --format F      text, json or csv, where they fit (text);\n"
		"                  for findings text, json, sarif or annotations\n"
		"  --color WHEN    auto, always or never (auto)\n"
		"  -j N            how many threads to use (all)\n"
		"hangtab COMMAND --help says more of one command\n", stream);
}

static void
print_command_help(const struct command *command)
{
	const GOptionEntry *entry = command->entries;

	printf("usage: hangtab %s %s\n%s\n", command->name,
		command->arguments, command->summary);
	for (; entry != NULL && entry->long_name != NULL; entry++)
		printf("  --%s%s%s\t%s\n", entry->long_name,
			entry->arg_description == NULL ? "" : " ",
			entry->arg_description == NULL ? "" :
			entry->arg_description, entry->description);
}

static const struct command *
find_command(const char *name)
{
	const struct command *command;

	for (command = commands; command->name != NULL; command++)
		if (strcmp(command->name, name) == 0)
			return command;
	return NULL;
}

/* The first word that is neither an option nor the value of one. */
static const struct command *
guess_command(int argc, char **argv)
{
	static const char *const valued[] = {"-C", "-o", "-j", "--corpus",
		"--out", "--jobs", "--format", "--color", "--schema", "--dump",
		"--errors", NULL};
	int i;

	for (i = 1; i < argc; i++) {
		if (g_strv_contains(valued, argv[i]))
			i++;
		else if (argv[i][0] != '-')
			return find_command(argv[i]);
	}
	return NULL;
}

/* Whether what the command prints on standard output are findings. */
static bool
prints_findings(const struct command *command)
{
	return command->function == command_check;
}

static bool
set_format(struct options *options, const struct command *command,
	const char *text)
{
	static const char *const names[] = {
		[FORMAT_TEXT] = "text",
		[FORMAT_JSON] = "json",
		[FORMAT_CSV] = "csv",
		[FORMAT_SARIF] = "sarif",
		[FORMAT_ANNOTATIONS] = "annotations",
	};
	size_t i;

	for (i = 0; i < G_N_ELEMENTS(names); i++) {
		options->format = (enum format)i;
		if (text == NULL || strcmp(text, names[i]) == 0)
			return prints_findings(command) ?
				i != FORMAT_CSV : i < FORMAT_SARIF;
	}
	return false;
}

static bool
set_colour(struct options *options, const char *text)
{
	const char *off = g_getenv("NO_COLOR");

	options->colour = isatty(STDERR_FILENO) != 0 &&
		(off == NULL || off[0] == '\0');
	if (text == NULL || strcmp(text, "auto") == 0)
		return true;
	options->colour = strcmp(text, "always") == 0;
	return options->colour || strcmp(text, "never") == 0;
}

static int
run_command(const struct command *command, struct given *given)
{
	struct options options = {
		.corpus = given->corpus == NULL ? "corpus" : given->corpus,
		.out = given->out == NULL ? "build/guide" : given->out,
		.out_given = given->out != NULL,
		.schema = given->schema,
		.jobs = given->jobs,
		.dump = given->dump,
		.most_errors = given->errors,
	};
	char *schema = NULL;
	int status;

	if (!set_format(&options, command, given->format))
		return command_usage("--format of %s is %s, not \"%s\"",
			command->name, prints_findings(command) ?
			"text, json, sarif or annotations" :
			"text, json or csv", given->format);
	if (!set_colour(&options, given->colour))
		return command_usage("--color is auto, always or never, not "
			"\"%s\"", given->colour);
	if (options.schema == NULL)
		options.schema = schema = place_data("schema");
	if (options.schema == NULL) {
		fputs("hangtab: the schema folder that belongs to the program "
			"is missing; name it with --schema\n", stderr);
		return EXIT_SYSTEM;
	}
	status = command->function(&options, given->words + 1);
	g_free(schema);
	return status;
}

static int
run_given(struct given *given)
{
	const struct command *command;

	if (given->version) {
		puts("hangtab " HANGTAB_VERSION);
		return EXIT_DONE;
	}
	if (given->words == NULL || given->words[0] == NULL) {
		print_help(given->help ? stdout : stderr);
		return given->help ? EXIT_DONE : EXIT_USAGE;
	}
	command = find_command(given->words[0]);
	if (command == NULL && strcmp(given->words[0], "help") == 0) {
		print_help(stdout);
		return EXIT_DONE;
	}
	if (command == NULL)
		return command_usage("there is no command \"%s\"",
			given->words[0]);
	if (given->help) {
		print_command_help(command);
		return EXIT_DONE;
	}
	return run_command(command, given);
}

int
options_run(int argc, char **argv)
{
	struct given given = {.errors = 50};
	const GOptionEntry everywhere[] = {
		{"corpus", 'C', 0, G_OPTION_ARG_FILENAME, &given.corpus,
			NULL, NULL},
		{"out", 'o', 0, G_OPTION_ARG_FILENAME, &given.out, NULL, NULL},
		{"schema", 0, 0, G_OPTION_ARG_FILENAME, &given.schema, NULL,
			NULL},
		{"format", 0, 0, G_OPTION_ARG_STRING, &given.format, NULL,
			NULL},
		{"color", 0, 0, G_OPTION_ARG_STRING, &given.colour, NULL,
			NULL},
		{"dump", 0, 0, G_OPTION_ARG_STRING, &given.dump, NULL, NULL},
		{"jobs", 'j', 0, G_OPTION_ARG_INT, &given.jobs, NULL, NULL},
		{"errors", 0, 0, G_OPTION_ARG_INT, &given.errors, NULL, NULL},
		{"help", 'h', 0, G_OPTION_ARG_NONE, &given.help, NULL, NULL},
		{"version", 0, 0, G_OPTION_ARG_NONE, &given.version, NULL,
			NULL},
		{G_OPTION_REMAINING, 0, 0, G_OPTION_ARG_FILENAME_ARRAY,
			&given.words, NULL, NULL},
		{0},
	};
	const struct command *command = guess_command(argc, argv);
	GOptionContext *context = g_option_context_new(NULL);
	GError *error = NULL;
	int status;

	g_option_context_set_help_enabled(context, FALSE);
	g_option_context_add_main_entries(context, everywhere, NULL);
	if (command != NULL && command->entries != NULL)
		g_option_context_add_main_entries(context, command->entries,
			NULL);
	if (g_option_context_parse(context, &argc, &argv, &error))
		status = run_given(&given);
	else
		status = command_usage("%s", error->message);
	if (fflush(stdout) != 0 || ferror(stdout)) {
		fputs("hangtab: the output could not be written\n", stderr);
		status = EXIT_SYSTEM;
	}
	g_clear_error(&error);
	g_option_context_free(context);
	g_free(given.corpus);
	g_free(given.out);
	g_free(given.schema);
	g_free(given.format);
	g_free(given.colour);
	g_free(given.dump);
	g_strfreev(given.words);
	return status;
}
