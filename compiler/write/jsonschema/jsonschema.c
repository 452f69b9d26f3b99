/*
 * Kinds, fields and types in JSON Schema's words. Editors read plain scalars
 * as YAML's core schema does, so a value may come as a number or as true where
 * hangtab sees its characters: where a field takes text, it takes those too.
 */
#include "write/jsonschema/jsonschema.h"

#include <inttypes.h>
#include <string.h>

#include "write/jsonschema/member.h"
#include "write/jsonschema/pattern.h"

static const char dialect[] = "https://json-schema.org/draft/2020-12/schema";

/* A pattern, and what editors say instead of showing it. */
static void
add_pattern(struct json *json, const char *pattern, const char *otherwise)
{
	json_text(json, "pattern", pattern);
	json_text(json, "patternErrorMessage", otherwise);
}

/* Any scalar that is not blank. */
static void
add_scalar(struct json *json)
{
	json_plain(json, "type", "[\"string\", \"number\", \"boolean\"]");
	add_pattern(json, pattern_filled, "Write it, or leave the line out.");
}

static void
add_whole(struct json *json, const struct field *field)
{
	GString *pattern = g_string_new(NULL);
	char number[32];

	pattern_whole(pattern, field);
	json_plain(json, "type", "[\"string\", \"integer\"]");
	add_pattern(json, pattern->str, "Not a whole number that is allowed "
		"here: write digits only, such as 18.");
	g_string_free(pattern, TRUE);
	if (field->least != INT64_MIN) {
		g_snprintf(number, sizeof(number), "%" PRId64, field->least);
		json_plain(json, "minimum", number);
	}
	if (field->most != INT64_MAX) {
		g_snprintf(number, sizeof(number), "%" PRId64, field->most);
		json_plain(json, "maximum", number);
	}
}

static void
add_quantity(struct json *json, const struct field *field)
{
	GString *pattern = g_string_new(NULL);

	pattern_quantity(pattern, field);
	json_text(json, "type", "string");
	add_pattern(json, pattern->str, "Not a number with its unit: write it "
		"like \"153 mm\".");
	g_string_free(pattern, TRUE);
}

static bool
comes_as_number(const char *word)
{
	size_t size = strspn(word, "0123456789");

	return size > 0 && word[size] == '\0' && (size == 1 || *word != '0');
}

static void
add_number_word(struct json *json, const char *word)
{
	json_open(json, "enum", '[');
	json_text(json, NULL, word);
	json_plain(json, NULL, word);
	json_close(json, ']');
}

/* Words with what each says; one of digits may come as a number. */
static void
add_words(struct json *json, const struct vocabulary *vocabulary)
{
	unsigned i;

	json_open(json, "anyOf", '[');
	for (i = 0; i < vocabulary->count; i++) {
		const struct word *word = &vocabulary->words[i];

		json_open(json, NULL, '{');
		if (comes_as_number(word->word))
			add_number_word(json, word->word);
		else
			json_text(json, "const", word->word);
		json_text(json, "title", word->title);
		if (word->says != NULL)
			json_text(json, "description", word->says);
		json_close(json, '}');
	}
	json_close(json, ']');
}

static void
add_fields(struct json *json, const struct fields *fields, bool with_id);

static void
add_translation(struct json *json)
{
	json_text(json, "type", "object");
	json_plain(json, "minProperties", "1");
	json_open(json, "additionalProperties", '{');
	json_text(json, "$ref", "#/$defs/lines");
	json_close(json, '}');
}

