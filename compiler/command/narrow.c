/*
 * hangtab narrow: what a piece can be, from what can be seen on it.
 */
#include <stdio.h>
#include <string.h>

#include "command/narrowing.h"
#include "study/forms.h"

static char *of;
static int mistakes;
static gboolean names;
static gboolean as_key;
static char *first;
static char *form;
static char *lines;

const GOptionEntry narrow_entries[] = {
	{"of", 0, 0, G_OPTION_ARG_STRING, &of,
		"settle this alone: cardback, front, blister, variant, "
		"character or accessory", "KIND"},
	{"form", 0, 0, G_OPTION_ARG_STRING, &form,
		"how it lies before you: card, bag, loose or case", "FORM"},
	{"lines", 0, 0, G_OPTION_ARG_FILENAME, &lines,
		"take what was seen from a file, a piece on each line", "FILE"},
	{"mistakes", 0, 0, G_OPTION_ARG_INT, &mistakes,
		"allow 1 or 2 of what was seen to be wrong", "COUNT"},
	{"names", 'v', 0, G_OPTION_ARG_NONE, &names,
		"name all that remains and what was ruled out", NULL},
	{"key", 0, 0, G_OPTION_ARG_NONE, &as_key,
		"print a key instead, to cardback/MARKET for one; lists them",
		NULL},
	{"first", 0, 0, G_OPTION_ARG_STRING, &first,
		"let the key ask these first", "FEATURES"},
	{0},
};

static const char *const parts[] = {
	"character", "market", "cardback", "front", "blister", "variant",
};

static void
clear_observation(gpointer data)
{
	struct observation *observation = data;

	if (observation->records != NULL)
		g_ptr_array_free(observation->records, TRUE);
}

static void
free_array(GArray *array)
{
	g_array_free(array, TRUE);
}

static bool
say_unknown(const char *what, const char *wanted,
	const struct nearest *nearest)
{
	const char *near = nearest->alike != NULL ? nearest->alike :
		nearest->best;

	fprintf(stderr, "hangtab: there is no %s \"%s\"", what, wanted);
	if (near != NULL)
		fprintf(stderr, "; did you mean \"%s\"?", near);
	fputc('\n', stderr);
	return false;
}

static bool
add_record(const struct model *model, struct observation *observation,
	const char *id)
{
	const struct kind *kind = schema_kind(model_schema(model),
		observation->part);
	const struct record *record = names_find(model_names(model), kind,
		id);
	struct nearest nearest = nearest_to(id);

	if (record == NULL) {
		names_nearest(model_names(model), kind, &nearest);
		return say_unknown(observation->part, id, &nearest);
	}
	g_ptr_array_add(observation->records, (gpointer)(uintptr_t)record);
	return true;
}

static bool
add_state(const struct model *model, struct observation *observation,
	const char *key)
{
	const struct feature *feature = observation->feature;
	const struct value *states = model_get(model, feature->record->values,
		NAME(FEATURE_STATES));
	struct nearest nearest = nearest_to(key);
	char *what;
	unsigned i;

	for (i = 0; i < feature->states; i++) {
		const char *known = value_item(states, i)->group[0]->text;

		if (strcmp(known, key) == 0) {
			observation->states |= (state_set)1 << i;
			return true;
		}
		nearest_offer(&nearest, known);
	}
	if (strcmp(key, NARROW_NOT_APPLYING) == 0) {
		observation->inapplicable = true;
		return true;
	}
	what = g_strdup_printf("state of %s", feature->record->id);
	say_unknown(what, key, &nearest);
	g_free(what);
	return false;
}

/* The part or the feature that a word names. */
static bool
find_what(const struct narrowing *narrowing, const char *name,
	struct observation *observation)
{
	const struct model *model = narrowing->model;
	const struct kind *kind = schema_kind(model_schema(model), "feature");
	const struct record *record;
	struct nearest nearest = nearest_to(name);
	size_t i;

