/*
 * Finding out encodings. Windows-1252 is that of the WHATWG Encoding Standard
 * (its table from memory): bytes that Microsoft left undefined are controls.
 */
#include "read/decode.h"

#include <stdbool.h>
#include <string.h>

static const gunichar instead = 0xfffd;

static const guint16 upper[32] = {
	0x20ac, 0x81, 0x201a, 0x192, 0x201e, 0x2026, 0x2020, 0x2021,
	0x2c6, 0x2030, 0x160, 0x2039, 0x152, 0x8d, 0x17d, 0x8f,
	0x90, 0x2018, 0x2019, 0x201c, 0x201d, 0x2022, 0x2013, 0x2014,
	0x2dc, 0x2122, 0x161, 0x203a, 0x153, 0x9d, 0x17e, 0x178,
};

const char *
encoding_name(enum encoding encoding)
{
	static const char *const names[] = {
		[ENCODING_UTF8] = "UTF-8",
		[ENCODING_UTF8_MARKED] = "UTF-8",
		[ENCODING_UTF16_LITTLE] = "UTF-16",
		[ENCODING_UTF16_BIG] = "UTF-16",
		[ENCODING_WINDOWS_1252] = "Windows-1252",
	};

	return names[encoding];
}

/* Of which bytes most are 0 in the beginning: the even ones, or the odd. */
static bool
mostly_zero(const char *bytes, size_t size, size_t from)
{
	size_t zeros = 0, all = 0, i;

	for (i = from; i < MIN(size, 4096); i += 2) {
		all++;
		zeros += bytes[i] == 0;
	}
	return all > 0 && zeros * 10 >= all * 7;
}

static enum encoding
find_encoding(const char *bytes, size_t size, size_t *mark)
{
	GString *text;
	bool good;

	*mark = 3;
	if (size >= 3 && memcmp(bytes, "\xEF\xBB\xBF", 3) == 0)
		return ENCODING_UTF8_MARKED;
	*mark = 2;
	if (size >= 2 && memcmp(bytes, "\xFF\xFE", 2) == 0)
		return ENCODING_UTF16_LITTLE;
	if (size >= 2 && memcmp(bytes, "\xFE\xFF", 2) == 0)
		return ENCODING_UTF16_BIG;
	*mark = 0;
	if (mostly_zero(bytes, size, 1) && !mostly_zero(bytes, size, 0))
		return ENCODING_UTF16_LITTLE;
	if (mostly_zero(bytes, size, 0) && !mostly_zero(bytes, size, 1))
		return ENCODING_UTF16_BIG;
	/* A NUL is a character to UTF-8, but no text to GLib. */
	text = g_string_new_len(bytes, (gssize)size);
	for (size_t i = 0; i < size; i++)
		if (text->str[i] == '\0')
			text->str[i] = ' ';
	good = g_utf8_validate(text->str, (gssize)size, NULL);
	g_string_free(text, TRUE);
	return good ? ENCODING_UTF8 : ENCODING_WINDOWS_1252;
}

static void
append(GString *out, gunichar character)
{
	if (character == 0)
		character = instead;
	g_string_append_unichar(out, character);
}

static gunichar
unit_at(const char *bytes, bool big)
{
	unsigned char one = (unsigned char)bytes[0];
	unsigned char two = (unsigned char)bytes[1];

	return big ? (gunichar)(one << 8 | two) : (gunichar)(two << 8 | one);
}

static void
decode_utf16(GString *out, const char *bytes, size_t size, bool big)
{
	size_t i;

	for (i = 0; i + 1 < size; i += 2) {
		gunichar high = unit_at(bytes + i, big), low;

		if (high < 0xd800 || high > 0xdfff) {
			append(out, high);
			continue;
		}
		low = i + 3 < size ? unit_at(bytes + i + 2, big) : 0;
		if (high > 0xdbff || low < 0xdc00 || low > 0xdfff) {
			append(out, instead);
			continue;
		}
		append(out, 0x10000 + ((high - 0xd800) << 10) + low - 0xdc00);
		i += 2;
	}
	if (i < size)
		append(out, instead);
}

/* Windows-1252; or UTF-8, whose bytes stay as they are where they are valid. */
static void
decode_bytes(GString *out, const char *bytes, size_t size, bool utf8)
{
	size_t i;

	for (i = 0; i < size; i++) {
		unsigned char byte = (unsigned char)bytes[i];

		if (byte == 0 || (!utf8 && byte >= 0xa0))
			append(out, byte);
		else if (!utf8 && byte >= 0x80)
			append(out, upper[byte - 0x80]);
		else
			g_string_append_c(out, bytes[i]);
	}
}

/* A text that says it is UTF-8 and is not all of it. */
static void
mend_utf8(GString *text)
{
	GString *good = g_string_sized_new(text->len);
	const char *at = text->str, *end = text->str + text->len, *bad;

	while (!g_utf8_validate(at, end - at, &bad)) {
		g_string_append_len(good, at, bad - at);
		append(good, instead);
		at = bad + 1;
	}
	g_string_append(good, at);
	g_string_assign(text, good->str);
	g_string_free(good, TRUE);
}

GString *
decode_text(const char *bytes, size_t size, enum encoding *encoding)
{
	GString *text = g_string_sized_new(size);
	size_t mark;

	*encoding = find_encoding(bytes, size, &mark);
	bytes += mark;
	size -= mark;
	switch (*encoding) {
	case ENCODING_UTF8:
	case ENCODING_UTF8_MARKED:
		decode_bytes(text, bytes, size, true);
		mend_utf8(text);
		break;
	case ENCODING_UTF16_LITTLE:
	case ENCODING_UTF16_BIG:
		decode_utf16(text, bytes, size,
			*encoding == ENCODING_UTF16_BIG);
		break;
	case ENCODING_WINDOWS_1252:
		decode_bytes(text, bytes, size, false);
		break;
	}
	return text;
}