/* `name`: one id or a list of them, nothing else beside it. */
static void
add_candidates(struct json *json, const char *name, const char *says)
{
	json_open(json, NULL, '{');
	json_text(json, "description", says);
	json_text(json, "type", "object");
	json_open(json, "required", '[');
	json_text(json, NULL, name);
	json_close(json, ']');
	json_plain(json, "additionalProperties", "false");
	json_open(json, "properties", '{');
	json_open(json, name, '{');
	json_open(json, "anyOf", '[');
	json_open(json, NULL, '{');
	add_scalar(json);
	json_close(json, '}');
	json_open(json, NULL, '{');
	json_text(json, "type", "array");
	json_plain(json, "minItems", "1");
	json_open(json, "items", '{');
	add_scalar(json);
	json_close(json, '}');
	json_close(json, '}');
	json_close(json, ']');
	json_close(json, '}');
	json_close(json, '}');
	json_close(json, '}');
}

static void
add_identity(struct json *json)
{
	json_open(json, "anyOf", '[');
	json_open(json, NULL, '{');
	json_text(json, "description", "Its id, or unknown.");
	add_scalar(json);
	json_close(json, '}');
	add_candidates(json, "one_of", "One of these, we do not know which.");
	add_candidates(json, "not", "None of these.");
	json_close(json, ']');
}

static void
add_type(struct json *json, const struct field *field)
{
	switch (field->type) {
	case TYPE_PROSE:
		json_text(json, "$ref", "#/$defs/lines");
		break;
	case TYPE_TEXT:
	case TYPE_COUNTRY:
	case TYPE_LANGUAGE:
	case TYPE_CURRENCY:
		json_text(json, "$ref", "#/$defs/text");
		break;
	case TYPE_REFERENCE:
		add_scalar(json);
		break;
	case TYPE_WHOLE:
		add_whole(json, field);
		break;
	case TYPE_QUANTITY:
		add_quantity(json, field);
		break;
	case TYPE_DATE:
		json_plain(json, "type", "[\"string\", \"integer\"]");
		add_pattern(json, pattern_date, "Not a date: write 1983, "
			"1983-11 or 1983-11-05, as much as is known.");
		json_plain(json, "minimum", "1000");
		json_plain(json, "maximum", "9999");
		break;
	case TYPE_YESNO:
		json_plain(json, "enum", "[\"yes\", \"no\"]");
		break;
	case TYPE_WORD:
		add_words(json, field->vocabulary);
		break;
	case TYPE_BARCODE:
		json_plain(json, "type", "[\"string\", \"integer\"]");
		add_pattern(json, pattern_barcode, "Not the 12 digits of a "
			"UPC-A or the 13 of an EAN-13.");
		json_plain(json, "minimum", "100000000000");
		json_plain(json, "maximum", "9999999999999");
		break;
	case TYPE_AMOUNT:
		json_plain(json, "type", "[\"string\", \"number\"]");
		add_pattern(json, pattern_amount, "Not an amount: write "
			"digits, and behind a point up to four, such as "
			"12.50.");
		json_plain(json, "minimum", "0");
		break;
	case TYPE_TRANSLATION:
		add_translation(json);
		break;
	case TYPE_IDENTITY:
		add_identity(json);
		break;
	case TYPE_GROUP:
		add_fields(json, &field->fields, false);
		break;
	}
}

/* One value of the field as one would write it; NULL where none helps. */
static const char *
example_of(const struct field *field)
{
	switch (field->type) {
	case TYPE_WHOLE:
		return "18";
	case TYPE_QUANTITY:
		return "153 mm";
	case TYPE_DATE:
		return "1983-11";
	case TYPE_BARCODE:
		return "036000291452";
	case TYPE_AMOUNT:
		return "12.50";
	case TYPE_PROSE:
		return "Words, and a [link](ref:term/hang-tab).";
	case TYPE_COUNTRY:
		return "GR";
	case TYPE_LANGUAGE:
		return "fr-CA";
	case TYPE_CURRENCY:
		return "GRD";
	case TYPE_TEXT:
	case TYPE_YESNO:
	case TYPE_WORD:
	case TYPE_TRANSLATION:
	case TYPE_REFERENCE:
	case TYPE_IDENTITY:
	case TYPE_GROUP:
		break;
	}
	return NULL;
}