	for (i = 0; i < G_N_ELEMENTS(parts); i++) {
		nearest_offer(&nearest, parts[i]);
		if (strcmp(parts[i], name) != 0)
			continue;
		observation->part = parts[i];
		observation->records = g_ptr_array_new();
		return true;
	}
	record = names_find(model_names(model), kind, name);
	if (record != NULL) {
		observation->feature = features_get(narrowing->features,
			record->index);
		return true;
	}
	names_nearest(model_names(model), kind, &nearest);
	return say_unknown("feature", name, &nearest);
}

/* Reads NAME=STATE,STATE. */
static bool
read_observation(const struct narrowing *narrowing, const char *word,
	struct observation *observation)
{
	const char *equals = strchr(word, '=');
	char *name = equals == NULL ? g_strdup(word) :
		g_strndup(word, (gsize)(equals - word));
	char **values = g_strsplit(equals == NULL ? "" : equals + 1, ",", 0);
	bool good = find_what(narrowing, name, observation);
	size_t i;

	if (good && values[0] == NULL) {
		fprintf(stderr, "hangtab: \"%s\" lacks what was seen, as in "
			"%s=STATE\n", word, name);
		good = false;
	}
	for (i = 0; good && values[i] != NULL; i++)
		good = observation->feature == NULL ?
			add_record(narrowing->model, observation, values[i]) :
			add_state(narrowing->model, observation, values[i]);
	g_strfreev(values);
	g_free(name);
	return good;
}

/* Whether any record of a kind scores a feature. */
static bool
is_scored_by(const struct narrowing *narrowing, const struct feature *feature,
	const char *kind)
{
	struct record_list list = model_records_of(narrowing->model, kind);
	state_set states;
	unsigned i;

	for (i = 0; i < list.count; i++)
		if (features_score(narrowing->features,
			feature->record->index, list.items[i], &states))
			return true;
	return false;
}

/*
 * What the observations are of, if all are of one sort of thing: someone who
 * looks at a figure alone asks which figure it is, not which card.
 */
static const char *
what_is_seen(const struct narrowing *narrowing)
{
	const char *seen = NULL;
	guint i;
	unsigned j;

	for (i = 0; i < narrowing->observations->len; i++) {
		const struct observation *one = &g_array_index(
			narrowing->observations, struct observation, i);

		if (one->feature == NULL && strcmp(one->part, "character") != 0)
			return NULL;
		for (j = 0; one->feature != NULL && features_kind(j) != NULL;
			j++) {
			const char *kind = features_kind(j);

			if (!is_scored_by(narrowing, one->feature, kind))
				continue;
			if (seen == NULL || (strcmp(kind, "variant") == 0 &&
				strcmp(seen, "character") == 0))
				seen = kind;
			else if (strcmp(seen, kind) != 0 &&
				(strcmp(seen, "variant") != 0 ||
				strcmp(kind, "character") != 0))
				return NULL;
		}
	}
	return seen != NULL && strcmp(seen, "cardback") != 0 &&
		strcmp(seen, "front") != 0 ? seen : NULL;
}

static int
narrow(struct narrowing *narrowing, char **words, struct arena *arena,
	enum format format)
{
	const struct form *lies = form == NULL ? NULL : form_named(form);
	size_t i;

	for (i = 0; words[i] != NULL; i++) {
		struct observation one = {0};
		bool good = read_observation(narrowing, words[i], &one);

		g_array_append_val(narrowing->observations, one);
		if (!good)
			return EXIT_USAGE;
	}
	narrowing->words = words;
	narrowing->of = of;
	if (of == NULL)
		narrowing->of = lies != NULL ? lies->of :
			what_is_seen(narrowing);
	narrowing->candidates = narrow_hold(narrowing->model, narrowing->seen,
		narrowing->features, (const struct observation *)(const void *)
		narrowing->observations->data, narrowing->observations->len,
		narrowing->of, arena);
	narrowing->looks = narrow_looks(narrowing->model, narrowing->features,
		narrowing->candidates, narrowing->mistakes,
		(const struct observation *)(const void *)
		narrowing->observations->data, narrowing->observations->len,
		narrowing->of != NULL ? narrowing->of : narrow_target(
		narrowing->candidates, narrowing->mistakes),
		lies == NULL ? NULL : lies->sides);
	return narrowing_print(narrowing, format);
}

