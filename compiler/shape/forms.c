/*
 * Numbers, quantities, yes and no, ids and barcodes as people and spreadsheets
 * write them.
 */
#include "shape/forms.h"

#include <glib.h>
#include <string.h>

#include "shape/shape.h"

const char *
forms_trimmed(struct arena *arena, const char *text)
{
	const char *from = text, *to = text + strlen(text);

	while (*from != '\0' && (g_unichar_isspace(g_utf8_get_char(from)) ||
		g_unichar_iszerowidth(g_utf8_get_char(from))))
		from = g_utf8_next_char(from);
	while (to > from) {
		const char *before = g_utf8_prev_char(to);
		gunichar c = g_utf8_get_char(before);

		if (!g_unichar_isspace(c) && !g_unichar_iszerowidth(c))
			break;
		to = before;
	}
	return arena_text(arena, from, (size_t)(to - from));
}

const char *
forms_yesno(struct arena *arena, const char *text, enum confidence *sure)
{
	static const struct { const char *form; const char *meant; } forms[] = {
		{"yes", "yes"}, {"true", "yes"}, {"y", "yes"}, {"on", "yes"},
		{"no", "no"}, {"false", "no"}, {"n", "no"}, {"off", "no"},
	};
	const char *trimmed = forms_trimmed(arena, text);
	size_t i;

	*sure = MEND_SAFE;
	for (i = 0; i < G_N_ELEMENTS(forms); i++)
		if (g_ascii_strcasecmp(trimmed, forms[i].form) == 0)
			return forms[i].meant;
	return NULL;
}

/* Digits parted by commas into threes: some countries' decimals look so. */
static const char *
without_commas(struct arena *arena, const char *text)
{
	GString *digits = g_string_new(NULL);
	size_t first = strspn(text, "0123456789");
	const char *at, *found = NULL;

	g_string_append_len(digits, text, (gssize)first);
	for (at = text + first; *at == ','; at += 4) {
		if (strspn(at + 1, "0123456789") != 3)
			break;
		g_string_append_len(digits, at + 1, 3);
	}
	if (first >= 1 && first <= 3 && text[0] != '0' && *at == '\0' &&
		at > text + first)
		found = arena_text(arena, digits->str, digits->len);
	g_string_free(digits, TRUE);
	return found;
}

const char *
forms_whole(struct arena *arena, const char *text, enum confidence *sure)
{
	const char *at = forms_trimmed(arena, text), *from = at;
	size_t size, zeros;

	*sure = MEND_SAFE;
	at += *at == '+';
	zeros = strspn(at, "0");
	size = strspn(at, "0123456789");
	if (size == 0 || size > 15)
		return NULL;
	if (zeros == size)
		zeros--;
	if (at[size] == ',') {
		*sure = MEND_PROBABLE;
		return without_commas(arena, from);
	}
	if (at[size] == '.' && at[size + 1] != '\0' &&
		at[size + 1 + strspn(at + size + 1, "0")] == '\0')
		return arena_text(arena, at + zeros, size - zeros);
	return at[size] == '\0' ? arena_text(arena, at + zeros, size - zeros) :
		NULL;
}

/*
 * Where only one of point and comma stands, and once, it may part thousands as
 * well as decimals if three digits follow: then nothing is offered.
 */
static const char *
amount_of(struct arena *arena, const char *digits)
{
	const char *last = strrchr(digits, '.'), *comma = strrchr(digits, ',');
	GString *plain = g_string_new(NULL);
	const char *at, *found = NULL;

	if (last == NULL || (comma != NULL && comma > last))
		last = comma;
	for (at = digits; *at != '\0'; at++)
		if (g_ascii_isdigit(*at))
			g_string_append_c(plain, *at);
		else if (at == last)
			g_string_append_c(plain, '.');
	if (last == NULL || strlen(last + 1) == 1 || strlen(last + 1) == 2)
		if (shape_amount(plain->str) >= 0)
			found = arena_text(arena, plain->str, plain->len);
	g_string_free(plain, TRUE);
	return found;
}

const char *
forms_amount(struct arena *arena, const char *text, enum confidence *sure)
{
	const char *from = strpbrk(text, "0123456789"), *at;
	size_t size = 0;

	*sure = MEND_PROBABLE;
	for (at = text; from != NULL && at < from; at++)
		if (*at == '-')
			return NULL;
	if (from == NULL)
		return NULL;
	size = strspn(from, "0123456789.,");
	if (strpbrk(from + size, "0123456789") != NULL)
		return NULL;
	while (size > 0 && !g_ascii_isdigit(from[size - 1]))
		size--;
	return amount_of(arena, arena_text(arena, from, size));
}