/* Only an example that the field itself would take. */
static bool
fits(const struct field *field, const char *example)
{
	if (field->type == TYPE_WHOLE)
		return field->least <= 18 && field->most >= 18;
	return field->type != TYPE_QUANTITY ||
		(field->unit_count > 0 && strcmp(field->units[0], "mm") == 0 &&
			g_str_has_suffix(example, "mm"));
}

/* What belongs in a field: its words, its type and whither it may lead. */
static void
add_description(struct json *json, const struct field *field)
{
	GString *text = g_string_new(field->says);
	unsigned i;

	while (text->len > 0 && text->str[text->len - 1] == '\n')
		g_string_truncate(text, text->len - 1);
	g_string_append_printf(text, "%s%s%s", text->len > 0 ? "\n\n" : "",
		type_title(field->type), field->many ? "; a list" : "");
	for (i = 0; i < field->to_count && field->to_count <= 6; i++)
		g_string_append_printf(text, "%s%s", i == 0 ? " of kind " :
			", ", field->to[i]->name);
	if (field->to_count > 1)
		g_string_append(text, "; written kind/id");
	json_text(json, "description", text->str);
	g_string_free(text, TRUE);
}

static void
add_field(struct json *json, const struct field *field)
{
	const char *example = example_of(field);

	json_open(json, field->name, '{');
	json_text(json, "title", field->title);
	add_description(json, field);
	if (field->fallback != NULL && !field->many)
		json_text(json, "default", field->fallback);
	if (field->many) {
		json_text(json, "type", "array");
		json_open(json, "items", '{');
	}
	if (example != NULL && fits(field, example)) {
		json_open(json, "examples", '[');
		json_text(json, NULL, example);
		json_close(json, ']');
	}
	add_type(json, field);
	if (field->many)
		json_close(json, '}');
	json_close(json, '}');
}

static void
add_id(struct json *json)
{
	json_open(json, "id", '{');
	json_text(json, "title", "id");
	json_text(json, "description", "The record's permanent name: "
		"lower-case letters, digits and hyphens; no other record of "
		"the kind has it.");
	json_plain(json, "type", "[\"string\", \"integer\", \"boolean\"]");
	add_pattern(json, pattern_id, "Use lower-case letters, digits and "
		"hyphens.");
	json_plain(json, "minimum", "0");
	json_close(json, '}');
}

static void
add_fields(struct json *json, const struct fields *fields, bool with_id)
{
	unsigned i;

	json_text(json, "type", "object");
	json_plain(json, "additionalProperties", "false");
	json_open(json, "required", '[');
	if (with_id)
		json_text(json, NULL, "id");
	for (i = 0; i < fields->count; i++)
		if (fields->items[i].required)
			json_text(json, NULL, fields->items[i].name);
	json_close(json, ']');
	json_open(json, "properties", '{');
	if (with_id)
		add_id(json);
	for (i = 0; i < fields->count; i++)
		add_field(json, &fields->items[i]);
	json_close(json, '}');
}

/* A description, without the line break that a folded text ends with. */
static void
add_says(struct json *json, const char *says)
{
	char *text = g_strchomp(g_strdup(says));

	json_text(json, "description", text);
	g_free(text);
}

static void
begin(struct json *json, const char *name, const char *title,
	const char *says)
{
	char *id = g_strdup_printf("%s.json", name);

	json_open(json, NULL, '{');
	json_text(json, "$schema", dialect);
	json_text(json, "$id", id);
	json_text(json, "title", title);
	if (says != NULL)
		add_says(json, says);
	g_free(id);
}

/* One record or a list of them, each as `record` says. */
static void
add_records(struct json *json, const char *record)
{
	json_open(json, "if", '{');
	json_text(json, "type", "array");
	json_close(json, '}');
	json_open(json, "then", '{');
	json_text(json, "type", "array");
	json_open(json, "items", '{');
	json_text(json, "$ref", record);
	json_close(json, '}');
	json_close(json, '}');
	json_open(json, "else", '{');
	json_text(json, "$ref", record);
	json_close(json, '}');
}

