/*
 * Single values: one short reader a type. Each takes the text of a scalar and
 * fills the value, or says what was wrong and what was expected.
 */
#include "shape/shape.h"
#include "shape/shaping.h"

#include <errno.h>
#include <glib.h>
#include <inttypes.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "shape/forms.h"
#include "shape/nearest.h"

typedef bool reader(struct shaping *shaping, const struct field *field,
	const struct node *node, struct value *value);

static const char *const titles[] = {
	[TYPE_TEXT] = "a line of text",
	[TYPE_PROSE] = "prose",
	[TYPE_WHOLE] = "a whole number",
	[TYPE_QUANTITY] = "a number with its unit",
	[TYPE_DATE] = "a date",
	[TYPE_YESNO] = "yes or no",
	[TYPE_WORD] = "a word of a vocabulary",
	[TYPE_COUNTRY] = "a country code",
	[TYPE_LANGUAGE] = "a language tag",
	[TYPE_CURRENCY] = "a currency code",
	[TYPE_BARCODE] = "the digits of a barcode",
	[TYPE_AMOUNT] = "an amount, such as 12.50",
	[TYPE_TRANSLATION] = "language tags, each with its text",
	[TYPE_REFERENCE] = "the id of a record",
	[TYPE_IDENTITY] = "an id, unknown, one_of or not",
	[TYPE_GROUP] = "a group of fields",
};

const char *
type_title(enum type type)
{
	return titles[type];
}

/* Controls, and marks that make text read other than it is stored. */
static bool
is_unprintable(gunichar c)
{
	return (c < 0x20 && c != '\n' && c != '\t') ||
		(c >= 0x7F && c <= 0x9F) || (c >= 0x202A && c <= 0x202E) ||
		(c >= 0x2066 && c <= 0x2069) || c == 0xFEFF ||
		(c & 0xFFFE) == 0xFFFE;
}

bool
shape_printable(struct shaping *shaping, const struct node *node)
{
	const char *at, *next;

	for (at = node->text; *at != '\0'; at = next) {
		gunichar c = g_utf8_get_char(at);

		next = g_utf8_next_char(at);
		/* Essays are read as they are, with whatever ends a line. */
		if (!is_unprintable(c) || (c == '\r' && *next == '\n'))
			continue;
		diag_report(shaping->diags, DIAG_BAD_TEXT,
			node_span_within(node, shaping->sources,
				(uint32_t)(at - node->text),
				(uint32_t)(next - node->text)),
			"text cannot hold the invisible character U+%04X", c);
		return false;
	}
	return true;
}

const char *
shape_trimmed(struct shaping *shaping, const struct node *node)
{
	size_t size = node->count;

	while (size > 0 && strchr(" \t\r\n", node->text[size - 1]) != NULL)
		size--;
	return size == node->count ? node->text :
		arena_text(shaping->arena, node->text, size);
}

static bool
read_text(struct shaping *shaping, const struct field *field,
	const struct node *node, struct value *value)
{
	const char *end;
	struct diag *diag;
	uint32_t at;

	if (!shape_printable(shaping, node))
		return false;
	value->text = shape_trimmed(shaping, node);
	end = strchr(value->text, '\n');
	if (end == NULL)
		return true;
	at = (uint32_t)(end - value->text);
	diag = diag_report(shaping->diags, DIAG_BAD_TEXT,
		node_span_within(node, shaping->sources, at, at + 1),
		"\"%s\" is one line of text, and here another begins",
		field->name);
	diag_help(diag, "write \">-\" behind \"%s:\" to have the lines "
		"joined", field->name);
	return false;
}

static bool
read_prose_value(struct shaping *shaping, const struct field *field,
	const struct node *node, struct value *value)
{
	(void)field;
	if (!shape_printable(shaping, node))
		return false;
	value->prose.text = node->text;
	value->prose.tree = read_prose(node, shaping->sources, shaping->arena,
		shaping->diags);
	return true;
}

