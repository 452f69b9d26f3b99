/*
 * libyaml reads YAML 1.1 and says of much that YAML 1.2 allows only that it
 * expected something else. What stands at the place says which it is.
 */
#include "read/feature.h"

#include <glib.h>
#include <string.h>

const struct feature feature_directive = {
	"YAML directives (\"%\")", "take the line out"};
const struct feature feature_documents = {
	"several documents in one file",
	"make a list of records, or several files"};

static const struct feature document_end = {
	"marks of a document's end (\"...\")", "take the line out"};
static const struct feature anchor = {
	"YAML anchors (\"&\")",
	"write the value out; text that begins with \"&\" needs quotes"};
static const struct feature alias = {
	"YAML aliases (\"*\")",
	"write the value out; text that begins with \"*\" needs quotes"};
static const struct feature nameless = {
	"fields without a name",
	"write the name before \":\"; text that begins with \":\" needs "
	"quotes"};
static const struct feature colon_first = {
	"text that begins with \":\" without quotes", "put quotes around it"};
static const struct feature colon_inside = {
	"a \":\" in text without quotes within brackets",
	"put quotes around the text"};
static const struct feature colon_close = {
	"a \":\" without a blank behind it", "put a blank behind the \":\""};
static const struct feature long_name = {
	"names of fields that go over several lines",
	"write the name and its \":\" on one line"};
static const struct feature flush_text = {
	"text behind \"|\" or \">\" without indentation",
	"indent the lines of the text"};
static const struct feature hyphen = {
	"\"-\" as text within brackets", "put quotes around it"};
static const struct feature question = {
	"\"?\" before text", "put quotes around the text, the \"?\" within"};

void
feature_refuse(struct diags *diags, struct span span,
	const struct feature *feature)
{
	struct diag *diag = diag_report(diags, DIAG_YAML_FEATURE, span,
		"records do not use %s", feature->what);

	diag_help(diag, "%s", feature->instead);
}

static bool
is_blank(char c)
{
	return c == ' ' || c == '\t' || c == '\r' || c == '\n' || c == '\0';
}

static bool
line_begins(const struct source *source, uint32_t at, const char *start)
{
	struct span line = source_line(source, at);

	return strncmp(source->bytes + line.from, start, strlen(start)) == 0;
}

/* Whether the last line before `at` that is no comment is the mark "...". */
static bool
follows_end(const struct source *source, uint32_t at)
{
	struct span line = source_line(source, at);

	while (line.from > 0) {
		line = source_line(source, line.from - 1);
		if (strncmp(source->bytes + line.from, "...", 3) == 0)
			return true;
		if (source->bytes[line.from] != '#' && line.to > line.from)
			return false;
	}
	return false;
}

/* A file that begins "--- >", with the text below at the line's start. */
static bool
has_flush_text(const struct source *source)
{
	const char *at = source->bytes;

	if (strncmp(at, "---", 3) != 0)
		return false;
	at += 3 + strspn(at + 3, " \t");
	return *at == '>' || *at == '|';
}

/* What a ":" that cannot stand in braces was meant for. */
static const struct feature *
colon_in_braces(const struct source *source, uint32_t at)
{
	const char *bytes = source->bytes;
	uint32_t from = at;

	while (from > 0 && strchr("{,", bytes[from - 1]) == NULL)
		from--;
	if (memchr(bytes + from, '\n', at - from) != NULL)
		return &long_name;
	return is_blank(bytes[at + 1]) ? NULL : &colon_close;
}

static const struct feature *
colon_first_of(const struct source *source, uint32_t at)
{
	char next = source->bytes[at + 1];

	return is_blank(next) || strchr(",]}", next) != NULL ? &nameless :
		&colon_first;
}

const struct feature *
feature_behind(const struct source *source, const struct syntax_error *error)
{
	uint32_t at = MIN(error->span.from, source->size);
	uint32_t begun = MIN(error->context_span.from, source->size);
	char c = source->bytes[at];
	const char *problem = error->problem;

	if (line_begins(source, at, "%"))
		return &feature_directive;
	if (strcmp(problem, "did not find expected alphabetic or numeric "
		"character") == 0)
		return source->bytes[begun] == '&' ? &anchor : &alias;
	if (strcmp(problem, "did not find expected <document start>") == 0)
		return follows_end(source, at) ? &feature_documents :
			has_flush_text(source) ? &flush_text : NULL;
	if (line_begins(source, at, "..."))
		return &document_end;
	if (strcmp(problem, "found unexpected ':'") == 0)
		return &colon_inside;
	if (c != ':')
		return NULL;
	if (strcmp(problem, "did not find expected ',' or '}'") == 0)
		return colon_in_braces(source, at);
	if (strcmp(problem, "did not find expected node content") == 0 ||
		strcmp(problem, "did not find expected key") == 0)
		return colon_first_of(source, at);
	return NULL;
}

static bool
refuse_comment(struct diags *diags, struct span here)
{
	struct diag *diag = diag_report(diags, DIAG_YAML_SYNTAX, here,
		"a comment cannot begin here");

	diag_help(diag, "put a blank before \"#\", or quotes around the text");
	return false;
}

bool
feature_check_scalar(struct diags *diags, const struct source *source,
	const struct node *scalar)
{
	struct span here = scalar->span;
	const char *bytes = source->bytes;

	if (scalar->style == SCALAR_PLAIN && here.from > 0 &&
		here.to > here.from && bytes[here.from - 1] == '?') {
		here.from--;
		feature_refuse(diags, here, &question);
		return false;
	}
	if (scalar->style == SCALAR_PLAIN && strcmp(scalar->text, "-") == 0) {
		feature_refuse(diags, here, &hyphen);
		return false;
	}
	if (scalar->style != SCALAR_LITERAL && scalar->style != SCALAR_FOLDED)
		return true;
	here.from += 1 + (uint32_t)strspn(bytes + here.from + 1, "+-123456789");
	here.to = here.from + 1;
	return bytes[here.from] != '#' || refuse_comment(diags, here);
}

bool
feature_check_gap(struct diags *diags, const struct source *source,
	struct span gap)
{
	const char *bytes = source->bytes;
	struct span here = gap;
	uint32_t at;

	for (at = gap.from; at < gap.to; at++) {
		here.from = at;
		here.to = at + 1;
		if (bytes[at] == '?' && !is_blank(bytes[at + 1])) {
			feature_refuse(diags, here, &question);
			return false;
		}
		if (bytes[at] != '#')
			continue;
		/* Beyond ASCII, only breaks and the byte order mark. */
		if (at > 0 && !is_blank(bytes[at - 1]) &&
			(unsigned char)bytes[at - 1] < 0x80)
			return refuse_comment(diags, here);
		at = source_line(source, at).to;
	}
	return true;
}
