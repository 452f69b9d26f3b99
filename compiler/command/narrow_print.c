/*
 * What remains after a narrowing, what was ruled out by what, and what to look
 * at next: on a terminal, as JSON, and as CSV.
 */
#include <inttypes.h>
#include <stdio.h>
#include <string.h>

#include "base/csv.h"
#include "base/json.h"
#include "command/guide.h"
#include "command/narrowing.h"
#include "model/text.h"

enum { FEW = 12, LOOKS = 3 };

static const struct candidate *
candidate_at(const struct narrowing *narrowing, guint i)
{
	return &g_array_index(narrowing->candidates, struct candidate, i);
}

/* "kind/id" or "pairing/id.key"; freed by the caller. */
static char *
address_of(const struct record *record, const struct value *item)
{
	return g_strdup_printf("%s/%s%s%s", record->kind->name, record->id,
		item == NULL ? "" : ".", item == NULL ? "" :
		item->group[0]->text);
}

/* The part of a kind; of what passes for an accessory, only the imitation. */
static const struct record *
part_of(const struct candidate *one, const char *kind)
{
	if (strcmp(kind, "imitation") == 0)
		return one->situation.imitation;
	if (strcmp(kind, "accessory") == 0 && one->situation.imitation != NULL)
		return NULL;
	return narrow_part(&one->situation, kind);
}

/* A record that remains, and how much of what was seen it shows at best. */
struct remaining {
	const struct record *record;
	unsigned shown;
	unsigned wrong;		/* and then contradicts */
};

static int
compare_remaining(const void *a, const void *b)
{
	const struct remaining *left = a, *right = b;

	if (left->shown != right->shown)
		return left->shown > right->shown ? -1 : 1;
	return (left->record->index > right->record->index) -
		(left->record->index < right->record->index);
}

/*
 * The records of a kind among what remains, each once: those that show most of
 * what was seen first, then in reading order.
 */
static GArray *
remaining(const struct narrowing *narrowing, const char *kind)
{
	GArray *list = g_array_new(FALSE, FALSE, sizeof(struct remaining));
	GHashTable *known = g_hash_table_new(NULL, NULL);
	guint i, place;

	for (i = 0; i < narrowing->candidates->len; i++) {
		const struct candidate *one = candidate_at(narrowing, i);
		struct remaining new = {part_of(one, kind), narrow_shown(one),
			narrow_wrong(one)};
		struct remaining *old;

		if (new.record == NULL || new.wrong > narrowing->mistakes)
			continue;
		place = GPOINTER_TO_UINT(g_hash_table_lookup(known,
			new.record));
		if (place == 0) {
			g_array_append_val(list, new);
			g_hash_table_insert(known,
				(gpointer)(uintptr_t)new.record,
				GUINT_TO_POINTER(list->len));
			continue;
		}
		old = &g_array_index(list, struct remaining, place - 1);
		if (new.shown > old->shown || (new.shown == old->shown &&
			new.wrong < old->wrong))
			*old = new;
	}
	g_array_sort(list, compare_remaining);
	g_hash_table_destroy(known);
	return list;
}

/* How many of them show all of what was seen. */
static guint
count_full(const struct narrowing *narrowing, const GArray *list)
{
	guint i;

	for (i = 0; i < list->len; i++)
		if (g_array_index(list, struct remaining, i).shown <
			narrowing->observations->len)
			break;
	return i;
}

/* How many combinations remain. */
static unsigned
count_remaining(const struct narrowing *narrowing)
{
	unsigned count = 0;
	guint i;

	for (i = 0; i < narrowing->candidates->len; i++)
		count += narrow_wrong(candidate_at(narrowing, i)) <=
			narrowing->mistakes;
	return count;
}

/* How many more would remain if one observation had not been made. */
static unsigned
count_without(const struct narrowing *narrowing, guint observation)
{
	uint64_t bit = (uint64_t)1 << observation;
	unsigned count = 0;
	guint i;

	for (i = 0; i < narrowing->candidates->len; i++) {
		const struct candidate *one = candidate_at(narrowing, i);

		count += (one->against & bit) != 0 &&
			narrow_wrong(one) == narrowing->mistakes + 1;
	}
	return count;
}

