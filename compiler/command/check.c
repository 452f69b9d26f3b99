/*
 * hangtab check: is the corpus sound? Prints everything that is wrong.
 */
#include <stdio.h>
#include <string.h>

#include "command/run.h"
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

int
command_check(const struct options *options, char **words)
{
	struct run *run;
	int status;

	if (words[0] != NULL)
		return command_usage("check takes no \"%s\"; name the corpus "
			"with -C", words[0]);
	run = run_begin(options);
	if (options->dump != NULL) {
		status = dump(run, options->dump);
		if (status == EXIT_DONE)
			status = run_report(run, options, false);
	} else
		status = run_report(run, options, true);
	run_end(run);
	return status;
}
