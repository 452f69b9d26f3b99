/*
 * Characters, markets, form and doubt: what a row says, in the order in which
 * one needs the other. Words that say what the piece is are marked as used.
 */
#include "match/saying.h"

#include <string.h>

static const double whole = 0.99;

static const struct named *
named_at(const struct reading *reading, enum naming naming, guint i)
{
	return &g_array_index(reading->named[naming], struct named, i);
}

const struct named *
find_named(const struct reading *reading, enum naming naming,
	const struct record *record)
{
	guint i;

	for (i = 0; i < reading->named[naming]->len; i++)
		if (named_at(reading, naming, i)->record == record)
			return named_at(reading, naming, i);
	return NULL;
}

static void
use_words(struct reading *reading, const struct word_set *words)
{
	unsigned i;

	for (i = 0; i < reading->text.count; i++)
		if ((words->bits[i / 64] >> i % 64 & 1) != 0)
			reading->text.words[i].used = true;
}

/* How surely a name is meant that alone fits best. */
static double
surety(const struct named *named)
{
	double fit = 1 - (1 - named->fit) * 0.5;

	if (named->cover >= whole)
		return fit;
	return (named->own ? 0.9 : 0.6) * fit;
}

/*
 * A name of one word, with a word of other characters' names beside it that
 * it does not explain: "Court guard" need not be the Tithe Guard.
 */
static void
look_beside(struct reading *reading)
{
	const GArray *list = reading->named[NAMES_CHARACTER];
	const struct named *best, *one;
	guint i;

	best = find_named(reading, NAMES_CHARACTER,
		reading->characters->pdata[0]);
	if (best->first != best->last)
		return;
	for (i = 0; i < list->len; i++) {
		one = named_at(reading, NAMES_CHARACTER, i);
		if (one->record == best->record || !one->telling ||
			one->fit < FIT_ALIKE - 0.01 || one->negated ||
			(one->last + 1 != best->first &&
			one->first != best->first + 1) ||
			reading->text.words[one->first].clause !=
			reading->text.words[best->first].clause ||
			one->cover >= whole)
			continue;
		reading->character_fit *= 0.7;
		return;
	}
}

static void
choose_characters(struct reading *reading)
{
	const GArray *list = reading->named[NAMES_CHARACTER];
	const struct named *best = NULL, *one;
	bool entire = false;
	guint i;
	size_t j;

	for (i = 0; i < list->len; i++) {
		one = named_at(reading, NAMES_CHARACTER, i);
		if (one->negated || one->mass <= 0)
			continue;
		if (best == NULL)
			best = one;
		if (one->mass > best->mass - 1e-9)
			entire |= one->cover >= whole;
	}
	if (best == NULL)
		return;
	for (i = 0; i < list->len; i++) {
		one = named_at(reading, NAMES_CHARACTER, i);
		if (one->negated || one->mass <= best->mass - 1e-9 ||
			(entire && one->cover < whole))
			continue;
		g_ptr_array_add(reading->characters,
			(gpointer)(uintptr_t)one->record);
		use_words(reading, &one->words);
		for (j = 0; j < G_N_ELEMENTS(one->words.bits); j++)
			reading->character_words.bits[j] |=
				one->words.bits[j];
		reading->character_fit = MAX(reading->character_fit,
			surety(one));
	}
}

/* Whether another kind of thing is named by these words, whole. */
static bool
is_explained(const struct reading *reading, const struct word_set *words)
{
	static const enum naming others[] = {NAMES_PACKAGE,
		NAMES_PREPRODUCTION, NAMES_ANOMALY, NAMES_ACCESSORY};
	size_t i;
	guint j;

	for (i = 0; i < G_N_ELEMENTS(others); i++)
		for (j = 0; j < reading->named[others[i]]->len; j++) {
			const struct named *other = named_at(reading,
				others[i], j);

			if (other->cover >= whole &&
				words_meet(&other->words, words))
				return true;
		}
	return false;
}

