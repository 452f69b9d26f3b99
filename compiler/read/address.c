/*
 * cmark gives the address of a link cleaned of escapes, and no reliable place
 * for it. So the text is scanned for what could be a link's address, in the
 * order in which cmark gives them.
 */
#include "read/address.h"

#include <glib.h>
#include <string.h>

/* Passes code between backticks, or else the backticks alone. */
static size_t
pass_code(const char *text, size_t at)
{
	size_t open = strspn(text + at, "`"), close, i;

	for (i = at + open; text[i] != '\0'; i += MAX(close, 1)) {
		close = strspn(text + i, "`");
		if (close == open)
			return i + close;
		if (text[i] == '\n' && text[i + 1] == '\n')
			break;
	}
	return at + open;
}

/* How many bytes at `text` are written for `address`; 0 if they are not. */
static size_t
match_address(const char *text, const char *address)
{
	size_t at = 0;

	for (; *address != '\0'; address++) {
		if (text[at] == '\\' && text[at + 1] == *address &&
			g_ascii_ispunct(*address))
			at += 2;
		else if (*address == '&' &&
			strncmp(text + at, "&amp;", 5) == 0)
			at += 5;
		else if (text[at] == *address)
			at++;
		else
			return 0;
	}
	return strchr(" \t\r\n)>", text[at]) != NULL ? at : 0;
}

/* An address behind "](" or "]:", where blanks and a "<" may come first. */
static bool
match_behind(const char *text, size_t at, const char *address, size_t *begin,
	size_t *end)
{
	size_t from = at + strspn(text + at, " \t\r\n>");

	if (text[from] == '<')
		from++;
	if (*address == '\0') {
		*begin = at - 1;
		*end = from + (text[from] == '>') + 1;
		return text[*end - 1] == ')';
	}
	*begin = from;
	*end = from + match_address(text + from, address);
	return *end > from;
}

/* An address between "<" and ">"; mail may lack its scheme there. */
static bool
match_between(const char *text, size_t at, const char *address,
	size_t *begin, size_t *end)
{
	*begin = at;
	*end = at + match_address(text + at, address);
	if (*end == at && g_str_has_prefix(address, "mailto:"))
		*end = at + match_address(text + at,
			address + strlen("mailto:"));
	return *end > at && text[*end] == '>';
}

bool
address_find(const char *text, size_t from, const char *address,
	size_t *begin, size_t *end)
{
	size_t at = from;

	while (text[at] != '\0') {
		if (text[at] == '\\' && g_ascii_ispunct(text[at + 1])) {
			at += 2;
			continue;
		}
		if (text[at] == '`') {
			at = pass_code(text, at);
			continue;
		}
		if (text[at] == ']' &&
			(text[at + 1] == '(' || text[at + 1] == ':') &&
			match_behind(text, at + 2, address, begin, end))
			return true;
		if (text[at] == '<' &&
			match_between(text, at + 1, address, begin, end))
			return true;
		at++;
	}
	return false;
}