static bool
read_whole(struct shaping *shaping, const struct field *field,
	const struct node *node, struct value *value)
{
	const char *digits = node->text + (node->text[0] == '-');
	size_t length = strspn(digits, "0123456789");
	enum confidence sure;
	struct diag *diag;
	const char *meant;

	errno = 0;
	value->whole = strtoll(node->text, NULL, 10);
	if (length == 0 || digits[length] != '\0' || errno != 0 ||
		(digits[0] == '0' && (length > 1 || digits > node->text))) {
		diag = diag_report(shaping->diags, DIAG_BAD_WHOLE, node->span,
			"\"%s\" is not a whole number", node->text);
		diag_help(diag, "write digits only, such as 18");
		meant = forms_whole(shaping->arena, node->text, &sure);
		shape_offer(diag, node, meant, sure);
		return false;
	}
	if (value->whole >= field->least && value->whole <= field->most)
		return true;
	diag = diag_report(shaping->diags, DIAG_OUT_OF_BOUNDS, node->span,
		"%s is outside the bounds of \"%s\"", node->text,
		field->name);
	if (field->most == INT64_MAX)
		diag_help(diag, "it is at least %" PRId64, field->least);
	else
		diag_help(diag, "it lies from %" PRId64 " to %" PRId64,
			field->least, field->most);
	return false;
}

/* Factors by definition: the inch is 25.4 mm, the ounce 28.349523125 g. */
static double
unit_size(const char *unit)
{
	static const struct { const char *unit; double size; } sizes[] = {
		{"mm", 1}, {"cm", 10}, {"m", 1000}, {"in", 25.4},
		{"g", 1}, {"kg", 1000}, {"oz", 28.349523125},
	};
	size_t i;

	for (i = 0; i < G_N_ELEMENTS(sizes); i++)
		if (strcmp(sizes[i].unit, unit) == 0)
			return sizes[i].size;
	return 1;
}

static bool
read_quantity(struct shaping *shaping, const struct field *field,
	const struct node *node, struct value *value)
{
	size_t length = strspn(node->text, "0123456789.");
	const char *unit = node->text + length, *meant;
	enum confidence sure;
	struct diag *diag;
	unsigned i;
	char *end;

	unit += strspn(unit, " ");
	value->quantity.number = g_ascii_strtod(node->text, &end);
	for (i = 0; i < field->unit_count; i++)
		if (strcmp(field->units[i], unit) == 0)
			break;
	if (length > 0 && end == node->text + length &&
		isfinite(value->quantity.number) && i < field->unit_count) {
		value->quantity.number *= unit_size(unit) /
			unit_size(field->units[0]);
		value->quantity.unit = field->units[i];
		value->quantity.text = node->text;
		return true;
	}
	diag = diag_report(shaping->diags, DIAG_BAD_QUANTITY, node->span,
		"\"%s\" is not a number with its unit", node->text);
	diag_help(diag, "write it like \"153 %s\"", field->unit_count > 0 ?
		field->units[0] : "mm");
	meant = forms_quantity(shaping->arena, field, node->text, &sure);
	shape_offer(diag, node, meant, sure);
	return false;
}

int64_t
shape_amount(const char *text)
{
	size_t whole = strspn(text, "0123456789"), places = 0, i;
	const char *point = text + whole;
	int64_t amount = 0;

	if (*point == '.')
		places = strspn(point + 1, "0123456789");
	if (whole == 0 || whole > AMOUNT_DIGITS || places > AMOUNT_PLACES ||
		point[places + (*point == '.')] != '\0' ||
		(*point == '.' && places == 0))
		return -1;
	for (i = 0; i < whole; i++)
		amount = amount * 10 + g_ascii_digit_value(text[i]);
	for (i = 0; i < AMOUNT_PLACES; i++)
		amount = amount * 10 + (i < places ?
			g_ascii_digit_value(point[1 + i]) : 0);
	return amount;
}

static bool
read_amount(struct shaping *shaping, const struct field *field,
	const struct node *node, struct value *value)
{
	enum confidence sure;
	struct diag *diag;
	const char *meant;

	value->text = node->text;
	if (shape_amount(node->text) >= 0)
		return true;
	diag = diag_report(shaping->diags, DIAG_BAD_AMOUNT, node->span,
		"\"%s\" is not an amount", node->text);
	diag_help(diag, "write \"%s\" in digits alone, such as 12.50, without "
		"sign or currency", field->name);
	meant = forms_amount(shaping->arena, node->text, &sure);
	shape_offer(diag, node, meant, sure);
	return false;
}

