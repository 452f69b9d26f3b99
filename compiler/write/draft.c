/*
 * A field is a line, and above it stands what the schema says of it, behind
 * ##. What is optional stands behind a single #, to be taken away.
 */
#include "write/draft.h"

#include <inttypes.h>
#include <string.h>

#include "write/tidy/scalar.h"

struct draft {
	GString *out;
	int indent;
	int off;	/* the column of the # that turns lines off, or -1 */
	bool dash;	/* the next field is the first of an item */
};

static void
append_list(GString *out, const char *text, bool first, bool last)
{
	g_string_append_printf(out, "%s%s", first ? "" : last ? " or " : ", ",
		text);
}

static void
append_kinds(const struct field *field, GString *out)
{
	unsigned i;

	for (i = 0; i < field->to_count; i++)
		append_list(out, field->to[i]->name, i == 0,
			i + 1 == field->to_count);
}

/* A reference names its kind where several are allowed. */
static void
hint_reference(const struct field *field, GString *out)
{
	if (field->to_count == 1) {
		g_string_append_printf(out, "the id of a record in %s/",
			field->to[0]->name);
		return;
	}
	if (field->to_count > 8) {
		g_string_append(out, "the kind/id of any record");
		return;
	}
	g_string_append(out, "kind/id, where the kind is ");
	append_kinds(field, out);
}

static void
hint_word(const struct field *field, GString *out)
{
	const struct vocabulary *vocabulary = field->vocabulary;
	unsigned i;

	for (i = 0; i < vocabulary->count; i++)
		append_list(out, vocabulary->words[i].word, i == 0,
			i + 1 == vocabulary->count);
}

static void
hint_quantity(const struct field *field, GString *out)
{
	unsigned i;

	g_string_append(out, "a number and its unit, ");
	for (i = 0; i < field->unit_count; i++)
		append_list(out, field->units[i], i == 0,
			i + 1 == field->unit_count);
}

static void
hint_whole(const struct field *field, GString *out)
{
	g_string_append(out, "a whole number");
	if (field->least > INT64_MIN && field->most < INT64_MAX)
		g_string_append_printf(out, " from %" PRId64 " to %" PRId64,
			field->least, field->most);
	else if (field->least > INT64_MIN)
		g_string_append_printf(out, " from %" PRId64 " up",
			field->least);
	else if (field->most < INT64_MAX)
		g_string_append_printf(out, " up to %" PRId64, field->most);
}

void
draft_hint(const struct field *field, GString *out)
{
	switch (field->type) {
	case TYPE_WHOLE:
		hint_whole(field, out);
		break;
	case TYPE_QUANTITY:
		hint_quantity(field, out);
		break;
	case TYPE_DATE:
		g_string_append(out, "1983, 1983-11 or 1983-11-05");
		break;
	case TYPE_WORD:
		hint_word(field, out);
		break;
	case TYPE_REFERENCE:
		hint_reference(field, out);
		break;
	case TYPE_IDENTITY:
		hint_reference(field, out);
		g_string_append(out, "; or unknown, {one_of: [a, b]}, "
			"{not: [a]}");
		break;
	case TYPE_TRANSLATION:
		g_string_append(out, "{en: text, fr: text}");
		break;
	case TYPE_LANGUAGE:
		g_string_append(out, "a language tag, such as el or fr-CA");
		break;
	case TYPE_PROSE:
		g_string_append(out, "prose in CommonMark, indented under |");
		break;
	case TYPE_TEXT:
	case TYPE_YESNO:
	case TYPE_COUNTRY:
	case TYPE_CURRENCY:
	case TYPE_BARCODE:
	case TYPE_AMOUNT:
	case TYPE_GROUP:
		g_string_append(out, type_title(field->type));
		break;
	}
}

static void
begin_line(const struct draft *draft)
{
	if (draft->off < 0)
		g_string_append_printf(draft->out, "%*s", draft->indent, "");
	else
		g_string_append_printf(draft->out, "%*s# %*s", draft->off, "",
			draft->indent - draft->off, "");
}

