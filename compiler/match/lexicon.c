/*
 * Filling the lexicon, and reading it. What a misspelt word may be is found in
 * near.c.
 */
#include <math.h>
#include <string.h>
#include <unicode/uloc.h>
#include <unicode/ustring.h>

#include "search/tokens.h"
#include "match/lexical.h"

static void
add_stem(void *data, const char *stem)
{
	g_ptr_array_add(data, g_strdup(stem));
}

struct stemming {
	const struct wording *wording;
	GPtrArray *stems;
};

static void
add_token(void *data, const char *token)
{
	struct stemming *stemming = data;
	GString *plain = g_string_new(NULL);

	search_append_folded(plain, token);
	if (wording_meaning(stemming->wording, plain->str) != MEANS_ARTICLE)
		wording_stems(stemming->wording, plain->str, add_stem,
			stemming->stems);
	g_string_free(plain, TRUE);
}

/* Apostrophes join, as they do in rows; but an elided article goes. */
static char *
without_apostrophes(const char *text)
{
	GString *out = g_string_new(NULL);
	unsigned letters = 0;

	for (; *text != '\0'; text = g_utf8_next_char(text)) {
		gunichar c = g_utf8_get_char(text);
		bool mark = c == '\'' || c == 0x2019;

		if (mark && letters == 1)
			g_string_append_c(out, ' ');
		else if (!mark)
			g_string_append_unichar(out, c);
		if (!mark)
			letters = g_unichar_isalnum(c) ? letters + 1 : 0;
	}
	return g_string_free(out, FALSE);
}

GPtrArray *
lexicon_stems(const struct wording *wording, const char *text)
{
	struct stemming stemming = {
		wording, g_ptr_array_new_with_free_func(g_free),
	};
	char *plain = without_apostrophes(text);

	search_tokens(plain, add_token, &stemming);
	g_free(plain);
	return stemming.stems;
}

unsigned
lexicon_number(const struct lexicon *lexicon, const char *word)
{
	return GPOINTER_TO_UINT(g_hash_table_lookup(lexicon->numbers, word));
}

static unsigned
enter_word(struct lexicon *lexicon, const char *text)
{
	unsigned number = lexicon_number(lexicon, text);
	struct lexicon_word word = {0};

	if (number != 0)
		return number;
	word.text = g_strdup(text);
	g_array_append_val(lexicon->words, word);
	number = lexicon->words->len - 1;
	g_hash_table_insert(lexicon->numbers, (gpointer)(uintptr_t)word.text,
		GUINT_TO_POINTER(number));
	return number;
}

/* Enters one name; one without words that count is passed over. */
static void
enter_name(struct lexicon *lexicon, const struct record *record,
	enum naming naming, const char *text)
{
	GPtrArray *stems = lexicon_stems(lexicon->wording, text);
	struct name name = {.record = record, .naming = naming};
	unsigned i, j, number;

	for (i = 0; i < stems->len && name.count < MOST_IN_NAME; i++) {
		/* "d'" of "d'écluse" is any letter. */
		if (stems->len > 1 && strlen(stems->pdata[i]) == 1 &&
			g_ascii_isalpha(*(const char *)stems->pdata[i]))
			continue;
		number = enter_word(lexicon, g_ptr_array_index(stems, i));
		for (j = 0; j < name.count && name.words[j] != number; j++)
			;
		if (j == name.count)
			name.words[name.count++] = number;
	}
	name.brief = name.count == 1 && g_utf8_strlen(text, -1) <= 2;
	if (name.count > 0)
		g_array_append_val(lexicon->names, name);
	g_ptr_array_free(stems, TRUE);
}

/* The parts of "Boathook, ring at the end" and "Germany and Austria". */
static void
enter_parts(struct lexicon *lexicon, const struct record *record,
	enum naming naming, const char *text)
{
	const char *cut = naming == NAMES_MARKET ? " and " : ", ";
	char **parts = g_strsplit(text, cut, 0);
	size_t i;

	for (i = 0; parts[i] != NULL; i++)
		if (i == 0 || naming == NAMES_MARKET)
			enter_name(lexicon, record, naming, parts[i]);
	if (parts[0] != NULL && parts[1] != NULL && naming != NAMES_MARKET)
		enter_name(lexicon, record, naming, text);
	g_strfreev(parts);
}

