/*
 * hangtab estimate: how many there are of something, with the working.
 */
#include <stdio.h>
#include <string.h>

#include "command/estimating.h"
#include "command/run.h"
#include "link/link.h"

static char *on;
static char *method;
static gboolean all_methods;
static gboolean exact;
static gboolean everything;

const GOptionEntry estimate_entries[] = {
	{"on", 0, 0, G_OPTION_ARG_STRING, &on,
		"of an anomaly: on this pairing alone", "PAIRING"},
	{"method", 0, 0, G_OPTION_ARG_STRING, &method,
		"this method, whatever the rule says; \"list\" lists them",
		"NAME"},
	{"all-methods", 0, 0, G_OPTION_ARG_NONE, &all_methods,
		"what each method makes of the data", NULL},
	{"exact-share", 0, 0, G_OPTION_ARG_NONE, &exact,
		"shares with the limits of Clopper and Pearson too", NULL},
	{"all", 'a', 0, G_OPTION_ARG_NONE, &everything,
		"without ids: all that have a number", NULL},
	{0},
};

static const char *const kinds[] = {"pairing", "anomaly", "cardback"};

/* The record that a word names, with its kind or without. */
static const struct record *
find_record(const struct run *run, const char *word,
	const struct value **item)
{
	const struct record *found;
	char *written;
	size_t i;

	if (strchr(word, '/') != NULL)
		return names_find_written(run->names, run->schema, word,
			item);
	for (i = 0; i < G_N_ELEMENTS(kinds); i++) {
		written = g_strdup_printf("%s/%s", kinds[i], word);
		found = names_find_written(run->names, run->schema, written,
			item);
		g_free(written);
		if (found != NULL)
			return found;
	}
	return NULL;
}

static int
say_unknown(const struct run *run, const char *word)
{
	const char *slash = strchr(word, '/');
	struct nearest nearest = nearest_to(slash == NULL ? word : slash + 1);
	const char *near;
	size_t i;

	for (i = 0; i < G_N_ELEMENTS(kinds); i++)
		if (slash == NULL || strncmp(kinds[i], word,
			(size_t)(slash - word)) == 0)
			names_nearest(run->names, schema_kind(run->schema,
				kinds[i]), &nearest);
	near = nearest.alike != NULL ? nearest.alike : nearest.best;
	fprintf(stderr, "hangtab: there is no pairing, anomaly or card back "
		"\"%s\"", word);
	if (near != NULL)
		fprintf(stderr, "; did you mean \"%s\"?", near);
	fputc('\n', stderr);
	return EXIT_FINDINGS;
}

static int
add_subject(struct estimating *estimating, const struct run *run,
	const char *word, const struct record *pairing)
{
	struct subject subject = {.pairing = NULL};
	const char *kind;

	subject.record = find_record(run, word, &subject.item);
	if (subject.record == NULL || (strchr(word, '.') != NULL &&
		subject.item == NULL))
		return say_unknown(run, word);
	kind = subject.record->kind->name;
	if (strcmp(kind, "pairing") == 0)
		subject.form = subject.item != NULL ? SUBJECT_COMBINATION :
			SUBJECT_PAIRING;
	else if (strcmp(kind, "anomaly") == 0) {
		subject.pairing = pairing;
		subject.form = pairing != NULL ? SUBJECT_ANOMALY_ON :
			SUBJECT_ANOMALY;
	} else if (strcmp(kind, "cardback") == 0)
		subject.form = SUBJECT_CARDBACK;
	else
		return command_usage("estimates are of pairings, their "
			"combinations, anomalies and card backs");
	if (pairing != NULL && subject.form != SUBJECT_ANOMALY_ON)
		return command_usage("--on is for anomalies");
	g_ptr_array_add(estimating->asked, reckon(estimating->reckonings,
		subject, estimating->arena));
	return EXIT_DONE;
}

/* Puts the method that was asked for in place of the rule's. */
static int
apply_method(struct estimating *estimating)
{
	enum method wanted = METHOD_EXACT;
	guint i;

	if (method == NULL)
		return EXIT_DONE;
	if (!method_named(method, &wanted))
		return command_usage("there is no method \"%s\"; --method "
			"list lists them", method);
	for (i = 0; i < estimating->asked->len; i++)
		if (!reckon_again(g_ptr_array_index(estimating->asked, i),
			wanted)) {
			fprintf(stderr, "hangtab: the data do not suit \"%s\","
				" which needs %s\n", method,
				method_words(wanted)->needs);
			return EXIT_FINDINGS;
		}
	return EXIT_DONE;
}

static void
list_methods(void)
{
	int i;

	for (i = 0; i < METHODS; i++) {
		const struct method_words *words = method_words(
			(enum method)i);

		printf("%-20s %s (%s)\n", words->name, words->title,
			words->source);
	}
}

static int
answer(struct estimating *estimating, const struct run *run, char **words,
	enum format format)
{
	const struct record *pairing = NULL;
	const struct value *item = NULL;
	int status = EXIT_DONE;

	if (on != NULL) {
		pairing = find_record(run, on, &item);
		if (pairing == NULL || strcmp(pairing->kind->name,
			"pairing") != 0)
			return say_unknown(run, on);
	}
	for (; status == EXIT_DONE && *words != NULL; words++)
		status = add_subject(estimating, run, *words, pairing);
	if (status == EXIT_DONE)
		status = apply_method(estimating);
	if (status == EXIT_DONE)
		estimating_print(estimating, format);
	return status;
}

static int
estimate(struct run *run, char **words, enum format format)
{
	struct seen *seen = seen_gather(run->model, run->arena);
	struct reckonings *reckonings = reckonings_gather(run->model, seen,
		run->arena);
	struct estimating estimating = {
		.reckonings = reckonings,
		.arena = run->arena,
		.asked = g_ptr_array_new(),
		.exact = exact,
		.all_methods = all_methods,
		.everything = everything,
	};
	int status = EXIT_DONE;

	if (words[0] != NULL)
		status = answer(&estimating, run, words, format);
	else {
		reckonings_work(reckonings);
		estimating_overview(&estimating, format);
	}
	g_ptr_array_free(estimating.asked, TRUE);
	seen_free(seen);
	return status;
}

int
command_estimate(const struct options *options, char **words)
{
	struct run *run;
	int status;

	if (method != NULL && strcmp(method, "list") == 0) {
		list_methods();
		return EXIT_DONE;
	}
	if (words[0] == NULL && (on != NULL || method != NULL || all_methods))
		return command_usage("estimate takes these options with an "
			"id, such as pairing/ID, anomaly/ID or cardback/ID");
	run = run_begin(options);
	if (run_sound(run))
		status = estimate(run, words, options->format);
	else
		status = run_report(run, options, false);
	run_end(run);
	return status;
}