/* A package that lists both characters, where the row speaks of one. */
static bool
are_packed(struct reading *reading, const struct matcher *matcher,
	const struct record *one, const struct record *two)
{
	struct record_list list = model_records_of(matcher->model, "package");
	bool wrapped = reading->form == FORM_BAGGED ||
		reading->form == FORM_BOXED;
	unsigned i, j;

	for (i = 0; i < list.count; i++) {
		const struct value *characters = model_get(matcher->model,
			list.items[i]->values, NAME(PACKAGE_CHARACTERS));
		const struct named *named = find_named(reading, NAMES_PACKAGE,
			list.items[i]);
		unsigned found = 0;

		for (j = 0; j < value_count(characters); j++) {
			const struct record *listed = value_item(characters,
				j)->reference.record;

			found += listed == one || listed == two;
		}
		if (found == 2 && (wrapped || (named != NULL &&
			named->cover >= 0.4))) {
			reading->packed = list.items[i];
			return true;
		}
	}
	return false;
}

static bool
has_or(const struct reading *reading, unsigned from, unsigned to)
{
	unsigned i;

	for (i = MIN(from, to); i < MAX(from, to); i++)
		if (reading->text.words[i].meaning == MEANS_OR ||
			reading->text.words[i].before == '/')
			return true;
	return reading->text.words[MAX(from, to)].before == '/';
}

static bool
in_notes(const struct reading *reading, const struct named *named)
{
	enum column_role role = reading->text.words[named->first].role;
	unsigned i;

	if (role != COLUMN_NOTES && role != COLUMN_PART)
		return false;
	for (i = 0; i < reading->text.count; i++)
		if (reading->text.words[i].role != role)
			return true;
	return false;
}

/* A second character in a row: an alternative, or a second piece. */
static void
find_second(struct reading *reading, const struct matcher *matcher)
{
	const struct named *best = NULL;
	guint i;

	for (i = 0; i < reading->named[NAMES_CHARACTER]->len; i++) {
		const struct named *one = named_at(reading, NAMES_CHARACTER,
			i);

		if (one->negated || one->mass <= 0)
			continue;
		if (best == NULL) {
			best = one;
			continue;
		}
		if (one->cover < whole || one->fit < FIT_ALIKE - 0.01 ||
			one->name->brief || in_notes(reading, one) ||
			row_text_is_given(&reading->text, one->first) ||
			words_meet(&one->words, &best->words) ||
			is_explained(reading, &one->words) ||
			g_ptr_array_find(reading->characters, one->record,
			NULL))
			continue;
		if (has_or(reading, best->first, one->first))
			g_ptr_array_add(reading->characters,
				(gpointer)(uintptr_t)one->record);
		else if (!are_packed(reading, matcher, best->record,
			one->record))
			reading->several = true;
	}
}

static bool
is_number_word(const char *text)
{
	static const char *const words[] = {"two", "three", "four", "five",
		"six", "seven", "eight", "zwei", "drei", "vier", "twee", "drie",
		"deux", "trois", "quatre", NULL};

	return g_strv_contains(words, text);
}

/* Whether a word of the row is part of something that is named whole. */
static bool
is_part(const struct reading *reading, unsigned word)
{
	struct word_set set = {{0}};

	set.bits[word / 64] = (uint64_t)1 << word % 64;
	return is_explained(reading, &set);
}

/* "2 x", "x3", "2x", a count at the beginning, or a column that counts. */
static void
find_counts(struct reading *reading)
{
	const struct row_text *text = &reading->text;
	unsigned i;

	for (i = 0; i < text->count; i++) {
		const struct row_word *word = &text->words[i];
		guint64 number = g_ascii_strtoull(word->text, NULL, 10);
		bool first = i == 0 || text->words[i - 1].cell != word->cell;
		const struct row_word *next = i + 1 < text->count ?
			&text->words[i + 1] : NULL;

		if (word->meaning == MEANS_LOT && !is_part(reading, i))
			reading->several = true;
		if (first && is_number_word(word->text) && next != NULL &&
			next->used && !is_part(reading, i))
			reading->several = true;
		if (word->role == COLUMN_COUNT && number > 1)
			reading->several = true;
		if (number < 2 || number > 20 || word->used || word->money)
			continue;
		if (strcmp(word->text + strspn(word->text, "0123456789"),
			"x") == 0)
			reading->several = true;
		if (!word->digits || next == NULL ||
			next->cell != word->cell ||
			next->clause != word->clause)
			continue;
		if (strcmp(next->text, "x") == 0 || (first &&
			next->before == ' ' && next->meaning != MEANS_BACK &&
			g_utf8_strlen(next->text, -1) > 1))
			reading->several = true;
		if (i > 0 && strcmp(text->words[i - 1].text, "x") == 0)
			reading->several = true;
	}
}

