/*
 * Cutting a row into words, and looking words up in the vocabulary.
 */
#include "match/wording.h"

#include <string.h>

#include "search/tokens.h"

struct wording {
	GHashTable *meanings;	/* words → meaning */
	GHashTable *headings;	/* words → role + 1 */
	GHashTable *alike;	/* word → words */
	GHashTable *countries;	/* word → struct country_word */
};

struct wording *
wording_new(void)
{
	struct wording *wording = g_new0(struct wording, 1);
	unsigned i;

	wording->meanings = g_hash_table_new_full(g_str_hash, g_str_equal,
		g_free, NULL);
	wording->headings = g_hash_table_new(g_str_hash, g_str_equal);
	wording->alike = g_hash_table_new(g_str_hash, g_str_equal);
	wording->countries = g_hash_table_new(g_str_hash, g_str_equal);
	for (i = 0; i < word_meanings_count; i++)
		g_hash_table_insert(wording->meanings,
			g_strdup(word_meanings[i].words),
			GUINT_TO_POINTER(word_meanings[i].meaning));
	for (i = 0; i < heading_meanings_count; i++)
		g_hash_table_insert(wording->headings,
			(gpointer)(uintptr_t)heading_meanings[i].words,
			GUINT_TO_POINTER(heading_meanings[i].role + 1));
	for (i = 0; i < words_alike_count; i++)
		g_hash_table_insert(wording->alike,
			(gpointer)(uintptr_t)words_alike[i].word,
			(gpointer)(uintptr_t)words_alike[i].means);
	for (i = 0; i < country_words_count; i++)
		g_hash_table_insert(wording->countries,
			(gpointer)(uintptr_t)country_words[i].word,
			(gpointer)(uintptr_t)&country_words[i]);
	return wording;
}

void
wording_free(struct wording *wording)
{
	g_hash_table_destroy(wording->meanings);
	g_hash_table_destroy(wording->headings);
	g_hash_table_destroy(wording->alike);
	g_hash_table_destroy(wording->countries);
	g_free(wording);
}

void
wording_pass(struct wording *wording, const char *word)
{
	if (!g_hash_table_contains(wording->meanings, word))
		g_hash_table_insert(wording->meanings, g_strdup(word),
			GUINT_TO_POINTER(MEANS_COMMON));
}

enum meaning
wording_meaning(const struct wording *wording, const char *words)
{
	return (enum meaning)GPOINTER_TO_UINT(g_hash_table_lookup(
		wording->meanings, words));
}

void
row_text_begin(struct row_text *row, struct arena *arena)
{
	row->count = 0;
	row->clauses = 0;
	row->cells = 0;
	row->cut = false;
	row->arena = arena;
}

/* A word while it is read. */
struct cutting {
	struct row_text *row;
	enum column_role role;
	GString *plain;
	bool upper;
	bool lower;
	bool digits;
	char before;
	bool money;		/* a sign of money stood before it */
	bool owner;
};

static bool
is_money(gunichar c)
{
	return g_unichar_type(c) == G_UNICODE_CURRENCY_SYMBOL;
}

static void
end_word(struct cutting *cutting)
{
	struct row_text *row = cutting->row;
	GString *folded;
	struct row_word *word;

	if (cutting->plain->len == 0)
		return;
	if (row->count == MOST_WORDS) {
		row->cut = true;
	} else {
		folded = g_string_new(NULL);
		search_append_folded(folded, cutting->plain->str);
		word = &row->words[row->count++];
		*word = (struct row_word){
			.text = arena_text(row->arena, folded->str,
				folded->len),
			.role = cutting->role,
			.cell = row->cells,
			.clause = row->clauses,
			.before = cutting->before,
			.capitals = cutting->upper && !cutting->lower,
			.digits = cutting->digits,
			.money = cutting->money,
			.owner = cutting->owner,
		};
		g_string_free(folded, TRUE);
	}
	g_string_truncate(cutting->plain, 0);
	cutting->upper = cutting->lower = cutting->owner = false;
	cutting->digits = true;
	cutting->before = ' ';
	cutting->money = false;
}

