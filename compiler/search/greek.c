/*
 * Letters are taken with their accents apart, because these part vowels that
 * would else be read as one: "αυ" is a diphthong, "άυ" and "αϋ" are not.
 */
#include "search/greek.h"

#include <string.h>

enum { TONOS = 0x301, DIALYTIKA = 0x308, MOST = 64 };

struct letter {
	gunichar base;
	bool tonos;
	bool dialytika;
};

struct word {
	const struct letter *letters;
	unsigned count;
};

static const struct {
	gunichar greek;
	const char *latin;
} table[] = {
	{0x3b1, "a"}, {0x3b2, "v"}, {0x3b3, "g"}, {0x3b4, "d"}, {0x3b5, "e"},
	{0x3b6, "z"}, {0x3b7, "i"}, {0x3b8, "th"}, {0x3b9, "i"}, {0x3ba, "k"},
	{0x3bb, "l"}, {0x3bc, "m"}, {0x3bd, "n"}, {0x3be, "x"}, {0x3bf, "o"},
	{0x3c0, "p"}, {0x3c1, "r"}, {0x3c2, "s"}, {0x3c3, "s"}, {0x3c4, "t"},
	{0x3c5, "y"}, {0x3c6, "f"}, {0x3c7, "ch"}, {0x3c8, "ps"}, {0x3c9, "o"},
};

static const char *
latin_of(gunichar base)
{
	size_t i;

	for (i = 0; i < G_N_ELEMENTS(table); i++)
		if (table[i].greek == base)
			return table[i].latin;
	return NULL;
}

static void
note_mark(struct letter *letter, gunichar mark)
{
	letter->tonos |= mark == TONOS;
	letter->dialytika |= mark == DIALYTIKA;
}

/* Of a word longer than any there is, the rest is left out. */
static unsigned
split(const char *token, struct letter letters[MOST])
{
	gunichar parts[G_UNICHAR_MAX_DECOMPOSITION_LENGTH];
	unsigned count = 0;
	gsize i, size;

	for (; *token != '\0'; token = g_utf8_next_char(token)) {
		size = g_unichar_fully_decompose(g_unichar_tolower(
			g_utf8_get_char(token)), FALSE, parts,
			G_N_ELEMENTS(parts));
		for (i = 0; i < size; i++) {
			if (!g_unichar_ismark(parts[i]) && count == MOST)
				return count;
			if (!g_unichar_ismark(parts[i]))
				letters[count++] = (struct letter){parts[i],
					false, false};
			else if (count > 0)
				note_mark(&letters[count - 1], parts[i]);
		}
	}
	return count;
}

static gunichar
base_at(const struct word *word, unsigned i)
{
	return i < word->count ? word->letters[i].base : 0;
}

static bool
is_one_of(gunichar base, const char *letters)
{
	return base != 0 && g_utf8_strchr(letters, -1, base) != NULL;
}

/* Whether the letter is the second of "αυ", "ευ", "ηυ" or "ου". */
static bool
ends_diphthong(const struct word *word, unsigned i)
{
	return i > 0 && base_at(word, i) == 0x3c5 &&
		!word->letters[i].dialytika && !word->letters[i - 1].tonos &&
		is_one_of(base_at(word, i - 1), "αεηο");
}

/* "αυ" is av before voiced sounds, af before others and at the end. */
static const char *
upsilon_by_sound(const struct word *word, unsigned i)
{
	if (base_at(word, i - 1) == 0x3bf)
		return "u";
	return is_one_of(base_at(word, i + 1), "βγδζλμνραεηιουω") ? "v" : "f";
}

/* Where a letter is written by its neighbours; NULL where it is not. */
static const char *
by_sound(const struct word *word, unsigned i)
{
	gunichar here = base_at(word, i), next = base_at(word, i + 1);

	if (here == 0x3b3 && is_one_of(next, "γξχ"))
		return "n";
	/* "μπ" is b where a word begins or ends with it. */
	if (here == 0x3bc && next == 0x3c0 && (i == 0 ||
		i + 2 == word->count))
		return "b";
	if (here == 0x3c0 && i > 0 && base_at(word, i - 1) == 0x3bc &&
		(i == 1 || i + 1 == word->count))
		return "";
	return ends_diphthong(word, i) ? upsilon_by_sound(word, i) : NULL;
}

bool
search_append_greek(GString *out, const char *token, enum greek_type type)
{
	struct letter letters[MOST];
	struct word word = {letters, split(token, letters)};
	const char *latin, *sound;
	bool greek = false;
	unsigned i;

	for (i = 0; i < word.count; i++) {
		latin = latin_of(letters[i].base);
		greek |= latin != NULL;
		sound = type == GREEK_TYPE_2 ? by_sound(&word, i) :
			ends_diphthong(&word, i) ? "u" : NULL;
		if (sound != NULL)
			g_string_append(out, sound);
		else if (latin != NULL)
			g_string_append(out, latin);
		else
			g_string_append_unichar(out, letters[i].base);
	}
	return greek;
}
