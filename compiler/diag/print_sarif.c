/*
 * Messages as SARIF 2.1.0 (OASIS), for tools that gather findings: one run,
 * with a rule for each code that occurs. Columns are counted in characters, from 1; paths
 * are relative to where hangtab was started, as they were given.
 */
#include "diag/collect.h"

#include <string.h>

#include "base/json.h"
#include "diag/page.h"

static const char schema[] = "https://docs.oasis-open.org/sarif/sarif/"
	"v2.1.0/errata01/os/schemas/sarif-schema-2.1.0.json";

/* Prints a member whose value is a text. */
static void
print_text(const char *name, const char *text, FILE *stream)
{
	fprintf(stream, "\"%s\":", name);
	json_print(text, stream);
}

/* {"text": ...} of a message, closed with a full stop as SARIF has it. */
static void
print_message(const char *name, const char *text, const char *help,
	FILE *stream)
{
	GString *whole = g_string_new(text);

	if (help != NULL)
		g_string_append_printf(whole, ". To do: %s", help);
	if (whole->len > 0 && strchr(".?!", whole->str[whole->len - 1]) ==
		NULL)
		g_string_append_c(whole, '.');
	fprintf(stream, "\"%s\":{", name);
	print_text("text", whole->str, stream);
	fputc('}', stream);
	g_string_free(whole, TRUE);
}

static const char *
level_of(enum severity severity)
{
	return severity == SEVERITY_ERROR ? "error" : "warning";
}

/* The code as one word, "BadDate", which some viewers show instead. */
static void
print_name(const char *code, FILE *stream)
{
	bool first = true;

	fputs("\"name\":\"", stream);
	for (; *code != '\0'; code++) {
		if (*code != '-')
			fputc(first ? g_ascii_toupper(*code) : *code, stream);
		first = *code == '-';
	}
	fputs("\",", stream);
}

static void
print_rule(enum diag_code code, const char *pages, FILE *stream)
{
	const struct diag_info *info = diag_info(code);
	struct arena *arena = arena_new();
	const struct diag_page *page = NULL;

	if (pages != NULL)
		page = diag_page_read(pages, code, arena);
	fputc('{', stream);
	print_text("id", info->code, stream);
	fputc(',', stream);
	print_name(info->code, stream);
	print_message("shortDescription", info->headline, NULL, stream);
	fprintf(stream, ",\"defaultConfiguration\":{\"level\":\"%s\"}",
		level_of(info->severity));
	if (page != NULL) {
		fputs(",\"help\":{", stream);
		print_text("text", page->says, stream);
		fputc(',', stream);
		print_text("markdown", page->says, stream);
		fputc('}', stream);
	}
	fputc('}', stream);
	arena_free(arena);
}

/* The path as a URI: relative as it is, or a file's where it is absolute. */
static void
print_uri(const char *path, FILE *stream)
{
	char *escaped = g_uri_escape_string(path, "/", FALSE);
	char *uri = g_strconcat(path[0] == '/' ? "file://" : "", escaped,
		NULL);

	fputs("\"artifactLocation\":{", stream);
	print_text("uri", uri, stream);
	fputc('}', stream);
	g_free(uri);
	g_free(escaped);
}

static void
print_region(const char *name, const struct source *source, struct span span,
	FILE *stream)
{
	struct place from = source_place(source, span.from);
	struct place to = source_place(source, span.to);

	fprintf(stream, "\"%s\":{\"startLine\":%u,\"startColumn\":%u,"
		"\"endLine\":%u,\"endColumn\":%u}", name, from.line,
		from.column, to.line, to.column);
}

static void
print_place(const struct source *source, struct span span, FILE *stream)
{
	fputs("\"physicalLocation\":{", stream);
	print_uri(source->path, stream);
	if (span.to > 0 || span.from > 0) {
		fputc(',', stream);
		print_region("region", source, span, stream);
	}
	fputc('}', stream);
}

