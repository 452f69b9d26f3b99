/*
 * Escaping. Bidi controls are kept, for a script may need them, but none can
 * reach beyond the text it stands in: what is open at the end is closed, and
 * a closing one without its opening one is left out.
 */
#include "write/site/html.h"

#include <stdarg.h>
#include <string.h>

enum { DEEPEST_BIDI = 16 };

/* Directional controls that are open, innermost last. */
struct bidi {
	gunichar open[DEEPEST_BIDI];
	unsigned depth;
};

static bool
is_isolate(gunichar c)
{
	return c >= 0x2066 && c <= 0x2068;
}

static bool
is_embedding(gunichar c)
{
	return c == 0x202A || c == 0x202B || c == 0x202D || c == 0x202E;
}

/* Whether the character may stand, after it is taken note of. */
static bool
note_bidi(struct bidi *bidi, gunichar c)
{
	bool closes;

	if (is_isolate(c) || is_embedding(c)) {
		if (bidi->depth == DEEPEST_BIDI)
			return false;
		bidi->open[bidi->depth++] = c;
		return true;
	}
	if (c != 0x202C && c != 0x2069)
		return true;
	if (bidi->depth == 0)
		return false;
	closes = is_isolate(bidi->open[bidi->depth - 1]) == (c == 0x2069);
	bidi->depth -= closes;
	return closes;
}

static void
close_bidi(GString *out, struct bidi *bidi)
{
	while (bidi->depth > 0)
		g_string_append_unichar(out,
			is_isolate(bidi->open[--bidi->depth]) ?
			0x2069 : 0x202C);
}

/* Characters that HTML does not allow, or that no reader should meet. */
static bool
is_refused(gunichar c)
{
	return (c < 0x20 && c != '\t' && c != '\n') ||
		(c >= 0x7F && c < 0xA0) || c == 0x2028 || c == 0x2029 ||
		(c >= 0xFDD0 && c <= 0xFDEF) || (c & 0xFFFE) == 0xFFFE;
}

static void
append_character(GString *out, gunichar c)
{
	switch (c) {
	case '&':
		g_string_append(out, "&amp;");
		return;
	case '<':
		g_string_append(out, "&lt;");
		return;
	case '>':
		g_string_append(out, "&gt;");
		return;
	case '"':
		g_string_append(out, "&quot;");
		return;
	case '\'':
		g_string_append(out, "&#39;");
		return;
	default:
		g_string_append_unichar(out, is_refused(c) ? 0xFFFD : c);
	}
}

void
html_text(GString *out, const char *text)
{
	struct bidi bidi = {.depth = 0};
	gunichar c;

	for (; *text != '\0'; text = g_utf8_next_char(text)) {
		if ((guchar)*text < 0x80) {
			append_character(out, (guchar)*text);
			continue;
		}
		c = g_utf8_get_char(text);
		if (note_bidi(&bidi, c))
			append_character(out, c);
	}
	close_bidi(out, &bidi);
}

void
html_put(GString *out, const char *format, ...)
{
	const char *percent;
	va_list values;

	va_start(values, format);
	for (percent = strchr(format, '%'); percent != NULL;
		percent = strchr(format, '%')) {
		g_string_append_len(out, format, percent - format);
		format = percent + 2;
		switch (percent[1]) {
		case 's':
			html_text(out, va_arg(values, const char *));
			break;
		case 'u':
			g_string_append_printf(out, "%u",
				va_arg(values, unsigned));
			break;
		case 'd':
			g_string_append_printf(out, "%d", va_arg(values, int));
			break;
		case '%':
			g_string_append_c(out, '%');
			break;
		default:
			g_error("html_put knows no %%%c", percent[1]);
		}
	}
	va_end(values);
	g_string_append(out, format);
}

void
html_language(GString *out, const char *tag)
{
	const char *at;

	for (at = tag; *at != '\0'; at++)
		if (!g_ascii_isalnum(*at) && *at != '-')
			return;
	if (at != tag)
		g_string_append_printf(out, " lang=\"%s\"", tag);
}

/* The length of a host name with an optional port at `text`, or 0. */
static size_t
host_length(const char *text)
{
	size_t name = strspn(text, "abcdefghijklmnopqrstuvwxyz"
		"ABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789-.");
	size_t port;

	if (name == 0 || text[0] == '.' || text[0] == '-')
		return 0;
	if (text[name] != ':')
		return name;
	port = strspn(text + name + 1, "0123456789");
	if (port == 0 || port > 5 || g_ascii_strtoull(text + name + 1, NULL,
		10) > 65535)
		return 0;
	return name + 1 + port;
}

bool
html_is_address(const char *address)
{
	size_t host;

	if (g_ascii_strncasecmp(address, "mailto:", 7) == 0)
		return strspn(address + 7, "abcdefghijklmnopqrstuvwxyz"
			"ABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789-._+@") ==
			strlen(address + 7) && strchr(address, '@') != NULL;
	if (g_ascii_strncasecmp(address, "https://", 8) == 0)
		address += 8;
	else if (g_ascii_strncasecmp(address, "http://", 7) == 0)
		address += 7;
	else
		return false;
	host = host_length(address);
	return host > 0 && (address[host] == '\0' ||
		strchr("/?#", address[host]) != NULL);
}

void
html_address(GString *out, const char *address)
{
	for (; *address != '\0'; address++) {
		if (*address == '&')
			g_string_append(out, "&amp;");
		else if (g_ascii_isalnum(*address) ||
			strchr("-._~:/?#@!$()*+,;=", *address) != NULL)
			g_string_append_c(out, *address);
		else if (*address == '%' && g_ascii_isxdigit(address[1]) &&
			g_ascii_isxdigit(address[2]))
			g_string_append_c(out, '%');
		else
			g_string_append_printf(out, "%%%02X",
				(guchar)*address);
	}
}

void
html_place(GString *out, const char *key)
{
	for (; *key != '\0'; key++) {
		if (g_ascii_isalnum(*key) || *key == '-')
			g_string_append_c(out, *key);
		else
			g_string_append_printf(out, "_%02x", (guchar)*key);
	}
}
