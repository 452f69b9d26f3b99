/*
 * libyaml's complaints are about tokens and nodes. Here each is turned into
 * what a person would look for, with what to do about it.
 */
#include "read/feature.h"

#include <glib.h>
#include <string.h>

struct plain_words {
	const char *problem;	/* as libyaml says it */
	bool where_begun;	/* the place to mark is where it began */
	const char *message;
	const char *help;
};

static const struct plain_words words[] = {
	{"mapping values are not allowed in this context", false,
		"a second \":\" cannot stand here",
		"put quotes around text that holds \": \", or check the "
		"indentation of this line"},
	{"could not find expected ':'", true,
		"there is no \":\" after this name",
		"write a field as \"name: value\"; text that goes on from the "
		"line above is indented further than its field"},
	{"did not find expected key", false,
		"this is neither a field of the group above nor the end of it",
		"give all fields of a group the same indentation, and put "
		"quotes around a whole text, not around a part"},
	{"did not find expected '-' indicator", false,
		"this is neither an item of the list above nor the end of it",
		"give every \"-\" of a list the same indentation, and the "
		"fields of an item that of its first field"},
	{"block sequence entries are not allowed in this context", false,
		"a list cannot begin here",
		"begin a list on the line below its field, each item with "
		"\"- \"; text that begins with \"-\" needs quotes"},
	{"did not find expected ',' or ']'", false,
		"the list in brackets does not end before this",
		"end it with \"]\", and put commas between the items"},
	{"did not find expected ',' or '}'", false,
		"the group in braces does not end before this",
		"end it with \"}\", and put commas between the fields"},
	{"did not find expected node content", false,
		"a value is missing before this",
		"write the value, or take out the comma too many"},
	{"found unexpected end of stream", true,
		"the text in quotes does not end",
		"end it with the quote that it begins with; in single quotes, "
		"an apostrophe is written twice"},
	{"found unexpected document indicator", true,
		"the text in quotes does not end",
		"end it with the quote that it begins with"},
	{"found unknown escape character", false,
		"after \"\\\" in double quotes this character cannot stand",
		"write \"\\\\\" for a backslash, or use single quotes"},
	{"found invalid Unicode character escape code", false,
		"there is no character with this number",
		"write the character itself"},
	{"did not find expected hexdecimal number", false,
		"hexadecimal digits are missing after this escape",
		"write the character itself"},
	{"did not find expected comment or line break", false,
		"text cannot stand on this line",
		"after \"|\" or \">\" the text begins on the next line, "
		"indented"},
	{"did not find expected alphabetic or numeric character", true,
		"text cannot begin with this character",
		"put quotes around the text"},
	{"found a tab character where an indentation space is expected", false,
		"a tab cannot indent", "indent with blanks"},
	{"found a tab character that violates indentation", false,
		"a tab cannot indent", "indent with blanks"},
	{"did not find expected <document start>", false,
		"after the end of the file's records nothing can follow",
		"put all records of a file into one list"},
};

/* The characters that no bare text can begin with. */
static void
report_start(struct diags *diags, const struct source *source,
	struct span span)
{
	char c = span.from < source->size ? source->bytes[span.from] : ' ';
	struct diag *diag;

	if (c == '\t') {
		diag = diag_report(diags, DIAG_YAML_SYNTAX, span,
			"a tab cannot indent");
		diag_help(diag, "indent with blanks");
		return;
	}
	diag = diag_report(diags, DIAG_YAML_SYNTAX, span,
		"text cannot begin with \"%c\"", c);
	diag_help(diag, "put quotes around the text");
}

static void
report_control(struct diags *diags, const struct source *source,
	struct span span)
{
	const char *at = source->bytes + MIN(span.from, source->size);
	struct diag *diag;

	diag = diag_report(diags, DIAG_YAML_SYNTAX, span,
		"the control character U+%04X cannot stand in a file",
		g_utf8_get_char(at));
	diag_help(diag, "take it out; an editor may show it only as a gap");
}

static const struct plain_words *
find_words(const char *problem)
{
	size_t i;

	for (i = 0; i < G_N_ELEMENTS(words); i++)
		if (strcmp(words[i].problem, problem) == 0)
			return &words[i];
	return NULL;
}

void
syntax_report(struct diags *diags, const struct source *source,
	const struct syntax_error *error)
{
	const struct plain_words *plain = find_words(error->problem);
	const struct feature *feature = feature_behind(source, error);
	struct diag *diag;

	if (feature != NULL)
		feature_refuse(diags, error->span, feature);
	else if (strcmp(error->problem, "control characters are not allowed") == 0)
		report_control(diags, source, error->span);
	else if (strcmp(error->problem,
		"found character that cannot start any token") == 0)
		report_start(diags, source, error->span);
	else if (plain == NULL) {
		diag = diag_report(diags, DIAG_YAML_SYNTAX, error->span,
			"this is not well-formed YAML: %s", error->problem);
		diag_help(diag, "check indentation (blanks, no tabs), the "
			"blank after \":\" and \"-\", and quotes around text "
			"with \": \" or \" #\"");
	} else if (plain->where_begun && error->context != NULL) {
		diag = diag_report(diags, DIAG_YAML_SYNTAX,
			error->context_span, "%s", plain->message);
		diag_help(diag, "%s", plain->help);
		syntax_offer(diag, source, error);
	} else {
		diag = diag_report(diags, DIAG_YAML_SYNTAX, error->span, "%s",
			plain->message);
		if (error->context != NULL && error->context_span.from <
			error->span.from)
			diag_note(diag, error->context_span,
				"it begins here");
		diag_help(diag, "%s", plain->help);
		syntax_offer(diag, source, error);
	}
}
