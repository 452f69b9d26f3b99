/*
 * hangtab gaps: the collector's own pieces against the runs of the corpus, and
 * against runs of their own in the same file.
 */
#include <stdio.h>
#include <string.h>

#include "base/csv.h"
#include "base/json.h"
#include "command/run.h"
#include "shape/nearest.h"
#include "study/slots.h"

static char *only_run;

const GOptionEntry gaps_entries[] = {
	{"run", 0, 0, G_OPTION_ARG_STRING, &only_run,
		"this run alone", "RUN"},
	{0},
};

static const char *const states[] = {
	[SLOT_MISSING] = "missing",
	[SLOT_POSSIBLE] = "possible",
	[SLOT_HELD] = "held",
};

static const char *
state_word(const struct filled_slot *slot)
{
	if (slot->slot->standing == SLOT_UNSURE && slot->state == SLOT_MISSING)
		return "may not exist";
	return states[slot->state];
}

/* Percent of the slots that surely exist, rounded down: 100 means all. */
static unsigned
percent(const struct filling *filling)
{
	unsigned all = filling->held + filling->possible + filling->missing;

	return all == 0 ? 0 : filling->held * 100 / all;
}

static void
print_pieces(const struct filled_slot *slot, const char *between,
	GString *out)
{
	unsigned i;

	for (i = 0; i < slot->count; i++)
		g_string_append_printf(out, "%s%s", i == 0 ? "" : between,
			slot->pieces[i]->name);
}

static void
print_slots(const struct filling *filling, enum slot_state state,
	enum slot_standing standing, const char *heading)
{
	bool any = false;
	unsigned i;

	for (i = 0; i < filling->count; i++) {
		const struct filled_slot *slot = &filling->items[i];

		if (slot->state != state || slot->slot->standing != standing)
			continue;
		if (!any)
			printf("  %s\n", heading);
		any = true;
		printf("    %s\n", slot->slot->name);
		if (state == SLOT_POSSIBLE)
			printf("      perhaps \"%s\": look at %s\n",
				slot->pieces[0]->name, slot->look_at == NULL ?
				"it again" : slot->look_at);
	}
}

static void
print_run_text(const struct filling *filling)
{
	unsigned all = filling->held + filling->possible + filling->missing;

	printf("%s\n", filling->run->name);
	printf("  %u of %u held (%u %%)", filling->held, all,
		percent(filling));
	if (filling->possible > 0)
		printf(", %u possible", filling->possible);
	printf(", %u missing", filling->missing);
	if (filling->unsure > 0)
		printf("; %u more that may not exist", filling->unsure);
	printf("\n");
	print_slots(filling, SLOT_MISSING, SLOT_SURE, "missing");
	print_slots(filling, SLOT_POSSIBLE, SLOT_SURE, "possibly held");
	print_slots(filling, SLOT_HELD, SLOT_UNSURE,
		"held, although it may not exist");
	print_slots(filling, SLOT_POSSIBLE, SLOT_UNSURE,
		"possibly held, although it may not exist");
	printf("\n");
}

static void
print_run_csv(const struct filling *filling)
{
	GString *pieces = g_string_new(NULL);
	unsigned i;

	for (i = 0; i < filling->count; i++) {
		const struct filled_slot *slot = &filling->items[i];
		const char *cells[] = {filling->run->id, slot->slot->code,
			slot->slot->name, state_word(slot), NULL,
			slot->look_at == NULL ? "" : slot->look_at, NULL};

		g_string_truncate(pieces, 0);
		print_pieces(slot, "; ", pieces);
		cells[4] = pieces->str;
		csv_print_row(cells, stdout);
	}
	g_string_free(pieces, TRUE);
}

static void
print_member(const char *name, const char *text)
{
	printf(",\"%s\":", name);
	json_print(text, stdout);
}

static void
print_run_json(const struct filling *filling)
{
	unsigned i, j;

	fputs("{\"run\":", stdout);
	json_print(filling->run->id, stdout);
	print_member("name", filling->run->name);
	printf(",\"held\":%u,\"possible\":%u,\"missing\":%u,\"unsure\":%u,"
		"\"slots\":[", filling->held, filling->possible,
		filling->missing, filling->unsure);
	for (i = 0; i < filling->count; i++) {
		const struct filled_slot *slot = &filling->items[i];

		fputs(i == 0 ? "{\"slot\":" : ",{\"slot\":", stdout);
		json_print(slot->slot->code, stdout);
		print_member("name", slot->slot->name);
		print_member("state", state_word(slot));
		fputs(",\"pieces\":[", stdout);
		for (j = 0; j < slot->count; j++) {
			fputs(j == 0 ? "" : ",", stdout);
			json_print(slot->pieces[j]->id, stdout);
		}
		fputc(']', stdout);
		if (slot->look_at != NULL)
			print_member("look_at", slot->look_at);
		fputc('}', stdout);
	}
	puts("]}");
}

