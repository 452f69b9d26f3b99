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
static char *budget;
static char *pocket;
static gboolean suggest;

const GOptionEntry gaps_entries[] = {
	{"run", 0, 0, G_OPTION_ARG_STRING, &only_run,
		"this run, with its slots", "RUN"},
	{"runs", 0, 0, G_OPTION_ARG_FILENAME, &runs_file,
		"a file with runs of your own", "FILE"},
	{"ranks", 0, 0, G_OPTION_ARG_NONE, &papers.ranks,
		"where graded pieces stand in population reports", NULL},
	{"due", 0, 0, G_OPTION_ARG_NONE, &papers.due,
		"what is overdue, and what came of batches", NULL},
	{"on", 0, 0, G_OPTION_ARG_STRING, &papers.on,
		"overdue on that day rather than today", "DATE"},
	{"offer", 0, 0, G_OPTION_ARG_STRING, &papers.offer,
		"a sheet to offer a piece by", "PIECE"},
	{"inventory", 0, 0, G_OPTION_ARG_NONE, &papers.inventory,
		"an inventory for an insurer", NULL},
	{"lend", 0, 0, G_OPTION_ARG_STRING, &papers.lend,
		"a piece or its sale as a public sighting", "PIECE"},
	{"certificate", 0, 0, G_OPTION_ARG_NONE, &papers.certificate,
		"lend the number of its certificate too", NULL},
	{"as", 0, 0, G_OPTION_ARG_STRING, &papers.as,
		"your list itself, as csv or yaml", "FORM"},
	{"write", 0, 0, G_OPTION_ARG_FILENAME, &papers.write,
		"write it there, for you alone; .html is a page", "FILE"},
	{"suggest", 0, 0, G_OPTION_ARG_NONE, &suggest,
		"runs that are nearly complete already", NULL},
	{"pocket", 0, 0, G_OPTION_ARG_FILENAME, &pocket,
		"one private page for the phone; -o DIR for a whole report",
		"FILE.html"},
	{"budget", 0, 0, G_OPTION_ARG_STRING, &budget,
		"which of your wants, at the prices that you stated, close "
		"most for this", "\"200 EUR\""},
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

bool
gaps_is_begun(const struct filling *filling)
{
	return filling->held + filling->possible > 0;
}

const char *
gaps_rarity(const struct gapping *gapping, const struct rarity *rarity)
{
	return rarity_words(gapping->rarities, rarity, gapping->run->model,
		gapping->run->arena);
}

unsigned
gaps_runs_of(const struct gapping *gapping, const struct look_for *look)
{
	unsigned count = 0, i, j;

	for (i = 0; i < look->count; i++) {
		for (j = 0; j < i; j++)
			if (gapping->next->targets[look->targets[j]].filling ==
				gapping->next->targets[look->targets[i]]
				.filling)
				break;
		count += j == i;
	}
	return count;
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

/* Over the runs begun; where none is, over all. */
static void
find_next(struct gapping *gapping)
{
	bool *begun = g_new0(bool, gapping->count + 1);
	bool any = false;
	unsigned i;

	for (i = 0; i < gapping->count; i++) {
		begun[i] = gapping->alone ||
			gaps_is_begun(gapping->fillings[i]);
		any = any || begun[i];
	}
	gapping->next = study_next(gapping->pieces, gapping->fillings,
		any ? begun : NULL, gapping->count, gapping->rarities,
		gapping->run->arena);
	if (gapping->budget >= 0)
		gapping->within = next_within(gapping->next, gapping->budget,
			gapping->currency, gapping->run->arena);
	g_free(begun);
}

/* "200 EUR" or "EUR 200": an amount and the code of a currency. */
static bool
read_budget(struct gapping *gapping)
{
	char **words;
	unsigned i;

	gapping->budget = -1;
	if (budget == NULL)
		return true;
	words = g_strsplit_set(budget, " ", 3);
	for (i = 0; words[i] != NULL && i < 2; i++)
		if (shape_amount(words[i]) >= 0)
			gapping->budget = shape_amount(words[i]);
		else if (strlen(words[i]) == 3)
			gapping->currency = arena_text(gapping->run->arena,
				words[i], 3);
	if (words[0] == NULL || words[1] == NULL || words[2] != NULL)
		gapping->budget = -1;
	g_strfreev(words);
	return gapping->budget >= 0 && gapping->currency != NULL;
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
	const struct records *own, const struct options *options)
{
	struct gapping gapping = {
		.run = run,
		.situations = study_situations(run->model, run->arena),
		.alone = only_run != NULL,
	};
	GPtrArray *runs = list_runs(run, pieces, own);
	struct seen *seen;
	int status = EXIT_DONE;

	if (!read_budget(&gapping)) {
		g_ptr_array_free(runs, TRUE);
		return command_usage("--budget is an amount and the code of a "
			"currency, such as \"200 EUR\"");
	}
	seen = seen_gather(run->model, run->arena);
	gapping.rarities = rarities_gather(run->model, seen, run->arena);
	gapping.pieces = study_pieces(run->model, gapping.situations, pieces,
		run->arena);
	fill_runs(&gapping, runs);
	if (gapping.alone && gapping.count == 0) {
		report_run(runs);
		status = EXIT_FINDINGS;
	} else {
		find_next(&gapping);
		if (suggest)
			gapping.suggestions = study_suggest(gapping.pieces,
				gapping.fillings, gapping.count, 20,
				run->arena);
		if (pocket != NULL || options->out_given)
			status = gaps_write_report(&gapping,
				options->out_given ? options->out : NULL,
				pocket, options->corpus);
		else
			print(&gapping, options->format);
	}
	rarities_free(gapping.rarities);
	seen_free(seen);
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
			study_gaps(run, pieces, own, options);
	if (run_sound(run) && !papers_wanted())
		papers_overdue(run, pieces, options);
	run_end(run);
	return status;
}
