/*
 * Numbers and strings of a PDF. Written by hand because they are most of what
 * a page is made of: printf would cost more than all else.
 */
#include "write/pdf/write.h"

#include <math.h>
#include <stdbool.h>
#include <string.h>

static void
append_whole(GString *out, unsigned long number)
{
	char digits[24];
	size_t at = sizeof(digits);

	do {
		digits[--at] = (char)('0' + number % 10);
		number /= 10;
	} while (number > 0);
	g_string_append_len(out, digits + at, (gssize)(sizeof(digits) - at));
}

void
pdf_number(GString *out, double number)
{
	long hundredths = lround(number * 100);
	unsigned long rest = (unsigned long)labs(hundredths);

	g_string_append_c(out, ' ');
	if (hundredths < 0)
		g_string_append_c(out, '-');
	if (rest >= 100 || rest == 0)
		append_whole(out, rest / 100);
	rest %= 100;
	if (rest == 0)
		return;
	g_string_append_c(out, '.');
	g_string_append_c(out, (char)('0' + rest / 10));
	if (rest % 10 > 0)
		g_string_append_c(out, (char)('0' + rest % 10));
}

void
pdf_reference(GString *out, unsigned object)
{
	g_string_append_c(out, ' ');
	append_whole(out, object);
	g_string_append(out, " 0 R");
}

void
pdf_bytes(GString *out, const char *bytes, size_t size)
{
	size_t i;

	g_string_append_c(out, '(');
	for (i = 0; i < size; i++) {
		/* A bare carriage return would be read as a line feed. */
		if (bytes[i] == '\r') {
			g_string_append(out, "\\r");
			continue;
		}
		if (bytes[i] == '(' || bytes[i] == ')' || bytes[i] == '\\')
			g_string_append_c(out, '\\');
		g_string_append_c(out, bytes[i]);
	}
	g_string_append_c(out, ')');
}

static void
append_unit(GString *out, unsigned unit)
{
	static const char digits[] = "0123456789ABCDEF";
	int shift;

	for (shift = 12; shift >= 0; shift -= 4)
		g_string_append_c(out, digits[(unit >> shift) & 15]);
}

void
pdf_utf16(GString *out, const char *text, size_t size)
{
	const char *end = text + size;
	gunichar letter;

	for (; text < end; text = g_utf8_next_char(text)) {
		letter = g_utf8_get_char(text);
		if (letter < 0x10000) {
			append_unit(out, letter);
			continue;
		}
		letter -= 0x10000;
		append_unit(out, 0xD800 + (letter >> 10));
		append_unit(out, 0xDC00 + (letter & 0x3FF));
	}
}

static bool
is_plain(const char *text, size_t size)
{
	size_t i;

	for (i = 0; i < size; i++) {
		if (text[i] < ' ' || text[i] > '~')
			return false;
	}
	return true;
}

void
pdf_text(GString *out, const char *text, size_t size)
{
	if (is_plain(text, size)) {
		pdf_bytes(out, text, size);
		return;
	}
	g_string_append(out, "<FEFF");
	pdf_utf16(out, text, size);
	g_string_append_c(out, '>');
}
