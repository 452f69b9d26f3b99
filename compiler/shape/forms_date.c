/*
 * Dates as people write them. A date is cut into numbers, month names and what
 * stands between; what the parts are follows from their order and size, and
 * where two orders are possible nothing is offered.
 */
#include "shape/forms.h"

#include <glib.h>
#include <string.h>

#include "shape/shaping.h"

enum { MOST_PARTS = 3 };

struct parts {
	int numbers[MOST_PARTS];	/* in order; a month's name by number */
	int digits[MOST_PARTS];		/* how many; 0 for a name */
	int count;
	bool dotted;			/* the parts are parted by points */
	bool slashed;			/* or by "/" or "-" alone */
};

static const char *const months[] = {
	"january", "february", "march", "april", "may", "june", "july",
	"august", "september", "october", "november", "december",
};

/* The month that the letters begin, by number; 0 for none. */
static int
month_named(const char *letters, size_t size)
{
	int i, found = 0;

	for (i = 0; i < 12; i++)
		if (size >= 3 && size <= strlen(months[i]) &&
			g_ascii_strncasecmp(months[i], letters, size) == 0)
			found = i + 1;
	return found;
}

static const char *
cut_number(struct parts *parts, const char *at)
{
	static const char *const endings[] = {"st", "nd", "rd", "th"};
	size_t size = strspn(at, "0123456789"), i;
	int number = 0;

	if (size > 4)
		return NULL;
	for (i = 0; i < size; i++)
		number = number * 10 + g_ascii_digit_value(at[i]);
	parts->numbers[parts->count] = number;
	parts->digits[parts->count++] = (int)size;
	at += size;
	for (i = 0; size <= 2 && i < G_N_ELEMENTS(endings); i++)
		if (g_ascii_strncasecmp(at, endings[i], 2) == 0 &&
			!g_ascii_isalpha(at[2]))
			return at + 2;
	return g_ascii_isalpha(*at) ? NULL : at;
}

static const char *
cut_name(struct parts *parts, const char *at)
{
	size_t size = 0;

	while (g_ascii_isalpha(at[size]))
		size++;
	parts->numbers[parts->count] = month_named(at, size);
	if (parts->numbers[parts->count++] == 0)
		return NULL;
	return at + size;
}

/* Cuts the text into its parts; false where it has others. */
static bool
cut(struct parts *parts, const char *at)
{
	const char *from;

	parts->dotted = parts->slashed = true;
	while (*at != '\0') {
		if (parts->count == MOST_PARTS)
			return false;
		if (g_ascii_isdigit(*at))
			at = cut_number(parts, at);
		else
			at = cut_name(parts, at);
		if (at == NULL)
			return false;
		if (*at == '\0')
			break;
		from = at;
		at += strspn(at, " .,/-");
		if (at == from || *at == '\0')
			return false;
		if (strspn(from, ". ") < (size_t)(at - from) || *from != '.')
			parts->dotted = false;
		if (at != from + 1 || (*from != '/' && *from != '-'))
			parts->slashed = false;
	}
	return true;
}

static const char *
checked(struct arena *arena, int year, int month, int day)
{
	const char *text = day == 0 ?
		arena_print(arena, "%04d-%02d", year, month) :
		arena_print(arena, "%04d-%02d-%02d", year, month, day);
	struct date date;

	return shape_date(text, &date) ? text : NULL;
}

/* A year and a month, in either order. */
static const char *
two_parts(struct arena *arena, const struct parts *parts,
	enum confidence *sure)
{
	int year = parts->digits[0] == 4 ? 0 : 1, month = 1 - year;

	if (parts->digits[year] != 4 || parts->digits[month] > 2)
		return NULL;
	/* 1983/4 and 1909/10 may also be two years. */
	if (year == 0 && parts->slashed && (parts->digits[month] == 1 ||
		parts->numbers[month] == parts->numbers[year] % 100 + 1))
		*sure = MEND_PROBABLE;
	return checked(arena, parts->numbers[year], parts->numbers[month], 0);
}

/* A day, a month and a year, in any order that leaves one reading. */
static const char *
three_parts(struct arena *arena, const struct parts *parts)
{
	const int *numbers = parts->numbers, *digits = parts->digits;

	if (digits[0] == 4 && digits[1] > 0 && digits[1] <= 2 &&
		digits[2] > 0 && digits[2] <= 2)
		return checked(arena, numbers[0], numbers[1], numbers[2]);
	if (digits[2] != 4 || digits[0] > 2 || digits[1] > 2)
		return NULL;
	if (digits[0] == 0)
		return digits[1] == 0 ? NULL :
			checked(arena, numbers[2], numbers[0], numbers[1]);
	if (digits[1] == 0 || parts->dotted || numbers[0] > 12 ||
		numbers[0] == numbers[1])
		return checked(arena, numbers[2], numbers[1], numbers[0]);
	if (numbers[1] > 12)
		return checked(arena, numbers[2], numbers[0], numbers[1]);
	return NULL;
}

/* The date before a time of midnight, which spreadsheets add. */
static const char *
without_midnight(struct arena *arena, const char *text)
{
	struct date date;
	const char *day;

	if (strlen(text) < 11 || (text[10] != 'T' && text[10] != ' ') ||
		text[strspn(text + 11, "0:.Z") + 11] != '\0')
		return NULL;
	day = arena_text(arena, text, 10);
	return shape_date(day, &date) ? day : NULL;
}

const char *
forms_date(struct arena *arena, const char *text, enum confidence *sure)
{
	const char *trimmed = forms_trimmed(arena, text);
	struct parts parts = {.count = 0};
	struct date date;

	*sure = MEND_SAFE;
	if (shape_date(trimmed, &date))
		return trimmed;
	if (strlen(trimmed) == 8 && strspn(trimmed, "0123456789") == 8) {
		*sure = MEND_PROBABLE;
		trimmed = arena_print(arena, "%.4s-%.2s-%.2s", trimmed,
			trimmed + 4, trimmed + 6);
		return shape_date(trimmed, &date) ? trimmed : NULL;
	}
	if (without_midnight(arena, trimmed) != NULL)
		return without_midnight(arena, trimmed);
	if (!cut(&parts, trimmed))
		return NULL;
	if (parts.count == 2)
		return two_parts(arena, &parts, sure);
	return parts.count == 3 ? three_parts(arena, &parts) : NULL;
}