static unsigned
count_against(const struct narrowing *narrowing, guint observation)
{
	unsigned count = 0;
	guint i;

	for (i = 0; i < narrowing->candidates->len; i++)
		count += candidate_at(narrowing, i)->against >> observation &
			1;
	return count;
}

static void
print_line(const struct record *record, const struct value *item,
	unsigned wrong)
{
	char *address = address_of(record, item);

	printf("  %s%s%s", address, item == NULL ? "  " : "",
		item == NULL ? record->name : "");
	if (wrong > 0)
		printf("  (against %u seen)", wrong);
	putchar('\n');
	g_free(address);
}

/* Once some show all that was seen, others are only counted. */
static void
print_kind(const struct narrowing *narrowing, const char *name)
{
	const struct kind *kind = schema_kind(model_schema(narrowing->model),
		name);
	GArray *list = remaining(narrowing, name);
	guint i, full = count_full(narrowing, list), most = FEW;
	bool named = full > 0 && full <= FEW && full < list->len;

	if (named)
		most = full;
	if (narrowing->names)
		most = list->len;
	if (list->len > 0)
		printf("%u %s%s\n", named ? full : list->len,
			(named ? full : list->len) == 1 ? kind->title :
			kind->titles, named ? full == 1 ? " shows all of that" :
			" show all of that" : "");
	for (i = 0; i < list->len && i < most; i++)
		print_line(g_array_index(list, struct remaining, i).record,
			NULL, g_array_index(list, struct remaining, i).wrong);
	if (list->len > most)
		printf(named ? "  of %u more not all of that is recorded; "
			"--names lists them\n" :
			"  and %u more; --names lists them\n",
			list->len - most);
	g_array_free(list, TRUE);
}

/* Combinations when they are few, those that fit best first. */
static void
print_combinations(const struct narrowing *narrowing)
{
	unsigned count = count_remaining(narrowing), wrong;
	guint i;

	if (count > FEW && !narrowing->names) {
		printf("%u combinations in all\n", count);
		return;
	}
	printf("%u combination%s\n", count, count == 1 ? "" : "s");
	for (wrong = 0; wrong <= narrowing->mistakes; wrong++)
		for (i = 0; i < narrowing->candidates->len; i++) {
			const struct candidate *one = candidate_at(narrowing,
				i);

			if (narrow_wrong(one) == wrong)
				print_line(narrow_record(one),
					one->situation.item, wrong);
		}
}

static void
print_ruled_out(const struct narrowing *narrowing)
{
	guint i, j;

	if (narrowing->observations->len > 0)
		puts("\nruled out by");
	for (i = 0; i < narrowing->observations->len; i++) {
		printf("%8u  %s\n", count_against(narrowing, i),
			narrowing->words[i]);
		for (j = 0; narrowing->names &&
			j < narrowing->candidates->len; j++) {
			const struct candidate *one = candidate_at(narrowing,
				j);
			char *address;

			if ((one->against >> i & 1) == 0)
				continue;
			address = address_of(narrow_record(one),
				one->situation.item);
			printf("          %s\n", address);
			g_free(address);
		}
	}
}

static void
print_field(const char *title, const struct value *value)
{
	GString *text = g_string_new(NULL);

	if (value != NULL) {
		value_append_text(value, text);
		printf("    %-8s", title);
		guide_wrap(text->str, 12, 12);
	}
	g_string_free(text, TRUE);
}

