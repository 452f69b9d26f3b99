/*
 * Printing estimates: the working for people; rows of the guide's relation for
 * programs.
 */
#include <inttypes.h>
#include <stdio.h>
#include <string.h>

#include "base/csv.h"
#include "base/json.h"
#include "command/estimating.h"
#include "command/guide.h"
#include "write/relations/estimate.h"
#include "write/working.h"

/* Rows a group of the overview shows at most, the most seen first. */
enum { FEW = 15 };

static void
print_heading(const char *text)
{
	printf("\n%s\n", text);
}

static void
print_line(const char *text)
{
	fputs("  ", stdout);
	guide_wrap(text, 2, 2);
}

static void
print_methods(const struct estimating *estimating,
	const struct reckoning *reckoning)
{
	struct arena *arena = estimating->arena;
	struct choice pooled = {.method = METHOD_POISSON};
	int i;

	print_heading("What each method makes of these data");
	for (i = 0; i < METHODS; i++) {
		struct choice one = {.method = (enum method)i};
		bool fits = reckon_by(reckoning->evidence, one.method,
			&one.figure);

		printf("  %-20s %s%s\n", method_words(one.method)->name, fits ?
			working_answer(&one, arena) : "needs ", fits ? "" :
			method_words(one.method)->needs);
	}
	pooled.figure = reckoning->borrowed.figure;
	if (pooled.figure.state == FIGURE_GIVEN)
		printf("  %-20s %s, if seen as often as all of the\n"
			"%23smarket, %.2f times a piece\n", "pooled",
			working_answer(&pooled, arena), "",
			reckoning->borrowed.pool.rate);
}

static void
print_reckoning(const struct estimating *estimating,
	const struct reckoning *reckoning)
{
	struct arena *arena = estimating->arena;
	struct working *working = working_of_reckoning(reckoning,
		estimating->exact, arena);
	enum working_part part = WORKING_ANSWER;
	unsigned i;

	guide_wrap(subject_name(&reckoning->subject, arena), 0, 0);
	printf("  %s\n\n", subject_address(&reckoning->subject, arena));
	for (i = 0; i < working->count; i++) {
		const struct working_line *line = &working->lines[i];

		if (line->part != part)
			print_heading(working_heading(line->part));
		part = line->part;
		print_line(line->text);
	}
	if (estimating->all_methods)
		print_methods(estimating, reckoning);
	putchar('\n');
	print_line(working_caution);
}

static void
put_cell(const struct cell *cell, bool json)
{
	char text[G_ASCII_DTOSTR_BUF_SIZE];
	GString *field;

	switch (cell->form) {
	case CELL_NULL:
		fputs(json ? "null" : "", stdout);
		break;
	case CELL_TEXT:
		if (json) {
			json_print(cell->text, stdout);
			break;
		}
		field = g_string_new(NULL);
		csv_append_field(field, cell->text);
		fputs(field->str, stdout);
		g_string_free(field, TRUE);
		break;
	case CELL_WHOLE:
		printf("%" PRId64, cell->whole);
		break;
	case CELL_REAL:
		fputs(g_ascii_formatd(text, sizeof(text), "%.15g",
			cell->real), stdout);
		break;
	}
}

static void
put_csv_heads(void)
{
	unsigned i;

	for (i = 0; i < ESTIMATE_CELLS; i++)
		printf("%s%s", i == 0 ? "" : ",", estimate_column(i));
	fputs("\r\n", stdout);
}

static void
put_csv_row(const struct reckoning *reckoning, struct arena *arena)
{
	struct cell cells[ESTIMATE_CELLS];
	unsigned i;

	estimate_cells(reckoning, cells, arena);
	for (i = 0; i < ESTIMATE_CELLS; i++) {
		fputs(i == 0 ? "" : ",", stdout);
		put_cell(&cells[i], false);
	}
	fputs("\r\n", stdout);
}

static void
put_json_working(const struct working *working)
{
	unsigned i;

	fputs(", \"working\": [", stdout);
	for (i = 0; i < working->count; i++) {
		fputs(i == 0 ? "{\"part\": " : ", {\"part\": ", stdout);
		json_print(working_heading(working->lines[i].part), stdout);
		fputs(", \"text\": ", stdout);
		json_print(working->lines[i].text, stdout);
		putchar('}');
	}
	putchar(']');
}

static void
put_json_methods(const struct reckoning *reckoning, struct arena *arena)
{
	struct choice pooled = {.method = METHOD_POISSON};
	const char *between = "";
	int i;

	fputs(", \"methods\": {", stdout);
	for (i = 0; i < METHODS; i++) {
		struct choice one = {.method = (enum method)i};

		if (!reckon_by(reckoning->evidence, one.method, &one.figure))
			continue;
		printf("%s\"%s\": ", between, method_words(one.method)->name);
		json_print(working_answer(&one, arena), stdout);
		between = ", ";
	}
	pooled.figure = reckoning->borrowed.figure;
	if (pooled.figure.state == FIGURE_GIVEN) {
		printf("%s\"pooled\": ", between);
		json_print(working_answer(&pooled, arena), stdout);
	}
	putchar('}');
}

/* An object a line, within the one list. */
static void
put_json_row(const struct estimating *estimating,
	const struct reckoning *reckoning, bool first, bool with_working,
	struct arena *arena)
{
	struct cell cells[ESTIMATE_CELLS];
	unsigned i;

