/*
 * Making text fit to be shown.
 */
#include "diag/shown.h"

#include <string.h>

char *
shown_text(const char *text, glong most)
{
	char *valid = g_utf8_make_valid(text, -1), *at;
	GString *out = g_string_sized_new(strlen(valid));
	glong count = 0;

	g_strchomp(valid);
	for (at = valid; *at != '\0'; at = g_utf8_next_char(at)) {
		gunichar c = g_utf8_get_char(at);

		if (most > 0 && count++ == most) {
			g_string_append(out, "…");
			break;
		}
		if (c == '\n' || c == '\t')
			g_string_append_c(out, ' ');
		else if (shown_as_mark(c))
			g_string_append_c(out, '?');
		else
			g_string_append_unichar(out, c);
	}
	g_free(valid);
	return g_string_free(out, FALSE);
}