/* An explanation, filled into lines. */
static void
explain(const struct draft *draft, const char *text)
{
	char **words = g_strsplit_set(text, " \n", -1);
	int start = draft->indent + (draft->off < 0 ? 2 : 4), column = 0;
	char **word;

	for (word = words; *word != NULL; word++) {
		int columns = tidy_columns(*word) + 1;

		if (**word == '\0')
			continue;
		if (column == 0 || column + columns > TIDY_WIDTH) {
			if (column > 0)
				g_string_append_c(draft->out, '\n');
			begin_line(draft);
			g_string_append(draft->out, "##");
			column = start;
		}
		g_string_append_printf(draft->out, " %s", *word);
		column += columns;
	}
	g_string_append_c(draft->out, '\n');
	g_strfreev(words);
}

/*
 * What the schema says of a field, and what may be written there. Above a
 * field that is turned off by itself, it is a plain comment.
 */
static void
explain_field(const struct draft *draft, const struct field *field)
{
	struct draft plain = *draft;
	GString *text = g_string_new(field->says);

	if (plain.off == plain.indent)
		plain.off = -1;
	if (field->type == TYPE_GROUP)
		g_string_append(text, field->many ? " Several, each behind a "
			"dash." : "");
	else if (field->many)
		g_string_append(text, " A list, [a, b]: each ");
	else if (field->type != TYPE_TEXT)
		g_string_append(text, " Write: ");
	if (field->type != TYPE_GROUP && (field->many ||
		field->type != TYPE_TEXT)) {
		draft_hint(field, text);
		g_string_append_c(text, '.');
	}
	if (field->fallback != NULL)
		g_string_append_printf(text, " Without it: %s.",
			field->fallback);
	explain(&plain, text->str);
	g_string_free(text, TRUE);
}

/* The line of a field, without its end. */
static void
name_field(struct draft *draft, const char *name)
{
	if (draft->dash)
		draft->indent -= TIDY_INDENT;
	begin_line(draft);
	g_string_append_printf(draft->out, "%s%s:", draft->dash ? "- " : "",
		name);
	if (draft->dash)
		draft->indent += TIDY_INDENT;
	draft->dash = false;
}

static void
draft_fields(struct draft *draft, const struct fields *fields);

static void
draft_field(struct draft *draft, const struct field *field)
{
	struct draft inner = *draft;

	explain_field(draft, field);
	name_field(draft, field->name);
	g_string_append_c(draft->out, '\n');
	if (field->type != TYPE_GROUP)
		return;
	inner.dash = field->many;
	inner.indent += field->many ? 2 * TIDY_INDENT : TIDY_INDENT;
	draft_fields(&inner, &field->fields);
}

/*
 * Required fields, then the others turned off; a group of which none is
 * required has its first field on, lest nothing be left of it.
 */
static void
draft_fields(struct draft *draft, const struct fields *fields)
{
	bool any = false;
	unsigned i;

	for (i = 0; i < fields->count; i++)
		if (fields->items[i].required) {
			any = true;
			draft_field(draft, &fields->items[i]);
		}
	for (i = 0; i < fields->count; i++) {
		struct draft off = *draft;

		if (fields->items[i].required)
			continue;
		if (any && off.off < 0)
			off.off = off.indent;
		draft_field(&off, &fields->items[i]);
		draft->dash = false;
		any = true;
	}
}

static void
draft_top(struct draft *draft, const struct kind *kind, bool required)
{
	const struct fields *fields = &kind->fields;
	unsigned i;

	for (i = 0; i < fields->count; i++) {
		if (fields->items[i].required != required)
			continue;
		g_string_append_c(draft->out, '\n');
		draft_field(draft, &fields->items[i]);
	}
}

void
draft_record(const struct kind *kind, const char *id, bool item, GString *out)
{
	struct draft draft = {out, item ? 2 * TIDY_INDENT : 0, -1, item};
	char *about = g_strdup_printf("%s %s. %s", strchr("aeiou",
		kind->title[0]) == NULL ? "A" : "An", kind->title, kind->says == NULL ? "" : kind->says);

	explain(&draft, about);
	explain(&draft, "Fill in what stands empty. Take away the # before a "
		"line that you want to use. Lines with ## can go.");
	g_string_append_c(out, '\n');
	explain(&draft, "Lower-case letters, digits and hyphens. It is "
		"permanent: choose well.");
	name_field(&draft, "id");
	g_string_append_printf(out, " %s\n", id);
	draft_top(&draft, kind, true);
	g_string_append_c(out, '\n');
	explain(&draft, "What may be said besides, where it is known:");
	draft.off = draft.indent;
	draft_top(&draft, kind, false);
	g_free(about);
}