static void
print_run(const struct filling *filling, enum format format)
{
	switch (format) {
	case FORMAT_SARIF:
	case FORMAT_ANNOTATIONS:
	case FORMAT_TEXT:
		print_run_text(filling);
		break;
	case FORMAT_CSV:
		print_run_csv(filling);
		break;
	case FORMAT_JSON:
		print_run_json(filling);
		break;
	}
}

/* Runs of the corpus, then those that stand in the collector's file. */
static GPtrArray *
list_runs(const struct run *run, const struct records *pieces)
{
	struct record_list corpus = model_records_of(run->model, "run");
	GPtrArray *runs = g_ptr_array_new();
	size_t i;

	for (i = 0; i < corpus.count; i++)
		g_ptr_array_add(runs, (gpointer)(uintptr_t)corpus.items[i]);
	for (i = 0; i < pieces->count; i++)
		if (strcmp(pieces->items[i]->kind->name, "run") == 0)
			g_ptr_array_add(runs, pieces->items[i]);
	return runs;
}

/* One line a run, before the particulars. */
static void
print_summary(struct filling *const *fillings, guint count)
{
	guint i;

	for (i = 0; i < count; i++) {
		const struct filling *filling = fillings[i];
		unsigned all = filling->held + filling->possible +
			filling->missing;

		printf("%4u of %4u  %3u %%  ", filling->held, all,
			percent(filling));
		if (filling->possible > 0)
			printf("%4u possible  ", filling->possible);
		else
			printf("%15s", "");
		printf("%s\n", filling->run->name);
	}
	printf("\n");
}

static void
print_unnamed(const struct run *run, const struct records *pieces)
{
	bool any = false;
	size_t i;

	for (i = 0; i < pieces->count; i++) {
		const struct record *piece = pieces->items[i];

		if (strcmp(piece->kind->name, "holding") != 0 ||
			study_is_named(run->model, piece))
			continue;
		if (!any)
			printf("too little is known of these to count them\n");
		any = true;
		printf("    %s\n", piece->name);
	}
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

static int
print_gaps(const struct run *run, const struct records *pieces,
	enum format format)
{
	static const char *const heads[] = {"run", "slot", "name", "state",
		"pieces", "look_at", NULL};
	GPtrArray *runs = list_runs(run, pieces);
	GPtrArray *fillings = g_ptr_array_new();
	bool any;
	guint i;

	for (i = 0; i < runs->len; i++) {
		const struct record *one = g_ptr_array_index(runs, i);

		if (only_run != NULL && strcmp(only_run, one->id) != 0)
			continue;
		g_ptr_array_add(fillings, study_fill(run->model, one,
			study_slots(run->model, one, run->arena), pieces,
			run->arena));
	}
	if (format == FORMAT_CSV)
		csv_print_row(heads, stdout);
	if (format == FORMAT_TEXT && fillings->len > 1)
		print_summary((struct filling *const *)fillings->pdata,
			fillings->len);
	for (i = 0; i < fillings->len; i++)
		print_run(g_ptr_array_index(fillings, i), format);
	any = fillings->len > 0 || only_run == NULL;
	if (!any)
		report_run(runs);
	else if (format == FORMAT_TEXT)
		print_unnamed(run, pieces);
	g_ptr_array_free(fillings, TRUE);
	g_ptr_array_free(runs, TRUE);
	return any ? EXIT_DONE : EXIT_FINDINGS;
}

int
command_gaps(const struct options *options, char **words)
{
	struct records *pieces;
	struct run *run;
	int status;

	if (words[0] == NULL || words[1] != NULL)
		return command_usage("gaps takes one file of holdings, such "
			"as tests/holdings/beginner.yaml");
	if (!g_file_test(words[0], G_FILE_TEST_EXISTS)) {
		fprintf(stderr, "hangtab: there is no file \"%s\"\n",
			words[0]);
		return EXIT_USAGE;
	}
	run = run_begin(options);
	pieces = run_sound(run) ? run_read_private(run, words[0]) : NULL;
	status = run_report(run, options, false);
	if (pieces != NULL)
		status = print_gaps(run, pieces, options->format);
	run_end(run);
	return status;
}