static void
find_schemes(struct reading *reading, GArray *schemes)
{
	guint i;

	for (i = 0; i < reading->named[NAMES_SCHEME]->len; i++) {
		const struct named *named = named_at(reading, NAMES_SCHEME, i);

		struct scheme_said said = {named->record, named->first};

		if (named->cover >= whole && named->fit >= FIT_ALIKE - 0.01)
			g_array_append_val(schemes, said);
	}
}

/* A market, found near what the piece is, or far: where it was bought. */
struct marketing {
	struct reading *reading;
	GPtrArray *far;
};

static void
add_market(struct marketing *marketing, const struct record *market,
	unsigned word)
{
	struct row_text *text = &marketing->reading->text;
	GPtrArray *list = marketing->reading->markets;
	unsigned i;

	for (i = word; i > 0 && i + 3 > word; i--)
		if (text->words[i - 1].clause == text->words[word].clause &&
			(text->words[i - 1].meaning == MEANS_BOUGHT ||
			text->words[i - 1].meaning == MEANS_SWAPPED))
			list = marketing->far;
	if (list == marketing->reading->markets)
		text->words[word].used = true;
	if (!g_ptr_array_find(list, market, NULL))
		g_ptr_array_add(list, (gpointer)(uintptr_t)market);
}

static void
add_country(struct marketing *marketing, const struct matcher *matcher,
	const char *code, unsigned word)
{
	struct record_list list = model_records_of(matcher->model, "market");
	bool any = false;
	unsigned i, j;

	for (i = 0; i < list.count; i++) {
		const struct value *countries = model_get(matcher->model,
			list.items[i]->values, NAME(MARKET_COUNTRIES));

		for (j = 0; j < value_count(countries); j++)
			if (strcmp(value_item(countries, j)->text, code) == 0) {
				add_market(marketing, list.items[i], word);
				any = true;
			}
	}
	if (!any && marketing->reading->text.words[word].role ==
		COLUMN_MARKET)
		marketing->reading->market_strange = true;
}

/* A market's id that is a common word too counts in its place alone. */
static void
add_common(struct marketing *marketing, const struct matcher *matcher,
	unsigned word)
{
	struct record_list list = model_records_of(matcher->model, "market");
	const struct row_text *text = &marketing->reading->text;
	const struct row_word *next = word + 1 < text->count ?
		&text->words[word + 1] : NULL;
	unsigned i;

	if (text->words[word].role != COLUMN_MARKET && (next == NULL ||
		(next->meaning != MEANS_BACK &&
		next->meaning != MEANS_SEALED &&
		strcmp(next->text, "market") != 0)))
		return;
	for (i = 0; i < list.count; i++)
		if (strcmp(list.items[i]->id, text->words[word].text) == 0)
			add_market(marketing, list.items[i], word);
}

static void
find_markets(struct reading *reading, const struct matcher *matcher)
{
	struct marketing marketing = {reading, g_ptr_array_new()};
	const struct row_text *text = &reading->text;
	unsigned i;
	guint j;

	for (j = 0; j < reading->named[NAMES_MARKET]->len; j++) {
		const struct named *named = named_at(reading, NAMES_MARKET, j);

		if (named->cover >= whole && named->fit >= FIT_ALIKE - 0.01 &&
			!named->negated)
			add_market(&marketing, named->record, named->first);
	}
	for (i = 0; i < text->count; i++) {
		const char *code = wording_country(matcher->wording,
			text->words[i].text,
			text->words[i].role == COLUMN_MARKET);

		if (code != NULL)
			add_country(&marketing, matcher, code, i);
		add_common(&marketing, matcher, i);
	}
	if (reading->markets->len == 0 && marketing.far->len > 0) {
		reading->markets_far = true;
		for (j = 0; j < marketing.far->len; j++)
			g_ptr_array_add(reading->markets,
				marketing.far->pdata[j]);
	}
	g_ptr_array_free(marketing.far, TRUE);
}

/* Whether "not", "no" or "without" stands right before a word. */
static bool
is_refused(const struct row_text *text, unsigned i)
{
	const struct row_word *before = i == 0 ? NULL : &text->words[i - 1];

	return before != NULL && before->cell == text->words[i].cell &&
		before->clause == text->words[i].clause &&
		(before->meaning == MEANS_NOT ||
		before->meaning == MEANS_WITHOUT);
}

