/*
 * Names of codes. ICU leads a withdrawn country's code to a successor, which
 * would be wrong on a card of 1982: those have their own names here, after
 * ISO 3166-3. CS was given twice and is left as it is.
 */
#include "base/code_names.h"

#include <glib.h>
#include <string.h>
#include <unicode/uldnames.h>
#include <unicode/uloc.h>
#include <unicode/ustring.h>

struct code_names {
	ULocaleDisplayNames *icu;
};

enum { LONGEST = 160 };

static const struct {
	const char *code;
	const char *name;
} withdrawn[] = {
	{"AN", "Netherlands Antilles"},
	{"BU", "Burma"},
	{"CS", NULL},
	{"DD", "East Germany"},
	{"FX", "Metropolitan France"},
	{"NT", "Neutral Zone"},
	{"SU", "Soviet Union"},
	{"TP", "East Timor"},
	{"YD", "South Yemen"},
	{"YU", "Yugoslavia"},
	{"ZR", "Zaire"},
};

struct code_names *
code_names_new(void)
{
	UDisplayContext contexts[] = {
		UDISPCTX_LENGTH_SHORT, UDISPCTX_NO_SUBSTITUTE,
	};
	struct code_names *names = g_new0(struct code_names, 1);
	UErrorCode status = U_ZERO_ERROR;

	names->icu = uldn_openForContext("en", contexts,
		G_N_ELEMENTS(contexts), &status);
	g_assert(U_SUCCESS(status));
	return names;
}

void
code_names_free(struct code_names *names)
{
	if (names != NULL)
		uldn_close(names->icu);
	g_free(names);
}

static bool
narrow(const UChar *wide, int32_t length, UErrorCode status, char *name,
	size_t size)
{
	if (U_FAILURE(status) || length == 0)
		return false;
	u_strToUTF8(name, (int32_t)size, NULL, wide, length, &status);
	return U_SUCCESS(status) && status != U_STRING_NOT_TERMINATED_WARNING;
}

bool
code_names_country(const struct code_names *names, const char *code,
	char *name, size_t size)
{
	UChar wide[LONGEST];
	UErrorCode status = U_ZERO_ERROR;
	int32_t length;
	size_t i;

	for (i = 0; i < G_N_ELEMENTS(withdrawn); i++) {
		if (strcmp(withdrawn[i].code, code) != 0)
			continue;
		if (withdrawn[i].name != NULL)
			g_strlcpy(name, withdrawn[i].name, size);
		return withdrawn[i].name != NULL;
	}
	length = uldn_regionDisplayName(names->icu, code, wide, LONGEST,
		&status);
	return narrow(wide, length, status, name, size);
}

bool
code_names_language(const struct code_names *names, const char *tag,
	char *name, size_t size)
{
	char locale[ULOC_FULLNAME_CAPACITY];
	UChar wide[LONGEST];
	UErrorCode status = U_ZERO_ERROR;
	int32_t length;

	uloc_forLanguageTag(tag, locale, sizeof(locale), NULL, &status);
	if (U_FAILURE(status))
		return false;
	length = uldn_localeDisplayName(names->icu, locale, wide, LONGEST,
		&status);
	return narrow(wide, length, status, name, size);
}
