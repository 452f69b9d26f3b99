/*
 * Which word of the lexicon a typed one may be. Words one slip apart share a
 * form with a letter less, so that slips are found by asking for those forms;
 * distance is that of shape/nearest.h. Abbreviated words are beginnings, or
 * have lost their vowels.
 */
#include <string.h>

#include "base/sort.h"
#include "shape/nearest.h"
#include "match/lexical.h"

enum { LEAST = 4, MOST = 40 };

static void
put(GHashTable *table, const char *key, unsigned word)
{
	GArray *words = g_hash_table_lookup(table, key);

	if (words == NULL) {
		words = g_array_new(FALSE, FALSE, sizeof(unsigned));
		g_hash_table_insert(table, g_strdup(key), words);
	}
	if (words->len == 0 || g_array_index(words, unsigned,
		words->len - 1) != word)
		g_array_append_val(words, word);
}

static void
free_words(gpointer words)
{
	g_array_free(words, TRUE);
}

/* The word without its letter number `i`. */
static char *
without(const char *word, size_t i)
{
	const char *at = g_utf8_offset_to_pointer(word, (glong)i);
	GString *out = g_string_new_len(word, at - word);

	g_string_append(out, g_utf8_next_char(at));
	return g_string_free(out, FALSE);
}

/* First letter and consonants; NULL where that says too little. */
static char *
bones_of(const char *word)
{
	GString *out = g_string_new(NULL);
	const char *at;

	for (at = word; *at != '\0'; at++)
		if (at == word || strchr("aeiouy", *at) == NULL)
			g_string_append_c(out, *at);
	if (out->len >= 3)
		return g_string_free(out, FALSE);
	g_string_free(out, TRUE);
	return NULL;
}

static int
compare_words(const void *left, const void *right, void *data)
{
	const struct lexicon *lexicon = data;
	const unsigned *a = left, *b = right;

	return strcmp(g_array_index(lexicon->words, struct lexicon_word,
		*a).text, g_array_index(lexicon->words, struct lexicon_word,
		*b).text);
}

void
near_begin(struct lexicon *lexicon)
{
	unsigned i, count = lexicon->words->len - 1;
	size_t j, length;

	lexicon->cuts = g_hash_table_new_full(g_str_hash, g_str_equal, g_free,
		free_words);
	lexicon->bones = g_hash_table_new_full(g_str_hash, g_str_equal,
		g_free, free_words);
	lexicon->asked = g_hash_table_new_full(g_str_hash, g_str_equal,
		g_free, free_words);
	lexicon->sorted = g_new(unsigned, count + 1);
	for (i = 1; i <= count; i++) {
		const char *text = g_array_index(lexicon->words,
			struct lexicon_word, i).text;
		char *bones = bones_of(text);

		lexicon->sorted[i - 1] = i;
		if (bones != NULL)
			put(lexicon->bones, bones, i);
		g_free(bones);
		length = (size_t)g_utf8_strlen(text, -1);
		put(lexicon->cuts, text, i);
		for (j = 0; j < length && length >= LEAST && length <= MOST;
			j++) {
			char *cut = without(text, j);

			put(lexicon->cuts, cut, i);
			g_free(cut);
		}
	}
	g_qsort_with_data(lexicon->sorted, (gint)count, sizeof(unsigned),
		compare_words, lexicon);
}

void
near_end(struct lexicon *lexicon)
{
	g_hash_table_destroy(lexicon->cuts);
	g_hash_table_destroy(lexicon->bones);
	g_hash_table_destroy(lexicon->asked);
	g_free(lexicon->sorted);
}

static void
add(GArray *out, unsigned word, double fit)
{
	struct likeness likeness = {word, fit};
	guint i;

	for (i = 0; i < out->len; i++) {
		struct likeness *known = &g_array_index(out, struct likeness,
			i);

		if (known->word == word) {
			known->fit = MAX(known->fit, fit);
			return;
		}
	}
	g_array_append_val(out, likeness);
}

static void
add_slips(struct lexicon *lexicon, const char *word, const char *cut,
	GArray *out)
{
	const GArray *found = g_hash_table_lookup(lexicon->cuts, cut);
	size_t length = strlen(word);
	guint i;

	for (i = 0; found != NULL && i < found->len; i++) {
		unsigned number = g_array_index(found, unsigned, i);
		const char *text = g_array_index(lexicon->words,
			struct lexicon_word, number).text;
		int distance = nearest_distance(word, text, 2);

		if (strlen(text) + 1 < LEAST)
			continue;
		if (distance <= 1)
			add(out, number, FIT_NEAR);
		else if (distance == 2 && length >= 6)
			add(out, number, FIT_FAR);
	}
}

/* Words that begin so, if they are few. */
static void
add_begun(struct lexicon *lexicon, const char *word, GArray *out)
{
	unsigned low = 0, high = lexicon->words->len - 1, middle, i;
	enum { FEW = 4 };
	const char *text;

	while (low < high) {
		middle = (low + high) / 2;
		text = g_array_index(lexicon->words, struct lexicon_word,
			lexicon->sorted[middle]).text;
		if (strcmp(text, word) < 0)
			low = middle + 1;
		else
			high = middle;
	}
	for (i = low; i < lexicon->words->len - 1; i++) {
		text = g_array_index(lexicon->words, struct lexicon_word,
			lexicon->sorted[i]).text;
		if (!g_str_has_prefix(text, word))
			break;
	}
	for (; i > low && i - low <= FEW; low++)
		add(out, lexicon->sorted[low], FIT_BEGUN);
}

static void
add_bones(struct lexicon *lexicon, const char *word, GArray *out)
{
	char *bones = bones_of(word);
	const GArray *found = bones == NULL ? NULL :
		g_hash_table_lookup(lexicon->bones, bones);
	guint i;

	/* Somebody who leaves vowels out leaves out most of them. */
	for (i = 0; found != NULL && strlen(bones) + 1 >= strlen(word) &&
		i < found->len; i++)
		add(out, g_array_index(found, unsigned, i), FIT_BEGUN);
	g_free(bones);
}

static gint
compare_fit(gconstpointer left, gconstpointer right)
{
	const struct likeness *a = left, *b = right;

	if (a->fit > b->fit)
		return -1;
	if (a->fit < b->fit)
		return 1;
	return (a->word > b->word) - (a->word < b->word);
}

/* Only the best are meant. */
static void
keep_best(GArray *out)
{
	guint i;

	g_array_sort(out, compare_fit);
	for (i = 1; i < out->len; i++)
		if (g_array_index(out, struct likeness, i).fit <
			g_array_index(out, struct likeness, 0).fit)
			break;
	if (i < out->len)
		g_array_set_size(out, i);
}

const GArray *
near_find(struct lexicon *lexicon, const char *word)
{
	size_t length = (size_t)g_utf8_strlen(word, -1), i;
	GArray *out = g_hash_table_lookup(lexicon->asked, word);

	if (out != NULL)
		return out;
	out = g_array_new(FALSE, FALSE, sizeof(struct likeness));
	g_hash_table_insert(lexicon->asked, g_strdup(word), out);
	if (length > MOST)
		return out;
	if (length >= LEAST) {
		add_slips(lexicon, word, word, out);
		for (i = 0; i < length; i++) {
			char *cut = without(word, i);

			add_slips(lexicon, word, cut, out);
			g_free(cut);
		}
	}
	if (length >= 3) {
		add_begun(lexicon, word, out);
		add_bones(lexicon, word, out);
	}
	keep_best(out);
	return out;
}
