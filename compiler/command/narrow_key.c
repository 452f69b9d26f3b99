/*
 * hangtab narrow --key: an identification key as people print them, steps with
 * numbers whose leads say where to go on; or the groups that have one.
 */
#include <stdio.h>
#include <string.h>

#include "base/csv.h"
#include "base/json.h"
#include "command/guide.h"
#include "command/narrowing.h"
#include "shape/nearest.h"
#include "study/key_group.h"

enum { INDENT = 7, LISTED = 35 };

/* A key that is being printed. */
struct printing {
	const struct model *model;
	const struct keyed *keyed;
};

static const struct record *
item_of(const struct printing *printing, unsigned item)
{
	return printing->keyed->group->items[item];
}

/* Where a lead leads, if that is one thing: freed by the caller. */
static char *
target_of(const struct printing *printing, const struct key_lead *lead)
{
	if (lead->step != NULL)
		return g_strdup_printf("%u", lead->step->number);
	return g_strdup(lead->count == 1 ? item_of(printing,
		lead->items[0])->name : lead->given_up ?
		"too little is recorded to go on:" : "not to be told apart:");
}

/* The text, and at the right where it leads, with dots between. */
static void
print_led(const char *text, const char *target)
{
	int dots = LINE_WIDTH - INDENT - guide_width(text) -
		guide_width(target) - 2;

	if (dots < 2) {
		guide_wrap(text, INDENT, INDENT + 2);
		printf("%*s", INDENT + 2, "");
		dots = LINE_WIDTH - INDENT - 3 - guide_width(target);
	} else {
		printf("%s ", text);
	}
	for (; dots > 0; dots--)
		putchar('.');
	putchar(' ');
	guide_wrap(target, INDENT + 4, INDENT + 4);
}

static void
print_items(const struct printing *printing, const struct key_lead *lead)
{
	unsigned i;

	if (lead->step != NULL || lead->count < 2)
		return;
	for (i = 0; i < lead->count; i++) {
		printf("%*s", INDENT + 4, "");
		guide_wrap(item_of(printing, lead->items[i])->name,
			INDENT + 4, INDENT + 6);
	}
}

static void
print_lead(const struct printing *printing, const struct key_step *step,
	unsigned lead)
{
	GString *text = g_string_new(NULL);
	char *target = target_of(printing, &step->leads[lead]);
	unsigned i;

	keyed_say_lead(printing->model, printing->keyed, step, lead, text);
	for (i = 0; i < step->also_count; i++) {
		g_string_append(text, "; ");
		keyed_say_also(printing->model, printing->keyed,
			&step->also[i], lead, text);
	}
	printf("%*s", INDENT, "");
	print_led(text->str, target);
	print_items(printing, &step->leads[lead]);
	g_free(target);
	g_string_free(text, TRUE);
}

static void
print_text(const struct printing *printing)
{
	const struct key *key = printing->keyed->key;
	GString *text = g_string_new(NULL);
	unsigned i, j;

	g_string_printf(text, "Key to %s", printing->keyed->group->name);
	guide_wrap(text->str, 0, 2);
	if (key->count == 0) {
		printf("\n%*s%s\n", INDENT, "", key->start.given_up ?
			"too little is recorded to begin:" :
			"nothing recorded tells them apart:");
		print_items(printing, &key->start);
	}
	for (i = 0; i < key->count; i++) {
		const struct key_step *step = key->steps[i];
		const struct record *feature = printing->keyed->features[
			step->feature]->record;

		const struct value *cost = model_get(printing->model,
			feature->values, NAME(FEATURE_COST));

		g_string_assign(text, feature->name);
		if (cost != NULL)
			g_string_append_printf(text, ": %s",
				cost->word->title);
		if (step->from != 0 && step->from + 1 != step->number)
			g_string_append_printf(text, " (from %u)", step->from);
		printf("\n%5u  ", step->number);
		guide_wrap(text->str, INDENT, INDENT);
		for (j = 0; j < step->count; j++)
			print_lead(printing, step, j);
	}
	g_string_truncate(text, 0);
	keyed_say_report(printing->keyed, text);
	putchar('\n');
	guide_wrap(text->str, 0, 0);
	g_string_free(text, TRUE);
}