	estimate_cells(reckoning, cells, arena);
	fputs(first ? "\n  {\"name\": " : ",\n  {\"name\": ", stdout);
	json_print(subject_name(&reckoning->subject, arena), stdout);
	for (i = 0; i < ESTIMATE_CELLS; i++) {
		printf(", \"%s\": ", estimate_column(i));
		put_cell(&cells[i], true);
	}
	if (with_working)
		put_json_working(working_of_reckoning(reckoning,
			estimating->exact, arena));
	if (with_working && estimating->all_methods)
		put_json_methods(reckoning, arena);
	putchar('}');
}

void
estimating_print(const struct estimating *estimating, enum format format)
{
	const GPtrArray *asked = estimating->asked;
	guint i;

	if (format == FORMAT_CSV)
		put_csv_heads();
	if (format == FORMAT_JSON)
		fputs("{\"estimates\": [", stdout);
	for (i = 0; i < asked->len; i++) {
		const struct reckoning *one = asked->pdata[i];

		if (format == FORMAT_CSV)
			put_csv_row(one, estimating->arena);
		else if (format == FORMAT_JSON)
			put_json_row(estimating, one, i == 0, true,
				estimating->arena);
		else {
			fputs(i == 0 ? "" : "\n\n", stdout);
			print_reckoning(estimating, one);
		}
	}
	if (format == FORMAT_JSON)
		fputs("\n]}\n", stdout);
}

/* The overview for programs: all of which a piece is known or may be. */
static void
overview_rows(const struct estimating *estimating, enum format format)
{
	unsigned count, i, printed = 0;
	const struct subject *subjects = reckonings_subjects(
		estimating->reckonings, &count);

	if (format == FORMAT_CSV)
		put_csv_heads();
	else
		fputs("{\"estimates\": [", stdout);
	for (i = 0; i < count; i++) {
		struct arena *arena = arena_new();
		struct reckoning *one = reckon(estimating->reckonings,
			subjects[i], arena);

		if (one->evidence->known + one->evidence->possible > 0) {
			if (format == FORMAT_CSV)
				put_csv_row(one, arena);
			else
				put_json_row(estimating, one, printed == 0,
					false, arena);
			printed++;
		}
		arena_free(arena);
	}
	if (format == FORMAT_JSON)
		fputs("\n]}\n", stdout);
}

struct row {
	const struct subject *subject;
	const struct choice *choice;
};

/* The most seen first; the rest as they come. */
static gint
compare_rows(gconstpointer a, gconstpointer b)
{
	const struct row *left = a, *right = b;
	double one = left->choice->figure.seen;
	double other = right->choice->figure.seen;

	if (one != other)
		return one > other ? -1 : 1;
	return (left->subject > right->subject) -
		(left->subject < right->subject);
}

static void
print_group(const struct estimating *estimating, const char *heading,
	GArray *rows)
{
	struct arena *arena = estimating->arena;
	guint i, shown = estimating->everything ? rows->len :
		MIN(rows->len, FEW);

	if (rows->len == 0)
		return;
	g_array_sort(rows, compare_rows);
	printf("%s\n", heading);
	for (i = 0; i < shown; i++) {
		const struct row *row = &g_array_index(rows, struct row, i);

		printf("  %4.0f seen  %s\n             %s\n",
			row->choice->figure.seen, subject_address(row->subject,
				arena), working_answer(row->choice, arena));
	}
	if (shown < rows->len)
		printf("  and %u more: --all\n", rows->len - shown);
	putchar('\n');
}

static void
print_overview(const struct estimating *estimating)
{
	static const char *const headings[] = {
		[SUBJECT_ANOMALY] = "Anomalies",
		[SUBJECT_ANOMALY_ON] = "Anomalies on one pairing",
		[SUBJECT_CARDBACK] = "Card backs",
		[SUBJECT_PAIRING] = "Pairings",
		[SUBJECT_COMBINATION] = "Combinations",
	};
	static const enum subject_form order[] = {SUBJECT_ANOMALY,
		SUBJECT_ANOMALY_ON, SUBJECT_CARDBACK, SUBJECT_PAIRING,
		SUBJECT_COMBINATION};
	unsigned count, states[] = {0, 0, 0}, i;
	const struct subject *subjects = reckonings_subjects(
		estimating->reckonings, &count);
	GArray *rows = g_array_new(FALSE, FALSE, sizeof(struct row));
	size_t j;

	for (i = 0; i < count; i++)
		states[reckon_choice(estimating->reckonings, &subjects[i])
			->figure.state]++;
	printf("%u have a number, of what can turn up: %s.\n%u were seen too "
		"seldom to estimate, %u not at all.\n\n",
		states[FIGURE_GIVEN], working_of, states[FIGURE_LEAST],
		states[FIGURE_NONE]);
	for (j = 0; j < G_N_ELEMENTS(order); j++) {
		g_array_set_size(rows, 0);
		for (i = 0; i < count; i++) {
			struct row row = {&subjects[i], reckon_choice(
				estimating->reckonings, &subjects[i])};

			if (subjects[i].form == order[j] &&
				row.choice->figure.state == FIGURE_GIVEN)
				g_array_append_val(rows, row);
		}
		print_group(estimating, headings[order[j]], rows);
	}
	g_array_free(rows, TRUE);
	printf("hangtab estimate ID shows the working.\n%s\n",
		working_caution);
}

void
estimating_overview(const struct estimating *estimating, enum format format)
{
	if (format == FORMAT_CSV || format == FORMAT_JSON)
		overview_rows(estimating, format);
	else
		print_overview(estimating);
}
