/*
 * JSON strings. Beyond what RFC 8259 asks, `<`, U+2028 and U+2029 are escaped,
 * so that the same text may stand in a script element.
 */
#include "base/json.h"

#include <string.h>

void
json_append(GString *out, const char *text)
{
	char *valid = g_utf8_validate(text, -1, NULL) ? NULL :
		g_utf8_make_valid(text, -1);
	const unsigned char *at = (const unsigned char *)
		(valid == NULL ? text : valid);

	g_string_append_c(out, '"');
	for (; *at != '\0'; at++) {
		if (*at == '"' || *at == '\\')
			g_string_append_printf(out, "\\%c", *at);
		else if (*at == '\n')
			g_string_append(out, "\\n");
		else if (*at < 0x20 || *at == '<' || *at == 0x7F)
			g_string_append_printf(out, "\\u%04x", *at);
		else if (at[0] == 0xE2 && at[1] == 0x80 &&
			(at[2] == 0xA8 || at[2] == 0xA9)) {
			g_string_append_printf(out, "\\u20%02x",
				at[2] - 0x80);
			at += 2;
		} else
			g_string_append_c(out, (char)*at);
	}
	g_string_append_c(out, '"');
	g_free(valid);
}

void
json_print(const char *text, FILE *stream)
{
	GString *out = g_string_new(NULL);

	json_append(out, text);
	fwrite(out->str, 1, out->len, stream);
	g_string_free(out, TRUE);
}