/* A mark between words; some say something of the words around it. */
static void
take_mark(struct cutting *cutting, gunichar c, const char *after)
{
	struct row_text *row = cutting->row;

	/* "24.A" is one thing. */
	if (c == '.' && g_unichar_isalnum(g_utf8_get_char(after))) {
		cutting->before = '.';
		return;
	}

	if (is_money(c)) {
		cutting->money = true;
		if (row->count > 0 && row->words[row->count - 1].digits)
			row->words[row->count - 1].money = true;
	}
	if (c == '?' && row->count > 0)
		row->words[row->count - 1].queried = true;
	if (c < 0x80 && strchr(",;.():[]!?|\n", (int)c) != NULL)
		row->clauses++;
	if (c < 0x80 && strchr("/-&+(,'#", (int)c) != NULL)
		cutting->before = (char)c;
	else if (c == 0x2010 || c == 0x2011 || c == 0x2013 || c == 0x2014)
		cutting->before = '-';
}

static bool
is_apostrophe(gunichar c)
{
	return c == '\'' || c == 0x2019 || c == 0x2018 || c == 0xb4;
}

/* Whether the mark at `at` stands within a word or number, and is dropped. */
static bool
stands_within(struct cutting *cutting, const char *at, gunichar c)
{
	const char *next = g_utf8_next_char(at);
	gunichar after = *next == '\0' ? 0 : g_utf8_get_char(next);

	if (cutting->plain->len == 0 || after == 0)
		return false;
	if (is_apostrophe(c) && g_unichar_isalpha(after)) {
		gunichar then = g_utf8_get_char(g_utf8_next_char(next));

		cutting->owner = (after == 's' || after == 'S') &&
			!g_unichar_isalnum(then);
		return g_utf8_strlen(cutting->plain->str, -1) > 1;
	}
	if ((c == '.' || c == ',') && cutting->digits &&
		g_unichar_isdigit(after)) {
		g_string_append_c(cutting->plain, '.');
		cutting->digits = false;
		return true;
	}
	return false;
}

/* Three numbers with marks between them are a date. */
static void
mark_dates(struct row_text *row, unsigned from)
{
	unsigned i;

	for (i = from; i + 2 < row->count; i++) {
		struct row_word *word = &row->words[i];

		if (word[0].digits && word[1].digits && word[2].digits &&
			strchr("-/", word[1].before) != NULL &&
			word[1].before == word[2].before)
			word[0].money = word[1].money = word[2].money = true;
	}
}

void
row_text_add(struct row_text *row, const char *cell, enum column_role role)
{
	struct cutting cutting = {
		.row = row,
		.role = role,
		.plain = g_string_new(NULL),
		.digits = true,
		.before = ' ',
	};
	unsigned from = row->count;
	const char *at;

	row->clauses++;
	for (at = cell; *at != '\0' && !row->cut;
		at = g_utf8_next_char(at)) {
		gunichar c = g_utf8_get_char(at);
		uint32_t folded = search_fold(c);

		if (folded == SEARCH_PASSED || stands_within(&cutting, at, c))
			continue;
		if (folded == 0) {
			end_word(&cutting);
			take_mark(&cutting, c, g_utf8_next_char(at));
			continue;
		}
		cutting.upper |= g_unichar_isupper(c);
		cutting.lower |= g_unichar_islower(c);
		cutting.digits &= folded < 0x80 &&
			g_ascii_isdigit((gchar)folded);
		g_string_append_unichar(cutting.plain, folded);
	}
	end_word(&cutting);
	mark_dates(row, from);
	row->clauses++;
	row->cells++;
	g_string_free(cutting.plain, TRUE);
}

/* The meaning of the `count` words from `i`, or nothing. */
static enum meaning
meaning_of(const struct row_text *row, unsigned i, unsigned count,
	const struct wording *wording)
{
	enum meaning meaning;
	GString *words;
	unsigned j;

	if (count == 1)
		return wording_meaning(wording, row->words[i].text);
	if (i + count > row->count ||
		row->words[i + count - 1].cell != row->words[i].cell)
		return MEANS_NOTHING;
	words = g_string_new(row->words[i].text);
	for (j = 1; j < count; j++)
		g_string_append_printf(words, " %s", row->words[i + j].text);
	meaning = wording_meaning(wording, words->str);
	g_string_free(words, TRUE);
	return meaning;
}