static void
find_form(struct reading *reading)
{
	bool has[MEANS_FITTING + 1] = {false};
	unsigned i;
	bool label = false;
	guint j;

	for (i = 0; i < reading->text.count; i++) {
		const struct row_word *word = &reading->text.words[i];

		if (!word->hidden && !is_refused(&reading->text, i))
			has[word->meaning] = true;
	}
	for (j = 0; j < reading->labels->len; j++)
		label |= g_array_index(reading->labels, struct label_said,
			j).sure;
	reading->cased = has[MEANS_CASED];
	reading->copy = has[MEANS_COPY];
	reading->premium = has[MEANS_PREMIUM];
	reading->only = has[MEANS_ONLY];
	reading->spare = has[MEANS_FOR];
	reading->stage = has[MEANS_PROOF] ? MEANS_PROOF : has[MEANS_SHEET] ?
		MEANS_SHEET : has[MEANS_TEST] ? MEANS_TEST : MEANS_NOTHING;
	reading->form_sure = true;
	if (has[MEANS_CARD_ONLY])
		reading->form = FORM_CARD_ONLY;
	else if (has[MEANS_CARDED] && (!has[MEANS_LOOSE] || label))
		reading->form = FORM_CARDED;
	else if (has[MEANS_LOOSE] && !has[MEANS_CARDED])
		reading->form = FORM_LOOSE;
	else if (has[MEANS_BAGGED])
		reading->form = FORM_BAGGED;
	else if (has[MEANS_BOXED])
		reading->form = FORM_BOXED;
	else if (has[MEANS_SEALED] && !has[MEANS_LOOSE])
		reading->form = FORM_CARDED;
	else if (label && !has[MEANS_LOOSE])
		reading->form = FORM_CARDED;
	else
		reading->form_sure = false;
}

/* Whether a clause says nothing but that it doubts. */
static bool
is_empty(const struct row_text *text, unsigned clause)
{
	unsigned i;

	for (i = 0; i < text->count; i++) {
		const struct row_word *word = &text->words[i];

		if (word->clause == clause && !word->hidden &&
			word->meaning == MEANS_NOTHING &&
			g_utf8_strlen(word->text, -1) > 2)
			return false;
	}
	return true;
}

/* The clause that has words and stands before (or behind) another. */
static void
doubt_neighbour(struct row_text *text, unsigned i, bool behind)
{
	unsigned clause = text->words[i].clause, other = clause, j = i;

	while (behind ? j + 1 < text->count : j > 0) {
		j = behind ? j + 1 : j - 1;
		if (other == clause)
			other = text->words[j].clause;
		if (text->words[j].clause != clause &&
			text->words[j].clause != other)
			return;
		if (text->words[j].clause == other && other != clause)
			text->words[j].doubted = true;
	}
}

static void
find_doubt(struct reading *reading)
{
	struct row_text *text = &reading->text;
	unsigned i, j;

	for (i = 0; i < text->count; i++) {
		/* A question mark is for all of its clause. */
		for (j = i + 1; text->words[i].queried && j > 0 &&
			text->words[j - 1].clause == text->words[i].clause;
			j--)
			text->words[j - 1].doubted = true;
		if (text->words[i].meaning != MEANS_DOUBT ||
			text->words[i].hidden)
			continue;
		if (is_empty(text, text->words[i].clause)) {
			doubt_neighbour(text, i, false);
			doubt_neighbour(text, i, true);
		}
		for (j = 0; j < text->count; j++)
			if (text->words[j].clause == text->words[i].clause)
				text->words[j].doubted = true;
	}
	for (i = 0; i < text->count; i++)
		reading->doubted |= text->words[i].used &&
			text->words[i].doubted;
}

void
say_all(struct reading *reading, struct matcher *matcher)
{
	GArray *schemes = g_array_new(FALSE, FALSE,
		sizeof(struct scheme_said));
	bool former = false;
	unsigned i;

	choose_characters(reading);
	if (reading->characters->len == 1)
		look_beside(reading);
	find_schemes(reading, schemes);
	for (i = 0; i < reading->text.count; i++)
		former |= reading->text.words[i].meaning == MEANS_FORMER;
	labels_read(matcher->labels, &reading->text, schemes, matcher->scheme,
		former, reading->labels);
	g_array_free(schemes, TRUE);
	find_markets(reading, matcher);
	find_counts(reading);
	find_form(reading);
	find_second(reading, matcher);
	find_doubt(reading);
}
