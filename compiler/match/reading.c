/*
 * Reading the names of a row. Every name that shares a word with the row gets
 * a hit; of each record the best hit counts. The rest of what a row says is
 * read in saying.c.
 */
#include "match/reading.h"

#include <string.h>

#include "match/matching.h"
#include "match/saying.h"

/* A name, and what of it was found. */
struct hit {
	unsigned name;
	float fits[MOST_IN_NAME];	/* 0: not found */
	uint16_t words[MOST_IN_NAME];	/* of the row */
};

struct hitting {
	struct reading *reading;
	struct matcher *matcher;
	GArray *hits;
	double fit;
	unsigned word;
};

bool
words_meet(const struct word_set *left, const struct word_set *right)
{
	size_t i;

	for (i = 0; i < G_N_ELEMENTS(left->bits); i++)
		if ((left->bits[i] & right->bits[i]) != 0)
			return true;
	return false;
}

static void
add_word(struct word_set *set, unsigned word)
{
	set->bits[word / 64] |= (uint64_t)1 << word % 64;
}

/* An abbreviation of two letters may be any other word: "do", "or". */
static bool
is_chance(const struct hitting *hitting, const struct name *name)
{
	const struct row_word *word =
		&hitting->reading->text.words[hitting->word];

	return name->brief && word->meaning != MEANS_NOTHING &&
		!word->capitals;
}

static void
add_hit(void *data, unsigned name, unsigned place)
{
	struct hitting *hitting = data;
	unsigned *at = &hitting->matcher->places[name];
	struct hit *hit;

	if (is_chance(hitting, lexicon_name(hitting->matcher->lexicon, name)))
		return;
	if (*at == 0) {
		struct hit fresh = {.name = name};

		g_array_append_val(hitting->hits, fresh);
		*at = hitting->hits->len;
	}
	hit = &g_array_index(hitting->hits, struct hit, *at - 1);
	if ((float)hitting->fit <= hit->fits[place])
		return;
	hit->fits[place] = (float)hitting->fit;
	hit->words[place] = (uint16_t)hitting->word;
}

static void
find_hits(struct hitting *hitting)
{
	struct lexicon *lexicon = hitting->matcher->lexicon;
	const struct row_text *text = &hitting->reading->text;
	GArray *likely = g_array_new(FALSE, FALSE, sizeof(struct likeness));
	unsigned i, taken;
	guint j;

	for (i = 0; i < text->count; i++) {
		lexicon_look_up(lexicon, text, i, likely, &taken);
		hitting->word = i;
		for (j = 0; j < likely->len; j++) {
			struct likeness one = g_array_index(likely,
				struct likeness, j);

			hitting->fit = one.fit;
			lexicon_each(lexicon, one.word, add_hit, hitting);
		}
	}
	g_array_free(likely, TRUE);
}

/* Words of columns that are about other things count for less. */
static double
share_of(const struct row_text *text, const struct row_word *word)
{
	unsigned i;

	if (word->role != COLUMN_NOTES && word->role != COLUMN_PART &&
		word->role != COLUMN_FORM)
		return 1;
	for (i = 0; i < text->count; i++)
		if (text->words[i].role == COLUMN_CHARACTER)
			return 0.5;
	return 1;
}

/* Whether the word is said not to be so: "not the diver". */
static bool
is_denied(const struct row_text *text, unsigned word)
{
	unsigned i;

	for (i = word; i > 0 && i + 3 > word; i--) {
		const struct row_word *before = &text->words[i - 1];

		if (before->clause != text->words[word].clause)
			return false;
		if (before->meaning == MEANS_NOT)
			return true;
	}
	return false;
}

static void
sum_hit(const struct hitting *hitting, const struct hit *hit,
	struct named *named)
{
	const struct lexicon *lexicon = hitting->matcher->lexicon;
	const struct row_text *text = &hitting->reading->text;
	double weight, found = 0, fits = 0;
	unsigned i, count = 0;

	named->name = lexicon_name(lexicon, hit->name);
	named->record = named->name->record;
	named->first = MOST_WORDS;
	for (i = 0; i < named->name->count; i++) {
		unsigned word = hit->words[i];

		if (hit->fits[i] <= 0)
			continue;
		if (is_denied(text, word)) {
			named->negated = true;
			continue;
		}
		weight = lexicon_weight(lexicon, named->name->words[i],
			named->name->naming);
		/* What is misspelt says less than what is not. */
		named->mass += weight * (double)hit->fits[i] *
			(hit->fits[i] < (float)FIT_ALIKE ? 0.7 : 1) *
			share_of(text, &text->words[word]);
		found += weight;
		fits += (double)hit->fits[i];
		count++;
		named->own |= hit->fits[i] >= (float)FIT_FAR &&
			lexicon_is_own(lexicon, named->name->words[i],
			named->name->naming);
		named->telling |= wording_meaning(hitting->matcher->wording,
			text->words[word].text) == MEANS_NOTHING;
		add_word(&named->words, word);
		named->first = MIN(named->first, word);
		named->last = MAX(named->last, word);
	}
	/* A number alone may count anything. */
	if (count == 1 && text->words[named->first].digits)
		named->mass = 0;
	named->cover = named->name->weight > 0 ?
		found / named->name->weight : 0;
	named->fit = count == 0 ? 0 : fits / count;
}

