/*
 * What a word of a row may be, by ever weaker likeness: the word itself, two
 * words that belong together, a number in letters, a misspelling. The weaker
 * are asked only where the stronger found nothing.
 */
#include <string.h>

#include "match/lexical.h"

struct looking {
	struct lexicon *lexicon;
	GArray *out;
	double fit;
};

static void
add(GArray *out, unsigned word, double fit)
{
	struct likeness likeness = {word, fit};

	if (word != 0)
		g_array_append_val(out, likeness);
}

static void
add_stem(void *data, const char *stem)
{
	struct looking *looking = data;

	add(looking->out, lexicon_number(looking->lexicon, stem),
		looking->fit);
}

static void
add_text(struct lexicon *lexicon, const char *text, double fit, GArray *out)
{
	struct looking looking = {lexicon, out, fit};

	wording_stems(lexicon->wording, text, add_stem, &looking);
}

/* Up to three words that are one in the lexicon: "boat hook", "W 9". */
static unsigned
add_joined(struct lexicon *lexicon, const struct row_text *row, unsigned i,
	GArray *out)
{
	GString *joined = g_string_new(row->words[i].text);
	unsigned j, taken = 0;

	for (j = i + 1; j < row->count && j < i + 3; j++) {
		if (row->words[j].cell != row->words[i].cell ||
			strchr(" -.", row->words[j].before) == NULL)
			break;
		g_string_append(joined, row->words[j].text);
		if (joined->len < 2)
			continue;
		add_text(lexicon, joined->str, FIT_ALIKE, out);
		if (out->len > 0) {
			taken = j + 1 - i;
			break;
		}
	}
	g_string_free(joined, TRUE);
	return taken;
}

static void
add_number(struct lexicon *lexicon, const char *figures, GArray *out)
{
	unsigned i;
	size_t j;

	for (i = 0; i < number_words_count; i++) {
		char **words;

		if (strcmp(number_words[i].figures, figures) != 0)
			continue;
		words = g_strsplit(number_words[i].words, " ", 0);
		for (j = 0; words[j] != NULL; j++)
			add_text(lexicon, words[j], FIT_ALIKE, out);
		g_strfreev(words);
	}
}

/* "winder9": letters, then figures. */
static void
add_mixed(struct lexicon *lexicon, const char *text, GArray *out)
{
	size_t letters = strcspn(text, "0123456789");
	size_t digits = strspn(text + letters, "0123456789");
	char *first;

	if (letters < 3 || digits == 0 || text[letters + digits] != '\0')
		return;
	first = g_strndup(text, letters);
	add_text(lexicon, first, FIT_ALIKE, out);
	if (out->len > 0)
		add_number(lexicon, text + letters, out);
	g_free(first);
}

/* Two words of the lexicon typed as one. */
static void
add_halves(struct lexicon *lexicon, const char *text, GArray *out)
{
	size_t length = strlen(text), i;

	for (i = 3; i + 3 <= length && out->len == 0; i++) {
		char *first = g_strndup(text, i);
		unsigned one = lexicon_number(lexicon, first);
		unsigned two = lexicon_number(lexicon, text + i);

		if (one != 0 && two != 0) {
			add(out, one, FIT_ALIKE);
			add(out, two, FIT_ALIKE);
		}
		g_free(first);
	}
}

static void
keep_stem(void *data, const char *stem)
{
	char **kept = data;

	if (*kept == NULL)
		*kept = g_strdup(stem);
}

static void
add_near(struct lexicon *lexicon, const char *text, GArray *out)
{
	const GArray *near;
	char *stem = NULL;

	wording_stems(lexicon->wording, text, keep_stem, &stem);
	if (stem == NULL)
		return;
	near = near_find(lexicon, stem);
	if (near->len > 0)
		g_array_append_vals(out, near->data, near->len);
	g_free(stem);
}

void
lexicon_look_up(struct lexicon *lexicon, const struct row_text *row,
	unsigned i, GArray *out, unsigned *taken)
{
	const struct row_word *word = &row->words[i];
	unsigned joined;

	g_array_set_size(out, 0);
	*taken = 1;
	if (word->meaning == MEANS_ARTICLE && !word->capitals)
		return;
	joined = add_joined(lexicon, row, i, out);
	if (joined > 0) {
		*taken = joined;
		return;
	}
	add_text(lexicon, word->text, 1, out);
	if (word->digits && !word->money && (i == 0 ||
		(word[-1].meaning != MEANS_COUNTED &&
		word[-1].meaning != MEANS_CASED)))
		add_number(lexicon, word->text, out);
	if (out->len > 0 || word->digits || word->meaning != MEANS_NOTHING ||
		word->hidden)
		return;
	add_mixed(lexicon, word->text, out);
	if (out->len == 0 && strlen(word->text) >= 6)
		add_halves(lexicon, word->text, out);
	if (out->len == 0 && strpbrk(word->text, "0123456789") == NULL)
		add_near(lexicon, word->text, out);
}