/* Keys of states; null where there is nothing to look at. */
static void
print_json_states(const struct printing *printing,
	const struct key_step *step, uint64_t states)
{
	const struct feature *feature = printing->keyed->features[
		step->feature];
	const struct value *list = model_get(printing->model,
		feature->record->values, NAME(FEATURE_STATES));
	const char *between = "";
	unsigned i;

	fputs(", \"states\": [", stdout);
	for (i = 0; i < feature->states; i++) {
		if ((states >> i & 1) == 0)
			continue;
		fputs(between, stdout);
		json_print(model_text(printing->model, value_item(list, i)->
			group, NAME(FEATURE_STATE_KEY)), stdout);
		between = ", ";
	}
	if ((states & KEY_INAPPLICABLE) != 0)
		printf("%snull", between);
	putchar(']');
}

static void
print_json_lead(const struct printing *printing, const struct key_step *step,
	unsigned i)
{
	const struct key_lead *lead = &step->leads[i];
	GString *text = g_string_new(NULL);
	unsigned j;

	keyed_say_lead(printing->model, printing->keyed, step, i, text);
	printf("%s\n    {\"says\": ", i == 0 ? "" : ",");
	json_print(text->str, stdout);
	g_string_free(text, TRUE);
	print_json_states(printing, step, lead->states);
	if (lead->step != NULL) {
		printf(", \"step\": %u}", lead->step->number);
		return;
	}
	fputs(", \"records\": [", stdout);
	for (j = 0; j < lead->count; j++) {
		fputs(j == 0 ? "" : ", ", stdout);
		json_print(item_of(printing, lead->items[j])->id, stdout);
	}
	fputs("]}", stdout);
}

static void
print_json(const struct printing *printing)
{
	const struct key *key = printing->keyed->key;
	const struct key_report *report = &key->report;
	unsigned i, j;

	fputs("{\"group\": ", stdout);
	json_print(printing->keyed->group->path, stdout);
	printf(",\n \"records\": %u, \"steps\": %u, \"leads\": %u, "
		"\"features\": %u, \"together\": %u,\n \"mean\": %.4f, "
		"\"longest\": %u, \"cost\": %.4f,\n \"key\": [",
		printing->keyed->group->count, key->count, report->leads,
		report->features, report->together, report->mean,
		report->longest, report->cost);
	for (i = 0; i < key->count; i++) {
		const struct key_step *step = key->steps[i];

		printf("%s\n  {\"step\": %u, \"from\": %u, \"feature\": ",
			i == 0 ? "" : ",", step->number, step->from);
		json_print(printing->keyed->features[step->feature]->
			record->id, stdout);
		fputs(", \"leads\": [", stdout);
		for (j = 0; j < step->count; j++)
			print_json_lead(printing, step, j);
		fputs("]}", stdout);
	}
	puts("]}");
}

/* A row for each lead, and where several end together for each of them. */
static void
print_csv_lead(const struct printing *printing, const struct key_step *step,
	unsigned i)
{
	const struct key_lead *lead = &step->leads[i];
	GString *text = g_string_new(NULL);
	char *number = g_strdup_printf("%u", step->number);
	char *next = lead->step == NULL ? g_strdup("") :
		g_strdup_printf("%u", lead->step->number);
	const char *feature = printing->keyed->features[step->feature]->
		record->id;
	unsigned j;

	keyed_say_lead(printing->model, printing->keyed, step, i, text);
	for (j = 0; j < (lead->step == NULL ? lead->count : 1); j++)
		csv_print_row((const char *const[]){number, feature, text->str,
			next, lead->step == NULL ? item_of(printing,
			lead->items[j])->id : "", NULL}, stdout);
	g_free(next);
	g_free(number);
	g_string_free(text, TRUE);
}

