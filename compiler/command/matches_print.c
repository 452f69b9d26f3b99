/*
 * What came of a matching: the counts, then every open and refused row with
 * its line, and what would settle it.
 */
#include <stdio.h>
#include <string.h>

#include "base/csv.h"
#include "base/json.h"
#include "command/matches.h"

static const char *
between_name(char between)
{
	switch (between) {
	case ',':
		return "commas";
	case ';':
		return "semicolons";
	case '\t':
		return "tabs";
	case '|':
		return "bars";
	default:
		return "one column";
	}
}

/* A text of several lines under a row, none longer than the screen. */
static void
print_wrapped(const char *text)
{
	enum { INDENT = 13, WIDTH = 80 };
	char **words = g_strsplit(text, " ", 0);
	glong at = INDENT;
	size_t i;

	printf("%*s", INDENT, "");
	for (i = 0; words[i] != NULL; i++) {
		glong size = g_utf8_strlen(words[i], -1);

		if (i > 0 && at + 1 + size > WIDTH) {
			printf("\n%*s", INDENT, "");
			at = INDENT;
		} else if (i > 0) {
			putchar(' ');
			at++;
		}
		fputs(words[i], stdout);
		at += size;
	}
	putchar('\n');
	g_strfreev(words);
}

/* The best few, by name. */
static void
print_best(const struct matched *matched)
{
	enum { MOST = 3 };
	guint i;

	for (i = 0; i < matched->candidates->len && i < MOST; i++) {
		const struct match_candidate *one = &g_array_index(
			matched->candidates, struct match_candidate, i);
		char *text;

		if (one->confidence < 0.05)
			break;
		text = g_strdup_printf("%.2f %s", one->confidence,
			one->record->name);
		print_wrapped(text);
		g_free(text);
	}
}

static void
print_row(const struct match_row *row)
{
	printf("  line %-5u %s\n", row->source->line, row->cells[ADDED_NAME]);
	if (row->state == ROW_REFUSED)
		print_wrapped(row->cells[ADDED_REASON]);
	if (row->cells[ADDED_QUESTION][0] != '\0')
		print_wrapped(row->cells[ADDED_QUESTION]);
	if (row->has_matched && row->state == ROW_OPEN)
		print_best(&row->matched);
}

static void
print_state(const struct matches *matches, enum row_state state,
	const char *heading)
{
	unsigned i;

	if (matches->counts[state] == 0)
		return;
	printf("\n%s\n", heading);
	for (i = 0; i < matches->count; i++)
		if (matches->rows[i].state == state)
			print_row(&matches->rows[i]);
}

static unsigned
count_kept(const struct matches *matches)
{
	unsigned count = 0, i;

	for (i = 0; i < matches->count; i++)
		count += matches->rows[i].kept;
	return count;
}

static void
print_text(const struct matches *matches, const char *to)
{
	const struct sheet *sheet = matches->sheet;
	unsigned kept = count_kept(matches);

	printf("%u rows: %u settled, %u open, %u refused\n", matches->count,
		matches->counts[ROW_SETTLED], matches->counts[ROW_OPEN],
		matches->counts[ROW_REFUSED]);
	printf("  read as %s, %s; settled from a confidence of %.2f on\n",
		encoding_name(sheet->encoding), between_name(sheet->between),
		MATCH_THRESHOLD);
	if (kept > 0)
		printf("  %u settled before, and kept\n", kept);
	if (matches->followed > 0)
		printf("  %u of them by a record that goes by another id "
			"now\n", matches->followed);
	if (matches->gone > 0)
		printf("  %u had a record that is gone, and were read anew\n",
			matches->gone);
	print_state(matches, ROW_OPEN, "open");
	print_state(matches, ROW_REFUSED, "refused");
	printf("\nwritten to %s, for you alone\n", to);
	if (matches->counts[ROW_OPEN] > 0)
		printf("  to settle a row, write its record into \"match "
			"id\" and match that file again,\n"
			"  or run match with --ask\n");
}

static void
print_member(const char *name, const char *text)
{
	printf(",\"%s\":", name);
	json_print(text, stdout);
}

static void
print_candidates(const struct matched *matched)
{
	guint i;

	fputs(",\"candidates\":[", stdout);
	for (i = 0; i < matched->candidates->len; i++) {
		const struct match_candidate *one = &g_array_index(
			matched->candidates, struct match_candidate, i);
		char *id = g_strdup_printf("%s/%s", one->record->kind->name,
			one->record->id);

		fputs(i == 0 ? "{\"id\":" : ",{\"id\":", stdout);
		json_print(id, stdout);
		print_member("name", one->record->name);
		printf(",\"confidence\":%.2f", one->confidence);
		print_member("reason", one->reason == NULL ? "" :
			one->reason);
		fputc('}', stdout);
		g_free(id);
	}
	fputc(']', stdout);
}

static void
print_json(const struct matches *matches, const char *to)
{
	unsigned i;

	printf("{\"rows\":%u,\"settled\":%u,\"open\":%u,\"refused\":%u",
		matches->count, matches->counts[ROW_SETTLED],
		matches->counts[ROW_OPEN], matches->counts[ROW_REFUSED]);
	print_member("encoding", encoding_name(matches->sheet->encoding));
	print_member("written", to);
	printf(",\"threshold\":%.2f,\"results\":[", MATCH_THRESHOLD);
	for (i = 0; i < matches->count; i++) {
		const struct match_row *row = &matches->rows[i];

		printf("%s{\"line\":%u", i == 0 ? "" : ",\n",
			row->source->line);
		print_member("text", row->cells[ADDED_NAME]);
		print_member("state", row_states[row->state]);
		print_member("id", row->cells[ADDED_ID]);
		print_member("kind", row->cells[ADDED_KIND]);
		print_member("form", row->cells[ADDED_FORM]);
		print_member("confidence", row->cells[ADDED_CONFIDENCE]);
		print_member("reason", row->cells[ADDED_REASON]);
		print_member("question", row->cells[ADDED_QUESTION]);
		if (row->has_matched && row->matched.ask != NULL)
			print_member("ask", row->matched.ask);
		if (row->has_matched)
			print_candidates(&row->matched);
		fputc('}', stdout);
	}
	puts("]}");
}

static void
print_csv(const struct matches *matches)
{
	static const char *const heads[] = {"line", "text", "state", "id",
		"confidence", "reason", "question", "candidates", NULL};
	unsigned i;

	csv_print_row(heads, stdout);
	for (i = 0; i < matches->count; i++) {
		const struct match_row *row = &matches->rows[i];
		char *line = g_strdup_printf("%u", row->source->line);
		const char *cells[] = {line, row->cells[ADDED_NAME],
			row_states[row->state], row->cells[ADDED_ID],
			row->cells[ADDED_CONFIDENCE],
			row->cells[ADDED_REASON], row->cells[ADDED_QUESTION],
			row->cells[ADDED_CANDIDATES], NULL};

		csv_print_row(cells, stdout);
		g_free(line);
	}
}

void
matches_print(const struct matches *matches, const char *to,
	enum format format)
{
	switch (format) {
	case FORMAT_SARIF:
	case FORMAT_ANNOTATIONS:
	case FORMAT_TEXT:
		print_text(matches, to);
		break;
	case FORMAT_CSV:
		print_csv(matches);
		break;
	case FORMAT_JSON:
		print_json(matches, to);
		break;
	}
}