void
row_text_end(struct row_text *row, const struct wording *wording)
{
	enum { LONGEST = 4 };
	bool lower = false;
	unsigned i, j, count;

	for (i = 0; i < row->count; i++)
		lower |= !row->words[i].capitals && !row->words[i].digits;
	for (i = 0; i < row->count; i++)
		row->words[i].capitals &= lower;
	for (i = 0; i < row->count; i += count) {
		enum meaning meaning = MEANS_NOTHING;

		for (count = LONGEST; count > 1; count--) {
			meaning = meaning_of(row, i, count, wording);
			if (meaning != MEANS_NOTHING)
				break;
		}
		if (count == 1)
			meaning = meaning_of(row, i, 1, wording);
		row->words[i].meaning = meaning;
		for (j = 1; j < count; j++)
			row->words[i + j].hidden = true;
	}
}

bool
row_text_is_given(const struct row_text *row, unsigned word)
{
	unsigned i;

	for (i = word; i > 0; i--) {
		const struct row_word *before = &row->words[i - 1];

		if (before->clause != row->words[word].clause)
			return false;
		if (before->meaning == MEANS_SWAPPED)
			return true;
	}
	return false;
}

/* Endings of English words; the same on both sides is all that counts. */
static char *
strip(const char *word)
{
	size_t size = strlen(word);
	char *stem = g_strdup(word);

	if (size > 5 && g_str_has_suffix(stem, "ing"))
		stem[size -= 3] = '\0';
	else if (size > 4 && g_str_has_suffix(stem, "ed"))
		stem[size -= 2] = '\0';
	else if (size > 3 && stem[size - 1] == 's' && stem[size - 2] != 's' &&
		stem[size - 2] != 'u' && stem[size - 2] != 'i')
		stem[size -= 1] = '\0';
	if (size > 4 && stem[size - 1] == 'e')
		stem[size -= 1] = '\0';
	return stem;
}

static void
give_stem(const char *word, stem_function *function, void *data)
{
	char *stem = strip(word);

	function(data, stem);
	g_free(stem);
}

void
wording_stems(const struct wording *wording, const char *word,
	stem_function *function, void *data)
{
	const char *means = g_hash_table_lookup(wording->alike, word);
	char **words;
	size_t i;

	if (means == NULL) {
		give_stem(word, function, data);
		return;
	}
	words = g_strsplit(means, " ", 0);
	for (i = 0; words[i] != NULL; i++)
		give_stem(words[i], function, data);
	g_strfreev(words);
}

static void
join(void *data, const char *token)
{
	GString *joined = data;

	if (joined->len > 0)
		g_string_append_c(joined, ' ');
	search_append_folded(joined, token);
}

/* The role of some words of a heading, and 1; 0 if they have none. */
static unsigned
role_of(const struct wording *wording, char **words, size_t from, size_t count)
{
	GString *joined = g_string_new(words[from]);
	unsigned role;
	size_t i;

	for (i = 1; i < count; i++)
		g_string_append_printf(joined, " %s", words[from + i]);
	role = GPOINTER_TO_UINT(g_hash_table_lookup(wording->headings,
		joined->str));
	g_string_free(joined, TRUE);
	return role;
}

/* A heading goes by the longest run of its words that is known. */
enum column_role
wording_heading(const struct wording *wording, const char *heading,
	bool *known)
{
	enum { LONGEST = 80 };
	GString *joined = g_string_new(NULL);
	unsigned role = 0;
	size_t all, count, from;
	char **words;

	if (strlen(heading) <= LONGEST)
		search_tokens(heading, join, joined);
	words = g_strsplit(joined->str, " ", 0);
	all = g_strv_length(words);
	for (count = all; count > 0 && role == 0; count--)
		for (from = 0; from + count <= all && role == 0; from++)
			role = role_of(wording, words, from, count);
	g_strfreev(words);
	if (role == 0 && joined->len == 0 && heading[0] != '\0' &&
		is_money(g_utf8_get_char(heading)))
		role = COLUMN_PASSED + 1;
	g_string_free(joined, TRUE);
	*known = role != 0;
	return role == 0 ? COLUMN_TEXT : (enum column_role)(role - 1);
}

const char *
wording_country(const struct wording *wording, const char *word, bool column)
{
	const struct country_word *found = g_hash_table_lookup(
		wording->countries, word);

	return found == NULL || (found->column && !column) ? NULL :
		found->code;
}
