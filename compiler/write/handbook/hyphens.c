/*
 * Words are looked up once each, by the number the fonts gave them. The
 * patterns know small letters, in a set of characters of their own. A division
 * that would change the spelling is left out: a word is set as it is written.
 */
#include "write/handbook/hyphens.h"

#include <glib.h>
#include <hyphen.h>
#include <string.h>
#include <unistd.h>

#include "base/arena.h"

/* Shorter words, and parts, look odd when they are divided. */
enum { SHORTEST = 6, LEAST_BEFORE = 2, LEAST_AFTER = 3, LONGEST = 100 };

struct patterns {
	const char *language; /* the first part of a BCP 47 tag */
	const char *file;
	const char *package;
	bool nouns; /* all nouns have capitals, not names alone */
};

static const struct patterns table[] = {
	{"en", "hyph_en_GB.dic", "hyphen-en-gb", false},
	{"de", "hyph_de_DE.dic", "hyphen-de", true},
	{"fr", "hyph_fr.dic", "hyphen-fr", false},
	{"nl", "hyph_nl_NL.dic", "hyphen-nl", false},
	{"el", "hyph_el_GR.dic", "hyphen-el", false},
	{"sv", "hyph_sv_SE.dic", "hyphen-sv", false},
	{"da", "hyph_da_DK.dic", "hyphen-da", false},
	{"nb", "hyph_nb_NO.dic", "hyphen-no", false},
};

struct hyphens {
	struct arena *arena;
	HyphenDict *read[G_N_ELEMENTS(table)];
	GArray *known; /* struct known, by index of the word */
	const char *missing;
};

struct known {
	bool asked;
	struct cuts cuts;
};

struct hyphens *
hyphens_open(struct arena *arena)
{
	struct hyphens *hyphens = arena_one(arena, struct hyphens);

	hyphens->arena = arena;
	hyphens->known = g_array_new(FALSE, TRUE, sizeof(struct known));
	return hyphens;
}

void
hyphens_close(struct hyphens *hyphens)
{
	size_t i;

	if (hyphens == NULL)
		return;
	for (i = 0; i < G_N_ELEMENTS(table); i++) {
		if (hyphens->read[i] != NULL)
			hnj_hyphen_free(hyphens->read[i]);
	}
	g_array_free(hyphens->known, TRUE);
}

const char *
hyphens_missing(const struct hyphens *hyphens)
{
	return hyphens->missing;
}

static const struct patterns *
find_patterns(const char *language)
{
	size_t size, i;

	if (language == NULL)
		language = "en";
	size = strcspn(language, "-");
	for (i = 0; i < G_N_ELEMENTS(table); i++) {
		if (strlen(table[i].language) == size &&
			g_ascii_strncasecmp(table[i].language, language,
				size) == 0)
			return &table[i];
	}
	return NULL;
}

static HyphenDict *
read_patterns(struct hyphens *hyphens, const struct patterns *patterns)
{
	HyphenDict **read = &hyphens->read[patterns - table];
	char *path;

	if (*read != NULL || hyphens->missing != NULL)
		return *read;
	path = g_strconcat("/usr/share/hyphen/", patterns->file, NULL);
	*read = access(path, R_OK) == 0 ? hnj_hyphen_load(path) : NULL;
	if (*read == NULL)
		hyphens->missing = patterns->package;
	g_free(path);
	return *read;
}

/* Letters alone; the first may be a capital where nouns have one. */
static bool
is_divisible(const struct shaped *word, bool nouns)
{
	const char *at, *end = word->text + word->size;
	size_t count = 0;
	gunichar letter;

	for (at = word->text; at < end; at = g_utf8_next_char(at)) {
		letter = g_utf8_get_char(at);
		if (!g_unichar_isalpha(letter))
			return false;
		if (g_unichar_isupper(letter) && (count > 0 || !nouns))
			return false;
		count++;
	}
	return count >= SHORTEST && count <= LONGEST;
}

/* The word in small letters and the patterns' own characters, or NULL. */
static char *
prepare(const HyphenDict *patterns, const struct shaped *word)
{
	char *small = g_utf8_strdown(word->text, (gssize)word->size);
	char *own = NULL;

	if (g_utf8_strlen(small, -1) ==
		g_utf8_strlen(word->text, (gssize)word->size))
		own = patterns->utf8 ? g_strdup(small) :
			g_convert(small, -1, patterns->cset, "UTF-8", NULL,
				NULL, NULL);
	g_free(small);
	return own;
}

/* Odd digits stand behind the characters after which a word may end. */
static struct cuts
take_cuts(struct hyphens *hyphens, const struct shaped *word,
	const char *digits, char **changes)
{
	size_t letters = (size_t)g_utf8_strlen(word->text,
		(gssize)word->size);
	uint16_t *at = arena_array(hyphens->arena, uint16_t, letters);
	struct cuts cuts = {0, at};
	const char *next = word->text;
	size_t i;

	for (i = 1; i < letters; i++) {
		next = g_utf8_next_char(next);
		if (i < LEAST_BEFORE || letters - i < LEAST_AFTER ||
			(digits[i - 1] & 1) == 0 ||
			(changes != NULL && changes[i - 1] != NULL))
			continue;
		at[cuts.count++] = (uint16_t)(next - word->text);
	}
	return cuts;
}

static struct cuts
look_up(struct hyphens *hyphens, const struct shaped *word)
{
	const struct patterns *patterns = find_patterns(word->language);
	char digits[LONGEST * 4 + 8], **changes = NULL, *own;
	int *places = NULL, *lengths = NULL;
	struct cuts cuts = {0, NULL};
	HyphenDict *read;
	size_t size, i;

	if (patterns == NULL || !is_divisible(word, patterns->nouns))
		return cuts;
	read = read_patterns(hyphens, patterns);
	own = read == NULL ? NULL : prepare(read, word);
	if (own == NULL)
		return cuts;
	size = strlen(own);
	if (size <= sizeof(digits) - 8 &&
		hnj_hyphen_hyphenate2(read, own, (int)size, digits, NULL,
			&changes, &places, &lengths) == 0)
		cuts = take_cuts(hyphens, word, digits, changes);
	/* The library made these by malloc, one text a change. */
	for (i = 0; changes != NULL && i < size; i++)
		free(changes[i]);
	free(changes);
	free(places);
	free(lengths);
	g_free(own);
	return cuts;
}

struct cuts
hyphens_find(struct hyphens *hyphens, const struct shaped *word)
{
	struct known *known;

	if (word->index >= hyphens->known->len)
		g_array_set_size(hyphens->known, word->index + 1);
	known = &g_array_index(hyphens->known, struct known, word->index);
	if (!known->asked) {
		known->cuts = look_up(hyphens, word);
		known = &g_array_index(hyphens->known, struct known,
			word->index);
		known->asked = true;
	}
	return known->cuts;
}
