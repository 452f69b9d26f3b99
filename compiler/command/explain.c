/*
 * hangtab explain: the page of a diagnostic, or the codes there are. A page is
 * printed as CommonMark, so that it reads on a terminal and can be pasted into
 * an answer to a contributor.
 */
#include <stdio.h>
#include <string.h>

#include "base/place.h"
#include "command/command.h"
#include "diag/page.h"
#include "shape/nearest.h"

static void
list_codes(void)
{
	int i;

	for (i = 0; i < DIAG_COUNT; i++)
		puts(diag_info((enum diag_code)i)->code);
}

static int
report_unknown(const char *code)
{
	struct nearest nearest = nearest_to(code);
	int i;

	for (i = 0; i < DIAG_COUNT; i++)
		nearest_offer(&nearest, diag_info((enum diag_code)i)->code);
	fprintf(stderr, "hangtab: there is no code \"%s\"", code);
	if (nearest.best != NULL)
		fprintf(stderr, "; did you mean \"%s\"?\n", nearest.best);
	else
		fprintf(stderr, "; \"hangtab explain\" lists them\n");
	return EXIT_FINDINGS;
}

/* An indented code block; blank lines stay empty. */
static void
print_block(const char *text)
{
	const char *end;

	for (; *text != '\0'; text = end + (*end == '\n')) {
		end = text + strcspn(text, "\n");
		if (end > text)
			printf("    %.*s", (int)(end - text), text);
		putchar('\n');
	}
}

static void
print_samples(const char *heading, const struct diag_samples *samples)
{
	unsigned i;

	printf("\n## %s\n", heading);
	for (i = 0; i < samples->count; i++) {
		const struct diag_sample *sample = &samples->items[i];

		if (sample->name != NULL)
			printf("\n`%s`%s\n", sample->name,
				sample->text == NULL ? " cannot be read." :
				":");
		if (sample->text == NULL)
			continue;
		putchar('\n');
		print_block(sample->text);
	}
}

static int
print_page(enum diag_code code)
{
	const struct diag_info *info = diag_info(code);
	struct arena *arena = arena_new();
	char *folder = place_data("codes");
	const struct diag_page *page = NULL;

	if (folder != NULL)
		page = diag_page_read(folder, code, arena);
	if (page == NULL)
		fprintf(stderr, "hangtab: the page of \"%s\" that belongs to "
			"the program is missing\n", info->code);
	else {
		printf("# %s\n\n%s: %s\n\n%s", info->code,
			info->severity == SEVERITY_ERROR ? "error" :
			"warning", info->headline, page->says);
		print_samples("A record that gives it", &page->failing);
		print_samples("Mended", &page->mended);
		printf("\n## Why\n\n%s", page->why);
	}
	g_free(folder);
	arena_free(arena);
	return page == NULL ? EXIT_SYSTEM : EXIT_DONE;
}

int
command_explain(const struct options *options, char **words)
{
	enum diag_code code;

	(void)options;
	if (words[0] == NULL) {
		list_codes();
		return EXIT_DONE;
	}
	if (words[1] != NULL)
		return command_usage("explain takes one code");
	code = diag_code_named(words[0]);
	if (code == DIAG_COUNT)
		return report_unknown(words[0]);
	return print_page(code);
}
