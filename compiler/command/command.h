/*
 * Commands: one file each, listed in table.c. A command gets the options that
 * every command has, and the words that are left; it prints, and returns an
 * exit status.
 */
#ifndef COMMAND_COMMAND_H
#define COMMAND_COMMAND_H

#include <glib.h>
#include <stdbool.h>

enum {
	EXIT_DONE = 0,		/* also with gaps or warnings found */
	EXIT_FINDINGS = 1,	/* errors in the corpus, or nothing found */
	EXIT_USAGE = 2,
	EXIT_SYSTEM = 3,	/* disk, memory, permissions */
};

#define HANGTAB_VERSION "0.1"

/* The last two are for findings alone. */
enum format {
	FORMAT_TEXT,
	FORMAT_JSON,
	FORMAT_CSV,
	FORMAT_SARIF,
	FORMAT_ANNOTATIONS,
};

/* What every command understands. */
struct options {
	const char *corpus;	/* -C */
	const char *out;	/* -o */
	bool out_given;
	const char *schema;	/* --schema, or the one that came along */
	enum format format;	/* --format */
	bool colour;		/* --color, NO_COLOR, and a terminal */
	int jobs;		/* -j */
	const char *dump;	/* --dump STAGE, or NULL */
	int most_errors;	/* --errors, 0 for all */
};

typedef int command_function(const struct options *options, char **words);

/* What a person is doing; the order is that of help and README. */
enum purpose { LOOK_UP, MY_PIECES, EDIT, PUBLISH };

struct command {
	const char *name;
	const char *arguments;	/* as shown in help */
	const char *summary;
	enum purpose purpose;
	command_function *function;
	const GOptionEntry *entries;	/* its own options, or NULL */
};

/* All commands in the order of help; ends with one without a name. */
extern const struct command commands[];

command_function command_build;
command_function command_check;
command_function command_estimate;
command_function command_explain;
command_function command_find;
command_function command_gaps;
command_function command_match;
command_function command_narrow;
command_function command_new;
command_function command_tidy;
command_function command_show;
command_function command_stats;

extern const GOptionEntry build_entries[];
extern const GOptionEntry check_entries[];
extern const GOptionEntry estimate_entries[];
extern const GOptionEntry find_entries[];
extern const GOptionEntry gaps_entries[];
extern const GOptionEntry match_entries[];
extern const GOptionEntry narrow_entries[];
extern const GOptionEntry show_entries[];
extern const GOptionEntry stats_entries[];
extern const GOptionEntry new_entries[];
extern const GOptionEntry tidy_entries[];

/* Says on standard error what is wrong with the call; returns EXIT_USAGE. */
int
command_usage(const char *format, ...) __attribute__((format(printf, 1, 2)));

#endif