static bool
end(struct json *json, const struct write_job *job, const char *name,
	GError **error)
{
	char *path = g_strdup_printf("schema/%s.json", name);
	bool done;

	json_close(json, '}');
	g_string_append_c(json->text, '\n');
	done = output_add(job->out, path, json->text->str, json->text->len,
		error);
	g_string_free(json->text, TRUE);
	g_free(path);
	return done;
}

static void
add_text(struct json *json, const char *name, const char *pattern)
{
	json_open(json, name, '{');
	json_plain(json, "type", "[\"string\", \"number\", \"boolean\"]");
	add_pattern(json, pattern, "Empty, more lines than the field takes, "
		"or a character that cannot be seen.");
	json_close(json, '}');
}

static bool
write_kind(const struct write_job *job, const struct kind *kind,
	GError **error)
{
	struct json json = {g_string_new(NULL), 0, false};

	begin(&json, kind->name, kind->titles, kind->says);
	add_records(&json, "#/$defs/record");
	json_open(&json, "$defs", '{');
	json_open(&json, "record", '{');
	json_text(&json, "title", kind->title);
	add_fields(&json, &kind->fields, true);
	json_close(&json, '}');
	add_text(&json, "text", pattern_text);
	add_text(&json, "lines", pattern_lines);
	json_close(&json, '}');
	return end(&json, job, kind->name, error);
}

static bool
write_mixed(const struct write_job *job, const struct schema *schema,
	GError **error)
{
	struct json json = {g_string_new(NULL), 0, false};
	unsigned i;

	begin(&json, "mixed", "records of several kinds",
		"Kinds of record, each with its records.");
	json_text(&json, "type", "object");
	json_open(&json, "properties", '{');
	json_open(&json, "format", '{');
	json_text(&json, "description", "The number of the corpus format.");
	json_plain(&json, "enum", "[1, \"1\"]");
	json_close(&json, '}');
	json_open(&json, "title", '{');
	json_text(&json, "description", "What the corpus is called.");
	json_close(&json, '}');
	for (i = 0; i < schema->count; i++) {
		char *file = g_strdup_printf("%s.json",
			schema->kinds[i].name);

		json_open(&json, schema->kinds[i].name, '{');
		json_text(&json, "$ref", file);
		json_close(&json, '}');
		g_free(file);
	}
	json_close(&json, '}');
	json_plain(&json, "additionalProperties", "false");
	return end(&json, job, "mixed", error);
}

/* The form of catalogue that YAML language servers take. */
static bool
write_catalog(const struct write_job *job, const struct schema *schema,
	GError **error)
{
	struct json json = {g_string_new(NULL), 0, false};
	unsigned i;

	json_open(&json, NULL, '{');
	json_plain(&json, "version", "1");
	json_open(&json, "schemas", '[');
	for (i = 0; i < schema->count; i++) {
		const struct kind *kind = &schema->kinds[i];
		char *match, *file;

		if (kind->chapter == CHAPTER_PRIVATE)
			continue;
		match = g_strdup_printf("**/%s/*.yaml", kind->name);
		file = g_strdup_printf("%s.json", kind->name);
		json_open(&json, NULL, '{');
		json_text(&json, "name", kind->titles);
		add_says(&json, kind->says == NULL ? kind->titles :
			kind->says);
		json_open(&json, "fileMatch", '[');
		json_text(&json, NULL, match);
		json_close(&json, ']');
		json_text(&json, "url", file);
		json_close(&json, '}');
		g_free(file);
		g_free(match);
	}
	json_close(&json, ']');
	return end(&json, job, "catalog", error);
}

bool
jsonschema_write(const struct write_job *job, GError **error)
{
	const struct schema *schema = model_schema(job->model);
	bool done = true;
	unsigned i;

	for (i = 0; done && i < schema->count; i++)
		done = write_kind(job, &schema->kinds[i], error);
	return done && write_mixed(job, schema, error) &&
		write_catalog(job, schema, error);
}
