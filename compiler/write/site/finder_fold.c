/*
 * What each character outside ASCII is read as, in runs: how many characters
 * are skipped, which stay as they are; how many the run has, and of which
 * sort. Most of Unicode lies in a few hundred runs.
 */
#include <string.h>

#include "search/tokens.h"
#include "write/site/finder.h"

enum sort {
	SORT_SAME,		/* stays */
	SORT_END,		/* ends a word */
	SORT_PASSED,		/* counts for nothing */
	SORT_AT,		/* all the run is read as one character */
	SORT_UP,		/* read as a later one, as far on for all */
	SORT_DOWN,		/* an earlier one */
	SORT_TEXT,		/* several characters */
};

struct reading {
	enum sort sort;
	unsigned value;		/* the character, or how far on it is */
	char text[16];
};

struct run {
	unsigned from;
	unsigned count;
	struct reading reading;
};

static struct reading
read_as(uint32_t character)
{
	struct reading reading = {0};
	uint32_t folded = search_fold(character), base;
	GString *token, *plain;

	if (folded == 0 || folded == SEARCH_PASSED)
		return (struct reading){.sort = folded == 0 ? SORT_END :
			SORT_PASSED};
	token = g_string_new(NULL);
	plain = g_string_new(NULL);
	g_string_append_unichar(token, folded);
	search_append_folded(plain, token->str);
	g_strlcpy(reading.text, plain->str, sizeof(reading.text));
	base = plain->len == 0 ? 0 : g_utf8_get_char(plain->str);
	if (plain->len == 0)
		reading.sort = SORT_PASSED;
	else if (g_utf8_strlen(plain->str, -1) > 1)
		reading.sort = SORT_TEXT;
	else if (base != character)
		reading.sort = base > character ? SORT_UP : SORT_DOWN;
	reading.value = base > character ? base - character :
		character - base;
	g_string_free(token, TRUE);
	g_string_free(plain, TRUE);
	return reading;
}

/* Whether the character after a run goes on with it; a run of one may turn. */
static bool
goes_on(struct run *run, const struct reading *next)
{
	const struct reading *here = &run->reading;
	bool shifted = next->sort == SORT_UP || next->sort == SORT_DOWN;

	if (next->sort == SORT_TEXT || here->sort == SORT_TEXT)
		return false;
	if (next->sort == here->sort && (!shifted ||
		next->value == here->value))
		return true;
	if (!shifted || strcmp(next->text, here->text) != 0 ||
		(run->count > 1 && here->sort != SORT_AT))
		return false;
	run->reading.sort = SORT_AT;
	run->reading.value = g_utf8_get_char(next->text);
	return true;
}

static void
append_run(GString *out, GString *texts, const struct run *run,
	unsigned *after)
{
	if (run->count == 0 || run->reading.sort == SORT_SAME)
		return;
	finder_number(out, run->from - *after);
	finder_number(out, run->count);
	finder_number(out, run->reading.sort);
	if (run->reading.sort == SORT_TEXT)
		g_string_append_printf(texts, "%s%s", texts->len == 0 ? "" :
			" ", run->reading.text);
	else if (run->reading.sort > SORT_PASSED)
		finder_number(out, run->reading.value);
	*after = run->from + run->count;
}

static bool
add_part(const struct site *site, const char *name, uint32_t from, uint32_t to,
	GError **error)
{
	GString *out = g_string_new(NULL), *texts = g_string_new(NULL);
	struct run run = {0};
	unsigned after = 0x80;
	uint32_t c;
	bool done;

	for (c = from; c < to; c++) {
		struct reading next = {0};

		if (c < 0xd800 || c > 0xdfff)
			next = read_as(c);
		if (run.count > 0 && goes_on(&run, &next)) {
			run.count++;
			continue;
		}
		append_run(out, texts, &run, &after);
		run = (struct run){c, 1, next};
	}
	append_run(out, texts, &run, &after);
	g_string_append_printf(out, "|%s", texts->str);
	done = finder_add(site, name, out, false, error);
	g_string_free(out, TRUE);
	g_string_free(texts, TRUE);
	return done;
}

bool
finder_folding(const struct site *site, GError **error)
{
	/* Greek and what is Latin in Europe are typed most. */
	return add_part(site, "fold0", 0x80, 0x400, error) &&
		add_part(site, "fold1", 0x400, 0x110000, error);
}
