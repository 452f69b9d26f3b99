/*
 * Which variant of a character a row tells of. A variant has phrases: its
 * name, its tells, the states that it scores, who moulded it. One phrase that
 * is all in the row, and whose words no other variant has, tells it apart; so
 * do two words that no other has.
 */
#include <string.h>

#include "shape/nearest.h"
#include "match/matching.h"
#include "study/slots.h"

struct phrase {
	GPtrArray *words;	/* canonical; a denied one begins with "!" */
	const char *text;
	bool name;		/* the variant's own name, or part of it */
};

void
variants_free(gpointer data)
{
	GArray *phrases = data;
	guint i;

	for (i = 0; i < phrases->len; i++)
		g_ptr_array_free(g_array_index(phrases, struct phrase,
			i).words, TRUE);
	g_array_free(phrases, TRUE);
}

static bool
is_common(const struct wording *wording, const char *word)
{
	return wording_meaning(wording, word) == MEANS_COMMON;
}

/* Puts "not painted" together, and drops words that bind. */
static GPtrArray *
deny(const struct wording *wording, GPtrArray *stems)
{
	GPtrArray *words = g_ptr_array_new_with_free_func(g_free);
	bool denied = false;
	guint i;

	for (i = 0; i < stems->len; i++) {
		const char *stem = stems->pdata[i];
		enum meaning meaning = wording_meaning(wording, stem);

		if (meaning == MEANS_NOT || meaning == MEANS_WITHOUT) {
			denied = true;
			continue;
		}
		if (meaning == MEANS_AND || meaning == MEANS_WITH ||
			meaning == MEANS_OR || meaning == MEANS_FOR)
			continue;
		g_ptr_array_add(words, g_strconcat(denied ? "!" : "", stem,
			NULL));
		denied = false;
	}
	g_ptr_array_free(stems, TRUE);
	return words;
}

static void
add_phrase(const struct matcher *matcher, GArray *phrases, const char *text,
	bool bare)
{
	struct phrase phrase = {
		deny(matcher->wording, lexicon_stems(matcher->wording, text)),
		text, false,
	};
	guint i;

	for (i = phrase.words->len; bare && i > 0; i--)
		if (is_common(matcher->wording, phrase.words->pdata[i - 1]))
			g_ptr_array_remove_index(phrase.words, i - 1);
	if (phrase.words->len > 0)
		g_array_append_val(phrases, phrase);
	else
		g_ptr_array_free(phrase.words, TRUE);
}

static void
add_parts(const struct matcher *matcher, GArray *phrases, const char *text)
{
	char **parts = g_strsplit_set(text, ",;:", 0);
	size_t i;

	for (i = 0; parts[i] != NULL; i++)
		add_phrase(matcher, phrases, arena_text(matcher->arena,
			parts[i], strlen(parts[i])), false);
	g_strfreev(parts);
}

/* Whether a text is all capitals: it is printed or moulded so on the piece. */
static bool
is_printed(const char *text)
{
	bool any = false;

	for (; *text != '\0'; text = g_utf8_next_char(text)) {
		gunichar c = g_utf8_get_char(text);

		if (g_unichar_islower(c))
			return false;
		any |= g_unichar_isupper(c);
	}
	return any;
}

/* A state with what it is the state of; what is printed, by itself too. */
static void
add_state(const struct matcher *matcher, GArray *phrases,
	const struct reference *reference)
{
	const char *state;

	if (reference->item == NULL || reference->record == NULL)
		return;
	state = model_text(matcher->model, reference->item->group,
		NAME(FEATURE_STATE_NAME));
	if (state == NULL)
		return;
	if (is_printed(state))
		add_phrase(matcher, phrases, state, true);
	add_phrase(matcher, phrases, arena_print(matcher->arena, "%s %s",
		state, reference->record->name), false);
}

/* Who moulded it, and where: several variants may come from there. */
static void
add_works(const struct matcher *matcher, GArray *phrases,
	const struct record *works)
{
	const char *place = model_text(matcher->model, works->values,
		NAME(FACTORY_PLACE));

	add_phrase(matcher, phrases, works->name, true);
	if (place != NULL)
		add_parts(matcher, phrases, place);
}