static void
print_notes(const struct diag *diag, FILE *stream)
{
	const struct sources *sources = diag->diags->sources;
	unsigned count = 0;
	guint i;

	for (i = 0; diag->notes != NULL && i < diag->notes->len; i++) {
		const struct diag_note *note;
		const struct source *source;

		note = &g_array_index(diag->notes, struct diag_note, i);
		source = sources_get(sources, note->span.file);
		if (source == NULL)
			continue;
		fputs(count++ == 0 ? ",\"relatedLocations\":[{" : ",{",
			stream);
		fprintf(stream, "\"id\":%u,", count);
		print_place(source, note->span, stream);
		fputc(',', stream);
		print_message("message", note->text, NULL, stream);
		fputc('}', stream);
	}
	if (count > 0)
		fputc(']', stream);
}

/* How sure the message's mends are: as the least sure of them. */
static enum confidence
confidence_of(const struct diag *diag)
{
	enum confidence least = MEND_SAFE;
	guint i;

	for (i = 0; i < diag->mends->len; i++)
		least = MAX(least, g_array_index(diag->mends, struct diag_mend,
			i).confidence);
	return least;
}

/* The mends of a message as one fix; one with a blank to fill is none. */
static void
print_fix(const struct diag *diag, FILE *stream)
{
	const struct diag_mend *mends;
	const struct source *source;
	guint i;

	if (diag->mends == NULL || confidence_of(diag) == MEND_BLANK)
		return;
	mends = &g_array_index(diag->mends, struct diag_mend, 0);
	source = sources_get(diag->diags->sources, mends->span.file);
	if (source == NULL)
		return;
	fputs(",\"fixes\":[{", stream);
	print_message("description", confidence_of(diag) == MEND_SAFE ?
		"A safe mend" : "A probable mend", NULL, stream);
	fputs(",\"artifactChanges\":[{", stream);
	print_uri(source->path, stream);
	fputs(",\"replacements\":[{", stream);
	for (i = 0; i < diag->mends->len; i++) {
		if (i > 0)
			fputs(",{", stream);
		print_region("deletedRegion", source, mends[i].span, stream);
		fputs(",\"insertedContent\":{", stream);
		print_text("text", mends[i].text, stream);
		fputs("}}", stream);
	}
	fputs("]}]}]", stream);
}

static void
print_result(const struct diag *diag, int rule, FILE *stream)
{
	const struct diag_info *info = diag_info(diag->code);
	const struct source *source;

	source = sources_get(diag->diags->sources, diag->span.file);
	fprintf(stream, "{\"ruleId\":\"%s\",\"ruleIndex\":%d,\"level\":"
		"\"%s\",", info->code, rule,
		level_of(info->severity));
	print_message("message", diag->text, diag->help, stream);
	if (source != NULL) {
		fputs(",\"locations\":[{", stream);
		print_place(source, diag->span, stream);
		fputs("}]", stream);
	}
	print_notes(diag, stream);
	print_fix(diag, stream);
	fputc('}', stream);
}

/* Prints the rules of the codes that occur; `rules` gets each one's index. */
static void
print_rules(const struct diags *diags, const char *pages,
	int rules[DIAG_COUNT], FILE *stream)
{
	int code, count = 0;
	guint i;

	for (i = 0; i < diags->items->len; i++) {
		const struct diag *diag = g_ptr_array_index(diags->items, i);

		rules[diag->code] = 1;
	}
	for (code = 0; code < DIAG_COUNT; code++) {
		if (rules[code] == 0)
			continue;
		if (count > 0)
			fputc(',', stream);
		rules[code] = count++;
		print_rule((enum diag_code)code, pages, stream);
		fputc('\n', stream);
	}
}

void
diags_print_sarif(const struct diags *diags, const char *version,
	const char *pages, FILE *stream)
{
	int rules[DIAG_COUNT] = {0};
	guint i;

	fputc('{', stream);
	print_text("$schema", schema, stream);
	fputs(",\"version\":\"2.1.0\",\"runs\":[{\"tool\":{\"driver\":{"
		"\"name\":\"hangtab\",", stream);
	print_text("version", version, stream);
	fputs(",\"rules\":[\n", stream);
	print_rules(diags, pages, rules, stream);
	fputs("]}},\"columnKind\":\"unicodeCodePoints\",\"results\":[\n",
		stream);
	for (i = 0; i < diags->items->len; i++) {
		const struct diag *diag = g_ptr_array_index(diags->items, i);

		if (i > 0)
			fputc(',', stream);
		print_result(diag, rules[diag->code], stream);
		fputc('\n', stream);
	}
	fputs("]}]}\n", stream);
}
