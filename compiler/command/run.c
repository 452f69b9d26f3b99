/*
 * The stages, one call a line.
 */
#include "command/run.h"

#include "base/place.h"
#include "read/corpus.h"
#include "sense/sense.h"
#include "shape/rows.h"
#include "study/disagree.h"

struct run *
run_new(void)
{
	struct run *run = g_new0(struct run, 1);

	run->arena = arena_new();
	run->sources = sources_new();
	run->diags = diags_new(run->sources);
	return run;
}

/* Only of a corpus without errors: else what was not read would be missed. */
static void
check_past(struct run *run, const char *corpus)
{
	struct past past = read_past(corpus, run->sources, run->arena,
		run->diags);

	link_check_past(&past, run->schema, run->names, run->diags);
}

void
run_stages(struct run *run, const struct options *options)
{
	struct arena *arena = run->arena;
	struct sources *sources = run->sources;
	struct diags *diags = run->diags;

	run->schema = schema_load(options->schema, sources, arena, diags);
	if (!run_sound(run))
		return;
	run->raw = read_corpus(options->corpus, sources, arena, diags);
	run->records = shape_corpus(run->raw, run->schema, false, sources,
		arena, diags);
	shape_check_tables(run->raw, run->schema, sources, arena, diags);
	run->names = link_records(run->records, run->schema, NULL, sources,
		arena, diags);
	if (!run_sound(run))
		return;
	check_past(run, options->corpus);
	if (run->records->count == 0)
		diag_help(diag_report(diags, DIAG_EMPTY_CORPUS, SPAN_NOWHERE,
			"there are no records at \"%s\"", options->corpus),
			"a corpus is a folder with a folder for each kind of "
			"record; see schema/README.md");
	run->model = model_make(run->records, run->raw, run->schema,
		run->names, sources, arena, diags);
	if (run_sound(run))
		sense_check(run->model, diags);
	if (run_sound(run))
		study_check(run->model, diags);
}

struct run *
run_begin(const struct options *options)
{
	struct run *run = run_new();

	run_stages(run, options);
	return run;
}

void
run_end(struct run *run)
{
	model_free(run->model);
	names_free(run->names);
	diags_free(run->diags);
	sources_free(run->sources);
	arena_free(run->arena);
	g_free(run);
}

bool
run_sound(const struct run *run)
{
	return diags_count(run->diags, SEVERITY_ERROR) == 0;
}

/* The formats for programs, on standard output. */
static void
print_findings(const struct diags *diags, enum format format)
{
	char *pages = NULL;

	switch (format) {
	case FORMAT_JSON:
		diags_print_json(diags, stdout);
		break;
	case FORMAT_SARIF:
		pages = place_data("codes");
		diags_print_sarif(diags, HANGTAB_VERSION, pages, stdout);
		g_free(pages);
		break;
	case FORMAT_ANNOTATIONS:
		diags_print_annotations(diags, stdout);
		break;
	case FORMAT_TEXT:
	case FORMAT_CSV:
		break;
	}
}

int
run_report(const struct run *run, const struct options *options, bool always)
{
	struct diag_style style = {options->colour,
		(size_t)options->most_errors};
	size_t warnings = diags_count(run->diags, SEVERITY_WARNING);

	diags_sort(run->diags);
	if (always && options->format != FORMAT_TEXT)
		print_findings(run->diags, options->format);
	else if (always || warnings > 0 || !run_sound(run))
		diags_print_text(run->diags, style, stderr);
	return run_sound(run) ? EXIT_DONE : EXIT_FINDINGS;
}

/* A spreadsheet of the collector's, or nothing after saying what is wrong. */
static struct raw_corpus *
read_table(struct run *run, const char *path)
{
	const struct kind *usual = schema_kind(run->schema, "holding");
	struct csv_table *table = NULL;
	char *why = NULL;
	uint32_t file = sources_read(run->sources, path, path, &why);

	if (file == 0)
		diag_report(run->diags, DIAG_UNREADABLE_FILE, SPAN_NOWHERE,
			"\"%s\" cannot be read: %s", path, why);
	else
		table = read_csv(run->sources, file, run->arena, run->diags);
	g_free(why);
	if (table == NULL || usual == NULL)
		return arena_one(run->arena, struct raw_corpus);
	return rows_corpus(table, usual, run->schema, run->arena, run->diags);
}

struct records *
run_read_private(struct run *run, const char *path)
{
	struct raw_corpus *raw;
	struct records *records;
	struct names *names;

	raw = file_is_table(path) ? read_table(run, path) : read_corpus(path,
		run->sources, run->arena, run->diags);
	records = shape_corpus(raw, run->schema, true, run->sources,
		run->arena, run->diags);
	names = link_records(records, run->schema, run->names, run->sources,
		run->arena, run->diags);
	link_follow(records, run->arena, run->diags);
	names_free(names);
	model_name_records(records, run->arena);
	if (run_sound(run))
		sense_check_private(run->model, records, run->diags);
	return run_sound(run) ? records : NULL;
}