static void
print_csv(const struct printing *printing)
{
	const struct key *key = printing->keyed->key;
	unsigned i, j;

	csv_print_row((const char *const[]){"step", "feature", "lead",
		"next", "record", NULL}, stdout);
	for (i = 0; i < key->count; i++)
		for (j = 0; j < key->steps[i]->count; j++)
			print_csv_lead(printing, key->steps[i], j);
}

static void
print_key(const struct printing *printing, enum format format)
{
	switch (format) {
	case FORMAT_SARIF:
	case FORMAT_ANNOTATIONS:
	case FORMAT_TEXT:
		print_text(printing);
		break;
	case FORMAT_JSON:
		print_json(printing);
		break;
	case FORMAT_CSV:
		print_csv(printing);
		break;
	}
}

/* All groups of three or more, or all of one kind; how many. */
static unsigned
list_groups(const struct key_groups *groups, const char *kind)
{
	unsigned i, count = 0;

	for (i = 0; i < groups->count; i++) {
		const struct key_group *group = &groups->items[i];

		if (kind == NULL ? group->count < 3 :
			strcmp(group->kind->name, kind) != 0)
			continue;
		if (count++ == 0)
			puts("There are keys to");
		printf("  %-28s %3u  ", group->path, group->count);
		guide_wrap(group->name, LISTED, LISTED + 2);
	}
	return count;
}

static int
say_unknown(const struct key_groups *groups, const char *path)
{
	struct nearest nearest = nearest_to(path);
	const char *near;
	unsigned i;

	for (i = 0; i < groups->count; i++)
		nearest_offer(&nearest, groups->items[i].path);
	near = nearest.alike != NULL ? nearest.alike : nearest.best;
	fprintf(stderr, "hangtab: there is no key to \"%s\"", path);
	if (near != NULL)
		fprintf(stderr, "; did you mean \"%s\"?", near);
	fputs("\n  `hangtab narrow --key` lists all\n", stderr);
	return EXIT_FINDINGS;
}

/* The features of a list like "a,b"; false, after a message, for another. */
static bool
read_first(const struct narrowing *narrowing, const char *list,
	GPtrArray *first)
{
	const struct kind *kind = schema_kind(model_schema(narrowing->model),
		"feature");
	char **ids = g_strsplit(list == NULL ? "" : list, ",", 0);
	bool good = true;
	size_t i;

	for (i = 0; good && ids[i] != NULL; i++) {
		const struct record *record = names_find(model_names(
			narrowing->model), kind, ids[i]);

		good = record != NULL;
		if (good)
			g_ptr_array_add(first, (gpointer)(uintptr_t)
				features_get(narrowing->features,
				record->index));
		else
			fprintf(stderr, "hangtab: there is no feature "
				"\"%s\"\n", ids[i]);
	}
	g_strfreev(ids);
	return good;
}

int
narrowing_key(const struct narrowing *narrowing, const char *list,
	struct arena *arena, enum format format)
{
	struct key_groups *groups = key_groups_gather(narrowing->model, arena);
	const char *path = narrowing->words[0];
	const struct key_group *group;
	struct printing printing = {.model = narrowing->model};
	GPtrArray *first;
	int status = EXIT_USAGE;

	if (path == NULL)
		return list_groups(groups, NULL) > 0 ? EXIT_DONE :
			EXIT_FINDINGS;
	group = key_groups_find(groups, path);
	if (group == NULL)
		return list_groups(groups, path) > 0 ? EXIT_DONE :
			say_unknown(groups, path);
	first = g_ptr_array_new();
	if (read_first(narrowing, list, first)) {
		printing.keyed = key_group_build(narrowing->features,
			commons_count(narrowing->model, narrowing->seen,
			narrowing->features, arena), group,
			(const struct feature *const *)first->pdata,
			first->len, arena);
		print_key(&printing, format);
		status = EXIT_DONE;
	}
	g_ptr_array_free(first, TRUE);
	return status;
}
