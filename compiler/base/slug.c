/*
 * Other scripts are put into Latin letters by ICU, whose rules are those of
 * the CLDR, the same whatever the locale.
 */
#include "base/slug.h"

#include <glib.h>
#include <string.h>
#include <unicode/ustring.h>
#include <unicode/utrans.h>

enum { LONGEST = 48 };

/* The name in ASCII as far as there is a rule for it; free with g_free. */
static char *
to_ascii(const char *name)
{
	static const UChar rules[] = u"Any-Latin; Latin-ASCII; Lower";
	UErrorCode error = U_ZERO_ERROR;
	UTransliterator *latin;
	glong size = 0;
	UChar *text, *wide;
	int32_t length, limit;
	char *ascii;

	latin = utrans_openU(rules, -1, UTRANS_FORWARD, NULL, 0, NULL, &error);
	text = g_utf8_to_utf16(name, -1, NULL, &size, NULL);
	if (U_FAILURE(error) || text == NULL) {
		g_free(text);
		return g_ascii_strdown(name, -1);
	}
	/* A character may become several: "щ" is "shch". */
	wide = g_new0(UChar, 8 * (gsize)size + 1);
	memcpy(wide, text, sizeof(*text) * (gsize)size);
	length = limit = (int32_t)size;
	utrans_transUChars(latin, wide, &length, 8 * (int32_t)size, 0, &limit,
		&error);
	ascii = g_utf16_to_utf8(wide, length, NULL, NULL, NULL);
	utrans_close(latin);
	g_free(wide);
	g_free(text);
	return ascii == NULL ? g_strdup("") : ascii;
}

static void
cut(GString *slug)
{
	char *hyphen;

	if (slug->len <= LONGEST)
		return;
	g_string_truncate(slug, LONGEST);
	hyphen = strrchr(slug->str, '-');
	if (hyphen != NULL)
		g_string_truncate(slug, (gsize)(hyphen - slug->str));
}

const char *
slug_of(const char *name, struct arena *arena)
{
	GString *slug = g_string_new(NULL);
	char *ascii = to_ascii(name);
	const char *at, *made = NULL;

	for (at = ascii; *at != '\0'; at++) {
		if (g_ascii_isalnum(*at))
			g_string_append_c(slug, g_ascii_tolower(*at));
		else if (*at != '\'' && slug->len > 0 &&
			slug->str[slug->len - 1] != '-')
			g_string_append_c(slug, '-');
	}
	cut(slug);
	while (slug->len > 0 && slug->str[slug->len - 1] == '-')
		g_string_truncate(slug, slug->len - 1);
	if (slug->len > 0)
		made = arena_text(arena, slug->str, slug->len);
	g_string_free(slug, TRUE);
	g_free(ascii);
	return made;
}