static bool
read_date(struct shaping *shaping, const struct field *field,
	const struct node *node, struct value *value)
{
	enum confidence sure;
	struct diag *diag;
	const char *meant;

	(void)field;
	if (shape_date(node->text, &value->date))
		return true;
	diag = diag_report(shaping->diags, DIAG_BAD_DATE, node->span,
		"\"%s\" is not a date", node->text);
	meant = forms_date(shaping->arena, node->text, &sure);
	if (meant != NULL)
		diag_help(diag, "write %s", meant);
	else
		diag_help(diag, "write 1983, 1983-11 or 1983-11-05, as much "
			"of it as is known");
	shape_offer(diag, node, meant, sure);
	return false;
}

static bool
read_yesno(struct shaping *shaping, const struct field *field,
	const struct node *node, struct value *value)
{
	enum confidence sure;
	struct diag *diag;
	const char *meant;

	value->yes = strcmp(node->text, "yes") == 0;
	if (value->yes || strcmp(node->text, "no") == 0)
		return true;
	diag = diag_report(shaping->diags, DIAG_BAD_YESNO, node->span,
		"\"%s\" is neither yes nor no", node->text);
	diag_help(diag, "write yes or no for \"%s\"", field->name);
	meant = forms_yesno(shaping->arena, node->text, &sure);
	shape_offer(diag, node, meant, sure);
	return false;
}

static void
list_words(const struct vocabulary *vocabulary, GString *out)
{
	unsigned i;

	for (i = 0; i < vocabulary->count; i++)
		g_string_append_printf(out, "%s%s", i == 0 ? "" : ", ",
			vocabulary->words[i].word);
}

static bool
read_word(struct shaping *shaping, const struct field *field,
	const struct node *node, struct value *value)
{
	const struct vocabulary *vocabulary = field->vocabulary;
	struct nearest nearest = nearest_to(node->text);
	struct diag *diag;
	GString *all;
	unsigned i;

	for (i = 0; i < vocabulary->count; i++) {
		value->word = &vocabulary->words[i];
		if (strcmp(value->word->word, node->text) == 0)
			return true;
		nearest_offer(&nearest, value->word->word);
		nearest_offer_title(&nearest, value->word->title,
			value->word->word);
	}
	diag = diag_report(shaping->diags, DIAG_UNKNOWN_WORD, node->span,
		"\"%s\" is not a word for \"%s\"", node->text, field->name);
	all = g_string_new(" allowed: ");
	list_words(vocabulary, all);
	if (!nearest_suggest(&nearest, diag, node->span, all->str))
		diag_help(diag, "%s", all->str + 1);
	g_string_free(all, TRUE);
	return false;
}

static bool
read_barcode(struct shaping *shaping, const struct field *field,
	const struct node *node, struct value *value)
{
	GString *digits = g_string_new(NULL);
	enum confidence sure;
	struct diag *diag;
	const char *at;
	bool good;

	(void)field;
	for (at = node->text; *at != '\0'; at++)
		if (*at != ' ' && *at != '-')
			g_string_append_c(digits, *at);
	good = (digits->len == 12 || digits->len == 13) &&
		strspn(digits->str, "0123456789") == digits->len;
	value->text = arena_text(shaping->arena, digits->str, digits->len);
	g_string_free(digits, TRUE);
	if (good)
		return true;
	diag = diag_report(shaping->diags, DIAG_BAD_BARCODE, node->span,
		"\"%s\" is neither the 12 digits of a UPC-A nor the 13 of an "
		"EAN-13", node->text);
	diag_help(diag, "write the digits as printed; a spreadsheet may have "
		"dropped a leading zero");
	at = forms_barcode(shaping->arena, node->text, &sure);
	shape_offer(diag, node, at, sure);
	return false;
}

static bool
read_reference(struct shaping *shaping, const struct field *field,
	const struct node *node, struct value *value);

