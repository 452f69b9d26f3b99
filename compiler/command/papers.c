/*
 * Which paper was asked for, and where it goes: to standard output, or into a
 * file for its owner alone.
 */
#include "command/papers.h"

#include <stdio.h>
#include <string.h>

#include "base/output.h"
#include "base/private.h"
#include "write/pieces/pieces.h"

struct papers papers;

bool
papers_wanted(void)
{
	return papers.as != NULL || papers.write != NULL;
}

static int
put(const struct options *options, const GString *text)
{
	GError *error = NULL;
	int status = EXIT_SYSTEM;

	if (papers.write == NULL) {
		fwrite(text->str, 1, text->len, stdout);
		return EXIT_DONE;
	}
	if (private_write(papers.write, options->corpus, text->str, text->len,
		false, &error)) {
		printf("%s\n", papers.write);
		return EXIT_DONE;
	}
	if (g_error_matches(error, OUTPUT_ERROR, OUTPUT_REFUSED))
		status = EXIT_USAGE;
	fprintf(stderr, "hangtab: %s\n", error->message);
	g_error_free(error);
	return status;
}

int
papers_make(const struct run *run, const struct records *pieces,
	const struct options *options)
{
	GString *text = g_string_new(NULL);
	int status;

	if (papers.as != NULL && strcmp(papers.as, "csv") == 0)
		pieces_as_csv(pieces, text);
	else if (papers.as != NULL && strcmp(papers.as, "yaml") == 0)
		pieces_as_yaml(pieces, run->schema, text);
	else {
		g_string_free(text, TRUE);
		return command_usage(papers.as == NULL ? "--write says where "
			"to write, and not what; see gaps --help" :
			"--as is csv or yaml");
	}
	status = put(options, text);
	g_string_free(text, TRUE);
	return status;
}
