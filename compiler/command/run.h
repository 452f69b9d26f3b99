/*
 * A run of the compiler's stages over a corpus: what most commands begin with.
 */
#ifndef COMMAND_RUN_H
#define COMMAND_RUN_H

#include "command/command.h"
#include "model/model.h"

/* Everything a run makes, in the order it is made. */
struct run {
	struct arena *arena;
	struct sources *sources;
	struct diags *diags;
	struct schema *schema;
	struct raw_corpus *raw;
	struct records *records;
	struct names *names;
	struct model *model;	/* NULL where there were errors before it */
};

/*
 * Runs the stages over the corpus that the options name: all of reading,
 * shaping and linking, then the model and the rules of the trade if all was
 * sound so far. Free with run_end, whatever happened.
 */
struct run *
run_begin(const struct options *options);

/* The same in two steps, for a run over files as they are being edited. */
struct run *
run_new(void);

void
run_stages(struct run *run, const struct options *options);

void
run_end(struct run *run);

/* Whether no error was found. */
bool
run_sound(const struct run *run);

/*
 * Prints what was found on standard error, or with --format json on standard
 * output. Without findings prints nothing unless `always`. Returns EXIT_DONE
 * or EXIT_FINDINGS.
 */
int
run_report(const struct run *run, const struct options *options, bool always);

/*
 * Reads more records into a run that has a model: holdings, in YAML or as a
 * spreadsheet (.csv, .tsv), linked to the corpus but no part of its model. Returns NULL, after reporting into the
 * run's collector, when they cannot be read or have errors.
 */
struct records *
run_read_private(struct run *run, const char *path);

#endif
