/*
 * Labels of card backs: what they are made of, how they are spelt, and none
 * given twice by one scheme in one market. Two spellings of a label are one label; a withdrawn
 * card back keeps its own.
 */
#include <string.h>

#include "sense/sensing.h"

#include "base/sort.h"

enum { MOST_DIGITS = 6, MOST_LETTERS = 3 };

/* Letters as a number: A is 1, Z is 26, AA is 27. */
static unsigned
letter_number(const char *text, size_t length)
{
	unsigned number = 0;
	size_t i;

	for (i = 0; i < length; i++)
		number = number * 26 +
			(unsigned)(g_ascii_toupper(text[i]) - 'A') + 1;
	return number;
}

static unsigned
digits_number(const char *text, size_t length)
{
	unsigned number = 0;
	size_t i;

	for (i = 0; i < length; i++)
		number = number * 10 + (unsigned)(text[i] - '0');
	return number;
}

/* Passes "-back" and " back", and the blanks and hyphens around. */
static const char *
pass_back(const char *text)
{
	text += strspn(text, " -");
	if (g_ascii_strncasecmp(text, "back", 4) != 0)
		return text;
	text += 4;
	return text + strspn(text, " -");
}

bool
label_read(const char *text, struct label *label)
{
	static const char capitals[] = "ABCDEFGHIJKLMNOPQRSTUVWXYZ";
	static const char digits[] = "0123456789";
	size_t length;

	text += strspn(text, " ");
	length = strspn(text, digits);
	*label = (struct label){digits_number(text, MIN(length, MOST_DIGITS)),
		0, 0};
	if (length == 0 || length > MOST_DIGITS)
		return false;
	text = pass_back(text + length);
	length = strspn(text, capitals);
	if (length == 0 && g_ascii_islower(*text))
		length = 1;
	if (length > MOST_LETTERS)
		return false;
	label->letter = letter_number(text, length);
	text += length;
	length = strspn(text, digits);
	if (length > 0 && length <= MOST_DIGITS && label->letter > 0)
		label->sub = digits_number(text, length);
	else if (g_ascii_islower(*text) && label->letter > 0) {
		length = 1;
		label->sub = letter_number(text, length);
	}
	return text[length] == '\0';
}

const char *
label_text(struct arena *arena, struct label label)
{
	char letters[8] = "", *at = letters + sizeof(letters) - 1;
	unsigned rest;

	for (rest = label.letter; rest > 0; rest = (rest - 1) / 26)
		*--at = (char)('A' + (rest - 1) % 26);
	if (label.sub > 0)
		return arena_print(arena, "%u%s%u", label.number, at,
			label.sub);
	return arena_print(arena, "%u%s", label.number, at);
}

/* What labels are equal by: their parts, or else their bare characters. */
static const char *
label_key(struct arena *arena, const char *text)
{
	struct label label;
	GString *bare;
	const char *key;

	if (label_read(text, &label))
		return label_text(arena, label);
	bare = g_string_new(NULL);
	for (; *text != '\0'; text++)
		if (*text != ' ' && *text != '-')
			g_string_append_c(bare, g_ascii_toupper(*text));
	key = arena_text(arena, bare->str, bare->len);
	g_string_free(bare, TRUE);
	return key;
}

/*
 * A label whose parts are known is written as its number and letter, 18B.
 * Sub-letters are left as they are: schemes write them in two ways.
 */
static void
check_spelling(struct sensing *sensing, const struct record *cardback,
	const struct value *value)
{
	struct label label;
	const char *spelt;
	struct diag *diag;

	if (!label_read(value->text, &label) || label.sub > 0)
		return;
	spelt = label_text(sensing->arena, label);
	if (strcmp(spelt, value->text) == 0 ||
		sense_excused(sensing, cardback, DIAG_LABEL_SPELLING))
		return;
	diag = diag_report(sensing->diags, DIAG_LABEL_SPELLING, value->span,
		"\"%s\" is the label %s", value->text, spelt);
	sense_help(diag, cardback, arena_print(sensing->arena,
		"write \"%s\"", spelt));
	diag_mend(diag, value->span, spelt, MEND_SAFE);
}

static void
report_twice(struct sensing *sensing, const struct record *scheme,
	const struct value *label, const struct value *first)
{
	struct diag *diag;

	diag = diag_report(sensing->diags, DIAG_LABEL_TWICE, label->span,
		"\"%s\" gives the label \"%s\" twice in one market",
		scheme->name, label->text);
	diag_note(diag, first->span, "first given here");
	diag_help(diag, "a scheme gives a label once: mend the one that is "
		"wrong");
}

static void
check_card(struct sensing *sensing, const struct record *cardback,
	GHashTable *given)
{
	const struct model *model = sensing->model;
	const struct value *list, *label, *first;
	const struct record *market, *scheme;
	char *key;
	unsigned i;

	list = model_get(model, cardback->values, NAME(CARDBACK_LABELS));
	market = model_record(model, cardback->values, NAME(CARDBACK_MARKET));
	for (i = 0; i < value_count(list); i++) {
		struct value *const *values = value_item(list, i)->group;

		scheme = model_record(model, values,
			NAME(CARDBACK_LABELS_SCHEME));
		label = model_get(model, values, NAME(CARDBACK_LABELS_LABEL));
		if (label != NULL)
			check_spelling(sensing, cardback, label);
		if (scheme == NULL || label == NULL || market == NULL)
			continue;
		key = arena_print(sensing->arena, "%s/%s/%s", scheme->id,
			market->id, label_key(sensing->arena, label->text));
		first = g_hash_table_lookup(given, key);
		if (first != NULL)
			report_twice(sensing, scheme, label, first);
		else
			g_hash_table_insert(given, key,
				(gpointer)(uintptr_t)label);
	}
}

/* The record list is in order of names, so the labels are read by place. */
static int
compare_places(const void *a, const void *b)
{
	const struct record *left = *(const struct record *const *)a;
	const struct record *right = *(const struct record *const *)b;

	if (left->span.file != right->span.file)
		return left->span.file < right->span.file ? -1 : 1;
	return left->span.from < right->span.from ? -1 :
		left->span.from > right->span.from;
}

void
sense_labels(struct sensing *sensing)
{
	struct record_list list = sense_records(sensing, "cardback");
	GHashTable *given = g_hash_table_new(g_str_hash, g_str_equal);
	const struct record **cards;
	unsigned i;

	cards = arena_array(sensing->arena, const struct record *, list.count);
	for (i = 0; i < list.count; i++)
		cards[i] = list.items[i];
	sort_items(cards, list.count, sizeof(cards[0]), compare_places);
	for (i = 0; i < list.count; i++)
		check_card(sensing, cards[i], given);
	g_hash_table_destroy(given);
}