static void
enter_one(struct lexicon *lexicon, const struct record *record,
	enum naming naming, const struct value *value)
{
	unsigned i;

	if (value->field->type == TYPE_TRANSLATION)
		for (i = 0; i < value->translation.count; i++)
			enter_name(lexicon, record, naming,
				value->translation.items[i].text);
	else if (value->field->type == TYPE_TEXT)
		enter_parts(lexicon, record, naming, value->text);
}

/* What the schema says is searched as a name or label, and the id. */
static void
enter_record(struct lexicon *lexicon, const struct record *record,
	enum naming naming)
{
	const struct fields *fields = &record->kind->fields;
	unsigned i, j;

	for (i = 0; i < fields->count; i++) {
		const struct value *value = record->values[i];
		enum search_weight weight = fields->items[i].search;

		if (value == NULL || (weight != SEARCH_NAME &&
			weight != SEARCH_LABEL))
			continue;
		if (value->form == VALUE_ONE)
			enter_one(lexicon, record, naming, value);
		for (j = 0; value->form == VALUE_MANY &&
			j < value->many.count; j++)
			enter_one(lexicon, record, naming,
				value->many.items[j]);
	}
	if (naming == NAMES_CHARACTER)
		return;
	/* A word that everybody uses is nobody's id. */
	if (wording_meaning(lexicon->wording, record->id) != MEANS_NOTHING)
		return;
	enter_name(lexicon, record, naming, record->id);
	if (lexicon->names->len > 0)
		g_array_index(lexicon->names, struct name,
			lexicon->names->len - 1).id = true;
}

/* What a country is called in the languages of a market, and in English. */
static void
enter_country(struct lexicon *lexicon, const struct record *market,
	const char *code, const char *language)
{
	UErrorCode status = U_ZERO_ERROR;
	char *locale = g_strdup_printf("und_%s", code);
	UChar wide[128];
	char text[512];
	int32_t size;

	size = uloc_getDisplayCountry(locale, language, wide,
		G_N_ELEMENTS(wide), &status);
	if (U_SUCCESS(status) && size > 0) {
		u_strToUTF8(text, sizeof(text), NULL, wide, size, &status);
		if (U_SUCCESS(status))
			enter_name(lexicon, market, NAMES_MARKET, text);
	}
	g_free(locale);
}

static void
enter_countries(struct lexicon *lexicon, const struct model *model,
	const struct record *market)
{
	const struct value *countries = model_get(model, market->values,
		NAME(MARKET_COUNTRIES));
	const struct value *languages = model_get(model, market->values,
		NAME(MARKET_LANGUAGES));
	unsigned i, j;

	for (i = 0; i < value_count(countries); i++) {
		const char *code = value_item(countries, i)->text;

		enter_country(lexicon, market, code, "en");
		for (j = 0; j < value_count(languages); j++)
			enter_country(lexicon, market, code,
				value_item(languages, j)->text);
	}
}

/* How many records of each kind have a word, and what weight that gives it. */
static void
weigh(struct lexicon *lexicon)
{
	double *records = g_new0(double, NAMINGS);
	const struct record *last = NULL;
	guint i;
	unsigned j;

	for (i = 0; i < lexicon->names->len; i++) {
		const struct name *name = &g_array_index(lexicon->names,
			struct name, i);

		records[name->naming] += name->record != last;
		last = name->record;
		for (j = 0; j < name->count; j++) {
			struct lexicon_word *word = &g_array_index(
				lexicon->words, struct lexicon_word,
				name->words[j]);
			struct posting posting = {i, j};

			/* Ids of accessories hold names of characters. */
			if (word->last[name->naming] != name->record &&
				(!name->id || name->naming !=
				NAMES_ACCESSORY)) {
				word->records[name->naming]++;
				word->last[name->naming] = name->record;
			}
			if (word->postings == NULL)
				word->postings = g_array_new(FALSE, FALSE,
					sizeof(struct posting));
			g_array_append_val(word->postings, posting);
		}
	}
	for (i = 0; i < NAMINGS; i++)
		lexicon->records[i] = records[i];
	for (i = 0; i < lexicon->names->len; i++) {
		struct name *name = &g_array_index(lexicon->names, struct name,
			i);

		for (j = 0; j < name->count; j++)
			name->weight += lexicon_weight(lexicon,
				name->words[j], name->naming);
	}
	g_free(records);
}

