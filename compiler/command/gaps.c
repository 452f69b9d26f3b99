/*
 * hangtab gaps: the collector's own pieces against the runs of the corpus, and
 * against runs of their own.
 */
#include <stdio.h>
#include <string.h>

#include "command/gapping.h"
#include "command/papers.h"
#include "shape/nearest.h"

static char *only_run;
static char *runs_file;

const GOptionEntry gaps_entries[] = {
	{"run", 0, 0, G_OPTION_ARG_STRING, &only_run,
		"this run, with its slots", "RUN"},
	{"runs", 0, 0, G_OPTION_ARG_FILENAME, &runs_file,
		"a file with runs of your own", "FILE"},
	{"as", 0, 0, G_OPTION_ARG_STRING, &papers.as,
		"your list itself, as csv or yaml", "FORM"},
	{"write", 0, 0, G_OPTION_ARG_FILENAME, &papers.write,
		"write it there, for you alone to read", "FILE"},
	{0},
};

const char *
gaps_state(const struct filled_slot *slot)
{
	static const char *const states[] = {
		[SLOT_MISSING] = "missing",
		[SLOT_POSSIBLE] = "possible",
		[SLOT_HELD] = "held",
	};

	if (slot->slot->standing == SLOT_UNSURE && slot->state == SLOT_MISSING)
		return "may not exist";
	return states[slot->state];
}

unsigned
gaps_of(const struct filling *filling)
{
	return filling->held + filling->possible + filling->missing;
}

void
gaps_pieces(const struct gapping *gapping, const struct filled_slot *slot,
	enum claim_kind from, enum claim_kind to, bool ids, GString *out)
{
	unsigned i;

	g_string_truncate(out, 0);
	for (i = 0; i < slot->count; i++) {
		const struct record *record;

		if (slot->claims[i].kind < from || slot->claims[i].kind > to)
			continue;
		record = gapping->pieces->items[slot->claims[i].piece].record;
		g_string_append_printf(out, "%s%s", out->len == 0 ? "" : "; ",
			ids ? record->id : record->name);
	}
}

const char *
gaps_look_at(const struct gapping *gapping, const struct filling *filling,
	const struct filled_slot *slot)
{
	unsigned i;

	for (i = 0; slot->state == SLOT_POSSIBLE && i < slot->count; i++)
		if (slot->claims[i].kind == CLAIM_POSSIBLE) {
			const char *words = study_look_at(gapping->pieces,
				filling, slot, &slot->claims[i],
				gapping->run->arena);

			return words == NULL ? "it again" : words;
		}
	return NULL;
}

static void
add_runs(GPtrArray *runs, const struct records *records)
{
	size_t i;

	for (i = 0; records != NULL && i < records->count; i++)
		if (strcmp(records->items[i]->kind->name, "run") == 0)
			g_ptr_array_add(runs, records->items[i]);
}

/* Runs of the corpus, then those of the collector's files. */
static GPtrArray *
list_runs(const struct run *run, const struct records *pieces,
	const struct records *own)
{
	struct record_list corpus = model_records_of(run->model, "run");
	GPtrArray *runs = g_ptr_array_new();
	unsigned i;

	for (i = 0; i < corpus.count; i++)
		g_ptr_array_add(runs, (gpointer)(uintptr_t)corpus.items[i]);
	add_runs(runs, pieces);
	add_runs(runs, own);
	return runs;
}

/* Without a near one, all of them are named: there are few. */
static void
report_run(const GPtrArray *runs)
{
	struct nearest nearest = nearest_to(only_run);
	guint i;

	for (i = 0; i < runs->len; i++)
		nearest_offer(&nearest, ((const struct record *)
			g_ptr_array_index(runs, i))->id);
	fprintf(stderr, "hangtab: there is no run \"%s\"", only_run);
	if (nearest.best != NULL) {
		fprintf(stderr, "; did you mean \"%s\"?\n", nearest.best);
		return;
	}
	fprintf(stderr, "; there are:\n");
	for (i = 0; i < runs->len; i++)
		fprintf(stderr, "  %s\n", ((const struct record *)
			g_ptr_array_index(runs, i))->id);
}

static void
fill_runs(struct gapping *gapping, const GPtrArray *runs)
{
	struct arena *arena = gapping->run->arena;
	const struct model *model = gapping->run->model;
	guint i;

	gapping->fillings = arena_array(arena, struct filling *, runs->len);
	for (i = 0; i < runs->len; i++) {
		const struct record *run = g_ptr_array_index(runs, i);
		const struct aim *aim;

		if (only_run != NULL && strcmp(only_run, run->id) != 0)
			continue;
		aim = aim_of_run(model, run, arena);
		gapping->fillings[gapping->count++] = study_fill(
			gapping->pieces, aim, study_slots_of(model,
			gapping->situations, aim, arena), arena);
	}
}

static void
print(const struct gapping *gapping, enum format format)
{
	switch (format) {
	case FORMAT_SARIF:
	case FORMAT_ANNOTATIONS:
	case FORMAT_TEXT:
		gaps_print_text(gapping);
		break;
	case FORMAT_CSV:
		gaps_print_csv(gapping);
		break;
	case FORMAT_JSON:
		gaps_print_json(gapping);
		break;
	}
}

static int
study_gaps(const struct run *run, const struct records *pieces,
	const struct records *own, enum format format)
{
	struct gapping gapping = {
		.run = run,
		.situations = study_situations(run->model, run->arena),
		.alone = only_run != NULL,
	};
	GPtrArray *runs = list_runs(run, pieces, own);
	int status = EXIT_DONE;

	gapping.pieces = study_pieces(run->model, gapping.situations, pieces,
		run->arena);
	fill_runs(&gapping, runs);
	if (gapping.alone && gapping.count == 0) {
		report_run(runs);
		status = EXIT_FINDINGS;
	} else {
		print(&gapping, format);
	}
	g_ptr_array_free(runs, TRUE);
	return status;
}

static bool
is_there(const char *path)
{
	if (path == NULL || g_file_test(path, G_FILE_TEST_EXISTS))
		return true;
	fprintf(stderr, "hangtab: there is no file \"%s\"\n", path);
	return false;
}

int
command_gaps(const struct options *options, char **words)
{
	struct records *pieces = NULL, *own = NULL;
	struct run *run;
	int status;

	if (words[0] == NULL || words[1] != NULL)
		return command_usage("gaps takes one file of holdings, such "
			"as tests/holdings/beginner.yaml");
	if (!is_there(words[0]) || !is_there(runs_file))
		return EXIT_USAGE;
	run = run_begin(options);
	if (run_sound(run))
		pieces = run_read_private(run, words[0]);
	if (run_sound(run) && runs_file != NULL)
		own = run_read_private(run, runs_file);
	status = run_report(run, options, false);
	if (run_sound(run))
		status = papers_wanted() ?
			papers_make(run, pieces, options) :
			study_gaps(run, pieces, own, options->format);
	run_end(run);
	return status;
}