static GArray *
phrases_of(struct matcher *matcher, const struct record *variant)
{
	GArray *phrases = g_hash_table_lookup(matcher->variants, variant);
	const struct model *model = matcher->model;
	struct value *const *values = variant->values;
	const struct value *list;
	const char *name;
	unsigned i;

	if (phrases != NULL)
		return phrases;
	phrases = g_array_new(FALSE, FALSE, sizeof(struct phrase));
	g_hash_table_insert(matcher->variants,
		(gpointer)(uintptr_t)variant, phrases);
	name = model_text(model, values, NAME(VARIANT_NAME));
	if (name != NULL)
		add_parts(matcher, phrases, name);
	for (i = 0; i < phrases->len; i++)
		g_array_index(phrases, struct phrase, i).name = true;
	list = model_get(model, values, NAME(VARIANT_TELLS));
	for (i = 0; i < value_count(list); i++)
		add_parts(matcher, phrases, value_item(list, i)->text);
	list = model_get(model, values, NAME(VARIANT_SCORES));
	for (i = 0; i < value_count(list); i++)
		add_state(matcher, phrases, &value_item(list, i)->reference);
	list = model_get(model, values, NAME(VARIANT_MOULDED_BY));
	for (i = 0; i < value_count(list); i++)
		add_works(matcher, phrases,
			value_item(list, i)->reference.record);
	return phrases;
}

/* A word of the row, canonical, and where it stands. */
struct heard {
	char *word;
	unsigned at;
};

static void
hear(void *data, const char *stem)
{
	g_ptr_array_add(data, g_strdup(stem));
}

/* Words of form and sale tell no variant apart. */
static bool
is_deaf(enum meaning meaning)
{
	return meaning == MEANS_LOOSE || meaning == MEANS_CARDED ||
		meaning == MEANS_CASED || meaning == MEANS_ARTICLE ||
		meaning == MEANS_MONEY || meaning == MEANS_BOUGHT ||
		meaning == MEANS_DOUBT || meaning == MEANS_LETTER;
}

static GArray *
hear_row(const struct matcher *matcher, const struct reading *reading)
{
	GArray *heard = g_array_new(FALSE, FALSE, sizeof(struct heard));
	const struct row_text *text = &reading->text;
	bool denied = false, denies = false;
	unsigned i, clause = 0;
	guint j;

	for (i = 0; i < text->count; i++) {
		const struct row_word *word = &text->words[i];
		GPtrArray *stems;

		/* "not the", "rather than": one word of denial. */
		if (denies && word->hidden)
			continue;
		denies = word->meaning == MEANS_NOT ||
			word->meaning == MEANS_WITHOUT;

		if (word->clause != clause)
			denied = false;
		clause = word->clause;
		if (denies) {
			denied = true;
			continue;
		}
		if (is_deaf(word->meaning) && !word->hidden)
			continue;
		stems = g_ptr_array_new_with_free_func(g_free);
		wording_stems(matcher->wording, word->text, hear, stems);
		for (j = 0; word->digits && j < number_words_count; j++)
			if (strcmp(number_words[j].figures, word->text) == 0)
				g_ptr_array_add(stems, g_strndup(
					number_words[j].words, strcspn(
					number_words[j].words, " ")));
		stems = deny(matcher->wording, stems);
		for (j = 0; j < stems->len; j++) {
			struct heard one = {g_strconcat(denied ? "!" : "",
				stems->pdata[j], NULL), i};

			g_array_append_val(heard, one);
		}
		denied = denied && stems->len == 0;
		g_ptr_array_free(stems, TRUE);
	}
	return heard;
}

/* The word of some phrases that a misspelt one may be; NULL if not one. */
static const char *
word_near(const GArray *phrases, const char *heard)
{
	const char *found = NULL;
	guint i, j;

	for (i = 0; i < phrases->len; i++) {
		const GPtrArray *words = g_array_index(phrases, struct phrase,
			i).words;

		for (j = 0; j < words->len; j++) {
			const char *word = words->pdata[j];

			if (strcmp(word, heard) == 0)
				return word;
			if (strlen(word) >= 5 && word[0] != '!' &&
				nearest_distance(word, heard, 1) <= 1)
				found = word;
		}
	}
	return found;
}