static reader *const readers[] = {
	[TYPE_TEXT] = read_text,
	[TYPE_PROSE] = read_prose_value,
	[TYPE_WHOLE] = read_whole,
	[TYPE_QUANTITY] = read_quantity,
	[TYPE_DATE] = read_date,
	[TYPE_YESNO] = read_yesno,
	[TYPE_WORD] = read_word,
	[TYPE_COUNTRY] = read_text,
	[TYPE_LANGUAGE] = read_text,
	[TYPE_CURRENCY] = read_text,
	[TYPE_BARCODE] = read_barcode,
	[TYPE_AMOUNT] = read_amount,
	[TYPE_REFERENCE] = read_reference,
};

static bool
read_reference(struct shaping *shaping, const struct field *field,
	const struct node *node, struct value *value)
{
	shape_reference(shaping, field, node, &value->reference);
	return true;
}

void
shape_reference(struct shaping *shaping, const struct field *field,
	const struct node *node, struct reference *reference)
{
	const char *slash = strchr(node->text, '/');
	const char *id = slash == NULL ? node->text : slash + 1;
	const char *dot = strchr(id, '.');
	size_t size = dot == NULL ? strlen(id) : (size_t)(dot - id);
	char *kind;

	reference->span = node->span;
	reference->id = arena_text(shaping->arena, id, size);
	if (dot != NULL)
		reference->key = arena_text(shaping->arena, dot + 1,
			strlen(dot + 1));
	if (slash == NULL) {
		reference->kind = field->to_count == 1 ? field->to[0] : NULL;
		return;
	}
	kind = arena_text(shaping->arena, node->text,
		(size_t)(slash - node->text));
	reference->written_kind = kind;
	reference->kind = schema_kind(shaping->schema, kind);
}

bool
shape_scalar(struct shaping *shaping, const struct field *field,
	const struct node *node, struct value *value)
{
	return readers[field->type](shaping, field, node, value);
}

/* Days from the start of year 1; GDate's Julian day 1 is 1 January 1. */
static day_number
day_of(int year, int month, int day)
{
	GDate date;

	g_date_clear(&date, 1);
	g_date_set_dmy(&date, (GDateDay)day, (GDateMonth)month,
		(GDateYear)year);
	return (day_number)g_date_get_julian(&date);
}

/* The digits at the start of `text`, as a number; there are four at most. */
static int
number_at(const char *text)
{
	int number = 0;

	for (; g_ascii_isdigit(*text); text++)
		number = number * 10 + g_ascii_digit_value(*text);
	return number;
}

bool
shape_date(const char *text, struct date *date)
{
	size_t length = strlen(text);
	static const char pattern[] = "dddd-dd-dd";
	size_t i;

	if (length != 4 && length != 7 && length != 10)
		return false;
	for (i = 0; i < length; i++)
		if (pattern[i] == 'd' ? !g_ascii_isdigit(text[i]) :
			text[i] != '-')
			return false;
	*date = (struct date){.text = text, .year = number_at(text)};
	if (length >= 7)
		date->month = number_at(text + 5);
	if (length == 10)
		date->day = number_at(text + 8);
	if (date->year < 1 || (length >= 7 && (date->month < 1 ||
		date->month > 12)) || (length == 10 && !g_date_valid_dmy(
		(GDateDay)date->day, (GDateMonth)date->month,
		(GDateYear)date->year)))
		return false;
	date->first = day_of(date->year, MAX(date->month, 1),
		MAX(date->day, 1));
	date->last = date->first;
	if (date->day == 0) {
		int month = date->month == 0 ? 12 : date->month;

		date->last = day_of(date->year, month,
			g_date_get_days_in_month((GDateMonth)month,
				(GDateYear)date->year));
	}
	return true;
}

bool
shape_is_id(const char *text, size_t size)
{
	size_t i;

	if (size == 0 || text[0] == '-' || text[size - 1] == '-')
		return false;
	for (i = 0; i < size; i++)
		if (!g_ascii_islower(text[i]) && !g_ascii_isdigit(text[i]) &&
			text[i] != '-')
			return false;
	return true;
}
