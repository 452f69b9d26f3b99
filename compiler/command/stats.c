/*
 * hangtab stats: what the corpus holds, market by market, and what is still
 * unseen.
 */
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "base/csv.h"
#include "base/json.h"
#include "command/run.h"
#include "shape/nearest.h"
#include "study/unseen.h"

static gboolean by_year;

const GOptionEntry stats_entries[] = {
	{"by-year", 0, 0, G_OPTION_ARG_NONE, &by_year,
		"what lists showed first, year by year", NULL},
	{0},
};

static void
print_wrapped(const char *text)
{
	unsigned column = 2;
	char **words = g_strsplit(text, " ", -1);
	unsigned i;

	fputs("  ", stdout);
	for (i = 0; words[i] != NULL; i++) {
		unsigned length = (unsigned)g_utf8_strlen(words[i], -1);

		if (i > 0 && column + 1 + length > 78) {
			fputs("\n    ", stdout);
			column = 4;
		} else if (i > 0) {
			putchar(' ');
			column++;
		}
		fputs(words[i], stdout);
		column += length;
	}
	putchar('\n');
	g_strfreev(words);
}

static void
print_text(const struct unseen *unseen, struct arena *arena)
{
	struct unseen_words words = unseen_say(unseen, arena);
	unsigned i;

	printf("%s\n", unseen->market->name);
	for (i = 0; i < words.count; i++)
		print_wrapped(words.items[i]);
	if (by_year && unseen->year_count > 0)
		printf("  year  lists  new  in all\n");
	for (i = 0; by_year && i < unseen->year_count; i++)
		printf("  %4d %6u %4u %7u\n", unseen->years[i].year,
			unseen->years[i].lists, unseen->years[i].fresh,
			unseen->years[i].known);
	putchar('\n');
}

/* Numbers as text; empty where there is none or no end. */
static const char *
number(const struct figure *figure, double value, struct arena *arena)
{
	if (figure->state != FIGURE_GIVEN || isinf(value))
		return "";
	return arena_print(arena, "%.1f", value);
}

static void
print_csv(const struct unseen *unseen, struct arena *arena)
{
	const struct figure *total = &unseen->total, *more = &unseen->more;
	const char *cells[] = {unseen->market->id,
		arena_print(arena, "%u", unseen->recorded),
		arena_print(arena, "%u", unseen->listed),
		arena_print(arena, "%u", unseen->lists),
		number(total, total->point, arena),
		number(total, total->low, arena),
		number(total, total->high, arena),
		number(more, more->point, arena),
		number(more, more->low, arena),
		number(more, more->high, arena), !unseen->coverage.given ? "" :
		arena_print(arena, "%.4f", unseen->coverage.value), NULL};

	csv_print_row(cells, stdout);
}

static void
print_csv_years(const struct unseen *unseen, struct arena *arena)
{
	unsigned i;

	for (i = 0; i < unseen->year_count; i++) {
		const struct discovery *year = &unseen->years[i];
		const char *cells[] = {unseen->market->id,
			arena_print(arena, "%d", year->year),
			arena_print(arena, "%u", year->lists),
			arena_print(arena, "%u", year->fresh),
			arena_print(arena, "%u", year->known), NULL};

		csv_print_row(cells, stdout);
	}
}

static void
print_member(const char *name, const struct figure *figure, double value)
{
	if (figure->state != FIGURE_GIVEN || isinf(value))
		printf(",\"%s\":null", name);
	else
		printf(",\"%s\":%.1f", name, value);
}

static void
print_json(const struct unseen *unseen, bool first)
{
	const struct figure *total = &unseen->total, *more = &unseen->more;
	unsigned i;

	fputs(first ? "{\"market\":" : ",{\"market\":", stdout);
	json_print(unseen->market->id, stdout);
	printf(",\"recorded\":%u,\"listed\":%u,\"lists\":%u",
		unseen->recorded, unseen->listed, unseen->lists);
	print_member("total", total, total->point);
	print_member("total_low", total, total->low);
	print_member("total_high", total, total->high);
	print_member("more", more, more->point);
	print_member("more_low", more, more->low);
	print_member("more_high", more, more->high);
	if (unseen->coverage.given)
		printf(",\"coverage\":%.4f", unseen->coverage.value);
	fputs(",\"years\":[", stdout);
	for (i = 0; i < unseen->year_count; i++)
		printf("%s{\"year\":%d,\"lists\":%u,\"new\":%u,\"known\":%u}",
			i == 0 ? "" : ",", unseen->years[i].year,
			unseen->years[i].lists, unseen->years[i].fresh,
			unseen->years[i].known);
	fputs("]}", stdout);
}

static void
print_heads(enum format format)
{
	static const char *const heads[] = {"market", "recorded", "listed",
		"lists", "total", "total_low", "total_high", "more",
		"more_low", "more_high", "coverage", NULL};
	static const char *const years[] = {"market", "year", "lists", "new",
		"known", NULL};

	if (format == FORMAT_CSV)
		csv_print_row(by_year ? years : heads, stdout);
	else if (format == FORMAT_JSON)
		putchar('[');
}

static bool
is_asked(char **words, const struct record *market)
{
	return words[0] == NULL ||
		g_strv_contains((const char *const *)words, market->id);
}

static void
print_all(const struct run *run, char **words, enum format format)
{
	struct seen *seen = seen_gather(run->model, run->arena);
	struct evidences *evidences = evidences_gather(run->model, seen,
		run->arena);
	struct unseen_list list = unseen_study(run->model, seen, evidences,
		run->arena);
	bool first = true;
	unsigned i;

	print_heads(format);
	for (i = 0; i < list.count; i++) {
		const struct unseen *unseen = &list.items[i];

		if (!is_asked(words, unseen->market))
			continue;
		if (format == FORMAT_JSON)
			print_json(unseen, first);
		else if (format != FORMAT_CSV)
			print_text(unseen, run->arena);
		else if (by_year)
			print_csv_years(unseen, run->arena);
		else
			print_csv(unseen, run->arena);
		first = false;
	}
	if (format == FORMAT_JSON)
		puts("]");
	seen_free(seen);
}

/* Says which word names no market, if one does not. */
static bool
are_markets(const struct model *model, char **words)
{
	struct record_list list = model_records_of(model, "market");
	unsigned i, j;

	for (i = 0; words[i] != NULL; i++) {
		struct nearest nearest = nearest_to(words[i]);

		for (j = 0; j < list.count; j++) {
			nearest_offer(&nearest, list.items[j]->id);
			if (strcmp(list.items[j]->id, words[i]) == 0)
				break;
		}
		if (j < list.count)
			continue;
		fprintf(stderr, "hangtab: there is no market \"%s\"",
			words[i]);
		if (nearest.best != NULL)
			fprintf(stderr, "; did you mean \"%s\"?",
				nearest.best);
		fputc('\n', stderr);
		return false;
	}
	return true;
}

int
command_stats(const struct options *options, char **words)
{
	struct run *run = run_begin(options);
	int status = run_report(run, options, false);

	if (run->model != NULL && run_sound(run)) {
		if (are_markets(run->model, words))
			print_all(run, words, options->format);
		else
			status = EXIT_FINDINGS;
	}
	run_end(run);
	return status;
}