static int
check_options(char **words)
{
	static const char *const kinds[] = {"cardback", "front", "blister",
		"variant", "character", "accessory", NULL};

	if (mistakes < 0 || mistakes > 2)
		return command_usage("--mistakes takes 1 or 2");
	if (of != NULL && !g_strv_contains(kinds, of))
		return command_usage("--of takes cardback, front, blister, "
			"variant, character or accessory");
	if (form != NULL && form_named(form) == NULL)
		return command_usage("--form takes card, bag, loose or case");
	if (as_key && words[0] != NULL && words[1] != NULL)
		return command_usage("narrow --key takes one group, such as "
			"cardback/MARKET");
	if (first != NULL && !as_key)
		return command_usage("--first goes with --key");
	if (g_strv_length(words) > MOST_OBSERVATIONS)
		return command_usage("narrow takes at most %d things that "
			"were seen", MOST_OBSERVATIONS);
	return EXIT_DONE;
}

/* One narrowing after another can be made. */
static int
narrow_once(struct narrowing *narrowing, char **words, struct arena *arena,
	enum format format)
{
	int status;

	narrowing->observations = g_array_new(FALSE, FALSE,
		sizeof(struct observation));
	g_array_set_clear_func(narrowing->observations, clear_observation);
	status = narrow(narrowing, words, arena, format);
	g_array_free(narrowing->observations, TRUE);
	g_clear_pointer(&narrowing->candidates, free_array);
	g_clear_pointer(&narrowing->looks, free_array);
	return status;
}

/* Each line of a file by itself; ends at one that cannot be read. */
static int
narrow_lines(struct narrowing *narrowing, struct arena *arena,
	enum format format)
{
	int status = EXIT_DONE;
	char *text, **all;
	size_t i;

	if (!g_file_get_contents(lines, &text, NULL, NULL))
		return command_usage("there is no file \"%s\"", lines);
	all = g_strsplit(text, "\n", 0);
	for (i = 0; all[i] != NULL && status != EXIT_USAGE; i++) {
		char **words = g_strsplit(g_strstrip(all[i]), " ", 0);

		if (words[0] != NULL) {
			status = check_options(words);
			if (status == EXIT_DONE)
				status = narrow_once(narrowing, words, arena,
					format);
		}
		g_strfreev(words);
	}
	g_strfreev(all);
	g_free(text);
	return status == EXIT_USAGE ? status : EXIT_DONE;
}

int
command_narrow(const struct options *options, char **words)
{
	struct narrowing narrowing = {
		.words = words,
		.of = of,
		.mistakes = (unsigned)mistakes,
		.names = names,
	};
	struct run *run;
	struct seen *seen;
	int status = check_options(words);

	if (status != EXIT_DONE)
		return status;
	run = run_begin(options);
	if (!run_sound(run)) {
		status = run_report(run, options, false);
		run_end(run);
		return status;
	}
	seen = seen_gather(run->model, run->arena);
	narrowing.model = run->model;
	narrowing.seen = seen;
	narrowing.features = features_gather(run->model, run->arena);
	if (as_key)
		status = narrowing_key(&narrowing, first, run->arena,
			options->format);
	else if (lines != NULL)
		status = narrow_lines(&narrowing, run->arena, options->format);
	else
		status = narrow_once(&narrowing, words, run->arena,
			options->format);
	seen_free(seen);
	run_end(run);
	return status;
}
