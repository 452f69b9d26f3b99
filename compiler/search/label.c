/*
 * Spellings of labels, from the number pictured and what a scheme adds to it.
 */
#include "search/label.h"

#include <inttypes.h>
#include <string.h>

/* What the scheme adds to the number: "B" of "18B"; all where it lacks it. */
static const char *
letters_of(const char *label, const char *number)
{
	size_t size = strlen(number);

	if (strncmp(label, number, size) != 0 || g_ascii_isdigit(label[size]))
		return label;
	return label + size + strspn(label + size, " -./");
}

/* The letters without what stands between them: "B1" of "B-1". */
static void
append_closed(GString *out, const char *letters)
{
	for (; *letters != '\0'; letters = g_utf8_next_char(letters)) {
		gunichar c = g_utf8_get_char(letters);

		if (g_unichar_isalnum(c))
			g_string_append_unichar(out, c);
	}
}

void
search_append_label(GString *out, int64_t number, const char *label)
{
	char *digits = g_strdup_printf("%" PRId64, number);
	const char *letters = letters_of(label, digits);
	GString *closed = g_string_new(letters == label ? NULL : digits);

	append_closed(closed, letters);
	g_string_append(out, label);
	if (strcmp(closed->str, label) != 0)
		g_string_append_printf(out, "; %s", closed->str);
	g_string_append_printf(out, "; %s-back", digits);
	if (*letters != '\0')
		g_string_append_printf(out, " %s", letters);
	g_string_append_printf(out, "; %sback", digits);
	if (*letters != '\0')
		g_string_append_printf(out, " %s", letters);
	g_string_free(closed, TRUE);
	g_free(digits);
}

char **
search_split_label(const char *token)
{
	size_t digits = strspn(token, "0123456789");
	const char *letters = token + digits;
	GPtrArray *parts;

	if (!g_str_has_prefix(letters, "back"))
		return NULL;
	letters += strlen("back");
	/* "backs" is a word, "background" another. */
	if (strcmp(letters, "s") == 0)
		letters++;
	if (strlen(letters) > 3 || (digits == 0 && *letters == '\0'))
		return NULL;
	parts = g_ptr_array_new();
	if (digits > 0)
		g_ptr_array_add(parts, g_strndup(token, digits));
	g_ptr_array_add(parts, g_strdup("back"));
	if (*letters != '\0')
		g_ptr_array_add(parts, g_strdup(letters));
	g_ptr_array_add(parts, NULL);
	return (char **)(void *)g_ptr_array_free(parts, FALSE);
}