struct lexicon *
lexicon_new(const struct model *model, const struct wording *wording)
{
	static const char *const kinds[] = {
		[NAMES_CHARACTER] = "character",
		[NAMES_MARKET] = "market",
		[NAMES_BLISTER] = "blister",
		[NAMES_ACCESSORY] = "accessory",
		[NAMES_PACKAGE] = "package",
		[NAMES_PREPRODUCTION] = "preproduction",
		[NAMES_ANOMALY] = "anomaly",
		[NAMES_STICKER] = "sticker",
		[NAMES_OFFER] = "offer",
		[NAMES_SCHEME] = "scheme",
	};
	struct lexicon *lexicon = g_new0(struct lexicon, 1);
	unsigned i, j;

	lexicon->wording = wording;
	lexicon->words = g_array_new(FALSE, TRUE,
		sizeof(struct lexicon_word));
	lexicon->names = g_array_new(FALSE, FALSE, sizeof(struct name));
	lexicon->numbers = g_hash_table_new(g_str_hash, g_str_equal);
	g_array_set_size(lexicon->words, 1);	/* 0 is no word */
	for (i = 0; i < NAMINGS; i++) {
		struct record_list list = model_records_of(model, kinds[i]);

		for (j = 0; j < list.count; j++) {
			enter_record(lexicon, list.items[j], (enum naming)i);
			if (i == NAMES_MARKET)
				enter_countries(lexicon, model,
					list.items[j]);
		}
	}
	weigh(lexicon);
	near_begin(lexicon);
	return lexicon;
}

void
lexicon_free(struct lexicon *lexicon)
{
	guint i;

	near_end(lexicon);
	for (i = 1; i < lexicon->words->len; i++) {
		struct lexicon_word *word = &g_array_index(lexicon->words,
			struct lexicon_word, i);

		g_free(word->text);
		if (word->postings != NULL)
			g_array_free(word->postings, TRUE);
	}
	g_array_free(lexicon->words, TRUE);
	g_array_free(lexicon->names, TRUE);
	g_hash_table_destroy(lexicon->numbers);
	g_free(lexicon);
}

unsigned
lexicon_names(const struct lexicon *lexicon)
{
	return lexicon->names->len;
}

const struct name *
lexicon_name(const struct lexicon *lexicon, unsigned i)
{
	return &g_array_index(lexicon->names, struct name, i);
}

const char *
lexicon_word_text(const struct lexicon *lexicon, unsigned word)
{
	return g_array_index(lexicon->words, struct lexicon_word, word).text;
}

double
lexicon_weight(const struct lexicon *lexicon, unsigned word,
	enum naming naming)
{
	const struct lexicon_word *found = &g_array_index(lexicon->words,
		struct lexicon_word, word);

	return log(1 + lexicon->records[naming] /
		MAX(found->records[naming], 1u));
}

bool
lexicon_is_own(const struct lexicon *lexicon, unsigned word,
	enum naming naming)
{
	/* Names of these hold the names of characters. */
	static const enum naming others[] = {NAMES_MARKET, NAMES_ACCESSORY,
		NAMES_PACKAGE, NAMES_STICKER, NAMES_OFFER, NAMES_BLISTER};
	const struct lexicon_word *found = &g_array_index(lexicon->words,
		struct lexicon_word, word);
	size_t i;

	if (found->records[naming] != 1 ||
		wording_meaning(lexicon->wording, found->text) !=
		MEANS_NOTHING)
		return false;
	for (i = 0; i < G_N_ELEMENTS(others); i++)
		if (others[i] != naming && found->records[others[i]] > 0)
			return false;
	return true;
}

bool
lexicon_is_in(const struct lexicon *lexicon, const char *word,
	enum naming naming)
{
	unsigned number = lexicon_number(lexicon, word);

	return number != 0 && g_array_index(lexicon->words,
		struct lexicon_word, number).records[naming] > 0;
}

void
lexicon_each(const struct lexicon *lexicon, unsigned word,
	lexicon_function *function, void *data)
{
	const GArray *postings = g_array_index(lexicon->words,
		struct lexicon_word, word).postings;
	guint i;

	for (i = 0; postings != NULL && i < postings->len; i++) {
		struct posting posting = g_array_index(postings,
			struct posting, i);

		function(data, posting.name, posting.place);
	}
}