static void
print_states(const struct narrowing *narrowing, const struct look *look)
{
	const struct feature *feature = look->feature;
	const struct value *states = model_get(narrowing->model,
		feature->record->values, NAME(FEATURE_STATES));
	const struct field *name = fields_find(&states->field->fields,
		"name");
	GString *text = g_string_new(NULL);
	unsigned i;

	for (i = 0; i < feature->states; i++) {
		struct value *const *group = value_item(states, i)->group;

		if ((look->states >> i & 1) == 0)
			continue;
		g_string_append_printf(text, "%s%s", text->len == 0 ? "" :
			", ", group[0]->text);
		if (name != NULL && group[name->index] != NULL)
			g_string_append_printf(text, " (%s)",
				group[name->index]->text);
	}
	if ((look->states >> (MOST_STATES - 1) & 1) != 0 &&
		feature->states < MOST_STATES)
		g_string_append(text, ", " NARROW_NOT_APPLYING " (there is "
			"no such thing)");
	printf("    states  ");
	guide_wrap(text->str, 12, 12);
	g_string_free(text, TRUE);
}

/* How many are still to be told apart. */
static unsigned
count_things(const struct narrowing *narrowing)
{
	unsigned count;
	GArray *list;

	if (narrowing->of == NULL || strcmp(narrowing->of, "accessory") == 0)
		return count_remaining(narrowing);
	list = remaining(narrowing, narrowing->of);
	count = list->len;
	g_array_free(list, TRUE);
	return count;
}

static void
print_looks(const struct narrowing *narrowing)
{
	guint i;

	if (narrowing->looks->len == 0) {
		if (count_things(narrowing) > 1)
			puts("\nnothing recorded tells these apart");
		return;
	}
	puts("\nlook next at");
	for (i = 0; i < narrowing->looks->len && i < LOOKS; i++) {
		const struct look *look = &g_array_index(narrowing->looks,
			struct look, i);
		const struct record *record = look->feature->record;
		const struct field *plain = fields_find(
			&record->kind->fields, "plain");

		printf("  %s: %s (leaves about %.0f)\n", record->id,
			record->name, look->left < 1 ? 1 : look->left);
		if (i > 0)
			continue;
		print_states(narrowing, look);
		if (plain != NULL)
			print_field("where", record->values[plain->index]);
		print_field("ask", model_get(narrowing->model,
			record->values, NAME(FEATURE_ASK)));
	}
}

static void
print_nothing(const struct narrowing *narrowing)
{
	bool any = false;
	unsigned count;
	guint i;

	fputs("hangtab: nothing recorded fits all of what was seen\n",
		stderr);
	for (i = 0; i < narrowing->observations->len; i++) {
		count = count_without(narrowing, i);
		if (count == 0)
			continue;
		fprintf(stderr, "  look again at %s: without it %u "
			"combination%s remain%s\n", narrowing->words[i],
			count, count == 1 ? "" : "s", count == 1 ? "s" : "");
		any = true;
	}
	if (!any)
		fprintf(stderr, "  no single one of them is to blame%s\n",
			narrowing->mistakes < 2 ? "; --mistakes 2 allows for "
			"two" : "");
}

/* How many records of a kind show all of what was seen. */
static guint
count_shown(const struct narrowing *narrowing, const char *kind)
{
	GArray *list = remaining(narrowing, kind);
	guint count = narrowing->observations->len == 0 ? 0 :
		count_full(narrowing, list);

	g_array_free(list, TRUE);
	return count;
}

/* Originals and what may pass for them; what shows all of it is enough. */
static void
print_accessories(const struct narrowing *narrowing)
{
	guint genuine = count_shown(narrowing, "accessory");
	guint imitated = count_shown(narrowing, "imitation");

	if (genuine > 0 || imitated == 0 || narrowing->names)
		print_kind(narrowing, "accessory");
	if (imitated > 0 || genuine == 0 || narrowing->names)
		print_kind(narrowing, "imitation");
	puts("no guide can say that a piece is genuine; `hangtab show` of an "
		"imitation\nsays what to look for");
}

static void
print_text(const struct narrowing *narrowing)
{
	if (narrowing->of != NULL && strcmp(narrowing->of, "accessory") == 0)
		print_accessories(narrowing);
	else
		print_kind(narrowing, narrowing->of == NULL ? "cardback" :
			narrowing->of);
	if (narrowing->of == NULL)
		print_combinations(narrowing);
	print_ruled_out(narrowing);
	print_looks(narrowing);
}

