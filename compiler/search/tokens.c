/*
 * Tokens by ICU's tables. SQLite's tables are of Unicode 6.1: to it, what is
 * newer is unassigned, and what is unassigned is part of a word. The few
 * characters that have changed their category since stand in a list.
 */
#include "search/tokens.h"

#include <string.h>
#include <unicode/uchar.h>
#include <unicode/unorm2.h>

#include "search/greek.h"

struct range {
	uint32_t from;
	uint32_t to;
};

static bool
is_among(const struct range *ranges, size_t count, uint32_t character)
{
	size_t i;

	for (i = 0; i < count; i++)
		if (character >= ranges[i].from && character <= ranges[i].to)
			return true;
	return false;
}

static bool
is_known(uint32_t character)
{
	UVersionInfo age;

	u_charAge((UChar32)character, age);
	return age[0] != 0 && (age[0] < 6 || (age[0] == 6 && age[1] <= 1));
}

/* Marks of Latin letters: within a token they count for nothing. */
static bool
is_passed(uint32_t character)
{
	static const struct range marks[] = {
		{0x300, 0x304}, {0x306, 0x30c}, {0x30f, 0x30f},
		{0x311, 0x311}, {0x31b, 0x31b}, {0x323, 0x328},
		{0x32d, 0x32e}, {0x330, 0x331},
	};

	return is_among(marks, G_N_ELEMENTS(marks), character);
}

/* What has changed since Unicode 6.1, and what is no character at all. */
static const struct range parts[] = {
	{0x1885, 0x1886}, {0xfdd0, 0xfdef},
};
static const struct range ends[] = {
	{0x19b0, 0x19c0}, {0x19c8, 0x19c9}, {0x1cf2, 0x1cf3},
};

static bool
is_part(uint32_t character)
{
	if (!is_known(character))
		return true;
	if (is_among(parts, G_N_ELEMENTS(parts), character) ||
		(character > 0xffff && (character & 0xfffe) == 0xfffe))
		return true;
	if (is_among(ends, G_N_ELEMENTS(ends), character))
		return false;
	return (U_GET_GC_MASK((UChar32)character) &
		(U_GC_L_MASK | U_GC_N_MASK | U_GC_CO_MASK)) != 0;
}

/* The letter below the marks: the first of the full decomposition. */
static uint32_t
base_of(uint32_t character)
{
	UErrorCode status = U_ZERO_ERROR;
	const UNormalizer2 *nfd = unorm2_getNFDInstance(&status);
	UChar buffer[32];
	int32_t length, i = 0;
	UChar32 base;

	if (U_FAILURE(status))
		return character;
	length = unorm2_getDecomposition(nfd, (UChar32)character, buffer,
		G_N_ELEMENTS(buffer), &status);
	if (U_FAILURE(status) || length <= 0)
		return character;
	U16_NEXT(buffer, i, length, base);
	return (uint32_t)base;
}

uint32_t
search_fold(uint32_t character)
{
	uint32_t folded, base;

	if (character < 0x80)
		return g_ascii_isalnum((gchar)character) ?
			(uint32_t)g_ascii_tolower((gchar)character) : 0;
	if (is_passed(character))
		return SEARCH_PASSED;
	if (!is_part(character))
		return 0;
	if (!is_known(character))
		return character;
	folded = (uint32_t)u_foldCase((UChar32)character,
		U_FOLD_CASE_DEFAULT);
	if (folded == 0x1e1)
		return folded;
	base = base_of(folded);
	return base < 0x80 && base != folded ?
		(uint32_t)g_ascii_tolower((gchar)base) : folded;
}

void
search_tokens(const char *text, search_token_function *function, void *data)
{
	GString *token = g_string_new(NULL);

	for (; *text != '\0'; text = g_utf8_next_char(text)) {
		uint32_t folded = search_fold(g_utf8_get_char(text));

		if (folded == SEARCH_PASSED)
			continue;
		if (folded != 0) {
			g_string_append_unichar(token, folded);
			continue;
		}
		if (token->len > 0)
			function(data, token->str);
		g_string_truncate(token, 0);
	}
	if (token->len > 0)
		function(data, token->str);
	g_string_free(token, TRUE);
}

/* Letters that are no letter with a mark, but are often typed as if. */
static const char *
spelt_out(uint32_t character)
{
	static const struct {
		uint32_t letter;
		const char *plain;
	} letters[] = {
		{0xdf, "ss"}, {0xe6, "ae"}, {0xf0, "d"}, {0xf8, "o"},
		{0xfe, "th"}, {0x111, "d"}, {0x131, "i"}, {0x142, "l"},
		{0x153, "oe"},
	};
	size_t i;

	for (i = 0; i < G_N_ELEMENTS(letters); i++)
		if (letters[i].letter == character)
			return letters[i].plain;
	return NULL;
}

void
search_append_folded(GString *out, const char *token)
{
	for (; *token != '\0'; token = g_utf8_next_char(token)) {
		uint32_t character = g_utf8_get_char(token);
		const char *plain;
		uint32_t base;

		if (character < 0x80) {
			g_string_append_c(out, (char)character);
			continue;
		}
		if ((U_GET_GC_MASK((UChar32)character) & U_GC_MN_MASK) != 0)
			continue;
		base = (uint32_t)u_foldCase((UChar32)base_of(character),
			U_FOLD_CASE_DEFAULT);
		plain = spelt_out(base);
		if (plain != NULL)
			g_string_append(out, plain);
		else
			g_string_append_unichar(out, base);
	}
}

void
search_append_latin(GString *out, const char *token)
{
	GString *letters = g_string_new(NULL), *sounds = g_string_new(NULL);

	if (search_append_greek(letters, token, GREEK_TYPE_1)) {
		search_append_greek(sounds, token, GREEK_TYPE_2);
		g_string_append_printf(out, " %s", letters->str);
		if (strcmp(letters->str, sounds->str) != 0)
			g_string_append_printf(out, " %s", sounds->str);
	}
	g_string_free(letters, TRUE);
	g_string_free(sounds, TRUE);
}

static void
append_if_other(void *data, const char *token)
{
	GString *out = data, *plain = g_string_new(NULL);

	search_append_folded(plain, token);
	if (plain->len > 0 && strcmp(plain->str, token) != 0)
		g_string_append_printf(out, " %s", plain->str);
	search_append_latin(out, token);
	g_string_free(plain, TRUE);
}

void
search_append_plain(GString *out, const char *text)
{
	/* Plain ASCII has no other form, and is most of a corpus. */
	if (!g_str_is_ascii(text))
		search_tokens(text, append_if_other, out);
}

static void
join_token(void *data, const char *token)
{
	GString *joined = data;

	search_append_folded(joined, token);
	search_append_latin(joined, token);
	g_string_append_c(joined, ' ');
}

char *
search_joined(const char *text)
{
	GString *joined = g_string_new(" ");

	search_tokens(text, join_token, joined);
	return g_string_free(joined, FALSE);
}