static bool
is_better(const struct named *left, const struct named *right)
{
	if (left->mass > right->mass + 1e-9)
		return true;
	return left->mass > right->mass - 1e-9 && left->cover > right->cover;
}

static gint
compare_named(gconstpointer left, gconstpointer right)
{
	const struct named *a = left, *b = right;

	if (is_better(a, b))
		return -1;
	if (is_better(b, a))
		return 1;
	return (a->record->index > b->record->index) -
		(a->record->index < b->record->index);
}

static void
sum_hits(struct hitting *hitting)
{
	GHashTable *known = g_hash_table_new(NULL, NULL);
	guint i;

	for (i = 0; i < hitting->hits->len; i++) {
		const struct hit *hit = &g_array_index(hitting->hits,
			struct hit, i);
		struct named named = {0}, *old;
		GArray *list;
		guint place;

		hitting->matcher->places[hit->name] = 0;
		sum_hit(hitting, hit, &named);
		list = hitting->reading->named[named.name->naming];
		place = GPOINTER_TO_UINT(g_hash_table_lookup(known,
			named.record));
		if (place == 0) {
			g_array_append_val(list, named);
			g_hash_table_insert(known,
				(gpointer)(uintptr_t)named.record,
				GUINT_TO_POINTER(list->len));
			continue;
		}
		old = &g_array_index(list, struct named, place - 1);
		named.negated |= old->negated;
		if (is_better(&named, old))
			*old = named;
		else
			old->negated = named.negated;
	}
	for (i = 0; i < NAMINGS; i++)
		g_array_sort(hitting->reading->named[i], compare_named);
	g_hash_table_destroy(known);
}

/* "J. Marl": a letter before a word of a name that begins another of it. */
static void
add_initials(struct hitting *hitting)
{
	const struct row_text *text = &hitting->reading->text;
	guint i;
	unsigned j, k;

	for (i = 0; i < hitting->hits->len; i++) {
		struct hit *hit = &g_array_index(hitting->hits, struct hit, i);
		const struct name *name = lexicon_name(
			hitting->matcher->lexicon, hit->name);

		if (name->naming != NAMES_CHARACTER)
			continue;
		for (j = 0; j < name->count; j++) {
			const struct row_word *before = hit->words[j] == 0 ?
				NULL : &text->words[hit->words[j] - 1];

			if (hit->fits[j] <= 0 || before == NULL ||
				g_utf8_strlen(before->text, -1) != 1 ||
				before->digits || before->cell !=
				text->words[hit->words[j]].cell)
				continue;
			for (k = 0; k < name->count; k++)
				if (hit->fits[k] <= 0 && g_str_has_prefix(
					lexicon_word_text(
					hitting->matcher->lexicon,
					name->words[k]), before->text)) {
					hit->fits[k] = (float)FIT_INITIAL;
					hit->words[k] = (uint16_t)
						(hit->words[j] - 1);
				}
		}
	}
}

void
reading_begin(struct reading *reading, struct matcher *matcher)
{
	struct hitting hitting = {
		.reading = reading,
		.matcher = matcher,
		.hits = g_array_new(FALSE, FALSE, sizeof(struct hit)),
	};
	unsigned i;

	row_text_end(&reading->text, matcher->wording);
	for (i = 0; i < NAMINGS; i++)
		reading->named[i] = g_array_new(FALSE, FALSE,
			sizeof(struct named));
	reading->labels = g_array_new(FALSE, FALSE,
		sizeof(struct label_said));
	reading->characters = g_ptr_array_new();
	reading->markets = g_ptr_array_new();
	find_hits(&hitting);
	add_initials(&hitting);
	sum_hits(&hitting);
	g_array_free(hitting.hits, TRUE);
	say_all(reading, matcher);
}

void
reading_release(struct reading *reading)
{
	unsigned i;

	for (i = 0; i < NAMINGS; i++)
		g_array_free(reading->named[i], TRUE);
	g_array_free(reading->labels, TRUE);
	g_ptr_array_free(reading->characters, TRUE);
	g_ptr_array_free(reading->markets, TRUE);
}