/* Calls back for what remains: combinations, or records of a kind. */
typedef void row_function(const char *address, const char *name,
	unsigned wrong, unsigned shown, void *data);

static void
each_remaining(const struct narrowing *narrowing, row_function *row,
	void *data)
{
	GArray *list;
	char *address;
	guint i;

	if (narrowing->of != NULL && strcmp(narrowing->of, "accessory") != 0) {
		list = remaining(narrowing, narrowing->of);
		for (i = 0; i < list->len; i++) {
			const struct remaining *one = &g_array_index(list,
				struct remaining, i);

			address = address_of(one->record, NULL);
			row(address, one->record->name, one->wrong, one->shown,
				data);
			g_free(address);
		}
		g_array_free(list, TRUE);
		return;
	}
	for (i = 0; i < narrowing->candidates->len; i++) {
		const struct candidate *one = candidate_at(narrowing, i);

		if (narrow_wrong(one) > narrowing->mistakes)
			continue;
		address = address_of(narrow_record(one), one->situation.item);
		row(address, narrow_record(one)->name, narrow_wrong(one),
			narrow_shown(one), data);
		g_free(address);
	}
}

static void
csv_row(const char *address, const char *name, unsigned wrong,
	unsigned shown, void *data)
{
	char *against = g_strdup_printf("%u", wrong);
	char *showing = g_strdup_printf("%u", shown);

	(void)data;
	csv_print_row((const char *const[]){address, name, against, showing,
		NULL}, stdout);
	g_free(against);
	g_free(showing);
}

static void
json_row(const char *address, const char *name, unsigned wrong,
	unsigned shown, void *data)
{
	const char **between = data;

	printf("%s\n{\"address\":", *between);
	json_print(address, stdout);
	fputs(",\"name\":", stdout);
	json_print(name, stdout);
	printf(",\"wrong\":%u,\"shown\":%u}", wrong, shown);
	*between = ",";
}

static void
print_json(const struct narrowing *narrowing)
{
	const char *between = "";
	guint i;

	fputs("{\"remain\":[", stdout);
	each_remaining(narrowing, json_row, &between);
	fputs("],\n\"ruled_out\":[", stdout);
	for (i = 0; i < narrowing->observations->len; i++) {
		fputs(i == 0 ? "\n{\"seen\":" : ",\n{\"seen\":", stdout);
		json_print(narrowing->words[i], stdout);
		printf(",\"combinations\":%u,\"by_it_alone\":%u}",
			count_against(narrowing, i),
			count_without(narrowing, i));
	}
	fputs("],\n\"look\":[", stdout);
	for (i = 0; i < narrowing->looks->len; i++) {
		const struct look *look = &g_array_index(narrowing->looks,
			struct look, i);

		fputs(i == 0 ? "\n{\"feature\":" : ",\n{\"feature\":",
			stdout);
		json_print(look->feature->record->id, stdout);
		if (look->feature->ask != NULL) {
			fputs(",\"ask\":", stdout);
			json_print(look->feature->ask, stdout);
		}
		printf(",\"leaves\":%.4f,\"cost\":%.4f,\"saved\":%.4f}",
			look->left, look->cost, look->saved);
	}
	puts("]}");
}

int
narrowing_print(const struct narrowing *narrowing, enum format format)
{
	static const char *const heads[] = {"address", "name", "wrong",
		"shown", NULL};
	bool any = count_remaining(narrowing) > 0;

	switch (format) {
	case FORMAT_SARIF:
	case FORMAT_ANNOTATIONS:
	case FORMAT_TEXT:
		if (any)
			print_text(narrowing);
		break;
	case FORMAT_CSV:
		csv_print_row(heads, stdout);
		each_remaining(narrowing, csv_row, NULL);
		break;
	case FORMAT_JSON:
		print_json(narrowing);
		break;
	}
	if (!any)
		print_nothing(narrowing);
	return any ? EXIT_DONE : EXIT_FINDINGS;
}
