/*
 * A record on a terminal, as JSON, and as CSV.
 */
#include <inttypes.h>
#include <stdio.h>
#include <string.h>

#include "base/csv.h"
#include "base/json.h"
#include "command/guide.h"
#include "command/show.h"

enum { TITLE_WIDTH = 20 };

/*
 * A value in a line, with the address of what it refers to; in a list, where
 * the kind would be said over and over, with its id alone.
 */
static void
append_value(GString *out, const struct shown *shown, bool listed)
{
	const char *address = shown->code;

	g_string_append(out, shown->text);
	if (shown->kind == NULL)
		return;
	if (listed)
		address += strlen(shown->kind) + 1;
	g_string_append_printf(out, " (%s)", address);
}

/* Whether a list is of references to one kind. */
static bool
is_of_one_kind(const struct shown *list)
{
	const struct shown *first = g_ptr_array_index(list->parts, 0);
	guint i;

	for (i = 0; i < list->parts->len; i++) {
		const struct shown *part = g_ptr_array_index(list->parts, i);

		if (part->kind == NULL || first->kind == NULL ||
			strcmp(part->kind, first->kind) != 0)
			return false;
	}
	return list->form == SHOWN_LIST && list->parts->len > 1;
}

static void
append_shown(GString *out, const struct shown *shown, const char *between)
{
	bool listed;
	guint i;

	if (shown->form == SHOWN_VALUE) {
		append_value(out, shown, false);
		return;
	}
	listed = is_of_one_kind(shown);
	if (shown->form == SHOWN_LIST && shown->text != NULL)
		g_string_append_printf(out, "%s ", shown->text);
	for (i = 0; i < shown->parts->len; i++) {
		const struct shown *part = g_ptr_array_index(shown->parts, i);

		if (i > 0)
			g_string_append(out, shown->form == SHOWN_LIST ?
				between : "; ");
		if (shown->form == SHOWN_GROUP &&
			strcmp(part->field, "key") != 0)
			g_string_append_printf(out, "%s: ", part->title);
		if (listed)
			append_value(out, part, true);
		else
			append_shown(out, part, ", ");
	}
}

/* Links of prose, [words](ref:kind/id), as words and address. */
static char *
plain_prose(const char *text)
{
	GString *out = g_string_new(NULL);

	while (*text != '\0') {
		const char *middle = strstr(text, "](ref:");
		const char *end = middle == NULL ? NULL : strchr(middle, ')');
		const char *begin = middle;

		if (end == NULL)
			break;
		while (begin > text && *begin != '[')
			begin--;
		g_string_append_len(out, text, begin - text);
		if (*begin == '[')
			begin++;
		g_string_append_len(out, begin, middle - begin);
		middle += strlen("](ref:");
		g_string_append_printf(out, " (%.*s)", (int)(end - middle),
			middle);
		text = end + 1;
	}
	g_string_append(out, text);
	return g_string_free(out, FALSE);
}

/* A line that is no continuation of the one before it. */
static bool
begins_block(const char *line)
{
	return *line == '\0' || *line == '#' || *line == '>' ||
		((*line == '-' || *line == '*' || *line == '+') &&
		line[1] == ' ') || g_ascii_isdigit(*line);
}

/* Paragraphs and items on lines of their own, each wrapped. */
static void
print_prose(const char *text)
{
	char *plain = plain_prose(text);
	char **lines = g_strsplit(plain, "\n", 0);
	GString *block = g_string_new(NULL);
	bool first = true;
	size_t i;

	for (i = 0;; i++) {
		if (lines[i] == NULL || begins_block(lines[i])) {
			if (block->len > 0) {
				if (!first)
					printf("%*s", TITLE_WIDTH, "");
				guide_wrap(block->str, TITLE_WIDTH,
					TITLE_WIDTH);
				first = false;
			}
			g_string_truncate(block, 0);
		}
		if (lines[i] == NULL)
			break;
		if (*lines[i] != '\0')
			g_string_append_printf(block, " %s", lines[i]);
	}
	g_string_free(block, TRUE);
	g_strfreev(lines);
	g_free(plain);
}

static void
print_title(const char *title)
{
	int width = guide_width(title);

	fputs(title, stdout);
	if (width < TITLE_WIDTH - 1)
		printf("%*s", TITLE_WIDTH - width, "");
	else
		printf("\n%*s", TITLE_WIDTH, "");
}

static bool
is_prose(const struct shown *shown)
{
	return shown->form == SHOWN_VALUE && shown->type != NULL &&
		strcmp(shown->type, "prose") == 0;
}

static void
print_line(const struct shown *shown)
{
	GString *line = g_string_new(NULL);

	append_shown(line, shown, "; ");
	guide_wrap(line->str, TITLE_WIDTH, TITLE_WIDTH);
	g_string_free(line, TRUE);
}