/* Takes misspelt words for those of the variants that they are nearest to. */
static void
mend_heard(const struct matcher *matcher, GArray *heard,
	const GArray *const *phrases, guint count)
{
	guint i, j;

	for (i = 0; i < heard->len; i++) {
		struct heard *one = &g_array_index(heard, struct heard, i);
		const char *found = NULL, *near;

		if (strlen(one->word) < 5 || one->word[0] == '!' ||
			is_common(matcher->wording, one->word))
			continue;
		for (j = 0; j < count; j++) {
			near = word_near(phrases[j], one->word);
			if (near != NULL && strcmp(near, one->word) == 0)
				break;
			if (near != NULL)
				found = near;
		}
		if (j < count || found == NULL)
			continue;
		near = g_strdup(found);
		g_free(one->word);
		one->word = (char *)(uintptr_t)near;
	}
}

/* Whether words from `least` to `most` are said in one breath. */
static bool
in_one_breath(const struct reading *reading, int least, int most, guint count)
{
	enum { BETWEEN = 3 };

	return least <= most && most - least < (int)count + BETWEEN &&
		reading->text.words[least].clause ==
		reading->text.words[most].clause;
}

/* Where the row has a word, or -1. */
static int
find_heard(const GArray *heard, const char *word)
{
	guint i;

	for (i = 0; i < heard->len; i++)
		if (strcmp(word, g_array_index(heard, struct heard,
			i).word) == 0)
			return (int)g_array_index(heard, struct heard, i).at;
	return -1;
}

static bool
has_word(const GArray *phrases, const char *word)
{
	guint i, j;

	for (i = 0; i < phrases->len; i++) {
		const GPtrArray *words = g_array_index(phrases, struct phrase,
			i).words;

		for (j = 0; j < words->len; j++)
			if (strcmp(words->pdata[j], word) == 0)
				return true;
	}
	return false;
}

/* Whether no other variant has all the words of a phrase. */
static bool
is_alone(struct matcher *matcher, const GPtrArray *variants, guint but,
	const GPtrArray *words)
{
	guint i, j;

	for (i = 0; i < variants->len; i++) {
		const GArray *phrases;

		if (i == but)
			continue;
		phrases = phrases_of(matcher, variants->pdata[i]);
		for (j = 0; j < words->len; j++)
			if (!has_word(phrases, words->pdata[j]))
				break;
		if (j == words->len)
			return false;
	}
	return true;
}

/* What a row says of one variant. */
struct heeded {
	double cover;		/* of the phrase that is most in the row */
	const char *phrase;	/* that tells it apart, or NULL */
	bool called;		/* its name, or a part of it, is all there */
	unsigned own;		/* words of the row that it alone has */
	bool denied;
	bool doubted;
};

static void
heed_phrase(struct matcher *matcher, const struct reading *reading,
	const GPtrArray *variants, guint i, const GArray *heard,
	const struct phrase *phrase, struct heeded *heeded)
{
	const GPtrArray *words = phrase->words;
	bool doubted = false;
	guint j, found = 0;
	int least = G_MAXINT, most = -1;

	for (j = 0; j < words->len; j++) {
		int at = find_heard(heard, words->pdata[j]);

		if (at < 0)
			continue;
		found++;
		doubted |= reading->text.words[at].doubted;
		/* The name of the character may stand anywhere. */
		if (!reading->text.words[at].used) {
			least = MIN(least, at);
			most = MAX(most, at);
		}
	}
	if (words->len == 1) {
		char *not = g_strconcat("!", words->pdata[0], NULL);

		heeded->denied |= find_heard(heard, not) >= 0;
		g_free(not);
	}
	heeded->cover = MAX(heeded->cover, (double)found / words->len);
	heeded->called |= phrase->name && found == words->len;
	if (found < words->len || !in_one_breath(reading, least, most,
		words->len) || !is_alone(matcher, variants, i, words))
		return;
	heeded->phrase = phrase->text;
	heeded->doubted |= doubted;
}

/* Whether another variant has the word too. */
static bool
is_shared(struct matcher *matcher, const GPtrArray *variants, guint but,
	const char *word)
{
	guint i;

	for (i = 0; i < variants->len; i++)
		if (i != but && has_word(phrases_of(matcher,
			variants->pdata[i]), word))
			return true;
	return false;
}