/* The unit of the field that the letters mean, or NULL. */
static const char *
unit_meant(const struct field *field, const char *letters)
{
	static const struct { const char *form; const char *unit; } forms[] = {
		{"millimetre", "mm"}, {"millimeter", "mm"},
		{"centimetre", "cm"}, {"centimeter", "cm"},
		{"metre", "m"}, {"meter", "m"}, {"inch", "in"}, {"\"", "in"},
		{"inche", "in"}, {"gram", "g"}, {"gramme", "g"},
		{"gr", "g"}, {"kilo", "kg"}, {"kilogram", "kg"},
		{"ounce", "oz"},
	};
	size_t size = strlen(letters), i;
	unsigned j;

	while (size > 1 && letters[size - 1] == '.')
		size--;
	for (j = 0; j < field->unit_count; j++)
		if (strlen(field->units[j]) == size && g_ascii_strncasecmp(
			field->units[j], letters, size) == 0)
			return field->units[j];
	if (size > 3 && g_ascii_tolower(letters[size - 1]) == 's')
		size--;
	for (i = 0; i < G_N_ELEMENTS(forms); i++)
		for (j = 0; j < field->unit_count; j++)
			if (strlen(forms[i].form) == size &&
				g_ascii_strncasecmp(forms[i].form, letters,
					size) == 0 &&
				strcmp(forms[i].unit, field->units[j]) == 0)
				return field->units[j];
	return NULL;
}

const char *
forms_quantity(struct arena *arena, const struct field *field,
	const char *text, enum confidence *sure)
{
	char *number = arena_text(arena, forms_trimmed(arena, text),
		strlen(forms_trimmed(arena, text)));
	size_t size = strspn(number, "0123456789.,");
	const char *letters = forms_trimmed(arena, number + size), *unit;
	char *comma = memchr(number, ',', size);

	*sure = comma == NULL ? MEND_SAFE : MEND_PROBABLE;
	unit = unit_meant(field, letters);
	number[size] = '\0';
	if (comma != NULL)
		*comma = '.';
	if (size == 0 || unit == NULL || !g_ascii_isdigit(number[0]) ||
		!g_ascii_isdigit(number[size - 1]) ||
		strchr(number, ',') != NULL ||
		(strchr(number, '.') != strrchr(number, '.')))
		return NULL;
	return arena_print(arena, "%s %s", number, unit);
}

const char *
forms_id(struct arena *arena, const char *text, enum confidence *sure)
{
	char *plain = g_str_to_ascii(forms_trimmed(arena, text), "C");
	GString *id = g_string_new(NULL);
	const char *at, *found = NULL;

	/* What refers to it is not seen from here. */
	*sure = MEND_PROBABLE;
	for (at = plain; *at != '\0'; at++) {
		if (g_ascii_isalnum(*at))
			g_string_append_c(id, g_ascii_tolower(*at));
		else if (*at == '\'' || id->len == 0)
			continue;
		else if (id->str[id->len - 1] != '-')
			g_string_append_c(id, '-');
	}
	if (id->len > 0 && id->str[id->len - 1] == '-')
		g_string_truncate(id, id->len - 1);
	if (shape_is_id(id->str, id->len) && strchr(plain, '?') == NULL)
		found = arena_text(arena, id->str, id->len);
	g_string_free(id, TRUE);
	g_free(plain);
	return found;
}

/* The check digit of GS1: weights of 3 and 1 from the right. */
static bool
check_digit_fits(const char *digits, size_t size)
{
	int sum = 0;
	size_t i;

	for (i = 0; i < size; i++)
		sum += g_ascii_digit_value(digits[size - 1 - i]) *
			(i % 2 == 0 ? 1 : 3);
	return sum % 10 == 0;
}

const char *
forms_barcode(struct arena *arena, const char *text, enum confidence *sure)
{
	const char *trimmed = forms_trimmed(arena, text);
	const char *whole = arena_print(arena, "0%s", trimmed);

	*sure = MEND_PROBABLE;
	if (strlen(trimmed) != 11 || strspn(trimmed, "0123456789") != 11 ||
		!check_digit_fits(whole, 12))
		return NULL;
	return whole;
}