/* Groups and sentences of a list get a line each, other values share one. */
static bool
has_lines(const struct shown *shown)
{
	const struct shown *first = shown->form != SHOWN_LIST ? NULL :
		g_ptr_array_index(shown->parts, 0);

	return first != NULL && (first->form != SHOWN_VALUE ||
		g_strcmp0(first->type, "sentence") == 0);
}

static void
print_field(const struct shown *shown)
{
	guint i;

	print_title(shown->title);
	if (is_prose(shown)) {
		print_prose(shown->text);
		return;
	}
	if (!has_lines(shown)) {
		print_line(shown);
		return;
	}
	for (i = 0; i < shown->parts->len; i++) {
		if (i > 0)
			printf("%*s", TITLE_WIDTH, "");
		print_line(g_ptr_array_index(shown->parts, i));
	}
}

static void
print_pointing(const GArray *all)
{
	guint i;

	if (all->len > 0)
		puts("\npointed at by");
	for (i = 0; i < all->len; i++) {
		const struct pointing *one = &g_array_index(all,
			struct pointing, i);

		printf("%8" PRId64 "  %s", one->count, one->titles);
		if (*one->kind != '\0')
			printf(", as %s%s", one->by, one->perhaps ?
				", perhaps" : "");
		putchar('\n');
	}
}

void
show_text(const struct showing *showing)
{
	guint i;

	guide_wrap(showing->called, 0, 2);
	printf("%s, %s/%s\n\n", showing->kind_title, showing->kind,
		showing->id);
	for (i = 0; i < showing->fields->parts->len; i++)
		print_field(g_ptr_array_index(showing->fields->parts, i));
	print_pointing(showing->pointing);
}

static void
print_member(const char *name, const char *text)
{
	json_print(name, stdout);
	putchar(':');
	json_print(text, stdout);
}

static void
print_json(const struct shown *shown)
{
	bool list = shown->form == SHOWN_LIST;
	guint i;

	if (shown->form == SHOWN_VALUE) {
		putchar('{');
		print_member("code", shown->code);
		putchar(',');
		print_member("text", shown->text);
		putchar('}');
		return;
	}
	if (shown->code != NULL) {
		/* An identity that is not settled: how, and between which. */
		putchar('{');
		print_member("state", shown->code);
		fputs(",\"records\":", stdout);
	}
	putchar(list ? '[' : '{');
	for (i = 0; i < shown->parts->len; i++) {
		const struct shown *part = g_ptr_array_index(shown->parts, i);

		if (i > 0)
			putchar(',');
		if (!list) {
			json_print(part->field, stdout);
			putchar(':');
		}
		print_json(part);
	}
	putchar(list ? ']' : '}');
	if (shown->code != NULL)
		putchar('}');
}

void
show_json(const struct showing *showing)
{
	guint i;

	putchar('{');
	print_member("kind", showing->kind);
	putchar(',');
	print_member("id", showing->id);
	putchar(',');
	print_member("name", showing->called);
	fputs(",\n\"fields\":", stdout);
	print_json(showing->fields);
	fputs(",\n\"pointed_at\":[", stdout);
	for (i = 0; i < showing->pointing->len; i++) {
		const struct pointing *one = &g_array_index(showing->pointing,
			struct pointing, i);

		fputs(i == 0 ? "{" : ",{", stdout);
		print_member("kind", one->kind);
		putchar(',');
		print_member("field", one->field);
		printf(",\"perhaps\":%s,\"count\":%" PRId64 "}",
			one->perhaps ? "true" : "false", one->count);
	}
	puts("]}");
}

static void
print_csv(const struct shown *shown, const char *path)
{
	guint i;

	if (shown->form == SHOWN_VALUE) {
		csv_print_row((const char *const[]){path, shown->text,
			shown->code, NULL}, stdout);
		return;
	}
	if (shown->code != NULL)
		csv_print_row((const char *const[]){path, shown->text,
			shown->code, NULL}, stdout);
	for (i = 0; i < shown->parts->len; i++) {
		const struct shown *part = g_ptr_array_index(shown->parts, i);
		const char *dot = *path == '\0' ? "" : ".";
		char *inner = shown->form == SHOWN_LIST ?
			g_strdup_printf("%s%s%u", path, dot, i + 1) :
			g_strdup_printf("%s%s%s", path, dot, part->field);

		print_csv(part, inner);
		g_free(inner);
	}
}

void
show_csv(const struct showing *showing)
{
	static const char *const heads[] = {"field", "text", "code", NULL};

	csv_print_row(heads, stdout);
	print_csv(showing->fields, "");
}