/* Words of the row that are in one phrase, and in no other variant. */
static void
count_own(struct matcher *matcher, const struct reading *reading,
	const GPtrArray *variants, guint i, const GArray *heard,
	const struct phrase *phrase, struct heeded *heeded)
{
	enum { THIRDS = 2 };	/* of the phrase that are to be there */
	unsigned own = 0, found = 0;
	bool doubted = false, denies = false;
	int least = G_MAXINT, most = -1;
	guint j;

	for (j = 0; j < phrase->words->len; j++) {
		const char *word = phrase->words->pdata[j];
		int at = find_heard(heard, word);

		denies |= word[0] == '!';
		found += at >= 0;
		if (at < 0 || reading->text.words[at].used ||
			is_shared(matcher, variants, i, word))
			continue;
		own++;
		doubted |= reading->text.words[at].doubted;
		least = MIN(least, at);
		most = MAX(most, at);
	}
	if (own > 1 && (denies || found * 3 < phrase->words->len * THIRDS ||
		!in_one_breath(reading, least, most, phrase->words->len)))
		own = 1;
	heeded->own = MAX(heeded->own, own);
	heeded->doubted |= doubted;
}

static struct heeded
heed(struct matcher *matcher, const struct reading *reading,
	const GPtrArray *variants, guint i, const GArray *heard)
{
	const GArray *phrases = phrases_of(matcher, variants->pdata[i]);
	struct heeded heeded = {0};
	guint j;

	for (j = 0; j < phrases->len; j++) {
		const struct phrase *phrase = &g_array_index(phrases,
			struct phrase, j);

		heed_phrase(matcher, reading, variants, i, heard, phrase,
			&heeded);
		count_own(matcher, reading, variants, i, heard, phrase,
			&heeded);
	}
	return heeded;
}

/* Whether the row denies a word of the variant: "no glove". */
static bool
is_denied(const struct matcher *matcher, const GArray *heard,
	const GArray *phrases)
{
	guint i;

	for (i = 0; i < heard->len; i++) {
		const char *word = g_array_index(heard, struct heard, i).word;

		/* What it came with may well be missing. */
		if (word[0] == '!' && has_word(phrases, word + 1) &&
			!has_word(phrases, word) && !lexicon_is_in(
			matcher->lexicon, word + 1, NAMES_ACCESSORY))
			return true;
	}
	return false;
}

struct told
variants_tell(struct matcher *matcher, const struct reading *reading,
	const GPtrArray *variants)
{
	struct told told = {.alone = -1};
	GArray *heard = hear_row(matcher, reading);
	const GArray **phrases = g_new0(const GArray *, variants->len + 1);
	double sum = 0;
	unsigned apart = 0;
	guint i;

	for (i = 0; i < variants->len; i++)
		phrases[i] = phrases_of(matcher, variants->pdata[i]);
	mend_heard(matcher, heard, phrases, variants->len);
	g_free(phrases);
	told.weights = arena_array(reading->text.arena, double,
		variants->len + 1);
	for (i = 0; i < variants->len; i++) {
		struct heeded one = heed(matcher, reading, variants, i, heard);

		told.weights[i] = one.denied ? 0.01 : 1 + one.cover +
			(one.called ? 1 : 0) +
			3 * MIN(one.own, 3u) + (one.phrase != NULL ? 6 : 0);
		sum += told.weights[i];
		if (one.denied || (one.phrase == NULL && one.own < 2))
			continue;
		apart++;
		told.alone = (int)i;
		told.phrase = one.phrase;
		told.doubted = one.doubted;
	}
	if (variants->len == 1)
		told.denied = is_denied(matcher, heard,
			phrases_of(matcher, variants->pdata[0]));
	/* Two that are told apart contradict each other. */
	if (apart != 1)
		told.alone = -1;
	for (i = 0; i < variants->len; i++)
		told.weights[i] /= sum;
	for (i = 0; i < heard->len; i++)
		g_free(g_array_index(heard, struct heard, i).word);
	g_array_free(heard, TRUE);
	return told;
}

GPtrArray *
variants_of(const struct matcher *matcher, const struct record *character)
{
	struct pointer_list list = model_pointing(matcher->model, character);
	GPtrArray *variants = g_ptr_array_new();
	size_t i;

	for (i = 0; i < list.count; i++) {
		const struct record *variant = list.items[i].from;

		if (list.items[i].field == model_field(matcher->model,
			NAME(VARIANT_CHARACTER)) &&
			study_may_exist(model_word(matcher->model,
			variant->values, NAME(VARIANT_CONCLUDED))))
			g_ptr_array_add(variants,
				(gpointer)(uintptr_t)variant);
	}
	return variants;
}
